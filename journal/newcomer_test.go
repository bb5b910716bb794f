package journal

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
)

// attempt is what a keeper wrote and the hints of the problems that are found, one for each problem.
type attempt struct {
	written string
	hints   []string
}

func checkHints(t *testing.T, written string, problems []Problem, want []string) {
	t.Helper()
	var got []string
	for _, p := range problems {
		got = append(got, or(p.Hint, p.Message))
	}
	if diff := cmp.Diff(strings.Join(want, "\n"), strings.Join(got, "\n")); diff != "" {
		t.Errorf("%q (-want +got):\n%s%s", written, diff, briefs(problems))
	}
}

// TestHintsForANewcomersEvents holds what someone wrote into an entry of north-shelf who had not read the manual.
func TestHintsForANewcomersEvents(t *testing.T) {
	settings := settingsOf(t, twoTanks)
	for _, test := range []attempt{
		{"- berried: 1\n    last clear: 2026-03-08", []string{"write last-clear: 2026-03-08"}},
		{"- berried: 1\n    last_clear: 2026-03-08", []string{`unknown key "last_clear" in "berried"; did you mean "last-clear"?`}},
		{"- berried: 1\n    last-clear: 2026-03-20", []string{"it is the last day she was seen without eggs"}},
		{"- berried: 1\n    last-clear: yesterday", []string{"write it as 2026-03-13, counted from the date of the entry"}},
		{"- berried: 1\n    last-clear: 3 days ago", []string{"write it as 2026-03-11, counted from the date of the entry"}},
		{"- berried: 1\n    last-clear: 2 weeks ago", []string{"write it as 2026-02-28, counted from the date of the entry"}},
		{"- berried: 1\n    last-clear: last week", []string{"write the day itself, such as 2026-03-14"}},
		{"- water: {ph: 6,5-7,5, gh: 7,5}", []string{"a reading is one number: 6.5, 7.5, or <7.5 for less than that", "write 7.5"}},
		{"- water: {tds: 1,200, ph: ~7.4, temperature: 21.5°}", []string{"write 1200, or with a point 1.200", "write 7.4", "write 21.5 C"}},
		{"- water: {ph: about 7, gh: 8°}", []string{"write 7", "write 8 dGH"}},
		{"- graded: {pale: 2,5}", []string{"write 2.5"}},
		{"- berried: Poppy and Ruby", []string{"for several names write berried: [Poppy, Ruby]"}},
		{"- berried: Poppy & Ruby + Al", []string{"for several names write berried: [Poppy, Ruby, Al]"}},
		{"- berried: Poppy, Ruby, and Al", []string{"for several names write berried: [Poppy, Ruby, Al]"}},
		{"- berried: '\"Poppy\" and “Ruby”'", []string{"for several names write berried: [Poppy, Ruby]"}},
		{"- berried: Poppy and 2 others", []string{"for example: berried: 1, or with names berried: [ruby, pearl]"}},
		{"- berried: 🦐🦐", []string{"for example: berried: 1, or with names berried: [ruby, pearl]"}},
		{"- stocked: 🦐🦐", []string{"for example: stocked: 10"}},
		{"- berried: 1\n    eggs: 🥚", []string{"for example: eggs: 30"}},
		{"- measured: [21, 22]\n    names: Poppy and Ruby", []string{"write names: [Poppy, Ruby]"}},
		{"- measured: 21 and 22 mm", []string{"write measured: [21, 22 mm]"}},
		{"- stocked: 10\n    age: unknown\n    length: ?", []string{
			`leave out "age": what is not known is not written`, `leave out "length": what is not known is not written`}},
		{"- berried: 1\n    eggs: not counted\n    last-clear: Unclear", []string{
			`leave out "eggs": what is not known is not written`, `leave out "last-clear": what is not known is not written`}},
		{"- measured: 21\n    sex: unknown", []string{`leave out "sex": what is not known is not written`}},
		{"- counted: {females: 4, males: ?}", []string{`leave out "males": what is not known is not written`}},
		{"- water: {ph: 7, gh: unknown}", []string{`leave out "gh": what is not known is not written`}},
		{"- died: unknown", []string{"write the number that you saw"}},
		{"- moved: 2\n    to: unknown", []string{`unknown tank "unknown"; journal.yaml has "north-shelf" or "window"`}},
		{"- died: 1\n    cause: unknown", nil},
		{"- moved: 3\n    from: window", []string{"add: to: north-shelf", "the tank that they leave is tank: window"}},
		{"- moved: 3\n    from: window\n    to: north-shelf", []string{"the tank that they leave is tank: window"}},
		{"- moulted: 1\n    date: Sept 12th, 2026", []string{"write it as 2026-09-12"}},
		{"- moulted: 1\n    date: 12th September 2026", []string{"write it as 2026-09-12"}},
		{"- moulted: 1\n    date: Saturday the 1st of August, 2026", []string{"write it as 2026-08-01"}},
		{"- moulted: 1\n    date: 12-Sep-2026", []string{"write it as 2026-09-12"}},
		{"- moulted: 1\n    date: 2026 Sept. 12", []string{"write it as 2026-09-12"}},
		{"- moulted: 1\n    date: 31st of September 2026", []string{`"date" is "31st of September 2026"; a date is written like 2026-03-14`}},
		{"- water: {ph: 72, temperature: 234, gh: 8}", []string{
			"if the decimal point is missing, write 7.2", "if the decimal point is missing, write 23.4"}},
		{"- water: {gh: 80, kh: 180, temperature: 743 F}", []string{"if the test reports ppm, write 80 ppm, which is 4.5 degrees; if the decimal point is missing, write 8 dGH",
			"if the test reports ppm, write 180 ppm, which is 10.1 degrees", "if the decimal point is missing, write 74.3 F"}},
		{"- water: {nitrate: 100, temperature: 100, ph: -72}", []string{
			"nitrate 100 mg/L is unusual; 0 to 80 mg/L is usual", "if it is Fahrenheit, write 100 F", `"ph" is "-72"; pH runs from 0 to 14`}},
		{"- water-change: 25 %\n    temperature: 234", []string{"if the decimal point is missing, write 23.4"}},
		{"- [berried: 1, 2]", []string{"for example:   - berried: 1"}},
		{"- [died]", []string{"for example:   - died: 1"}},
		{"- hatched: [amber, flint]", []string{"write an event for each brood, with hatched: amber"}},
		{"-\u00a0moulted: 1", []string{"type a plain space in its place"}},
		{"- moulted:\u00a01", []string{"type a plain space in its place"}},
		{"- moulted: 1\n  \u00a0 note: shy", []string{"type a plain space in its place"}},
		{"- moulted: 1\n    note: under\u00a0the moss", nil},
		{"- water: {ph:\u00a07.4}", nil},
		{"- moulted: 1\n    date: 2026-03\u00a014", []string{"it holds a no-break space, which looks like a space; type a plain one"}},
		{"- removed: 2 females", []string{"write removed: {females: 2}"}},
		{"- died: 1 female", []string{"write died: {females: 1}"}},
		{"- died: 1 shrimp", []string{"write 1"}},
		{"- counted: 5 adults, 3 babies", []string{"write counted: {unsexed: 5, juveniles: 3}"}},
		{"- counted: 5 females and 3 males + 2 juveniles", []string{"write counted: {females: 5, males: 3, juveniles: 2}"}},
		{"- counted: {adults: 8}", []string{"write unsexed: 8, or females and males"}},
		{"- moved: 2", []string{"add: to: window"}},
		{"- moved: 2\n    tank: window", []string{"add: to: north-shelf"}},
		{"- moved: 2\n    to:", []string{"give it one, as in to: window"}},
		{"- dyed: 1", []string{`unknown event "dyed"; did you mean "eyed" or "died"?`}},
		{"- seen: saddle", []string{"write saddled: 1"}},
		{"- seen: eyes", []string{"write eyed: true"}},
		{"- lost: 2", []string{"for shrimp that died write died: 2, for eggs that she lost dropped: true"}},
		{"- gave away: 3", []string{"write removed: 3, and below it reason: given"}},
		{"- sold: 3", []string{"write removed: 3, and below it reason: sold"}},
		{"- measured: [21]\n    length: 20", []string{`"length" goes with "stocked"`}},
		{"- hatched: 3", []string{"write hatched: true, or the name of the brood, and below it shrimplets: 3"}},
	} {
		_, problems := ParseEntry("e.md", []byte(entryWith(test.written)), settings)
		checkHints(t, test.written, problems, test.hints)
	}
}

// TestAttributesWithoutAValueAreNotWritten opens the comments of an event and fills none in.
func TestAttributesWithoutAValueAreNotWritten(t *testing.T) {
	source := entryWith("- berried: 1\n    brood:\n    eggs:\n    last-clear: ~\n    date:\n    tank:\n    note:")
	entry, problems := ParseEntry("e.md", []byte(source), settingsOf(t, twoTanks))
	if len(problems) != 6 || HasErrors(problems) {
		t.Errorf("problems %s", briefs(problems))
	}
	want := &Berried{Shrimp: Who{Count: Count{Total: 1}}}
	if diff := cmp.Diff(want, entry.Events[0].What); diff != "" || entry.Events[0].Tank != "north-shelf" || entry.Events[0].Day != entry.Date {
		t.Errorf("event %+v (-want +got):\n%s", entry.Events[0], diff)
	}
	for _, written := range []string{"- berried:", "- moved: 1\n    to:"} {
		if _, problems := ParseEntry("e.md", []byte(entryWith(written)), settingsOf(t, twoTanks)); !HasErrors(problems) {
			t.Errorf("%q is no error", written)
		}
	}
}

// TestHintsForANewcomersEntry holds whole entries; each is a file of its own name.
func TestHintsForANewcomersEntry(t *testing.T) {
	settings := settingsOf(t, twoTanks)
	const begun = "---\ndate: 2026-11-19\n"
	for _, test := range []struct {
		path string
		attempt
	}{
		{"entries/e.md", attempt{begun + "weather: rain\n---\n", []string{"what is no word of the format belongs in the text, below the second line of hyphens"}}},
		{"entries/e.md", attempt{begun + "events: {fed: pellets}\n---\n", []string{"put a hyphen and a space before each event:   - fed: pellets"}}},
		{"entries/e.md", attempt{begun + "events: died 2\n---\n", []string{"put a hyphen and a space before each event:   - died: 2"}}},
		{"entries/e.md", attempt{begun + "events: two\n---\n", []string{"put a hyphen and a space before each event:   - moulted: 1"}}},
		{"entries/e.md", attempt{begun + "title:\u00a0Day 3\n---\n", []string{"type a plain space in its place"}}},
		{"entries/e.md", attempt{begun + "events:\n\u00a0\u00a0- fed: peas\n---\n", []string{"type a plain space in its place"}}},
		{"entries/e.md", attempt{begun + "private: true\n---\n", []string{"write visibility: private"}}},
		{"entries/e.md", attempt{begun + "draft: yes\n---\n", []string{"write visibility: private"}}},
		{"entries/e.md", attempt{begun + "private: false\n---\n", []string{`unknown key "private" in an entry; did you mean "visibility"?`}}},
		{"entries/2026-11-19-eggs.md", attempt{"---\ntitle: Eggs\n---\n", []string{"add: date: 2026-11-19"}}},
		{"entries/2026/11-19.md", attempt{"---\ndate:\n---\n", []string{"give it one, as in date: 2026-11-19"}}},
		{"entries/2026-11-19.md", attempt{"---\ndate: today\n---\n", []string{"write it as 2026-11-19, counted from the name of the file"}}},
		{"entries/2026-11-19.md", attempt{"Ten in a bag.\n", []string{"begin the file with three lines: ---, date: 2026-11-19, ---"}}},
		{"entries/2026-13-19.md", attempt{"---\ntitle: Eggs\n---\n", []string{"add: date: 2026-03-14"}}},
		{"entries/e.md", attempt{"---\ndate: today\n---\n", []string{"write the day itself, such as 2026-03-14"}}},
		{"entries/e.md", attempt{"---\ndate: 26.11.26\n---\n", []string{"write it as 2026-11-26"}}},
		{"entries/e.md", attempt{"---\ndate: 3/4/26\n---\n", []string{"write it as 2026-04-03, or 2026-03-04 if the month stands first"}}},
		{"entries/e.md", attempt{"---\ndate: 26-11-26\n---\n", []string{"write the year first, with four digits"}}},
		{"entries/e.md", attempt{"\ndate: 2026-11-19\ntank: window\n\nEggs.\n", []string{`put a line --- above "date" and another below "tank"`}}},
	} {
		_, problems := ParseEntry(test.path, []byte(test.written), settings)
		checkHints(t, test.path+": "+test.written, problems, test.hints)
	}
}

func TestHintsForANewcomersSettings(t *testing.T) {
	for _, test := range []attempt{
		{"tanks: [a, b]", []string{"write tanks: {a: {}, b: {}}"}},
		{"tanks: {a: {volume: unknown}}", []string{`leave out "volume": what is not known is not written`}},
		{"tanks: {a: {filter: sponge}}", []string{"what else there is to tell of a tank belongs in the text of an entry"}},
		{"tanks: {a: {water-range: {ph: 6,5-7,5, gh: 6-10}}}", []string{"write 6.5-7.5"}},
		{"tanks:\n  a:\n    water-range:\n      ph: 6,5-7,5", []string{"write 6.5-7.5"}},
	} {
		_, problems := ParseSettings([]byte(titled + test.written))
		checkHints(t, test.written, problems, test.hints)
	}
}

// TestHintsAcrossAJournal holds slips whose problems rest on more than one file.
func TestHintsAcrossAJournal(t *testing.T) {
	tankless := small("date: 2026-03-14\ntank: a\nevents:\n  - died: 1\n")
	tankless["journal.yaml"] = fileOf(titled + "tanks: [a, b]\n")
	shown := showing("![Ruby](photos/ruby.png) ![Pearl](pearl.png)")
	shown["photos/ruby.png"] = fileOf(string(picture(t, 4, 4)))
	shown["entries/photos/pearl.png"] = shown["photos/ruby.png"]
	for want, fsys := range map[string]fstest.MapFS{
		"write tanks: {a: {}, b: {}}": tankless,
		"did you mean \"../photos/ruby.png\"?\ndid you mean \"photos/pearl.png\"?": shown,
	} {
		var errors []Problem
		for _, p := range Read(fsys).Problems {
			if p.Severity == Error {
				errors = append(errors, p)
			}
		}
		checkHints(t, "a journal", errors, strings.Split(want, "\n"))
	}
}
