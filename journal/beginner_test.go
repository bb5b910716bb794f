package journal

import (
	"strings"
	"testing"
	"testing/fstest"
)

// TestHintsForABeginnersNumbers holds numbers as people say them.
func TestHintsForABeginnersNumbers(t *testing.T) {
	settings := settingsOf(t, twoTanks)
	for _, test := range []attempt{
		{"- counted: 20 + 5", []string{"write 25"}},
		{"- counted: 4 females 3 males", []string{"write counted: {females: 4, males: 3}"}},
		{"- died: females 1", []string{"write died: {females: 1}"}},
		{"- died: a female", []string{"write died: {females: 1}"}},
		{"- died: female", []string{"write died: {females: 1}"}},
		{"- died: a shrimp", []string{"write 1"}},
		{"- died: two shrimp", []string{"write 2"}},
		{"- counted: 1.200", []string{"write 1200"}},
		{"- counted: 12.0", []string{"write 12"}},
		{"- berried: 1 female, eggs 20", []string{"for example: berried: 1, or with names berried: [ruby, pearl]"}},
		{"- hatched: 20 babies", []string{`write hatched: true, or the name of the brood, and below it shrimplets: 20`}},
		{"- dropped: 3 eggs", []string{`write dropped: true, or the name of the brood, and below it eggs: 3`}},
		{"- eyed: 1", []string{`write eyed: true, or put the name of the brood in quotes: "1"`}},
		{"- hatched: about 20", []string{`write hatched: true, or the name of the brood, and below it shrimplets: 20`}},
		{"- died: 1!", []string{"write 1"}},
		{"- moulted: 2x", []string{"write 2"}},
		{"- counted: 20ish", []string{"write 20"}},
		{"- counted: >20", []string{"write 20"}},
		{"- stocked: 5\n    age: 3 m", []string{"write 3 months"}},
		{"- water-change: 0.25", []string{"write 25 %"}},
		{"- water-change: 1/4", []string{"write 25 %"}},
		{"- water-change: about a third", []string{"write 33 %"}},
		{"- water-change: 20 % tap water", []string{"write 20 %"}},
		{"- water-change: 5 l tap", []string{"write 5 L"}},
		{"- stocked: 5\n    age: 12 weeks old", []string{"write 12 weeks"}},
		{"- stocked: 5\n    length: 1-2 cm", []string{"write one number, such as 1.5 cm"}},
		{"- water: {nitrate: 10?}", []string{"write 10"}},
		{"- water: {ph: 7 gh 8}", []string{"put a comma after each value"}},
	} {
		_, problems := ParseEntry("e.md", []byte(entryWith(test.written)), settings)
		checkHints(t, test.written, problems, test.hints)
	}
}

// TestWordsThatAreNoName holds lists in which an item is not the name of one shrimp, and texts that are no one word.
func TestWordsThatAreNoName(t *testing.T) {
	settings := settingsOf(t, twoTanks)
	for _, test := range []attempt{
		{"- died: [1 female]", []string{"write died: {females: 1}"}},
		{"- died: [2 females, 1 male]", []string{"write died: {females: 2, males: 1}", "write died: {females: 2, males: 1}"}},
		{"- died: [ruby, 1 male]", []string{"names and counts are two events"}},
		{"- berried: [ruby and pearl]", []string{"for several names write berried: [ruby, pearl]"}},
		{"- berried: [ruby; pearl]", []string{"for several names write berried: [ruby, pearl]"}},
		{"- berried: ['ruby and pearl']", nil},
		{"- berried: [ruby]\n    brood: red and blue", nil},
		{"- moulted: 1\ntopics: breeding, water", []string{"write topics: [breeding, water]"}},
		{"- moulted: 1\ntopics: 'breeding, water'", nil},
	} {
		_, problems := ParseEntry("e.md", []byte(entryWith(test.written)), settings)
		checkHints(t, test.written, problems, test.hints)
	}
	entry, problems := ParseEntry("e.md", []byte(entryWith("- moulted: 1\ntopics: breeding, water")), settings)
	if HasErrors(problems) || len(entry.Topics) != 1 {
		t.Errorf("one topic with a comma stops the journal: %v, topics %q", problems, entry.Topics)
	}
	_, problems = ParseSettings([]byte(titled + "tanks: {a: {heater: none}}\ngrades: A, B, C"))
	checkHints(t, "settings", problems, []string{"leave the line out", "write grades: [A, B, C]"})
}

// TestEventsInTheTextWithACapital holds lines of a text as they begin a sentence.
func TestEventsInTheTextWithACapital(t *testing.T) {
	_, problems := ParseEntry("e.md", []byte("---\ndate: 2026-03-14\n---\nBerried: 1\n\nDied: nothing new.\n"), settingsOf(t, twoTanks))
	checkHints(t, "text", problems, []string{"move it above the second line of hyphens, below events:, as   - berried: 1"})
}

// TestHintsForABeginnersWords holds events in the words of people, and marks that mean something in the form.
func TestHintsForABeginnersWords(t *testing.T) {
	settings := settingsOf(t, twoTanks)
	for _, test := range []attempt{
		{"- berried:1", []string{"write berried: 1"}},
		{"- berried", []string{"write berried: 1"}},
		{"- hatched", []string{"write hatched: true"}},
		{"- 2 berried females", []string{"write berried: 2"}},
		{"- saw berried female", []string{"write berried: 1"}},
		{"- found dead: 2", []string{"write died: 2"}},
		{"- ph: 7", []string{"write water: {ph: 7}"}},
		{"- temperature: 23", []string{"if it was measured in the tank, write water: {temperature: 23.4 C}"}},
		{"- filter cleaned: true", []string{"what is no event belongs in the text, below the second line of hyphens"}},
		{"- berried: 1\n    name: ruby", []string{"a shrimp with a name is written as berried: [ruby]"}},
		{"- stocked: 5\n    price: 20 €", []string{"what is no word of the format belongs in its note or in the text"}},
		{"• berried: 1", []string{"put a hyphen and a space before each event:   - berried: 1"}},
		{"* berried: 1", []string{"an event begins with a hyphen: write - berried: 1"}},
		{"-\tberried: 1", []string{"a tab; type spaces in its place"}},
		{"- fed: >20 pellets", []string{`if it is part of a text, write it as ">20 pellets"`}},
		{"- fed: - much", []string{`write it as "- much"`}},
		{"- fed: [sic] peas", []string{`write it as "[sic] peas"`}},
		{"- moved: 2\n    to: the window", []string{`unknown tank "the window"; did you mean "window"?`}},
		{"- moulted: 1\n    date: 14.3.", []string{"write it as 2026-03-14"}},
		{"- moulted: 1\n    date: 14/03", []string{"write it as 2026-03-14"}},
		{"- moulted: 1\n    date: 03-14", []string{"write it as 2026-03-14"}},
		{"- moulted: 1\n    date: March 14th", []string{"write it as 2026-03-14"}},
		{"- moulted: 1\n    date: 14-Mar-26", []string{"write it as 2026-03-14"}},
		{"- moulted: 1\n    date: Mar 14 '26", []string{"write it as 2026-03-14"}},
		{"- moulted: 1\n    date: 2026-03-14, evening", []string{"a date is one day and nothing else: write it as 2026-03-14"}},
	} {
		_, problems := ParseEntry("e.md", []byte(entryWith(test.written)), settings)
		checkHints(t, test.written, problems, test.hints)
	}
	for _, test := range []attempt{
		{"tank: both\nwater: {ph: 7}", []string{"for several tanks write tank: [north-shelf, window]"}},
		{"tank: window\nwater:{ph: 7}", []string{"write water: {, with a colon and a space before the brace"}},
		{"tank: window\nevents: berried: 1", []string{"write it in the next line:   - berried: 1"}},
		{"topics: #breeding", []string{"put the whole value in quotes; if it is a comment, put a space after #"}},
		{"topics: # none yet", nil},
	} {
		_, problems := ParseEntry("e.md", []byte("---\ndate: 2026-03-14\n"+test.written+"\n---\n"), settings)
		checkHints(t, test.written, problems, test.hints)
	}
}

func TestHintsForABeginnersSettings(t *testing.T) {
	for _, test := range []attempt{
		{"tanks: {a: {}}\naddress: example.org/shrimp", []string{"write https://example.org/shrimp/"}},
		{"tanks: {a: {}}\nlanguage: en_US", []string{"write en-US"}},
		{"tanks: {a: {water-range: {nitrate: <20, temperature: 68-78}}}", []string{"write 0-20", "if it is Fahrenheit, write 68-78 F"}},
		{"units: {temperature: F}\ntanks: {a: {heater: 23}}", []string{"a number without a unit is Fahrenheit in this journal; for Celsius write 23 C"}},
		{"tanks:\n  a {volume: 38 L}", []string{"write a: {, with a colon and a space before the brace"}},
		{"tanks:\n  a:\nheater: 23 C", []string{"it tells of a tank: indent it below the id of that tank"}},
	} {
		source := titled
		if strings.Contains(test.written, "address:") {
			source = "title: T\n"
		}
		_, problems := ParseSettings([]byte(source + test.written))
		checkHints(t, test.written, problems, test.hints)
	}
}

// TestEventsThatAreHardlyMeantSo holds what can be true, and would be counted as something else without a word.
func TestEventsThatAreHardlyMeantSo(t *testing.T) {
	settings := settingsOf(t, twoTanks)
	const still = "if her eggs were written of before, take the event out: a brood goes on until hatched or dropped; if these are others, name the brood: brood: amber"
	for _, test := range []attempt{
		{"- berried: 1\n    note: she is still carrying", []string{still}},
		{"- berried: 1\ntitle: Still berried", []string{still}},
		{"- berried: 1\n    note: still a pity", nil},
		{"- berried: 1\n    brood: flint\n    note: amber is still carried", nil},
		{"- moulted: 1\n    note: still berried", nil},
		{"- moulted: 1\n    date: 2025-03-12", []string{"mend the year; if it is right, leave it"}},
		{"- moulted: 1\n    date: 2027-03-12", []string{"mend the year; if it is right, leave it"}},
		{"- moulted: 1\n    date: 2025-12-12", nil},
		{"- removed: 2\n    to: Window", []string{"write moved: 2, and below it to: window"}},
		{"- removed: [ruby, pearl]\n    to: window", []string{"write moved: [ruby, pearl], and below it to: window"}},
		{"- removed: 2\n    to: a friend", nil},
		{"- stocked: 5\n    length: 2", []string{"for 2 cm write 20; if it just hatched, write 2 mm"}},
		{"- stocked: 5\n    length: 2 mm", nil},
		{"- stocked: 5\n    length: 20", nil},
		{"- water-change: 0.25 %", []string{"for a part of the whole write 25 %"}},
		{"- water-change: 2 %", nil},
		{"- hatched: batch 1", nil},
		{"- eyed: batch 1", nil},
	} {
		_, problems := ParseEntry("e.md", []byte(entryWith(test.written)), settings)
		checkHints(t, test.written, problems, test.hints)
	}
}

// TestPicturesOfRoundQuotesAndMemory holds pictures as they come from an editor that makes quotes round, and from memory.
func TestPicturesOfRoundQuotesAndMemory(t *testing.T) {
	for _, test := range []attempt{
		{"![Ruby](../photos/r.png “her eggs”)", []string{`write ![Ruby](../photos/r.png "her eggs")`}},
		{"![Ruby](../photos/r.png", []string{"write ![Ruby](../photos/r.png)"}},
		{"[Ruby](../photos/r.png)", []string{"put ! before the bracket: ![Ruby](../photos/r.png)"}},
		{"[Ruby](https://example.org/r.png)", nil},
		{"![Ruby](“../photos/r.png”)", []string{"write it without them: ../photos/r.png"}},
		{"![Ruby](C:\\Users\\r.png)", []string{"copy the file into the journal, and write its path from the file that it stands in, such as ../photos/ruby.jpg"}},
	} {
		_, problems := ParseEntry("entries/e.md", []byte("---\ndate: 2026-03-14\n---\n"+test.written+"\n"), settingsOf(t, twoTanks))
		checkHints(t, test.written, problems, test.hints)
	}
}

// TestACopyMadeByAnotherProgramIsTold holds files that a cloud or a file manager put beside an entry, changed since.
func TestACopyMadeByAnotherProgramIsTold(t *testing.T) {
	day := func(events string) *fstest.MapFile {
		return fileOf("---\ndate: 2026-03-14\nevents:\n" + events + "---\nText.\n")
	}
	for name, want := range map[string]int{"2026-03-14 (1).md": 1, "2026-03-14 - Kopie.md": 1, "2026-03-14 (conflicted copy 2026-03-15).md": 1, "2026-03-14-copying.md": 0, "2026-03-14-2.md": 0} {
		fsys := small("date: 2026-03-14\nevents:\n  - stocked: 9\n")
		fsys["entries/"+name] = day("  - stocked: 9\n  - died: 1\n")
		if got := strings.Count(told(Read(fsys)), "same-entry"); got != want {
			t.Errorf("%s: told of %d copies, want %d:\n%s", name, got, want, told(Read(fsys)))
		}
	}
	alone := small("title: x\ndate: 2026-03-13\n")
	alone["entries/2026-03-14 (1).md"] = day("  - died: 1\n")
	if got := told(Read(alone)); strings.Contains(got, "same-entry") {
		t.Errorf("the only entry of a day: %s", got)
	}
}

// TestAMisspeltTankIsToldOfOnce holds that no tank is asked for where one was meant.
func TestAMisspeltTankIsToldOfOnce(t *testing.T) {
	_, problems := ParseEntry("e.md", []byte("---\ndate: 2026-03-14\nTank: window\nevents:\n  - moulted: 1\n---\n"), settingsOf(t, twoTanks))
	checkHints(t, "Tank", problems, []string{`unknown key "Tank" in an entry; did you mean "tank"?`})
}
