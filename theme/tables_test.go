package theme

import (
	"strings"
	"testing"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/water"
	"pleopod/journal/wording"
)

// A cell that a spreadsheet would run as a formula gets an apostrophe; a number keeps its sign.
func TestCellsThatASpreadsheetWouldRun(t *testing.T) {
	table := dataTable{
		columns: []dataColumn{{name: "a"}, {name: "b"}, {name: "c"}, {name: "d"}, {name: "e"}, {name: "f"}},
		rows:    func(*book) [][]string { return [][]string{{"=1+1", "-3.5", "+2", "@sum", "-polka", "moss, old"}} },
	}
	got, err := table.write(nil)
	if err != nil {
		t.Fatal(err)
	}
	if want := "a,b,c,d,e,f\r\n'=1+1,-3.5,+2,'@sum,'-polka,\"moss, old\"\r\n"; string(got) != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// What only the replay knows, and what is seldom, is said as well: an event of the only open brood, and of one that nobody named.
func TestSeldomSentences(t *testing.T) {
	b := newBook(public(told(t, journalOf(oneTank,
		"date: 2026-02-20\ntank: shelf\nevents:\n  - stocked: 10\n---\n",
		"date: 2026-02-27\ntank: shelf\nevents:\n  - berried: 1\n    brood: amber\n---\n",
		"date: 2026-03-14\ntank: shelf\nevents:\n  - eyed: true\n---\n",
		"date: 2026-03-19\ntank: shelf\nevents:\n  - hatched: true\n    shrimplets: 8\n---\n"))), nil)
	p := b.pen("index.html")
	var said []string
	for _, e := range b.entries {
		for _, line := range p.lines(e) {
			said = append(said, strings.ReplaceAll(plain(line.Words), wording.Joined, " "))
		}
	}
	all := strings.Join(said, "|")
	for _, want := range []string{"eyes visible in the eggs of amber", "8 shrimplets seen, amber hatched"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not said in %q", want, all)
		}
	}
	falls := forecast.WaterCreep{Kind: journal.GH, Drift: water.Drift{PerWeek: -0.4, SD: 0.1, Samples: 9}, Taken: 2}
	words := strings.ReplaceAll(plain(p.creepFact(falls).Words), wording.Joined, " ")
	for _, want := range []string{"falls by about 0.4 dGH a week (0.24 to 0.56, 90 %)", "plants and moults do that",
		"the new water of 2 changes had no reading"} {
		if !strings.Contains(words, want) {
			t.Errorf("%q is not said in %q", want, words)
		}
	}
}
