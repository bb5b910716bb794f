package journal

import (
	"strings"
	"testing"
	"time"
)

// TestHostileFilesAreReadInTime holds what once took the parsers seconds to minutes. The limit is far above what a
// slow machine needs and far below what an unguarded parser takes.
func TestHostileFilesAreReadInTime(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	deep := func(mark string) string {
		var out strings.Builder
		for i := 0; out.Len() < 200<<10; i++ {
			out.WriteString(strings.Repeat(" ", 2*i) + mark + "\n")
		}
		return out.String()
	}
	fill := func(pattern string, size int) string { return strings.Repeat(pattern, size/len(pattern)) }
	yaml := map[string]string{
		"brackets":                 fill("[", 60<<10),
		"hyphens":                  fill("- ", 60<<10),
		"blank lines in a text":    "a: |\n  " + fill("\n", 60<<10),
		"blank lines, folded":      "a: >\n  " + fill(" \n", 60<<10),
		"keys":                     fill("a: 1\n", 60<<10),
		"flow keys":                "{" + fill("a: 1, ", 60<<10) + "}",
		"events":                   "events:\n" + fill("- {moulted: 1}\n", 60<<10),
		"indents":                  deep("a:")[:60<<10],
		"quotes":                   fill(`"`, 60<<10),
		"one word":                 "title: " + fill("a", 60<<10),
		"aliases":                  "a: &a [x]\n" + fill("b: [*a, *a]\n", 60<<10),
		"more than is ever parsed": fill("x: y\n", 300<<10),
	}
	text := map[string]string{
		"emphasis":          fill("*a_ ", 200<<10),
		"emphasis, blank":   fill("*a_ *a_ *a_ *a_ *a_ *a_ *a_ *a_ "+"*a_ *a_ *a_ *a_ *a_ *a_ *a_ *a_ \n\n", 200<<10),
		"brackets":          fill("[", 200<<10),
		"pictures":          fill("![](", 200<<10),
		"quotes":            fill("> ", 200<<10),
		"lists":             deep("- a"),
		"reference":         fill("[a]: b\n", 200<<10),
		"table":             "|a|b|\n|-|-|\n" + fill("|a|b|\n", 200<<10),
		"footnotes":         fill("[^a] ", 100<<10) + "\n\n" + fill("[^a]: b\n", 100<<10),
		"long paragraphs":   fill("word ", 200<<10),
		"too large a file":  fill("word ", 1100<<10),
		"addresses":         fill("http://a.b ", 200<<10),
		"brackets by block": fill(fill("[", 1800)+"\n\n", 400<<10),
	}
	within := func(name, source string) {
		start := time.Now()
		_, problems := ParseEntry("e.md", []byte(source), nil)
		checkPlaces(t, []byte(source), problems)
		if took := time.Since(start); took > 5*time.Second {
			t.Errorf("%s took %v", name, took)
		}
	}
	for name, source := range yaml {
		within(name, "---\ndate: 2026-03-14\n"+source+"\n---\n")
	}
	for name, source := range text {
		within(name, "---\ndate: 2026-03-14\n---\n"+source)
	}
}

func TestLimitsAreReportedAtTheirPlace(t *testing.T) {
	front := func(lines string) string { return "---\ndate: 2026-03-14\n" + lines + "\n---\n" }
	for _, test := range []mistake{
		{front(strings.Repeat("# x\n", 20<<10)), []string{"1:1 too-long: the keys at the top have 81938 bytes; at most 65536 are read"}},
		{front("x: " + strings.Repeat("[", 40)), []string{"3:36 yaml-depth: brackets inside each other more than 32 deep"}},
		{front("events:\n  - - - - - a"), []string{"4:11 yaml-depth: too many hyphens in a row; a list item starts with one"}},
		{front("title: |" + strings.Repeat("\n", 120)), []string{"104:1 too-long: more than 100 blank lines in a row"}},
		{front("title: " + strings.Repeat("é", 2001)), []string{`3:8 too-long: "title" is "` + strings.Repeat("é", 59) + `…"; a text here has at most 2000 characters | long texts belong below the second line of hyphens`}},
		{front("topics: [" + strings.Repeat("a", 61) + "]"), []string{`3:10 too-long: "` + strings.Repeat("a", 59) + `…" is too long; a word here has at most 60 characters`}},
		{front("") + "\n\n" + strings.Repeat("*", 2001), []string{"7:1 markdown-cost: more than 2000 marks of emphasis, links or code in one paragraph | put blank lines between its parts"}},
		{front("") + "x\n" + strings.Repeat("> ", 25) + "y", []string{"6:1 markdown-cost: quotes and lists inside each other more than 24 deep"}},
	} {
		_, problems := ParseEntry("e.md", []byte(test.written), nil)
		if got, want := strings.TrimSuffix(briefs(problems), "\n"), strings.Join(test.want, "\n"); got != want {
			t.Errorf("%.60q: %s, want %s", test.written, got, want)
		}
	}
	if _, problems := ParseEntry("e.md", make([]byte, maxEntryBytes+1), nil); len(problems) != 1 || problems[0].Code != "too-long" {
		t.Errorf("large entry: %v", problems)
	}
	if _, problems := ParseSettings(make([]byte, maxSettingsBytes+1)); len(problems) != 1 || problems[0].Code != "too-long" {
		t.Errorf("large settings: %v", problems)
	}
	if _, problems := ParseLog("l.csv", make([]byte, maxLogBytes+1), MetricUnits()); len(problems) != 1 || problems[0].Code != "too-long" {
		t.Errorf("large log: %v", problems)
	}
}
