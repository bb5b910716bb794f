package journal

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// twoTanks is the settings of most tests.
const twoTanks = `title: Two
address: https://example.org/
grades: [pale, even, deep]
tanks:
  north-shelf: {volume: 38 L, water-range: {ph: 6.8-7.8}}
  window: {name: Window sill}
`

// settingsOf reads settings that hold no mistake.
func settingsOf(t testing.TB, source string) *Settings {
	t.Helper()
	settings, problems := ParseSettings([]byte(source))
	if len(problems) > 0 {
		t.Fatalf("settings: %v", problems)
	}
	return settings
}

// brief writes a problem without its file: place, code, severity, message and hint.
func brief(p Problem) string {
	warning := ""
	if p.Severity == Warning {
		warning = "warning: "
	}
	hint := ""
	if p.Hint != "" {
		hint = " | " + p.Hint
	}
	return fmt.Sprintf("%d:%d %s: %s%s%s", p.Line, p.Column, p.Code, warning, p.Message, hint)
}

// briefs writes problems one a line.
func briefs(problems []Problem) string {
	var lines strings.Builder
	for _, p := range problems {
		lines.WriteString(brief(p) + "\n")
	}
	return lines.String()
}

// happening reads one event of an entry about north-shelf and fails on any problem.
func happening(t testing.TB, settings, event string) Happening {
	t.Helper()
	entry, problems := ParseEntry("e.md", []byte(entryWith(event)), settingsOf(t, settings))
	if len(problems) > 0 {
		t.Fatalf("%s: %v", event, problems)
	}
	if len(entry.Events) != 1 {
		t.Fatalf("%s: %d events", event, len(entry.Events))
	}
	return entry.Events[0].What
}

// entryWith is an entry with the lines of one event list, the first of which is line 5.
func entryWith(events string) string {
	return "---\ndate: 2026-03-14\ntank: north-shelf\nevents:\n  " + events + "\n---\n"
}

// small is a journal of one tank with one entry.
func small(front string) fstest.MapFS {
	return fstest.MapFS{
		"journal.yaml": {Data: []byte("title: Small\naddress: https://example.org/\ntanks:\n  shelf: {volume: 38 L}\n")},
		"entries/a.md": {Data: []byte("---\n" + front + "---\nText.\n")},
	}
}

// closeNumbers compares numbers to four decimals, which is what a converted unit needs.
var closeNumbers = cmpopts.EquateApprox(0, 1e-4)

// anyPlace leaves places out of a comparison.
var anyPlace = cmp.Options{
	cmpopts.IgnoreTypes(Position{}, []Place{}),
	cmpopts.IgnoreFields(Event{}, "Entry"),
}

// fileOf is a file of a folder in memory.
func fileOf(text string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(text)} }

// reporter is a test, of this package or of a property.
type reporter interface {
	Helper()
	Errorf(format string, args ...any)
}

// checkPlaces reports problems that do not lie inside their file. The end of a line counts as inside.
func checkPlaces(t reporter, source []byte, problems []Problem) {
	t.Helper()
	text := strings.TrimPrefix(string(source), "\ufeff")
	lines := strings.Split(strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n"), "\n")
	for i, p := range problems {
		if p.Line < 1 || p.Line > len(lines) || p.Column < 1 || p.Column > utf8.RuneCountInString(lines[p.Line-1])+1 {
			t.Errorf("%.200q: %v lies outside of the file", source, p)
		}
		if _, ok := Explain(p.Code); !ok {
			t.Errorf("%v has the code %q without an explanation", p, p.Code)
		}
		if strings.ContainsAny(p.Message+p.Hint, "\n\r\x00") || p.Message == "" {
			t.Errorf("%.200q: the message %q is not one line", source, p.Message)
		}
		if i > 0 && (problems[i-1].Line > p.Line || (problems[i-1].Line == p.Line && problems[i-1].Column > p.Column)) {
			t.Errorf("%.200q: %v comes after %v", source, problems[i-1], p)
		}
	}
}
