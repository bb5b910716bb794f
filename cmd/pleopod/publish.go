package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"pleopod/theme"
	"pleopod/theme/folder"
)

type publishCommand struct {
	place
	Out     string `placeholder:"DIR" help:"Folder of the site; published/ in the journal when left out."`
	Look    string `placeholder:"DIR" help:"Folder whose templates and styles replace single ones."`
	Timings bool   `help:"Print where the time went."`
}

// Run writes the site. On an error in the journal nothing is written.
func (c *publishCommand) Run(w *world) error {
	out := c.published(c.Out)
	clock := newStopwatch(w)
	root, err := c.open()
	if err != nil {
		return err
	}
	defer root.Close()
	if err := folder.Check(out, c.Journal); err != nil {
		return misuse{err}
	}
	memory, err := c.memory(w, out)
	if err != nil {
		return err
	}
	under := w.during("Looking for changes")
	site, report := memory.standing(root.FS(), out)
	under.end()
	clock.lap("look for changes")
	if site != nil {
		_ = w.show(site.Problems, root.FS())
	} else if site, report, err = c.write(w, root.FS(), out, clock); err != nil {
		return err
	} else {
		memory.keep(site, out)
	}
	fmt.Fprintf(w.stdout, "The site is in %s: open %s\n", out, filepath.Join(out, "index.html"))
	fmt.Fprintf(w.stdout, "%d pages of %s, as of %s, in %.1f s; %d files written, %d unchanged, %d removed.\n",
		site.Pages, printable(site.Title), site.AsOf, clock.total().Seconds(), report.Written, report.Unchanged, report.Removed)
	for _, kept := range report.Kept {
		fmt.Fprintf(w.stderr, "%s was changed by somebody else and stays\n", printable(kept))
	}
	if c.Timings {
		clock.print()
	}
	return nil
}

// write reads, predicts, draws and writes.
func (c *publishCommand) write(w *world, journals fs.FS, out string, clock *stopwatch) (*edition, folder.Report, error) {
	files := newWitness(journals)
	under := w.during("Reading and predicting")
	told, err := c.tell(files, w)
	under.end()
	if err != nil {
		return nil, folder.Report{}, err
	}
	clock.lap("read and predict")
	if err := w.show(told.problems, journals); err != nil {
		fmt.Fprintln(w.stderr, nothingWritten(out))
		return nil, folder.Report{}, err
	}
	look, err := new(looks).of(c.Look, told, files)
	if err != nil {
		return nil, folder.Report{}, err
	}
	under = w.during("Drawing the pages")
	options := w.drawing(look)
	options.Pictured = under.photos
	var pages []string
	report, err := folder.Write(out, func(put func(string, []byte) error) (err error) {
		pages, err = theme.Pour(told.forecast, files, options, put)
		return err
	})
	under.end()
	clock.lap("draw and write")
	return &edition{Heard: files.heard, Files: report.Written + report.Unchanged, Pages: len(pages),
		Title: told.journal.Settings.Title, AsOf: told.colony.AsOf, Problems: told.problems}, report, err
}

// nothingWritten says what became of the site after a mistake in the journal.
func nothingWritten(out string) string {
	if _, err := os.Stat(filepath.Join(out, "index.html")); err != nil {
		return "Nothing was written."
	}
	return "Nothing was written; the site of before is still there."
}

// stopwatch measures the parts of a run.
type stopwatch struct {
	w    *world
	last time.Time
	laps []lap
}

type lap struct {
	name string
	took time.Duration
}

func newStopwatch(w *world) *stopwatch { return &stopwatch{w: w, last: w.now()} }

func (s *stopwatch) lap(name string) {
	now := s.w.now()
	s.laps = append(s.laps, lap{name, now.Sub(s.last)})
	s.last = now
}

// total is the time of all laps.
func (s *stopwatch) total() (sum time.Duration) {
	for _, l := range s.laps {
		sum += l.took
	}
	return sum
}

func (s *stopwatch) print() {
	for _, l := range s.laps {
		fmt.Fprintf(s.w.stderr, "%8d ms  %s\n", l.took.Milliseconds(), l.name)
	}
}
