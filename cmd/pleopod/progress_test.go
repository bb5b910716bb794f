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
		under := (&world{stderr: out, terminal: test.terminal}).during("Drawing")
		under.photos(3, 12)
		time.Sleep(test.takes)
		under.end()
		text := out.String()
		if shown := strings.Contains(text, "Drawing [=====               ] 3 of 12 photos … "); shown != test.shown || shown != strings.HasSuffix(text, wipe) {
			t.Errorf("%+v: %q", test, text)
		}
	}
}
