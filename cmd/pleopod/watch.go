package main

import (
	"context"
	"fmt"
	"io/fs"
	"net"
	"path/filepath"
	"strings"
	"time"

	"pleopod/journal"
	"pleopod/journal/saves"
	"pleopod/theme/folder"
	"pleopod/theme/preview"
)

type watchCommand struct {
	place
	Port    int    `default:"7420" help:"Port on this machine."`
	Poll    bool   `help:"Look for changes again and again; for network folders."`
	Look    string `placeholder:"DIR" help:"Folder whose templates and styles replace single ones."`
	Timings bool   `help:"Print where the time went at every save."`
}

// watcher is one run of watch.
type watcher struct {
	*watchCommand
	w      *world
	reader journal.Reader
	server *preview.Server
}

// Run publishes, serves and publishes again at every save and at midnight, until it is interrupted.
func (c *watchCommand) Run(ctx context.Context, w *world) error {
	out := c.published("")
	if err := folder.Check(out, c.Journal); err != nil {
		return misuse{err}
	}
	listener, err := preview.Listen(c.Port)
	if err != nil {
		return err
	}
	r := &watcher{watchCommand: c, w: w, server: preview.New()}
	changes := saves.Watch(ctx, c.Journal, saves.Options{Poll: c.Poll, Skip: func(name string) bool { return name == journal.PublishedFolder }})
	r.publish(out)
	fmt.Fprintf(w.stdout, "Watching %s. Open http://localhost:%d/ and stop with Ctrl-C.\n", c.Journal, listener.Addr().(*net.TCPAddr).Port)
	served := make(chan error, 1)
	go func() { served <- r.server.Serve(ctx, listener) }()
	for {
		select {
		case err := <-served:
			return err
		case changed, open := <-changes:
			if !open {
				return <-served
			}
			fmt.Fprintf(w.stderr, "%s: %s\n", w.now().Format(time.TimeOnly), few(changed))
			r.publish(out)
		case <-time.After(untilMidnight(w.now())):
			r.publish(out)
		}
	}
}

// few names what changed in one short line.
func few(changed []string) string {
	const most = 3
	if len(changed) <= most {
		return strings.Join(changed, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(changed[:most], ", "), len(changed)-most)
}

// untilMidnight is how long today still lasts, and a little more.
func untilMidnight(now time.Time) time.Duration {
	year, month, day := now.Date()
	return time.Date(year, month, day+1, 0, 0, 1, 0, now.Location()).Sub(now)
}

// publish makes the site again and shows it, or shows what is wrong and keeps the last good one.
func (r *watcher) publish(out string) {
	clock := newStopwatch(r.w)
	mistakes, err := r.tryPublish(out, clock)
	if err != nil {
		fmt.Fprintf(r.w.stderr, "pleopod: %v\n", err)
		mistakes = append(mistakes, preview.Mistake{Where: "the site", Message: err.Error()})
	}
	if len(mistakes) > 0 {
		r.server.Fault(mistakes)
	}
	if r.Timings {
		clock.print()
	}
}

func (r *watcher) tryPublish(out string, clock *stopwatch) ([]preview.Mistake, error) {
	root, err := r.open()
	if err != nil {
		return nil, err
	}
	defer root.Close()
	told, err := r.tell(root.FS(), &r.reader, r.w)
	if err != nil {
		return nil, err
	}
	clock.lap("read and predict")
	if r.w.show(told.problems, root.FS()) != nil {
		return mistakes(told.problems, root.FS()), nil
	}
	return nil, r.drawAndWrite(told, root.FS(), out, clock)
}

func (r *watcher) drawAndWrite(told story, files fs.FS, out string, clock *stopwatch) error {
	site, err := drawSite(told, files, r.Look, r.w.cache.photos())
	if err != nil {
		return err
	}
	clock.lap("draw")
	r.server.Show(site.Files)
	_, err = folder.Write(out, site.Files)
	clock.lap("write")
	return err
}

// mistakes turns errors into what an open page shows.
func mistakes(problems []journal.Problem, files fs.FS) []preview.Mistake {
	var all []preview.Mistake
	for _, problem := range problems {
		if problem.Severity == journal.Error {
			all = append(all, preview.Mistake{Where: filepath.ToSlash(problem.Position.String()), Message: problem.Message, Line: sourceLine(files, problem.Position), Hint: problem.Hint})
		}
	}
	return all
}
