package main

import (
	"fmt"
	"strings"
	"sync/atomic"
	"time"
)

const (
	// progressDelay is how long a piece of work may take before a person wants to know that it is under way.
	progressDelay = 300 * time.Millisecond
	// clearLine goes back to the beginning of the line and clears it.
	clearLine = "\r\x1b[K"
)

// progressLine is a line about a piece of work that a person may be waiting for.
type progressLine struct {
	done          atomic.Pointer[string] // how far it has come, where it was told
	stop, stopped chan struct{}
}

// showProgress shows on a terminal what is being done, how far it has come, and for how long, if it takes a while.
func (env *environment) showProgress(what string) *progressLine {
	if !env.terminal {
		return &progressLine{}
	}
	progress := &progressLine{stop: make(chan struct{}), stopped: make(chan struct{})}
	go func() {
		defer close(progress.stopped)
		began := time.Now()
		for {
			select {
			case <-progress.stop:
				if time.Since(began) > progressDelay {
					fmt.Fprint(env.stderr, clearLine)
				}
				return
			case <-time.After(progressDelay):
				line := what
				if bar := progress.done.Load(); bar != nil {
					line += *bar
				}
				fmt.Fprintf(env.stderr, "%s%s … %.0f s", clearLine, line, time.Since(began).Seconds())
			}
		}
	}()
	return progress
}

// photos tells how many of the photos are done. Several goroutines may.
func (p *progressLine) photos(done, all int) {
	const width = 20
	full := width * done / max(all, 1)
	bar := fmt.Sprintf(" [%s%s] %d of %d photos", strings.Repeat("=", full), strings.Repeat(" ", width-full), done, all)
	p.done.Store(&bar)
}

// end clears the line.
func (p *progressLine) end() {
	if p.stop != nil {
		close(p.stop)
		<-p.stopped
	}
}
