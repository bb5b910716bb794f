package main

import (
	"bytes"
	"image"
	"image/png"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
)

// shown is how the example and the fix of an explanation are put into a journal. Where the explanation says in
// words what raises it, or what to do, the journal is written out here.
type shown struct {
	code  string
	where string // the frame that holds the text
	wrong string // "" for the example of the explanation
	right string // "" for its fix, and "-" where nothing is to be written
}

// frames is the places of a journal; %s is what an example is put for.
var frames = map[string]string{
	"key":    "---\ndate: 2026-03-14\n%s\n---\n",
	"event":  "---\ndate: 2026-03-14\ntank: north-shelf\nevents:\n  - %s\n---\n",
	"event*": "---\ndate: 2026-03-14\ntank: north-shelf\nevents:\n  - moulted: 1\n    %s\n---\n",
	"count":  "---\ndate: 2026-03-14\ntank: north-shelf\nevents:\n  - counted: 5\n    %s\n---\n",
	"berry":  "---\ndate: 2026-03-14\ntank: north-shelf\nevents:\n  - berried: 1\n    %s\n---\n",
	"water":  "---\ndate: 2026-03-14\ntank: north-shelf\nwater: {%s}\n---\n",
	"events": "---\ndate: 2026-03-14\ntank: north-shelf\nevents:\n  %s\n---\n",
	"body":   "---\ndate: 2026-03-14\n---\n%s\n",
	"entry":  "%s",
}

// rows puts every explanation into a journal, in the order of the manual.
var rows = []shown{
	{"not-utf-8", "body", "caf\xe9", "café"},
	{"front-matter", "entry", "date: 2026-03-14\n", "---\ndate: 2026-03-14\n---\n"},
	{"yaml-syntax", "key", "", ""},
	{"comment-in-value", "key", "", ""},
	{"yaml-reference", "event*", "", ""},
	{"yaml-depth", "events", "", "- moulted: 1"},
	{"too-long", "key", "title: " + strings.Repeat("x", 100_000), "title: x"},
	{"event-in-text", "body", "died: 2", "Two died."},
	{"html-left-out", "body", "", "![Ruby](../photos/ruby.png)"},
	{"no-such-entry", "body", "[x](2026-03-31.md)", "[x](a.md)"},
	{"markdown-cost", "body", strings.Repeat("*a_ ", 5000), strings.Repeat("*a_ \n\n", 50)},
	{"more-problems", "key", "events:\n" + strings.Repeat("  - bered: 1\n", 300), "tank: window\nevents:\n  - moulted: 1"},
	{"unknown-key", "key", "", ""},
	{"key-twice", "key", "tank: north-shelf\ntank: window", "tank: window"},
	{"missing-key", "entry", "---\ntitle: x\n---\n", "---\ndate: 2026-03-14\n---\n"},
	{"no-value", "key", "", "title: Eggs"},
	{"unknown-word", "count", "", ""},
	{"unknown-tank", "key", "", ""},
	{"unknown-grade", "event", "graded: {dark: 2}", "graded: {deep: 2}"},
	{"no-grades", "no grades", "graded: {pale: 2}", "-"},
	{"unknown-unit", "water", "", ""},
	{"no-unit", "event", "", ""},
	{"no-tank", "key", "events:\n  - moulted: 1", "tank: north-shelf\nevents:\n  - moulted: 1"},
	{"no-tanks", "settings", "title: T\naddress: https://example.org/\ntanks:", "title: T\naddress: https://example.org/\ntanks: {north-shelf: {volume: 38 L}}"},
	{"no-address", "settings", "title: T\ntanks: {window: {}}", "address: https://example.org/shrimp/\ntitle: T\ntanks: {window: {}}"},
	{"word-twice", "event", "", ""},
	{"not-text", "key", "", ""},
	{"not-a-list", "key", "topics: {a: b}", "topics: [a]"},
	{"not-a-mapping", "key", "tank: north-shelf\nwater: good", "tank: north-shelf\nwater: {ph: 7.4, gh: 8}"},
	{"not-a-date", "entry", "---\ndate: 14.03.2026\n---\n", "---\ndate: 2026-03-14\n---\n"},
	{"no-such-date", "entry", "---\ndate: 2026-02-30\n---\n", "---\ndate: 2026-02-28\n---\n"},
	{"date-order", "berry", "last-clear: 2026-03-20", "last-clear: 2026-03-12"},
	{"not-a-flag", "event*", "", ""},
	{"not-a-choice", "event", "removed: 2\n    reason: [sold, given]", "removed: 2\n    reason: sold"},
	{"not-a-name", "berry", "brood: \"#1\"", "brood: amber"},
	{"not-a-tank", "settings", "title: T\naddress: https://example.org/\ntanks: {North Shelf: {volume: 38 L}}", "title: T\naddress: https://example.org/\ntanks: {north-shelf: {name: North Shelf, volume: 38 L}}"},
	{"not-an-address", "settings*", "", ""},
	{"not-a-language", "settings*", "", ""},
	{"brood-names", "event", "berried: 3\n    brood: [amber, flint]", "berried: 3\n    brood: [amber, flint, jade]"},
	{"measured-names", "event", "measured: [21, 22]\n    names: [ruby]", "measured: [21, 22]\n    names: [ruby, pearl]"},
	{"not-a-number", "tank", "", ""},
	{"not-a-whole-number", "berry", "", ""},
	{"not-a-count", "event", "", "died: 1"},
	{"not-a-reading", "water", "", ""},
	{"not-a-range", "tank", "", ""},
	{"decimal-comma", "key", "tank: north-shelf\nwater: {ph: 7,4}", "tank: north-shelf\nwater: {ph: 7.4}"},
	{"number-without-meaning", "key", "tank: north-shelf\nwater: {ph: 74}", "tank: north-shelf\nwater: {ph: 7.4}"},
	{"parameter-range", "settings*", "", ""},
	{"parameters-contradict", "settings*", "biology: {growth: {female-mature: 28 mm}}", "biology: {growth: {female-mature: 15 mm}}"},
	{"outside-range", "ranged", "water: {ph: 8.4}", "water: {ph: 7.4}"},
	{"unusual-reading", "key", "tank: north-shelf\nwater: {gh: 140}", "tank: north-shelf\nwater: {gh: 140 ppm}"},
	{"unusual-number", "event", "stocked: 5\n    age: 40 months", "stocked: 5\n    age: 4 months"},
	{"nothing-happened", "event", "", "moulted: 1"},
	{"unusual-length", "event", "", ""},
	{"unknown-event", "event", "", ""},
	{"no-kind", "events", "", "- berried: 1\n    brood: amber"},
	{"two-kinds", "event", "berried: 1\n    moulted: 2", "berried: 1\n  - moulted: 2"},
	{"not-an-event", "events", "", ""},
	{"missing-file", "body", "![Ruby](../photos/ruby.jpg)", "![Ruby](../photos/ruby.png)"},
	{"bad-path", "body", "", "![Ruby](../photos/ruby.png)"},
	{"not-a-file", "tank", "cover: photos", "cover: photos/ruby.png"},
	{"not-a-folder", "settings*", "look: photos/ruby.png", "look: photos"},
	{"not-a-picture", "body", "![Ruby](../photos/notes.jpg)", "![Ruby](../photos/ruby.png)"},
	{"not-shown", "body", "", "![Ruby](<../photos/ruby.png>)"},
	{"no-alt", "body", "![](../photos/ruby.png)", "![Ruby](../photos/ruby.png)"},
	{"unused-photo", "body", "no picture", "![Ruby](../photos/ruby.png)"},
	{"log-header", "log", "Zeit;Wert\n", "time;temperature (C)\n"},
	{"log-row", "log", "time;temperature (C)\n2026-03-14 08:00;ERR\n", "time;temperature (C)\n2026-03-14 08:00;\n"},
	{"unknown-brood", "event", "", "berried: 1\n    brood: amber\n  - hatched: amber"},
	{"too-many-broods", "event", "berried: 1000", "berried: 10"},
	{"too-many-events", "event", strings.Repeat("moulted: 1\n  - ", 120) + "moulted: 1", "moulted: 100"},
	{"too-many-shrimp", "event", "", "stocked: 10"},
	{"too-long-ago", "event", "stocked: 10\n    date: 1962-03-14", "stocked: 10\n    date: 2026-03-14"},
	{"brood-before-berried", "event", "berried: 1\n    brood: amber\n  - eyed: amber\n    date: 2026-03-01", "berried: 1\n    brood: amber\n  - eyed: amber"},
	{"brood-hatched", "event", "berried: 1\n    brood: amber\n    date: 2026-02-14\n  - hatched: amber\n  - hatched: amber", "berried: 1\n    brood: amber\n    date: 2026-02-14\n  - hatched: amber\n  - sighted: 5\n    brood: amber"},
	{"brood-dropped", "event", "berried: 1\n    brood: amber\n  - dropped: amber\n  - hatched: amber", "berried: 1\n    brood: amber\n  - dropped: amber\n    eggs: 5"},
	{"brood-name-taken", "event", "berried: 1\n    brood: amber\n  - berried: 1\n    brood: amber", "berried: 1\n    brood: amber\n  - berried: 1\n    brood: amber-2"},
	{"brood-unclear", "event", "berried: 2\n    brood: [amber, flint]\n  - eyed: true", "berried: 2\n    brood: [amber, flint]\n  - eyed: amber"},
	{"no-open-brood", "event", "hatched: true", "berried: 1\n  - eyed: true"},
	{"brood-not-hatched", "event", "berried: 1\n    brood: amber\n  - sighted: 7\n    brood: amber", "berried: 1\n    brood: amber\n    date: 2026-02-14\n  - hatched: amber\n  - sighted: 7\n    brood: amber"},
	{"brood-elsewhere", "event", "berried: [ruby]\n    brood: amber\n  - eyed: amber\n    tank: window", "berried: [ruby]\n    brood: amber\n  - moved: [ruby]\n    to: window\n  - eyed: amber\n    tank: window"},
	{"already-berried", "event", "berried: [ruby]\n  - berried: [ruby]", "berried: [ruby]\n    brood: amber\n  - dropped: amber\n  - berried: [ruby]"},
	{"berried-again", "event", "berried: 1\n    note: still berried", "moulted: 1\n    note: still berried"},
	{"clear-too-early", "event", "stocked: 5\n    date: 2026-03-01\n  - berried: 1\n    last-clear: 2026-02-12", "stocked: 5\n    date: 2026-03-01\n  - berried: 1\n    last-clear: 2026-03-12"},
	{"more-than-eggs", "event", "berried: 1\n    brood: amber\n    eggs: 20\n    date: 2026-02-14\n  - hatched: amber\n    shrimplets: 30", "berried: 1\n    brood: amber\n    date: 2026-02-14\n  - hatched: amber\n    shrimplets: 30"},
	{"unlikely-hatch", "event", "water: {temperature: 22 C}\n    date: 2026-03-08\n  - berried: 1\n    brood: amber\n    date: 2026-03-08\n    last-clear: 2026-03-07\n  - hatched: amber", "berried: 1\n    brood: amber\n    date: 2026-02-14\n  - hatched: amber"},
	{"after-as-of", "entry", "---\ndate: 2026-06-14\n---\n", "---\ndate: 2026-03-14\n---\n"},
	{"before-since", "entry", "---\ndate: 2024-03-14\ntank: north-shelf\nevents:\n  - moulted: 1\n---\n", "---\ndate: 2026-03-14\ntank: north-shelf\nevents:\n  - moulted: 1\n---\n"},
	{"tank-unused", "key", "tank: north-shelf\nevents:\n  - moulted: 1", "tank: [north-shelf, window]\nwater: {ph: 7}"},
	{"more-than-alive", "event", "stocked: 10\n  - removed: 30", "stocked: 40\n  - removed: 30"},
	{"year-off", "event*", "", ""},
	{"removed-to-tank", "event", "stocked: 5\n  - removed: 2\n    to: window", "stocked: 5\n  - moved: 2\n    to: window"},
	{"moved-nowhere", "event", "stocked: 5\n  - moved: [ruby]\n    to: north-shelf", "stocked: 5\n  - moved: [ruby]\n    to: window"},
	{"shrimp-gone", "event", "stocked: 5\n  - died: [ruby]\n    date: 2026-03-10\n  - berried: [ruby]", "stocked: 5\n  - died: [ruby]\n    date: 2026-03-10\n  - berried: [ruby-2]"},
	{"shrimp-elsewhere", "event", "stocked: 5\n  - saddled: [ruby]\n  - moulted: [ruby]\n    tank: window", "stocked: 5\n  - saddled: [ruby]\n  - moved: [ruby]\n    to: window\n  - moulted: [ruby]\n    tank: window"},
	{"names-alike", "event", "berried: [ruby]\n  - died: [Rubby]", "berried: [ruby]\n  - died: [ruby]"},
	{"sex-changed", "event", "berried: [ruby]\n  - measured: [19]\n    sex: male\n    names: [ruby]", "berried: [ruby]\n  - measured: [19]\n    sex: male\n    names: [pearl]"},
	{"origin-impossible", "event", "berried: [ruby]\n    brood: amber\n    date: 2026-02-14\n  - hatched: amber\n  - measured: [19]\n    brood: amber\n    names: [ruby]", "berried: [ruby]\n    brood: amber\n    date: 2026-02-14\n  - hatched: amber\n  - measured: [3]\n    brood: amber\n    names: [pearl]"},
	{"origin-changed", "event", "berried: 2\n    brood: [amber, flint]\n    date: 2026-02-10\n  - hatched: amber\n    date: 2026-03-12\n  - hatched: flint\n    date: 2026-03-12\n  - measured: [3]\n    brood: amber\n    names: [ruby]\n  - measured: [3]\n    brood: flint\n    names: [ruby]",
		"berried: 2\n    brood: [amber, flint]\n    date: 2026-02-10\n  - hatched: amber\n    date: 2026-03-12\n  - hatched: flint\n    date: 2026-03-12\n  - measured: [3]\n    brood: amber\n    names: [ruby]\n  - measured: [3]\n    brood: flint\n    names: [pearl]"},
}

// elsewhere is the problems that other tests raise (journal/files_test.go, journal/unread_test.go, journal/lost_test.go, gather.txtar), because a
// folder in memory with one entry cannot.
var elsewhere = []string{"no-journal", "not-read", "unreadable-file", "outside-journal", "folder-link", "photo-size", "gather-row", "same-entry", "name-and-date"}

// written puts a text into a journal.
func written(t *testing.T, where, text string) fstest.MapFS {
	t.Helper()
	var picture bytes.Buffer
	if err := png.Encode(&picture, image.NewGray(image.Rect(0, 0, 4, 4))); err != nil {
		t.Fatal(err)
	}
	settings := "title: T\naddress: https://example.org/\ngrades: [pale, even, deep]\ntanks:\n  north-shelf:\n    since: 2025-01-12\n  window: {}\n"
	entry := frames["key"]
	switch where {
	case "settings":
		settings, text = text, "topics: [a]"
	case "settings*":
		settings, text = strings.Replace(settings, "address: https://example.org/\n", map[bool]string{false: "address: https://example.org/\n"}[strings.HasPrefix(text, "address")]+text+"\n", 1), "topics: [a]"
	case "tank":
		settings, text = strings.Replace(settings, "    since", "    "+text+"\n    since", 1), "topics: [a]"
	case "ranged":
		settings, text = strings.Replace(settings, "    since", "    water-range: {ph: 6.8-7.8}\n    since", 1),
			"tank: north-shelf\n"+text
	case "no grades":
		settings, entry = strings.Replace(settings, "grades: [pale, even, deep]\n", "", 1), frames["event"]
	case "log":
		settings = strings.Replace(settings, "    since", "    temperature-log: readings/a.csv\n    since", 1)
	default:
		entry = frames[where]
	}
	folder := fstest.MapFS{journal.SettingsFile: {Data: []byte(settings)},
		"photos/ruby.png": {Data: picture.Bytes()}, "photos/notes.jpg": {Data: []byte("no picture")}}
	if where == "log" {
		folder["readings/a.csv"] = &fstest.MapFile{Data: []byte(text)}
		text = "topics: [a]"
	}
	if strings.Contains(where, "body") && !strings.Contains(text, "notes.jpg") {
		delete(folder, "photos/notes.jpg")
	}
	folder["entries/a.md"] = &fstest.MapFile{Data: []byte(strings.Replace(entry, "%s", text, 1))}
	return folder
}

// problemsOf reads, replays and predicts.
func problemsOf(folder fstest.MapFS) []journal.Problem {
	j := journal.Read(folder)
	day := journal.NewDay(2026, 4, 10)
	c := colony.Replay(j, day)
	problems := slices.Concat(j.Problems, colony.Later(j, day), c.Problems)
	if !journal.HasErrors(problems) {
		problems = append(problems, forecast.Days(c).Problems...)
	}
	return problems
}

// TestEveryExplanationIsTrue puts the example of each kind of problem into a journal, where it must raise it,
// and the fix, which must not.
func TestEveryExplanationIsTrue(t *testing.T) {
	has := func(problems []journal.Problem, code string) bool {
		return slices.ContainsFunc(problems, func(p journal.Problem) bool { return p.Code == code })
	}
	tested := slices.Clone(elsewhere)
	for _, row := range rows {
		tested = append(tested, row.code)
		e, ok := journal.Explain(row.code)
		if !ok {
			t.Errorf("%s has no explanation", row.code)
			continue
		}
		wrong, right := row.wrong, row.right
		if wrong == "" {
			wrong = strings.TrimPrefix(e.Example, map[string]string{"event": "- "}[row.where])
		}
		if right == "" {
			right = strings.TrimPrefix(e.Fix, map[string]string{"event": "- "}[row.where])
		}
		if problems := problemsOf(written(t, row.where, wrong)); !has(problems, row.code) {
			t.Errorf("%s: the example %.200q raises %v", row.code, wrong, problems)
		}
		if right == "-" {
			continue
		}
		if problems := problemsOf(written(t, row.where, right)); has(problems, row.code) || journal.HasErrors(problems) {
			t.Errorf("%s: the fix %.200q raises %v", row.code, right, problems)
		}
	}
	for _, e := range journal.Explanations() {
		if !slices.Contains(tested, e.Code) {
			t.Errorf("nothing raises %s", e.Code)
		}
	}
}
