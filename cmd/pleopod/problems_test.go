package main

import (
	"bytes"
	"strings"
	"testing"
	"testing/fstest"

	"pleopod/journal"
)

func TestATerminalShowsTheLineOfAProblem(t *testing.T) {
	files := fstest.MapFS{"entries/a.md": {Data: []byte("\ufeff---\r\ndate: 2026-03-14\r\n\tberied: \"\x1b[31m2\"\r\n")}}
	problem := journal.Problem{
		Position: journal.Position{File: "entries/a.md", Line: 3, Column: 2}, Message: "unknown \x1b]0;key",
		Hint: "look",
	}
	tests := []struct {
		name     string
		terminal bool
		change   func(*journal.Problem)
		want     string
	}{
		{"on a terminal", true, nil, "\x1b[1;31mentries/a.md:3:2\x1b[0m: unknown \\x1b]0;key\n   beried: \" [31m2\"\n   \x1b[1;31m^\x1b[0m\n  look\n"},
		{"a warning", true, func(p *journal.Problem) { p.Severity = journal.Warning },
			"\x1b[1;33mentries/a.md:3:2\x1b[0m: warning: unknown \\x1b]0;key\n   beried: \" [31m2\"\n   \x1b[1;33m^\x1b[0m\n  look\n"},
		{"beyond the line", true, func(p *journal.Problem) { p.Column = 99 }, "\x1b[1;31mentries/a.md:3:99\x1b[0m: unknown \\x1b]0;key\n  look\n"},
		{"beyond the file", true, func(p *journal.Problem) { p.Line = 99 }, "\x1b[1;31mentries/a.md:99:2\x1b[0m: unknown \\x1b]0;key\n  look\n"},
		{"in no file", true, func(p *journal.Problem) { p.File = "../passwords" }, "\x1b[1;31m../passwords:3:2\x1b[0m: unknown \\x1b]0;key\n  look\n"},
		{"into a pipe", false, nil, "entries/a.md:3:2: unknown \\x1b]0;key\n  look\n"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			var out bytes.Buffer
			p := problem
			if test.change != nil {
				test.change(&p)
			}
			env := &environment{stderr: &out, terminal: test.terminal}
			env.printProblem(files, p)
			if got := out.String(); got != test.want {
				t.Errorf("got\n%q\nwant\n%q", got, test.want)
			}
		})
	}
}

// TestTheCaretStandsBelowItsCharacter counts what a terminal shows, not what a file holds.
func TestTheCaretStandsBelowItsCharacter(t *testing.T) {
	for _, test := range []struct {
		line       string
		characters int
		want       int
	}{
		{"berried: 2", 9, 9}, {"ph: ７.４", 6, 7}, {"水温: 23", 4, 6}, {"e\u0301gg", 3, 2}, {"short", 9, 5}, {"", 0, 0},
	} {
		if got := len(blank(test.line, test.characters)); got != test.want {
			t.Errorf("%d characters of %q take %d places, want %d", test.characters, test.line, got, test.want)
		}
	}
}

func TestLongLinesAreShortened(t *testing.T) {
	files := fstest.MapFS{"a.md": {Data: []byte(strings.Repeat("é", 300))}}
	line := []rune(sourceLine(files, journal.Position{File: "a.md", Line: 1, Column: 1}))
	if len(line) != 160 || line[159] != '…' {
		t.Errorf("the line has %d characters and ends in %q", len(line), line[len(line)-1])
	}
}

func TestTallyCountsErrorsAndWarnings(t *testing.T) {
	e, w := journal.Problem{}, journal.Problem{Severity: journal.Warning}
	tests := []struct {
		problems []journal.Problem
		want     string
	}{
		{nil, "no problem"},
		{[]journal.Problem{e}, "1 error"},
		{[]journal.Problem{w, w}, "2 warnings"},
		{[]journal.Problem{w, e, e}, "2 errors and 1 warning"},
	}
	for _, test := range tests {
		if got := tally(test.problems); got != test.want {
			t.Errorf("tally of %d is %q, want %q", len(test.problems), got, test.want)
		}
	}
}
