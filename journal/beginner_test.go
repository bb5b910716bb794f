package journal

import "testing"

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
	_, problems := ParseSettings([]byte(titled + "tanks: {a: {heater: none}}\ngrades: A, B, C"))
	checkHints(t, "settings", problems, []string{"leave the line out", "write grades: [A, B, C]"})
}

// TestEventsInTheTextWithACapital holds lines of a text as they begin a sentence.
func TestEventsInTheTextWithACapital(t *testing.T) {
	_, problems := ParseEntry("e.md", []byte("---\ndate: 2026-03-14\n---\nBerried: 1\n\nDied: nothing new.\n"), settingsOf(t, twoTanks))
	checkHints(t, "text", problems, []string{"move it above the second line of hyphens, below events:, as   - berried: 1"})
}
