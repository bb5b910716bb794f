package journal

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestMistakesInEvents holds mistakes in the list of events, which begins in line 5.
func TestMistakesInEvents(t *testing.T) {
	settings := settingsOf(t, twoTanks)
	for _, test := range []mistake{
		{"- bered: 2", []string{
			`5:5 unknown-event: unknown event "bered"; did you mean "berried"?`,
		}},
		{"- died", []string{
			`5:5 not-an-event: "died" has no value; an event is a kind with a value | write died: 1`,
		}},
		{"- died 2", []string{
			`5:5 not-an-event: "died 2" has no value; an event is a kind with a value | write died: 2`,
		}},
		{"- courting", []string{
			`5:5 not-an-event: "courting" has no value; an event is a kind with a value | write courting: true`,
		}},
		{"- hello", []string{
			`5:5 not-an-event: "hello" has no value; an event is a kind with a value | for example:   - moulted: 1`,
		}},
		{"- brood: amber", []string{
			`5:5 no-kind: "brood" tells more of an event, and the event itself is missing | begin the item with what happened, such as: berried: [ruby]`,
		}},
		{"- eggs: 1", []string{
			`5:5 no-kind: "eggs" tells more of an event, and the event itself is missing; it goes with "berried" or "dropped" | begin the item with what happened, such as: berried: [ruby]`,
		}},
		{"- note: shy", []string{
			`5:5 no-kind: "note" tells more of an event, and the event itself is missing | begin the item with what happened, such as: moulted: 1`,
		}},
		{"- hatched: ~20", []string{
			`5:14 not-a-name: "~20" is no name; names are made of letters, digits, spaces, hyphens and apostrophes | write hatched: true, or the name of the brood, and below it shrimplets: 20`,
		}},
		{"- moulted: 1\n    date: 21 March 2026", []string{
			`6:11 not-a-date: "date" is "21 March 2026"; a date is written like 2026-03-14 | write it as 2026-03-21`,
		}},
		{"- water: {temperature: 23.4 C gh: 8}", []string{
			`5:26 unknown-unit: "temperature" is "23.4 C gh: 8"; a comma is missing before "gh:" | inside braces a comma stands after each value`,
		}},
		{"- berried: 1\n    moulted: 2", []string{
			`6:5 two-kinds: "berried" and "moulted" are two events; each is an item of the list | put a hyphen before "moulted"`,
		}},
		{"- {}", []string{
			"5:5 not-an-event: an event is a kind with a value | for example:   - moulted: 1",
		}},
		{"-", []string{
			"5:4 not-an-event: an event is a kind with a value | for example:   - moulted: 1",
		}},
		{"- [a]", []string{
			"5:5 not-an-event: an event is a kind with a value | for example:   - moulted: 1",
		}},
		{"- berried: 1\n    eggz: 3", []string{
			`6:5 unknown-key: unknown key "eggz" in "berried"; did you mean "eggs"?`,
		}},
		{"- died: 1\n    reason: x", []string{
			`6:5 unknown-key: unknown key "reason" in "died"; did you mean "cause"? | "reason" goes with "dropped" or "removed"`,
		}},
		{"- berried: 1\n    cause: x", []string{
			`6:5 unknown-key: unknown key "cause" in "berried"; allowed: "berried", "brood", "eggs", "last-clear", "tank", "date" or "note" | "cause" goes with "died"`,
		}},
		{"- berried: ruby", []string{
			`5:14 not-a-count: "berried" is "ruby"; it takes a number of shrimp, classes in braces, or a list of names | for a shrimp of that name write berried: [ruby]`,
		}},
		{"- berried: twoo", []string{
			`5:14 not-a-count: "berried" is "twoo"; it takes a number of shrimp, classes in braces, or a list of names | for a shrimp of that name write berried: [twoo]`,
		}},
		{"- berried: [ruby, ruby]", []string{
			`5:21 word-twice: "ruby" is given twice`,
		}},
		{"- berried: [ruby, 2]", []string{
			`5:21 not-a-name: "2" is no name | if it is one, put it in quotes: "2"`,
		}},
		{"- berried: -1", []string{
			`5:14 number-without-meaning: "berried" is "-1"; it cannot be below zero`,
		}},
		{"- berried: 2.5", []string{
			`5:14 not-a-count: "berried" is "2.5"; it takes a number of shrimp, classes in braces, or a list of names | for example: berried: 1, or with names berried: [ruby, pearl]`,
		}},
		{"- berried: 2,5", []string{
			`5:14 not-a-count: "berried" is "2,5"; it takes a number of shrimp, classes in braces, or a list of names | write 2.5`,
		}},
		{"- berried: 1,000", []string{
			`5:14 not-a-count: "berried" is "1,000"; it takes a number of shrimp, classes in braces, or a list of names | write 1000, or with a point 1.000`,
		}},
		{"- berried: 2 shrimp", []string{
			`5:14 not-a-count: "berried" is "2 shrimp"; it takes a number of shrimp, classes in braces, or a list of names | write 2`,
		}},
		{"- berried: ", []string{
			`5:5 no-value: "berried" has no value | give it one, as in berried: [ruby], or take it out`,
		}},
		{"- berried: {females: 2, fmales: 3}", []string{
			`5:27 unknown-key: unknown key "fmales" in "berried"; did you mean "males"?`,
		}},
		{"- berried: {}", []string{
			`5:14 not-a-count: "berried" is a group of keys; it names no class | for example: berried: {females: 4, males: 3}`,
		}},
		{"- berried: []", []string{
			`5:14 not-a-list: "berried" is an empty list; it takes a list of names | for example: berried: [ruby, pearl]`,
		}},
		{"- berried: 9999999", []string{
			`5:14 number-without-meaning: "berried" is "9999999"; at most 100000 are understood`,
		}},
		{"- berried: ２", []string{
			`5:14 not-a-count: "berried" is "２"; it takes a number of shrimp, classes in braces, or a list of names | it holds full-width digits; write 2`,
		}},
		{`- berried: "2"`, []string{}},
		{"- berried: 0x17", []string{
			`5:14 not-a-count: "berried" is "0x17"; it takes a number of shrimp, classes in braces, or a list of names | for example: berried: 1, or with names berried: [ruby, pearl]`,
		}},
		{"- berried: 1_000", []string{
			`5:14 not-a-count: "berried" is "1_000"; it takes a number of shrimp, classes in braces, or a list of names | for example: berried: 1, or with names berried: [ruby, pearl]`,
		}},
		{"- berried: .nan", []string{
			`5:14 not-a-count: "berried" is ".nan"; it takes a number of shrimp, classes in braces, or a list of names | for example: berried: 1, or with names berried: [ruby, pearl]`,
		}},
		{"- berried: yes", []string{
			`5:14 not-a-count: "berried" is "yes"; it takes a number of shrimp, classes in braces, or a list of names | write berried: 1`,
		}},
		{"- berried: 2\n    brood: [a, b, c]", []string{
			"6:12 brood-names: 3 names for 2 broods; give one name, or one for each",
		}},
		{"- berried: 2\n    brood: [a, b]", []string{}},
		{"- berried: 2\n    brood: 12", []string{
			`6:12 not-a-name: "12" is no name | if it is one, put it in quotes: "12"`,
		}},
		{"- berried: 2\n    brood: \u201camber\u201d", []string{
			`6:12 not-a-name: "“amber”" is no name; names are made of letters, digits, spaces, hyphens and apostrophes | it holds typographic quotes; write amber`,
		}},
		{"- berried: 2\n    brood: <b>", []string{
			`6:12 not-a-name: "<b>" is no name; names are made of letters, digits, spaces, hyphens and apostrophes`,
		}},
		{"- berried: 2\n    last-clear: yesterday", []string{
			`6:17 not-a-date: "last-clear" is "yesterday"; a date is written like 2026-03-14 | write it as 2026-03-13, counted from the date of the entry`,
		}},
		{"- eyed: true", []string{}},
		{"- eyed: false", []string{
			`5:11 not-a-name: "eyed" is "false"; it takes true or the name of a brood | leave the event out`,
		}},
		{"- eyed: [a]", []string{
			`5:11 not-a-name: "eyed" is a list; it takes one name | write an event for each brood, with eyed: amber`,
		}},
		{"- eyed: 7", []string{
			`5:11 not-a-name: "eyed" is "7"; it takes true or the name of a brood | write eyed: true, or put the name of the brood in quotes: "7"`,
		}},
		{"- hatched: amber\n    shrimplets: many", []string{
			`6:17 not-a-whole-number: "shrimplets" is "many"; it takes a whole number | write the number that you saw`,
		}},
		{"- dropped: amber\n    eggs: -3", []string{
			`6:11 number-without-meaning: "eggs" is "-3"; it cannot be below zero`,
		}},
		{"- sighted: 7\n    brood: [a]", []string{
			`6:12 not-a-name: "brood" is a list; it takes one name | write an event for each brood, with brood: amber`,
		}},
		{"- counted: 5\n    method: carefull", []string{
			`6:13 unknown-word: unknown method "carefull"; did you mean "careful"?`,
		}},
		{"- counted: 5\n    method: [glance]", []string{
			`6:13 not-a-choice: "method" is a list; it takes one of "glance", "careful" or "emptied"`,
		}},
		{`- measured: [21, 22 mm, 0.9 in, 2.1 cm, x, "22,5"]`, []string{
			`5:43 not-a-number: "measured" is "x"; it takes a number | for example: measured: [21 mm, 22.5 mm]`,
			`5:46 decimal-comma: "measured" is "22,5"; it takes a number | write 22.5`,
		}},
		{"- measured: 22,5", []string{
			`5:15 decimal-comma: "measured" is "22,5"; it takes a number | write 22.5`,
		}},
		{"- measured: [22,5]", []string{
			`5:16 decimal-comma: warning: "22,5" is read as two numbers, 22 and 5 | write 22.5 for one, or put a space after the comma for two`,
		}},
		{"- measured: 21", []string{}},
		{"- measured: [210]", []string{
			"5:16 unusual-length: warning: a length of 210 mm is unusual; dwarf shrimp have 1 to 45 mm",
		}},
		{"- measured: [21, 22]\n    names: [ruby]", []string{
			"6:12 measured-names: 1 name for 2 lengths; give one name for each length",
		}},
		{"- measured: [21]\n    sex: f", []string{
			`6:10 unknown-word: unknown sex "f"; did you mean "female"?`,
		}},
		{"- measured: [21]\n    hatched-on: 3/4/2026", []string{
			`6:17 not-a-date: "hatched-on" is "3/4/2026"; a date is written like 2026-03-14 | write it as 2026-04-03, or 2026-03-04 if the month stands first`,
		}},
		{"- graded: {pale: 2, dark: 1, even: x}", []string{
			`5:23 unknown-grade: unknown grade "dark"; allowed: "pale", "even" or "deep"`,
			`5:38 not-a-whole-number: "even" is "x"; it takes a whole number`,
		}},
		{"- graded: 3", []string{
			`5:13 not-a-mapping: "graded" is "3"; it takes grades with counts | for example: graded: {pale: 2, deep: 5}`,
		}},
		{"- died: 1\n    cause: [x]", []string{
			`6:12 not-text: "cause" is a list; it takes a text | put a text with brackets or braces in quotes`,
		}},
		{"- removed: 1\n    reason: sell", []string{
			`6:13 unknown-word: unknown reason "sell"; allowed: "sold", "given", "culled" or "moved-out"`,
		}},
		{"- moved: [ruby]", []string{
			`5:5 missing-key: "moved" has no "to" | add: to: window`,
		}},
		{"- moved: [ruby]\n    to: windw", []string{
			`6:9 unknown-tank: unknown tank "windw"; did you mean "window"?`,
		}},
		{"- moved: [ruby]\n    to: window", []string{}},
		{"- water: {ph: 7,4}", []string{
			`5:17 decimal-comma: "ph" is "7,4"; a decimal number has a point | write 7.4`,
		}},
		{"- water: {temperature: 23,4 C, ph: 7}", []string{
			`5:26 decimal-comma: "temperature" is "23,4 C"; a decimal number has a point | write 23.4 C`,
		}},
		{`- water: {temperature: "23,4"}`, []string{
			`5:26 decimal-comma: "temperature" is "23,4"; it takes a number, or < and a number | write 23.4`,
		}},
		{"- water: {ph: 15, gh: -1, temperature: 50 C}", []string{
			`5:17 number-without-meaning: "ph" is "15"; pH runs from 0 to 14`,
			`5:25 number-without-meaning: "gh" is "-1"; it cannot be below zero`,
			`5:42 number-without-meaning: "temperature" is "50 C"; it can be 0 to 45 C`,
		}},
		{"- water: {ammonia: trace, nitrate: 0-5, nitrite: <0.25, copper: 0.5}", []string{
			`5:22 not-a-reading: "ammonia" is "trace"; it takes a number, or < and a number | for a trace too small to read, write < and the smallest step of the test, such as <0.25`,
			`5:38 not-a-reading: "nitrate" is "0-5"; it takes a number, or < and a number | a reading is one number: 0, 5, or <5 for less than that`,
			"5:59 unusual-reading: warning: copper 0.5 mg/L is unusual; a settled tank shows 0",
		}},
		{"- water: {temp: 23, GH: 5}", []string{
			`5:13 unknown-key: unknown key "temp" in "water"; did you mean "temperature"?`,
			`5:23 unknown-key: unknown key "GH" in "water"; did you mean "gh"?`,
		}},
		{"- water: good", []string{
			`5:12 not-a-mapping: "water" is "good"; it takes readings with values | for example: water: {ph: 7.4, gh: 8}`,
		}},
		{"- water: {temperature: 23 K, gh: 140, kh: 4 dkh}", []string{
			`5:26 unknown-unit: "temperature" is "23 K"; unknown unit "K"; allowed: "C" or "F"`,
			"5:32 unusual-reading: warning: gh 140 dGH is unusual; 2 to 22 dGH is usual | if the test reports ppm, write 140 ppm, which is 7.8 degrees; if the decimal point is missing, write 14 dGH",
		}},
		{"- water: {temperature: 74 F, tds: 210 mg/L, conductivity: 0.4 mS/cm}", []string{}},
		{"- water: {temperature: 23\u00a0C, ph: 8.4}", []string{
			`5:32 outside-range: warning: ph 8.4 is outside the range of "north-shelf", 6.8 to 7.8`,
		}},
		{"- water: {ph: }", []string{
			`5:13 no-value: "ph" has no value | give it one, as in ph: 7.4, or take it out`,
		}},
		{"- water: {ph: [7]}", []string{
			`5:17 not-a-reading: "ph" takes one number`,
		}},
		{"- water: {ph: 7.4 pH}", []string{
			`5:17 unknown-unit: "ph" is "7.4 pH"; "pH" after the number; it takes a number alone`,
		}},
		{"- water: {temperature: 23-24}", []string{
			`5:26 not-a-reading: "temperature" is "23-24"; it takes a number, or < and a number | a reading is one number: 23, 24, or <24 for less than that`,
		}},
		{"- water: {temperature: 74}", []string{
			`5:26 number-without-meaning: "temperature" is "74"; it can be 0 to 45 C | if it is Fahrenheit, write 74 F`,
		}},
		{"- water-change: 25", []string{
			`5:19 no-unit: "water-change" is "25"; it needs a unit: "%", "L" or "gal" | write 25 % or 25 L`,
		}},
		{"- water-change: 25 %", []string{}},
		{"- water-change: 125 %", []string{
			`5:19 number-without-meaning: "water-change" is "125 %"; a share is 0 to 100 %`,
		}},
		{"- water-change: 10 gal", []string{}},
		{"- water-change: 10 litr", []string{
			`5:19 unknown-unit: "water-change" is "10 litr"; unknown unit "litr"; allowed: "%", "L" or "gal"`,
		}},
		{"- water-change: half", []string{
			`5:19 not-a-number: "water-change" is "half"; it takes a number | write 50 %`,
		}},
		{"- water-change: 25%\n    with: {gh: x}\n    temperature: 22C", []string{
			`6:16 not-a-reading: "gh" is "x"; it takes a number, or < and a number | write the number beside the colour that comes nearest`,
		}},
		{"- dosed: {a: b}", []string{
			`5:12 not-text: "dosed" is a group of keys; it takes a text | put a text with brackets or braces in quotes`,
		}},
		{"- dosed: 5 mL\n    substance: salt", []string{}},
		{"- fed: 1", []string{}},
		{"- stocked: 10\n    age: 3", []string{
			`6:10 no-unit: "age" is "3"; it needs a unit: "days", "weeks", "months" or "years" | write 3 months`,
		}},
		{"- stocked: 10\n    age: 3 months\n    length: 18", []string{}},
		{"- stocked: 10\n    age: 3 moths", []string{
			`6:10 unknown-unit: "age" is "3 moths"; unknown unit "moths"; did you mean "months"?`,
		}},
		{"- moulted: 1\n    failed: yes", []string{
			`6:13 not-a-flag: "failed" is "yes"; it takes true | write failed: true`,
		}},
		{"- moulted: 1\n    failed: no", []string{
			`6:13 not-a-flag: "failed" is "no"; it takes true | leave the line out`,
		}},
		{"- moulted: 1\n    tank: nowhere", []string{
			`6:11 unknown-tank: unknown tank "nowhere"; journal.yaml has "north-shelf" or "window"`,
		}},
		{"- moulted: 1\n    note:", []string{
			`6:5 no-value: warning: "note" has no value; it is taken as not written | give it one, as in note: under the moss, or take it out`,
		}},
		{"- moulted: 1\n    date: 2026-02-31", []string{
			`6:11 no-such-date: "date" is "2026-02-31"; there is no such day | that month ends on 2026-02-28`,
		}},
		{"- moulted: 1\n  - moulted: 1\n    moulted: 2", []string{
			`7:5 key-twice: "moulted" is given twice; the first is in line 6`,
		}},
	} {
		_, problems := ParseEntry("e.md", []byte(entryWith(test.written)), settings)
		if diff := cmp.Diff(strings.Join(test.want, "\n"), strings.TrimSuffix(briefs(problems), "\n")); diff != "" {
			t.Errorf("%q (-want +got):\n%s", test.written, diff)
		}
	}
}
