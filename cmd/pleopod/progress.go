package main

import (
	"fmt"
	"time"
)

const (
	// patience is how long a piece of work may take before a person wants to know that it is under way.
	patience = 300 * time.Millisecond
	// wipe goes back to the beginning of the line and clears it.
	wipe = "\r\x1b[K"
)

// during shows on a terminal what is being done and for how long, if it takes a while. The function it returns
// ends that and clears the line.
func (w *world) during(what string) (done func()) {
	if !w.terminal {
		return func() {}
	}
	stop, stopped := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(stopped)
		w.count(what, stop)
	}()
	return func() {
		close(stop)
		<-stopped
	}
}

// count writes the seconds of a piece of work until it stops.
func (w *world) count(what string, stop <-chan struct{}) {
	began, wait := time.Now(), patience
	for {
		select {
		case <-stop:
			if wait != patience {
				fmt.Fprint(w.stderr, wipe)
			}
			return
		case <-time.After(wait):
			wait = time.Second
			fmt.Fprintf(w.stderr, "%s%s … %.0f s", wipe, what, time.Since(began).Seconds())
		}
	}
}
