package colony_test

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"pleopod/journal"
	"pleopod/journal/colony"
)

func TestTheLedgerTellsWhatCameAndLeft(t *testing.T) {
	c := newDiary("north", "south").
		on("2026-01-01", "north", &journal.Stocked{Shrimp: count(12)}).
		on("2026-01-05", "north", berried(1, "amber")).
		on("2026-01-25", "north", &journal.Hatched{Brood: "amber", Shrimplets: journal.Known(20)}).
		on("2026-02-01", "north", &journal.Moved{Shrimp: named("ruby", "tom"), To: "south"}).
		on("2026-02-02", "north", &journal.Died{Shrimp: some(1)}).
		on("2026-02-03", "north", &journal.Removed{Shrimp: some(3), Reason: journal.Sold}).private().
		replay("2026-03-01")
	type line struct {
		change int
		why    colony.Why
		other  string
		names  []string
	}
	lines := func(id string) (all []line) {
		for _, l := range c.Tank(id).Ledger {
			all = append(all, line{l.Change, l.Why, l.Other, l.Names})
		}
		return all
	}
	want := []line{{12, "stocked", "", nil}, {20, "hatched", "", nil}, {-2, "moved out", "south", []string{"ruby", "tom"}}, {-1, "died", "", nil}, {-3, "removed", "", nil}}
	if diff := cmp.Diff(want, lines("north"), cmp.AllowUnexported(line{})); diff != "" {
		t.Errorf("north (-want +got):\n%s", diff)
	}
	want = []line{{2, "moved in", "north", []string{"ruby", "tom"}}}
	if diff := cmp.Diff(want, lines("south"), cmp.AllowUnexported(line{})); diff != "" {
		t.Errorf("south (-want +got):\n%s", diff)
	}
	if got, want := c.Totals(), (colony.Totals{Stocked: 12, MovedIn: 2, Hatched: 20, Died: 1, Removed: 3, MovedAway: 2}); got != want {
		t.Errorf("totals %+v, want %+v", got, want)
	}
	if north := c.Tank("north").Totals().Balance(); north != 26 {
		t.Errorf("balance of north %d, want 26", north)
	}
	if len(c.Tank("south").Events) != 1 || c.Tank("south").Events[0] != c.Tank("north").Events[3] {
		t.Error("a move stands in both tanks")
	}
}

func TestMoreThatLeaveThanCanBeAliveAreWarnedOf(t *testing.T) {
	sell := func(n int) *journal.Removed { return &journal.Removed{Shrimp: some(n), Reason: journal.Sold} }
	stock := func() *diary {
		return newDiary("north").on("2026-01-01", "north", &journal.Stocked{Shrimp: count(10)}).on("2026-01-02", "north", &journal.Died{Shrimp: some(2)})
	}
	tests := []struct {
		name  string
		diary *diary
		want  string
	}{
		{"all that are left", stock().on("2026-02-01", "north", sell(8)), ""},
		{"one too many", stock().on("2026-02-01", "north", sell(9)),
			`9 removed, but at most 8 can be alive in north: 10 stocked - 2 died; if young hatched unseen, "sighted" or "counted" says so`},
		{"a brood of unknown size", stock().on("2026-01-05", "north", berried(1, "amber")).on("2026-01-25", "north", hatched("amber")).on("2026-02-01", "north", sell(69)),
			`69 removed, but at most 68 can be alive in north: 10 stocked + 60 hatched at most - 2 died; if young hatched unseen, "sighted" or "counted" says so`},
		{"a brood of counted eggs", stock().
			on("2026-01-05", "north", &journal.Berried{Shrimp: some(1), Broods: []string{"amber"}, Eggs: journal.Known(30)}).
			on("2026-01-09", "north", &journal.Dropped{Brood: "amber", Eggs: journal.Known(5)}).
			on("2026-01-25", "north", hatched("amber")).on("2026-02-01", "north", sell(34)),
			`34 removed, but at most 33 can be alive in north: 10 stocked + 25 hatched at most - 2 died; if young hatched unseen, "sighted" or "counted" says so`},
		{"more young than eggs were counted", stock().
			on("2026-01-05", "north", &journal.Berried{Shrimp: some(1), Broods: []string{"amber"}, Eggs: journal.Known(5)}).
			on("2026-01-25", "north", &journal.Hatched{Brood: "amber", Shrimplets: journal.Known(9)}).on("2026-02-01", "north", sell(17)),
			`9 shrimplets of the brood "amber", which had 5 eggs left`},
		{"young of a brood are those that hatched", stock().
			on("2026-01-05", "north", &journal.Berried{Shrimp: some(1), Broods: []string{"amber"}, Eggs: journal.Known(5)}).
			on("2026-01-25", "north", hatched("amber")).on("2026-01-30", "north", &journal.Sighted{Shrimplets: 5, Brood: "amber"}).on("2026-02-01", "north", sell(14)),
			`14 removed, but at most 13 can be alive in north: 10 stocked + 5 hatched at most - 2 died; if young hatched unseen, "sighted" or "counted" says so`},
		{"some moved out", newDiary("north", "south").on("2026-01-01", "south").on("2026-01-01", "north", &journal.Stocked{Shrimp: count(10)}).
			on("2026-01-05", "north", &journal.Moved{Shrimp: some(4), To: "south"}).on("2026-02-01", "north", sell(7)),
			`7 removed, but at most 6 can be alive in north: 10 stocked - 4 moved out; if young hatched unseen, "sighted" or "counted" says so`},
		{"more were counted than can be alive", stock().on("2026-01-20", "north", &journal.Counted{Shrimp: count(15), Method: journal.Glance}).on("2026-02-01", "north", sell(40)), ""},
		{"fewer were seen at a glance", stock().on("2026-01-20", "north", &journal.Counted{Shrimp: count(3), Method: journal.Glance}).on("2026-02-01", "north", sell(8)), ""},
		{"the tank was emptied", stock().on("2026-01-20", "north", &journal.Counted{Shrimp: count(15), Method: journal.Emptied}).on("2026-02-01", "north", sell(16)),
			`16 removed, but at most 15 can be alive in north: 15 counted on 2026-01-20; if young hatched unseen, "sighted" or "counted" says so`},
		{"emptied, but a class was not counted", stock().on("2026-01-20", "north", &journal.Counted{Method: journal.Emptied,
			Shrimp: journal.Count{Total: 3, Sorted: true, Females: journal.Known(2), Males: journal.Known(1)}}).on("2026-02-01", "north", sell(8)), ""},
		{"young from nowhere", stock().on("2026-01-20", "north", &journal.Sighted{Shrimplets: 5}).on("2026-02-01", "north", sell(13)), ""},
		{"once is enough", stock().on("2026-02-01", "north", sell(9), sell(9)),
			`9 removed, but at most 8 can be alive in north: 10 stocked - 2 died; if young hatched unseen, "sighted" or "counted" says so`},
		{"a count before those who came that day", stock().on("2026-01-20", "north", &journal.Counted{Shrimp: count(15), Method: journal.Careful}, &journal.Stocked{Shrimp: count(7)}),
			"15 counted in north, but at most 8 can be alive there before \"stocked: 7\" of that day (entries/2026-01-20-c.md:6:5)"},
		{"a count after them", stock().on("2026-01-20", "north", &journal.Stocked{Shrimp: count(7)}, &journal.Counted{Shrimp: count(15), Method: journal.Careful}), ""},
		{"a count before those who came from another tank", newDiary("north", "south").on("2026-01-01", "south", &journal.Stocked{Shrimp: count(9)}).
			on("2026-01-20", "north", &journal.Counted{Shrimp: count(4), Method: journal.Emptied}).on("2026-01-20", "south", &journal.Moved{Shrimp: some(4), To: "north"}),
			"4 counted in north, but at most 0 can be alive there before \"moved: 4\" of that day (entries/2026-01-20-c.md:5:5)"},
		{"nobody wrote down the first shrimp", newDiary("north").on("2026-02-01", "north", berried(1)).on("2026-02-01", "north", sell(4)), ""},
		{"they came later", newDiary("north").on("2026-02-01", "north", sell(4)).on("2026-03-01", "north", &journal.Stocked{Shrimp: count(12)}),
			"4 removed, but at most 0 can be alive in north: the first came on 2026-03-01 (entries/2026-03-01-b.md:5:5); is one of the two dates wrong?"},
		{"nothing is known", newDiary("north").on("2026-02-01", "north", sell(4)),
			`4 removed, but at most 0 can be alive in north: no shrimp ever came there; "stocked" or "counted" says how many there were`},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := ""
			for _, p := range test.diary.replay("2026-12-31").Problems {
				if p.Severity != journal.Warning {
					t.Errorf("%v is no warning", p)
				}
				got += p.Message
			}
			if got != test.want {
				t.Errorf("got  %s\nwant %s", got, test.want)
			}
		})
	}
}

func TestWhatIsSeenAliveIsAProof(t *testing.T) {
	c := newDiary("north", "south").
		on("2026-01-01", "north", &journal.Saddled{Shrimp: some(2)}).
		on("2026-01-02", "north", berried(3, "amber", "birch", "cedar")).
		on("2026-01-03", "north", &journal.Sighted{Shrimplets: 7}).
		on("2026-01-04", "north", &journal.Counted{Shrimp: count(20), Method: journal.Glance}).
		on("2026-01-05", "north", &journal.Measured{Lengths: []float64{20, 21}}).
		on("2026-01-06", "north", &journal.Graded{Counts: []int{1, 4, 0}}).
		on("2026-01-07", "north", &journal.Removed{Shrimp: some(6)}).
		on("2026-01-07", "south", &journal.Hatched{Brood: "amber", Shrimplets: journal.Known(8)}). // of the other tank: no proof here or there
		on("2026-01-08", "north", &journal.Moved{Shrimp: some(4), To: "south"}).
		on("2026-01-09", "north", &journal.Died{Shrimp: some(9)}, &journal.Moulted{Shrimp: some(9)}).
		replay("2026-02-01")
	var got []int
	for _, p := range c.Tank("north").Proofs {
		got = append(got, p.AtLeast)
	}
	if want := []int{2, 3, 7, 20, 2, 5, 6, 4}; !slices.Equal(got, want) {
		t.Errorf("proofs %v, want %v", got, want)
	}
	if south := c.Tank("south").Proofs; len(south) > 0 {
		t.Errorf("proofs of the other tank: %v", south)
	}
}

func TestEntriesThatDoNotFitTheirTankAreWarnedOf(t *testing.T) {
	late := func(d *diary) *diary { d.journal.Settings.Tanks[0].Since = day("2026-02-01"); return d }
	tests := []struct {
		name  string
		diary *diary
		want  []string
	}{
		{"an empty journal", newDiary("north"), nil},
		{"a tank without any entry", newDiary("north", "south").on("2026-01-01", "north"),
			[]string{`journal.yaml:4:3: warning: no entry is about the tank "south"`}},
		{"an entry before the tank was set up", late(newDiary("north")).on("2026-01-31", "north", &journal.Courting{}),
			[]string{`entries/2026-01-31-a.md:1:1: warning: 2026-01-31 is before north was set up: journal.yaml says since 2026-02-01`}},
		{"an event before the tank was set up", late(newDiary("north")).on("2026-02-03", "north", &journal.Courting{}).seen("2026-01-30"),
			[]string{`entries/2026-02-03-a.md:5:5: warning: 2026-01-30 is before north was set up: journal.yaml says since 2026-02-01`}},
		{"moved to where they are", newDiary("north").on("2026-02-03", "north", &journal.Moved{Shrimp: some(1), To: "north"}),
			[]string{`entries/2026-02-03-a.md:5:5: warning: moved from north to north: nothing changes`}},
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

// TestAMoveMakesAndLosesNoShrimp checks that a move makes and loses no shrimp, whatever else happens.
func TestAMoveMakesAndLosesNoShrimp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := randomDiary(t)
		totals := d.replay("2026-12-31").Totals()
		if totals.MovedIn != totals.MovedAway {
			t.Fatalf("%d moved in, %d moved away", totals.MovedIn, totals.MovedAway)
		}
	})
}

// TestTheLedgerOfADayBeginsThatOfLaterDays checks that the record of a day is the beginning of the record of every later day, as long as
// entries are written on the day itself.
func TestTheLedgerOfADayBeginsThatOfLaterDays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := randomDiary(t)
		for _, entry := range d.journal.Entries {
			for i := range entry.Events {
				entry.Events[i].Day = entry.Date
			}
		}
		first := journal.NewDay(2026, 1, 1)
		early := colony.Replay(&d.journal, first+journal.Day(rapid.IntRange(0, 60).Draw(t, "as of")))
		late := colony.Replay(&d.journal, first+60)
		for i, tank := range early.Tanks {
			for k, line := range tank.Ledger {
				other := late.Tanks[i].Ledger[k]
				if line.Day != other.Day || line.Change != other.Change || line.Why != other.Why {
					t.Fatalf("line %d of %s is %+v, later %+v", k, tank.ID, line, other)
				}
			}
		}
		for i, b := range early.Broods {
			if other := late.Broods[i]; b.ID != other.ID || b.State != colony.Carried && b.State != other.State {
				t.Fatalf("brood %d is %s %s, later %s %s", i, b.ID, b.State, other.ID, other.State)
			}
		}
	})
}
