package journal

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// mistake is what a keeper wrote and every problem that the reader finds in it.
type mistake struct {
	written string
	want    []string // as brief writes them
}

// TestMistakesInFrontMatter holds mistakes about files, YAML and the keys of an entry.
func TestMistakesInFrontMatter(t *testing.T) {
	settings := settingsOf(t, twoTanks)
	for _, test := range []mistake{
		{"", []string{
			"1:1 front-matter: the entry does not begin with three hyphens and a date | begin the file with three lines: ---, date: 2026-03-14, ---",
		}},
		{"x", []string{
			"1:1 front-matter: the entry does not begin with three hyphens and a date | begin the file with three lines: ---, date: 2026-03-14, ---",
		}},
		{"—\ndate: 2026-03-14\n—\n", []string{
			`1:1 front-matter: "—" does not begin the keys | an editor joins hyphens into a long dash; write three hyphens: ---`,
		}},
		{"---\n", []string{
			"1:1 front-matter: the keys that begin here are never ended | put a line of three hyphens (---) below its last key",
		}},
		{"---\ndate: 2026-03-14\n", []string{
			"1:1 front-matter: the keys that begin here are never ended | put a line of three hyphens (---) below its last key",
		}},
		{"---\ndate: 2026-03-14\n----\nhi\n---\n", []string{
			`3:1 front-matter: "----" does not end the keys | write exactly three hyphens, at the start of the line: ---`,
		}},
		{" ---\ndate: 2026-03-14\n ---\n", []string{
			"1:1 front-matter: the three hyphens at the top are indented | put them at the start of the line",
		}},
		{"----\ndate: 2026-03-14\n---\n", []string{
			`1:1 front-matter: "----" does not begin the keys | write exactly three hyphens: ---`,
		}},
		{"---\nnote: |\n  a\n  ---\n  b\ndate: 2026-03-14\n---\nx", []string{
			"4:3 front-matter: indented hyphens end the keys here | put --- at the start of the line; inside a text, put the text in quotes",
		}},
		{"---\n---\nx", []string{
			`1:1 missing-key: the entry has no "date" | add: date: 2026-03-14`,
		}},
		{"---\n# c\n---\nx", []string{
			`1:1 missing-key: the entry has no "date" | add: date: 2026-03-14`,
		}},
		{"---\n- a\n---\nx", []string{
			"2:1 not-a-mapping: between the hyphens stand no keys | write a key, a colon, a space and the value: date: 2026-03-14",
		}},
		{"---\nhello\n---\nx", []string{
			"2:1 not-a-mapping: between the hyphens stand no keys | write a key, a colon, a space and the value: date: 2026-03-14",
		}},
		{"---\ndate: 2026-3-1\n---\n", []string{
			`2:7 not-a-date: "date" is "2026-3-1"; a date is written like 2026-03-14 | write it as 2026-03-01`,
		}},
		{"---\ndate: 12/03/2026\n---\n", []string{
			`2:7 not-a-date: "date" is "12/03/2026"; a date is written like 2026-03-14 | write it as 2026-03-12, or 2026-12-03 if the month stands first`,
		}},
		{"---\ndate: 14.03.2026\n---\n", []string{
			`2:7 not-a-date: "date" is "14.03.2026"; a date is written like 2026-03-14 | write it as 2026-03-14`,
		}},
		{"---\ndate: 46095\n---\n", []string{
			`2:7 not-a-date: "date" is "46095"; a date is written like 2026-03-14 | a spreadsheet counts this as the day 2026-03-14`,
		}},
		{"---\ndate: 2026-02-30\n---\n", []string{
			`2:7 no-such-date: "date" is "2026-02-30"; there is no such day | that month ends on 2026-02-28`,
		}},
		{"---\ndate: 2026-13-01\n---\n", []string{
			`2:7 no-such-date: "date" is "2026-13-01"; there is no such day | months run from 01 to 12`,
		}},
		{"---\ndate:\n---\n", []string{
			`2:1 no-value: "date" has no value | give it one, as in date: 2026-03-14`,
		}},
		{"---\ndate: 0206-03-14\n---\n", []string{
			`2:7 not-a-date: "date" is "0206-03-14"; years from 1950 to 2199 are understood`,
		}},
		{"---\ndate: [2026-03-14]\n---\n", []string{
			`2:7 not-a-date: "date" is a list; a date is written like 2026-03-14`,
		}},
		{"---\ndate: \uff12\uff10\uff12\uff16-03-14\n---\n", []string{
			`2:7 not-a-date: "date" is "２０２６-03-14"; a date is written like 2026-03-14 | it holds full-width digits; write 2026-03-14`,
		}},
		{"---\ndate: 2026\u201303\u201314\n---\n", []string{
			`2:7 not-a-date: "date" is "2026–03–14"; a date is written like 2026-03-14 | it holds a long dash; type a hyphen (-)`,
		}},
		{"---\ndate: 2026-03-14\ntitle: Day 12: moved\n---\n", []string{
			`3:8 yaml-syntax: a colon inside a value | write it as "Day 12: moved"`,
		}},
		{"---\ndate: 2026-03-14\n\ttank: window\n---\n", []string{
			"3:1 yaml-syntax: a tab; indent with spaces",
		}},
		{"---\ndate: 2026-03-14\ntitle: \"x\n---\n", []string{
			`3:8 yaml-syntax: a double quote is opened and never closed | write " at the end of the text`,
		}},
		{"---\ndate: 2026-03-14\ntitle: 'it's'\n---\n", []string{
			"3:12 yaml-syntax: the text goes on behind its closing quote | write it as \"it's\"",
		}},
		{"---\ndate: 2026-03-14\ntitle: @x\n---\n", []string{
			"3:8 yaml-syntax: a value may not start with @ or a back-quote unless it is in quotes | write it as \"@x\"",
		}},
		{"---\ndate: 2026-03-14\ntitle: *x*\n---\n", []string{
			`3:8 yaml-reference: "*" at the start has a meaning of its own, which a journal does not use | if it is part of a text, write it as "*x*"`,
		}},
		{"---\ndate: 2026-03-14\ntitle: &x y\n---\n", []string{
			`3:8 yaml-reference: "&" at the start has a meaning of its own, which a journal does not use | if it is part of a text, write it as "&x y"`,
		}},
		{"---\ndate: 2026-03-14\ntitle: !x y\n---\n", []string{
			`3:8 yaml-reference: "!" at the start has a meaning of its own, which a journal does not use | if it is part of a text, write it as "!x y"`,
		}},
		{"---\ndate: 2026-03-14\n<<: y\n---\n", []string{
			`3:1 yaml-reference: "<<" at the start has a meaning of its own, which a journal does not use | if it is part of a text, write it as "<<: y"`,
		}},
		{"---\ndate: 2026-03-14\ntitle: %x\n---\n", []string{
			`3:8 yaml-reference: "%" at the start has a meaning of its own, which a journal does not use | if it is part of a text, write it as "%x"`,
		}},
		{"---\ndate: 2026-03-14\ntitle: {a\n---\n", []string{
			`3:8 yaml-syntax: "{" is opened and not closed in this line | write } at the end of it`,
		}},
		{"---\ndate: 2026-03-14\ntopics: [a\n---\n", []string{
			`3:9 yaml-syntax: "[" is opened and not closed in this line | write ] at the end of it`,
		}},
		{"---\ndate: 2026-03-14\ntitle:x\n---\n", []string{
			`3:1 yaml-syntax: behind "title" stands no colon with a space | write title: and the value`,
		}},
		{"---\ndate: 2026-03-14\ntitle: x\n  tank: y\n---\n", []string{
			`4:3 yaml-syntax: "tank" is indented, so it counts as part of the line above | begin it at the start of the line`,
		}},
		{"---\ndate: 2026-03-14\ndate: 2026-03-15\n---\n", []string{
			`3:1 key-twice: "date" is given twice; the first is in line 2`,
		}},
		{"---\ndate: 2026-03-14\ntitel: x\nTank: window\ncolour: y\n---\n", []string{
			`3:1 unknown-key: unknown key "titel" in an entry; did you mean "title"?`,
			`4:1 unknown-key: unknown key "Tank" in an entry; did you mean "tank"?`,
			`5:1 unknown-key: unknown key "colour" in an entry; allowed: "date", "title", "tank", "water", "events", "visibility" or "topics" | what is no word of the format belongs in the text, below the second line of hyphens`,
		}},
		{"---\ndate: 2026-03-14\ntitle: Tank #1\n---\n", []string{
			`3:13 comment-in-value: warning: "#1" is taken for a comment and left out | put the whole value in quotes; if it is a comment, put a space after #`,
		}},
		{"---\ndate: 2026-03-14\ntank: north-shelv\n---\n", []string{
			`3:7 unknown-tank: unknown tank "north-shelv"; did you mean "north-shelf"?`,
		}},
		{"---\ndate: 2026-03-14\ntank: Window sill\n---\n", []string{
			`3:7 unknown-tank: unknown tank "Window sill"; did you mean "window"?`,
		}},
		{"---\ndate: 2026-03-14\ntank: [north-shelf, north-shelf]\n---\n", []string{
			`3:21 word-twice: "north-shelf" is given twice`,
		}},
		{"---\ndate: 2026-03-14\nvisibility: privat\n---\n", []string{
			`3:13 unknown-word: unknown visibility "privat"; did you mean "private"?`,
		}},
		{"---\ndate: 2026-03-14\ntopics: [a, a]\n---\n", []string{
			`3:13 word-twice: "a" is given twice`,
		}},
	} {
		_, problems := ParseEntry("e.md", []byte(test.written), settings)
		if diff := cmp.Diff(strings.Join(test.want, "\n"), strings.TrimSuffix(briefs(problems), "\n")); diff != "" {
			t.Errorf("%q (-want +got):\n%s", test.written, diff)
		}
	}
}
