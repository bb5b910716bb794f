package journal

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestAdvice holds what keepers write for want of the right form, and what they are told to type. The keys follow the
// date, so they begin in line 3.
func TestAdvice(t *testing.T) {
	settings := settingsOf(t, twoTanks)
	const keys = `; allowed: "date", "title", "tank", "water", "events", "visibility" or "topics" | `
	const event = "tank: window\nevents:\n  - "
	for _, test := range []mistake{
		{"berried: 1", []string{`3:1 unknown-key: unknown key "berried" in an entry` + keys + "it is an event: write it below events, as   - berried: 1"}},
		{"hatched: >\n  a\n\n  b", []string{`3:1 unknown-key: unknown key "hatched" in an entry` + keys + "it is an event: write it below events, as   - hatched: amber"}},
		{"ph: 7.2", []string{`3:1 unknown-key: unknown key "ph" in an entry` + keys + "write water: {ph: 7.2}"}},
		{"eggs: 20", []string{`3:1 unknown-key: unknown key "eggs" in an entry` + keys + `"eggs" goes with "berried" or "dropped", below events`}},
		{"photo: a.jpg", []string{`3:1 unknown-key: unknown key "photo" in an entry` + keys + "a picture goes into the text: ![Ruby and her eggs](../photos/ruby.jpg)"}},
		{"note: shy", []string{`3:1 unknown-key: unknown key "note" in an entry` + keys + "write it below the second line of hyphens"}},
		{"tank: north-shelf, window", []string{`3:7 unknown-tank: unknown tank "north-shelf, window"; journal.yaml has "north-shelf" or "window" | for several tanks write tank: [north-shelf, window]`}},
		{"visibility: hidden", []string{`3:13 unknown-word: unknown visibility "hidden"; did you mean "private"?`}},
		{"title: 'It's here'", []string{"3:12 yaml-syntax: the text goes on behind its closing quote | write it as \"It's here\""}},
		{`water: {ph: "7.2, gh: 8}`, []string{`3:13 yaml-syntax: a double quote is opened and never closed | write " at the end of the text`}},
		{"tank: window\nwater: {ph 7.2, gh=8}", []string{
			`4:9 unknown-key: unknown key "ph 7.2" in "water"; did you mean "ph"? | write ph: 7.2`,
			`4:17 unknown-key: unknown key "gh=8" in "water"; did you mean "gh"? | write gh: 8`,
		}},
		{"tank: window\nwater: {ph: , gh: 8}", []string{`4:9 no-value: "ph" has no value | give it one, as in ph: 7.4, or take it out`}},
		{event + "berried: 1, eggs: 20", []string{"5:14 yaml-syntax: a colon inside a value | put eggs: on a line of its own, below the key before it"}},
		{event + "hatched: 20", []string{`5:14 not-a-name: "hatched" is "20"; it takes true or the name of a brood | write hatched: true, or the name of the brood, and below it shrimplets: 20`}},
		{event + "dropped: 5", []string{`5:14 not-a-name: "dropped" is "5"; it takes true or the name of a brood | write dropped: true, or the name of the brood, and below it eggs: 5`}},
		{event + "hatched: yes", []string{`5:14 not-a-name: "yes" is no name; names are made of letters, digits, spaces, hyphens and apostrophes | write hatched: true`}},
		{event + `hatched: "yes"`, nil},
		{event + "eyed: true\n    brood: amber", []string{`6:5 unknown-key: unknown key "brood" in "eyed"; allowed: "eyed", "tank", "date" or "note" | write eyed: amber`}},
		{event + "hatched: true\n    shrimplets: ~20", []string{`6:17 not-a-whole-number: "shrimplets" is "~20"; it takes a whole number | write 20`}},
		{event + "counted: 20+", []string{`5:14 not-a-count: "counted" is "20+"; it takes a number of shrimp, or classes in braces | write 20`}},
		{event + "counted: about 20", []string{`5:14 not-a-count: "counted" is "about 20"; it takes a number of shrimp, or classes in braces | write 20`}},
		{event + "counted: 20-30", []string{`5:14 not-a-count: "counted" is "20-30"; it takes a number of shrimp, or classes in braces | write one number, such as 25`}},
		{event + "counted: a few", []string{`5:14 not-a-count: "counted" is "a few"; it takes a number of shrimp, or classes in braces | write the number that you saw`}},
		{event + "died: two", []string{`5:11 not-a-count: "died" is "two"; it takes a number of shrimp, classes in braces, or a list of names | write 2`}},
		{event + "died: ruby, pearl", []string{`5:11 not-a-count: "died" is "ruby, pearl"; it takes a number of shrimp, classes in braces, or a list of names | for several names write died: [ruby, pearl]`}},
		{event + "removed: 2\n    reason: gift", []string{`6:13 unknown-word: unknown reason "gift"; did you mean "given"?`}},
		{event + "measured: 21mm, 22mm", []string{`5:15 not-a-list: "measured" is "21mm, 22mm"; it takes a list of numbers | write measured: [21mm, 22mm]`}},
		{event + "stocked: 10\n    age: half grown", []string{`6:10 not-a-number: "age" is "half grown"; it takes a number | for example: age: 3 months`}},
		{event + "moulted: 1\n    date: 20260314", []string{`6:11 not-a-date: "date" is "20260314"; a date is written like 2026-03-14 | write it as 2026-03-14`}},
		{event + "moulted: 1\n    date: 2026-03-14 18:30", []string{`6:11 not-a-date: "date" is "2026-03-14 18:30"; a date is written like 2026-03-14 | write it as 2026-03-14`}},
		{event + "moulted: 1\n    date: 14.3.26", []string{`6:11 not-a-date: "date" is "14.3.26"; a date is written like 2026-03-14 | write it as 2026-03-14`}},
	} {
		_, problems := ParseEntry("e.md", []byte("---\ndate: 2026-03-14\n"+test.written+"\n---\n"), settings)
		if diff := cmp.Diff(strings.Join(test.want, "\n"), strings.TrimSuffix(briefs(problems), "\n")); diff != "" {
			t.Errorf("%q (-want +got):\n%s", test.written, diff)
		}
	}
}
