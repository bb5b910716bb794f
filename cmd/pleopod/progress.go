package main

import (
	"fmt"
	"strings"
	"sync/atomic"
	"time"
)

const (
	// patience is how long a piece of work may take before a person wants to know that it is under way.
	patience = 300 * time.Millisecond
	// wipe goes back to the beginning of the line and clears it.
	wipe = "\r\x1b[K"
)

// work is a piece of work that a person may be waiting for.
type work struct {
	bar           atomic.Pointer[string] // how far it has come, where it was told
	stop, stopped chan struct{}
}

// during shows on a terminal what is being done, how far it has come, and for how long, if it takes a while.
func (w *world) during(what string) *work {
	if !w.terminal {
		return &work{}
	}
	under := &work{stop: make(chan struct{}), stopped: make(chan struct{})}
	go func() {
		defer close(under.stopped)
		began := time.Now()
		for {
			select {
			case <-under.stop:
				if time.Since(began) > patience {
					fmt.Fprint(w.stderr, wipe)
				}
				return
			case <-time.After(patience):
				line := what
				if bar := under.bar.Load(); bar != nil {
					line += *bar
				}
				fmt.Fprintf(w.stderr, "%s%s … %.0f s", wipe, line, time.Since(began).Seconds())
			}
		}
	}()
	return under
}

// photos tells how many of the photos are done. Several goroutines may.
func (u *work) photos(done, all int) {
	const width = 20
	full := width * done / max(all, 1)
	bar := fmt.Sprintf(" [%s%s] %d of %d photos", strings.Repeat("=", full), strings.Repeat(" ", width-full), done, all)
	u.bar.Store(&bar)
}

// end clears the line.
func (u *work) end() {
	if u.stop != nil {
		close(u.stop)
		<-u.stopped
	}
}
