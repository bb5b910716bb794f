package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"pleopod/theme"
	"pleopod/theme/folder"
)

type publishCommand struct {
	journalFlags
	Out     string `placeholder:"DIR" help:"Folder of the site; published/ in the journal when left out."`
	Look    string `placeholder:"DIR" help:"Folder whose templates and styles replace single ones."`
	Timings bool   `help:"Print where the time went."`
}

// Run writes the site. On an error in the journal or in a look nothing is written.
func (c *publishCommand) Run(env *environment) error {
	out := c.published(c.Out)
	clock := newStopwatch(env)
	root, err := c.open()
	if err != nil {
		return err
	}
	defer root.Close()
	if err := folder.Check(out, c.Journal); err != nil {
		return misuse{err}
	}
	runs, err := c.runCache(env, out)
	if err != nil {
		return err
	}
	progress := env.showProgress("Looking for changes")
	run, report := runs.unchanged(root.FS(), out)
	progress.end()
	clock.lap("look for changes")
	if run != nil {
		_ = env.printProblems(run.Problems, root.FS())
	} else if run, report, err = c.write(env, root.FS(), out, clock); err != nil {
		return err
	} else {
		runs.save(run, out)
	}
	fmt.Fprintf(env.stdout, "The site is in %s: open %s\n", out, filepath.Join(out, "index.html"))
	fmt.Fprintf(env.stdout, "%d pages of %s, as of %s, in %.1f s; %d files written, %d unchanged, %d removed.\n",
		run.Pages, printable(run.Title), run.AsOf, clock.total().Seconds(), report.Written, report.Unchanged, report.Removed)
	for _, kept := range report.Kept {
		fmt.Fprintf(env.stderr, "%s was changed by somebody else and stays\n", printable(kept))
	}
	if c.Timings {
		clock.print()
	}
	return nil
}

// write reads, predicts, draws and writes.
func (c *publishCommand) write(env *environment, journalFiles fs.FS, out string, clock *stopwatch) (*savedRun, folder.Report, error) {
	files := newRecordingFS(journalFiles)
	progress := env.showProgress("Reading and predicting")
	loaded, err := c.load(files, env)
	progress.end()
	if err != nil {
		return nil, folder.Report{}, err
	}
	clock.lap("read and predict")
	if err := env.printProblems(loaded.problems, journalFiles); err != nil {
		fmt.Fprintln(env.stderr, nothingWritten(out))
		return nil, folder.Report{}, err
	}
	look, err := new(lookCache).get(c.Look, loaded, files)
	if err != nil {
		return nil, folder.Report{}, unwritten(err, out)
	}
	progress = env.showProgress("Drawing the pages")
	options := env.drawOptions(look)
	options.Pictured = progress.photos
	var pages []string
	report, err := folder.Write(out, func(put func(string, []byte) error) (err error) {
		if pages, err = theme.Pour(loaded.forecast, files, options, put); err != nil {
			return unwritten(err, out)
		}
		return nil
	})
	progress.end()
	clock.lap("draw and write")
	return &savedRun{Answers: files.answers, Files: report.Written + report.Unchanged, Pages: len(pages),
		Title: loaded.journal.Settings.Title, AsOf: loaded.colony.AsOf, Problems: loaded.problems}, report, err
}

// unwritten adds to an error what became of the site.
func unwritten(err error, out string) error { return fmt.Errorf("%w\n%s", err, nothingWritten(out)) }

// nothingWritten says what became of the site after a mistake in the journal or in a look.
func nothingWritten(out string) string {
	if _, err := os.Stat(filepath.Join(out, "index.html")); err != nil {
		return "Nothing was written."
	}
	return "Nothing was written; the site of before is still there."
}
