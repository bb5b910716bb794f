package main

import (
	"strings"
	"testing"
	"time"
)

func TestProgressOnATerminalOnly(t *testing.T) {
	for _, test := range []struct {
		terminal bool
		takes    time.Duration
		shown    bool
	}{{true, 2 * progressDelay, true}, {true, 0, false}, {false, 2 * progressDelay, false}} {
		out := &lockedBuffer{}
		progress := (&environment{stderr: out, terminal: test.terminal}).showProgress("Drawing")
		progress.photos(3, 12)
		time.Sleep(test.takes)
		progress.end()
		text := out.String()
		if shown := strings.Contains(text, "Drawing [=====               ] 3 of 12 photos … "); shown != test.shown || shown != strings.HasSuffix(text, clearLine) {
			t.Errorf("%+v: %q", test, text)
		}
	}
}
