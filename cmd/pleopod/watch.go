package main

import (
	"context"
	"fmt"
	"net"
	"strings"
	"time"

	"pleopod/journal"
	"pleopod/journal/saves"
	"pleopod/theme/folder"
	"pleopod/theme/preview"
)

type watchCommand struct {
	journalFlags
	Port    int    `default:"7420" help:"Port on this machine."`
	Poll    bool   `help:"Look for changes again and again; for network folders."`
	Look    string `placeholder:"DIR" help:"Folder whose templates and styles replace single ones."`
	Timings bool   `help:"Print where the time went at every save."`
}

// Run publishes, serves and publishes again at every save and at midnight, until it is interrupted.
func (c *watchCommand) Run(ctx context.Context, env *environment) error {
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
	fmt.Fprintf(env.stdout, "Watching %s. Open http://localhost:%d/ and stop with Ctrl-C.\n", c.Journal, listener.Addr().(*net.TCPAddr).Port)
	worked := make(chan struct{})
	go func() {
		defer close(worked)
		newWatcher(c, env, out, server).loop(ctx)
	}()
	err = <-served
	select {
	case <-worked:
	case <-time.After(shutdownTime): // a site that is just being written stays whole wherever it is cut off
	}
	return err
}

// shutdownTime is how long an interrupted watch waits for what it was doing.
const shutdownTime = 500 * time.Millisecond

// loop publishes again and again.
func (w *watcher) loop(ctx context.Context) {
	changes := saves.Watch(ctx, w.Journal, saves.Options{Poll: w.Poll, Skip: func(name string) bool { return name == journal.PublishedFolder }})
	var looked <-chan []string
	if w.Look != "" {
		looked = saves.Watch(ctx, w.Look, saves.Options{Poll: w.Poll})
	}
	w.publish(ctx, nil)
	for {
		select {
		case changed, open := <-changes:
			if !open {
				return
			}
			fmt.Fprintf(w.env.stderr, "%s: %s\n", w.env.now().Format(time.TimeOnly), printable(shortList(changed)))
			w.publish(ctx, changed)
		case <-looked:
			w.publish(ctx, nil)
		case <-w.simulated:
			w.simulated = nil
			w.publish(ctx, nil)
		case <-w.retry:
			w.tryAgain(ctx)
		case <-time.After(untilTomorrow(w.today, w.env.now())):
			w.publish(ctx, nil)
		}
	}
}

// shortList names what changed in one short line.
func shortList(changed []string) string {
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
