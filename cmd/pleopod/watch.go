package main

import (
	"context"
	"fmt"
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
	server := preview.New()
	served := make(chan error, 1)
	go func() { served <- server.Serve(ctx, listener) }()
	fmt.Fprintf(w.stdout, "Watching %s. Open http://localhost:%d/ and stop with Ctrl-C.\n", c.Journal, listener.Addr().(*net.TCPAddr).Port)
	worked := make(chan struct{})
	go func() {
		defer close(worked)
		newDesk(c, w, out, server).work(ctx)
	}()
	err = <-served
	select {
	case <-worked:
	case <-time.After(farewell): // a site that is just being written stays whole wherever it is cut off
	}
	return err
}

// farewell is how long an interrupted watch waits for what it was doing.
const farewell = 500 * time.Millisecond

// work publishes again and again.
func (d *desk) work(ctx context.Context) {
	changes := saves.Watch(ctx, d.Journal, saves.Options{Poll: d.Poll, Skip: func(name string) bool { return name == journal.PublishedFolder }})
	var looked <-chan []string
	if d.Look != "" {
		looked = saves.Watch(ctx, d.Look, saves.Options{Poll: d.Poll})
	}
	d.publish(ctx, nil)
	for {
		select {
		case changed, open := <-changes:
			if !open {
				return
			}
			fmt.Fprintf(d.w.stderr, "%s: %s\n", d.w.now().Format(time.TimeOnly), printable(few(changed)))
			d.publish(ctx, changed)
		case <-looked:
			d.publish(ctx, nil)
		case <-d.numbers:
			d.numbers = nil
			d.publish(ctx, nil)
		case <-d.again:
			d.tryAgain(ctx)
		case <-time.After(untilTomorrow(d.today, d.w.now())):
			d.publish(ctx, nil)
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

// untilTomorrow is how long the day lasts, and a little more: nothing where it is over already, and at most an hour, since
// a clock may be set and a machine may sleep.
func untilTomorrow(today journal.Day, now time.Time) time.Duration {
	if journal.DayAt(now) != today {
		return 0
	}
	year, month, day := now.Date()
	return min(time.Hour, time.Date(year, month, day+1, 0, 0, 1, 0, now.Location()).Sub(now))
}

// mistakes turns errors into what an open page shows.
func mistakes(problems []journal.Problem, line func(journal.Position) string) []preview.Mistake {
	var all []preview.Mistake
	for _, problem := range problems {
		if problem.Severity == journal.Error {
			all = append(all, preview.Mistake{Where: filepath.ToSlash(problem.Position.String()), Message: problem.Message, Line: line(problem.Position), Hint: problem.Hint})
		}
	}
	return all
}
