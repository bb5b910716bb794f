package main

import (
	"fmt"
	"time"
)

// stopwatch measures the parts of a run.
type stopwatch struct {
	env  *environment
	last time.Time
	laps []lap
}

// lap is one part.
type lap struct {
	name string
	took time.Duration
}

func newStopwatch(env *environment) *stopwatch { return &stopwatch{env: env, last: env.now()} }

// lap ends a part that has the name.
func (s *stopwatch) lap(name string) {
	now := s.env.now()
	s.laps = append(s.laps, lap{name, now.Sub(s.last)})
	s.last = now
}

// total is the time of all parts.
func (s *stopwatch) total() (sum time.Duration) {
	for _, l := range s.laps {
		sum += l.took
	}
	return sum
}

// print writes how long each part took.
func (s *stopwatch) print() {
	for _, l := range s.laps {
		fmt.Fprintf(s.env.stderr, "%8d ms  %s\n", l.took.Milliseconds(), l.name)
	}
}
