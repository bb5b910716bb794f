package colony_test

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"pleopod/journal"
	"pleopod/journal/colony"
)

func TestNamesExistFromFirstMention(t *testing.T) {
	mentions := map[string]journal.Happening{
		"saddled":  &journal.Saddled{Shrimp: named("ruby")},
		"moulted":  &journal.Moulted{Shrimp: named("ruby")},
		"berried":  berriedBy("ruby", "amber"),
		"measured": &journal.Measured{Lengths: []float64{21}, Names: []string{"ruby"}, Sex: journal.Female},
		"died":     &journal.Died{Shrimp: named("ruby")},
		"removed":  &journal.Removed{Shrimp: named("ruby")},
		"moved":    &journal.Moved{Shrimp: named("ruby"), To: "south"},
	}
	for _, kind := range journal.Words().Kinds {
		if kind.Form == journal.FormWho && mentions[kind.Name] == nil {
			t.Errorf("%q takes names, and no name is mentioned by it here", kind.Name)
		}
	}
	female := map[string]bool{"saddled": true, "berried": true, "measured": true}
	gone := map[string]bool{"died": true, "removed": true}
	for kind, what := range mentions {
		t.Run(kind, func(t *testing.T) {
			c := newDiary("north", "south").on("2026-03-14", "north", what).private().replay("2026-04-01")
			if len(c.Shrimp) != 1 {
				t.Fatalf("%d named shrimp", len(c.Shrimp))
			}
			s := c.Shrimp[0]
			if s.Name != "ruby" || s.First.What != what || len(s.Events) != 1 || s.Public {
				t.Errorf("ruby is %+v", s)
			}
			if (s.Sex == journal.Female) != female[kind] || (s.Gone != 0) != gone[kind] {
				t.Errorf("sex %q, gone %q", s.Sex, s.Gone)
			}
		})
	}
}

func TestNamesThatContradictTheRecordAreProblems(t *testing.T) {
	died := newDiary("north", "south").on("2026-03-01", "south").on("2026-03-01", "north", &journal.Stocked{Shrimp: count(9)}).on("2026-03-14", "north", &journal.Died{Shrimp: named("ruby")})
	measure := func(name, brood string) *journal.Measured {
		return &journal.Measured{Lengths: []float64{20}, Names: []string{name}, Brood: brood}
	}
	young := func() *diary {
		return newDiary("north").on("2026-03-01", "north", berried(1, "amber")).on("2026-03-20", "north", hatched("amber"))
	}
	tests := []struct {
		name  string
		diary *diary
		want  []string
	}{
		{"seen after she died", died.on("2026-03-15", "north", &journal.Saddled{Shrimp: named("ruby")}), []string{
			`entries/2026-03-15-d.md:5:5: "ruby" left on 2026-03-14 (entries/2026-03-14-c.md:5:5); another animal needs another name`}},
		{"measured on the day she died", newDiary("north").on("2026-03-14", "north", &journal.Stocked{Shrimp: count(9)}, &journal.Died{Shrimp: named("ruby")}, measure("ruby", "")), nil},
		{"in another tank without a move", newDiary("north", "south").
			on("2026-03-14", "north", measure("ruby", "")).on("2026-03-20", "south", measure("ruby", "")), []string{
			`entries/2026-03-20-b.md:5:5: warning: "ruby" was last in north, not in south; if the shrimp changed tank, a "moved" event says so`}},
		{"a male with eggs", newDiary("north").
			on("2026-03-14", "north", &journal.Measured{Lengths: []float64{19}, Names: []string{"tom"}, Sex: journal.Male}).on("2026-03-20", "north", berriedBy("tom", "amber")), []string{
			`entries/2026-03-20-b.md:5:5: warning: "tom" was male until now, and this says female`}},
		{"from a brood that hatched after it was seen", young().
			on("2026-03-02", "north", measure("ruby", "")).on("2026-05-20", "north", measure("ruby", "amber")), []string{
			`entries/2026-05-20-d.md:5:5: "ruby" was already here on 2026-03-02 (entries/2026-03-02-c.md:5:5), so it did not hatch on 2026-03-20`}},
		{"from two broods", young().
			on("2026-03-01", "north", berried(1, "flint")).on("2026-03-22", "north", hatched("flint")).
			on("2026-05-20", "north", measure("ruby", "amber")).on("2026-06-20", "north", measure("ruby", "flint")), []string{
			`entries/2026-06-20-f.md:5:5: "ruby" came from the brood "amber" until now, and this says "flint"`}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			var got []string
			for _, p := range test.diary.replay("2026-12-31").Problems {
				got = append(got, p.Error())
			}
			if diff := cmp.Diff(test.want, got); diff != "" {
				t.Errorf("problems (-want +got):\n%s", diff)
			}
		})
	}
}

func TestAShrimpLeavesOnce(t *testing.T) {
	c := newDiary("north").on("2026-03-14", "north", &journal.Died{Shrimp: named("ruby")}).on("2026-03-20", "north", &journal.Removed{Shrimp: named("ruby")}).replay("2026-12-31")
	if gone := c.Shrimp[0].Gone; gone != day("2026-03-14") {
		t.Errorf("she died on 14 March, and is gone from %s", gone)
	}
}

// TestGenerationsFollowTheMothers follows a line from an unknown mother to her granddaughter's eggs.
func TestGenerationsFollowTheMothers(t *testing.T) {
	measure := func(name, brood string) *journal.Measured {
		return &journal.Measured{Lengths: []float64{18.5}, Names: []string{name}, Brood: brood}
	}
	d := newDiary("north").
		on("2026-01-01", "north", berriedBy("ruby", "amber")).
		on("2026-01-20", "north", hatched("amber")).
		on("2026-04-20", "north", measure("olive", "")).
		on("2026-04-25", "north", &journal.Saddled{Shrimp: named("olive")}).
		on("2026-05-01", "north", berriedBy("olive", "flint")).
		on("2026-05-10", "north", measure("olive", "amber")).
		on("2026-05-20", "north", hatched("flint")).
		on("2026-08-20", "north", measure("plum", "flint")).
		on("2026-09-01", "north", berriedBy("plum", "jade"))
	c := d.replay("2026-12-31")
	if len(c.Problems) > 0 {
		t.Fatalf("problems: %v", c.Problems)
	}
	got := map[string]int{}
	for _, b := range c.Broods {
		got[b.ID] = b.Generation
	}
	if diff := cmp.Diff(map[string]int{"amber": 1, "flint": 2, "jade": 3}, got); diff != "" {
		t.Errorf("generations (-want +got):\n%s", diff)
	}
	amber := c.Cohorts[0]
	if amber.FirstSaddled != day("2026-04-25") || amber.FirstBerried != day("2026-05-01") || len(amber.Members) != 1 {
		t.Errorf("amber was saddled %s, berried %s, %d members", amber.FirstSaddled, amber.FirstBerried, len(amber.Members))
	}
	first := c.Tanks[0].Lengths[0]
	want := colony.Length{Day: day("2026-04-20"), MM: 18.5, Sex: journal.Female, Cohort: amber, Hatched: day("2026-01-20"), Name: "olive", Event: first.Event}
	if first != want {
		t.Errorf("the first length is %+v, want what was learned later: %+v", first, want)
	}
	if early := d.replay("2026-05-05"); brood(t, early, "flint").Generation != 1 || early.Tanks[0].Lengths[0].Cohort != nil {
		t.Error("on 2026-05-05 nobody knew yet where olive hatched")
	}
}

func TestLengthsKnowWhereTheirShrimpHatched(t *testing.T) {
	d := newDiary("north").
		on("2026-01-01", "north", berried(1, "amber")).
		on("2026-01-20", "north", hatched("amber")).
		on("2026-02-20", "north", &journal.Measured{Lengths: []float64{9, 9.5}, Brood: "amber"}).
		on("2026-02-21", "north", &journal.Measured{Lengths: []float64{12}, HatchedOn: day("2026-01-05"), Names: []string{"tom"}}).
		on("2026-02-22", "north", &journal.Measured{Lengths: []float64{22}, Sex: journal.Female}).
		on("2026-03-22", "north", &journal.Measured{Lengths: []float64{14}, Names: []string{"tom"}})
	c := d.replay("2026-12-31")
	want := []struct {
		cohort  string
		hatched string
	}{{"amber", "2026-01-20"}, {"amber", "2026-01-20"}, {"", "2026-01-05"}, {"", ""}, {"", "2026-01-05"}}
	for i, length := range c.Tanks[0].Lengths {
		cohort := ""
		if length.Cohort != nil {
			cohort = length.Cohort.ID
		}
		if cohort != want[i].cohort || length.Hatched.String() != want[i].hatched {
			t.Errorf("length %d is from %q, hatched %q; want %v", i, cohort, length.Hatched, want[i])
		}
	}
}

// TestSlipsThatOnlyTheRecordShows holds what is odd only beside what was written before, and what is not.
func TestSlipsThatOnlyTheRecordShows(t *testing.T) {
	died := func(name string) *journal.Died { return &journal.Died{Shrimp: named(name)} }
	moulted := func(name string) *journal.Moulted { return &journal.Moulted{Shrimp: named(name)} }
	lastClear := func(last string) *journal.Berried {
		return &journal.Berried{Shrimp: journal.Who{Count: journal.Count{Total: 1}}, LastClear: day(last)}
	}
	eggs := func(n int) *journal.Berried {
		return &journal.Berried{Shrimp: journal.Who{Count: journal.Count{Total: 1}}, Broods: []string{"amber"}, Eggs: journal.Known(n)}
	}
	young := func(n int) *journal.Hatched {
		return &journal.Hatched{Brood: "amber", Shrimplets: journal.Known(n)}
	}
	stocked := &journal.Stocked{Shrimp: journal.Count{Total: 10}}
	begun := func() *diary { return newDiary("north").on("2026-03-01", "north", stocked) }
	for _, test := range []struct {
		name  string
		diary *diary
		want  []string
	}{
		{"a slip in the name of one who dies", begun().on("2026-03-02", "north", moulted("ruby")).on("2026-03-05", "north", died("Rubby")),
			[]string{`"Rubby" was never mentioned before; did you mean "ruby"?`}},
		{"another shrimp dies", begun().on("2026-03-02", "north", moulted("ruby")).on("2026-03-05", "north", died("pearl")), nil},
		{"a like name moults", begun().on("2026-03-02", "north", moulted("ruby")).on("2026-03-05", "north", moulted("rubi")), nil},
		{"the like name is gone", begun().on("2026-03-02", "north", died("ruby")).on("2026-03-05", "north", died("rubi")), nil},
		{"names with numbers", begun().on("2026-03-02", "north", moulted("ruby 1")).on("2026-03-05", "north", died("ruby 2")), nil},
		{"two cases of a name", begun().on("2026-03-02", "north", moulted("ruby")).on("2026-03-05", "north", moulted("Ruby")),
			[]string{`"Ruby" and "ruby" count as two shrimp; if it is the same shrimp, write ruby`}},
		{"clear before any came", begun().on("2026-03-14", "north", lastClear("2026-02-12")),
			[]string{`"last-clear" is 2026-02-12, before the first shrimp came on 2026-03-01 (entries/2026-03-01-a.md:5:5)`}},
		{"several clear before any came", begun().on("2026-03-14", "north", &journal.Berried{Shrimp: some(3), LastClear: day("2026-02-12")}),
			[]string{`"last-clear" is 2026-02-12, before the first shrimp came on 2026-03-01 (entries/2026-03-01-a.md:5:5)`}},
		{"clear on the day they came", begun().on("2026-03-14", "north", lastClear("2026-03-01")), nil},
		{"the record begins with eggs", newDiary("north").on("2026-03-14", "north", lastClear("2026-02-12")), nil},
		{"water first, then shrimp", newDiary("north").on("2026-02-01", "north", &journal.WaterTest{}).on("2026-03-01", "north", stocked).on("2026-03-14", "north", lastClear("2026-02-12")),
			[]string{`"last-clear" is 2026-02-12, before the first shrimp came on 2026-03-01 (entries/2026-03-01-b.md:5:5)`}},
		{"more young than eggs", begun().on("2026-03-04", "north", eggs(20)).on("2026-04-04", "north", young(21)),
			[]string{`21 shrimplets of the brood "amber", which had 20 eggs left`}},
		{"as many young as eggs", begun().on("2026-03-04", "north", eggs(20)).on("2026-04-04", "north", young(20)), nil},
		{"more young than were left", begun().on("2026-03-04", "north", eggs(20)).on("2026-03-14", "north", &journal.Dropped{Brood: "amber", Eggs: journal.Known(5)}).on("2026-04-04", "north", young(16)),
			[]string{`16 shrimplets of the brood "amber", which had 15 eggs left`}},
	} {
		var got []string
		for _, p := range test.diary.replay("2026-12-31").Problems {
			if p.Hint != "" {
				p.Message += "; " + p.Hint
			}
			if p.Severity != journal.Warning {
				p.Message = "error: " + p.Message
			}
			got = append(got, p.Message)
		}
		if diff := cmp.Diff(test.want, got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", test.name, diff)
		}
	}
}

// TestManyNamesAreNotCompared keeps thousands of names from costing the square of their number.
func TestManyNamesAreNotCompared(t *testing.T) {
	var names []string
	for i := range 501 {
		names = append(names, fmt.Sprintf("shrimp %d", i))
	}
	for known, want := range map[int][]string{500: {"names-alike"}, 501: nil} {
		d := newDiary("north").on("2026-03-01", "north", &journal.Stocked{Shrimp: journal.Count{Total: 600}}).
			on("2026-03-02", "north", &journal.Moulted{Shrimp: named(names[:known]...)}).
			on("2026-03-03", "north", &journal.Moulted{Shrimp: named("Shrimp 7")})
		if diff := cmp.Diff(want, codes(d.replay("2026-12-31"))); diff != "" {
			t.Errorf("%d names (-want +got):\n%s", known, diff)
		}
	}
}
