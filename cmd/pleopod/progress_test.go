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
	}{{true, 2 * patience, true}, {true, 0, false}, {false, 2 * patience, false}} {
		out := &paper{}
		done := (&world{stderr: out, terminal: test.terminal}).during("Drawing")
		time.Sleep(test.takes)
		done()
		text := out.String()
		if shown := strings.Contains(text, "Drawing … 0 s"); shown != test.shown || shown != strings.HasSuffix(text, wipe) {
			t.Errorf("%+v: %q", test, text)
		}
	}
}
