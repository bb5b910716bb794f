package colony_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"pleopod/journal"
	"pleopod/journal/colony"
)

func TestBroodsAreNamedByTheirTankAndDay(t *testing.T) {
	tests := []struct {
		name   string
		diary  *diary
		want   []string
		faults []string
	}{
		{"after tank and date", newDiary("north").on("2026-03-14", "north", berried(3)),
			[]string{"north-2026-03-14", "north-2026-03-14-2", "north-2026-03-14-3"}, nil},
		{"numbers go on within a day", newDiary("north").on("2026-03-14", "north", berried(1)).on("2026-03-14", "north", berried(2)),
			[]string{"north-2026-03-14", "north-2026-03-14-2", "north-2026-03-14-3"}, nil},
		{"one name for several", newDiary("north").on("2026-03-14", "north", berried(2, "amber")),
			[]string{"amber", "amber-2"}, nil},
		{"a name for each", newDiary("north").on("2026-03-14", "north", berried(2, "amber", "flint")),
			[]string{"amber", "flint"}, nil},
		{"as many as an event may open", newDiary("north").on("2026-03-14", "north", berried(201)), nil, []string{"too-many-broods!"}},
		{"none seen opens none", newDiary("north").on("2026-03-14", "north", berried(0)), nil, nil},
		{"a name twice", newDiary("north").on("2026-03-14", "north", berried(1, "amber")).on("2026-03-20", "north", berried(1, "amber")),
			[]string{"amber"}, []string{"brood-name-taken!"}},
		{"a name twice after the hatch", newDiary("north").
			on("2026-03-14", "north", berried(1, "amber")).on("2026-04-05", "north", hatched("amber")).on("2026-05-20", "north", berried(1, "amber")),
			[]string{"amber"}, []string{"brood-name-taken!"}},
		{"a number already written", newDiary("north").on("2026-03-14", "north", berried(1, "amber-2")).on("2026-03-20", "north", berried(2, "amber")),
			[]string{"amber-2", "amber", "amber-3"}, nil},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			c := test.diary.replay("2026-12-31")
			var got []string
			for _, b := range c.Broods {
				got = append(got, b.ID)
			}
			if diff := cmp.Diff(test.want, got); diff != "" {
				t.Errorf("names (-want +got):\n%s", diff)
			}
			if diff := cmp.Diff(test.faults, codes(c)); diff != "" {
				t.Errorf("problems (-want +got):\n%s", diff)
			}
		})
	}
}

func TestABroodKeepsWhatWasSeenOfIt(t *testing.T) {
	d := newDiary("north", "south").
		on("2026-03-14", "north", &journal.Berried{Shrimp: named("ruby"), Broods: []string{"amber"}, LastClear: day("2026-03-12"), Eggs: journal.Known(25)}).
		on("2026-03-20", "north", &journal.Moved{Shrimp: named("ruby"), To: "south"}).
		on("2026-03-24", "south", &journal.Eyed{}).
		on("2026-03-25", "south", &journal.Eyed{Brood: "amber"}).
		on("2026-03-26", "south", &journal.Dropped{Brood: "amber", Eggs: journal.Known(4)}).
		on("2026-04-02", "south", &journal.Hatched{Shrimplets: journal.Known(18), LastCarried: day("2026-04-01")})
	c := d.replay("2026-04-10")
	if len(c.Problems) > 0 {
		t.Fatalf("problems: %v", c.Problems)
	}
	b := brood(t, c, "amber")
	got := []any{b.State, b.Berried, b.LastClear, b.Eyed, b.Hatched, b.LastCarried, b.EggsLost, b.Shrimplets, b.Stays, b.Generation, len(b.Events), b.Mother.Name, b.Mother.Sex}
	want := []any{colony.HasHatched, day("2026-03-14"), day("2026-03-12"), day("2026-03-24"), day("2026-04-02"), day("2026-04-01"), 4, journal.Known(18),
		[]colony.Stay{{Tank: "north", From: day("2026-03-14")}, {Tank: "south", From: day("2026-03-20")}}, 1, 6, "ruby", journal.Female}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("brood (-want +got):\n%s", diff)
	}
	if c.Cohorts[0].Tank != "south" || c.Cohorts[0] != b.Cohort || c.Tank("south").Cohorts[0] != b.Cohort {
		t.Errorf("cohort is in %q", c.Cohorts[0].Tank)
	}
	if len(c.Tank("north").Broods) != 1 || len(c.Tank("south").Broods) != 1 {
		t.Error("the brood belongs to both tanks that it was carried in")
	}
}

func TestABroodThatIsNotNamedMustBeTheOnlyOne(t *testing.T) {
	two := func() *diary {
		return newDiary("north", "south").on("2026-03-01", "south").on("2026-03-14", "north", berried(1, "amber")).on("2026-03-15", "north", berried(1, "flint"))
	}
	tests := []struct {
		name  string
		diary *diary
		want  string // the only problem
	}{
		{"several are open", two().on("2026-04-01", "north", hatched("")),
			`entries/2026-04-01-d.md:5:5: north has several open broods: "amber", "flint"; write which one, as in "hatched: amber"`},
		{"one is open", two().on("2026-04-01", "north", hatched("amber")).on("2026-04-02", "north", hatched("")), ""},
		{"open elsewhere", two().on("2026-04-01", "south", &journal.Eyed{}),
			`entries/2026-04-01-d.md:5:5: south has no open brood; open elsewhere: "amber", "flint"`},
		{"none is open", newDiary("north").on("2026-04-01", "north", &journal.Eyed{}),
			`entries/2026-04-01-a.md:5:5: north has no open brood; a "berried" event opens one`},
		{"hatched twice", two().on("2026-04-01", "north", hatched("amber")).on("2026-04-02", "north", hatched("amber")),
			`entries/2026-04-02-e.md:5:5: brood "amber" already hatched on 2026-04-01 (entries/2026-04-01-d.md:5:5)`},
		{"hatched after it was lost", two().on("2026-04-01", "north", &journal.Dropped{Brood: "amber"}).on("2026-04-02", "north", hatched("amber")),
			`entries/2026-04-02-e.md:5:5: brood "amber" was lost on 2026-04-01 (entries/2026-04-01-d.md:5:5)`},
		{"hatched before it was berried", two().on("2026-03-01", "north", hatched("amber")),
			`entries/2026-03-01-d.md:5:5: brood "amber" was berried on 2026-03-14 (entries/2026-03-14-b.md:5:5), after this "hatched" of 2026-03-01`},
		{"unknown", two().on("2026-04-01", "north", hatched("ambre")),
			`entries/2026-04-01-d.md:5:5: unknown brood "ambre"; did you mean "amber"?`},
		{"unknown, near a finished one", two().on("2026-04-01", "north", hatched("amber")).on("2026-05-01", "north", &journal.Eyed{Brood: "ambr"}),
			`entries/2026-05-01-e.md:5:5: unknown brood "ambr"; did you mean "amber"?`},
		{"unknown, near none", two().on("2026-04-01", "north", hatched("zebra")),
			`entries/2026-04-01-d.md:5:5: unknown brood "zebra"; there are "amber", "flint"`},
		{"the mother's name", newDiary("north").on("2026-03-14", "north", berriedBy("ruby", "amber")).on("2026-04-01", "north", hatched("ruby")),
			`entries/2026-04-01-b.md:5:5: unknown brood "ruby"; the shrimp of that name carried "amber"; write hatched: amber`},
		{"a slip in the mother's name", newDiary("north").on("2026-03-14", "north", berriedBy("Ruby", "amber")).on("2026-04-01", "north", hatched("ruby")),
			`entries/2026-04-01-b.md:5:5: unknown brood "ruby"; "Ruby" carried "amber"; write hatched: amber`},
		{"carried elsewhere", two().on("2026-04-01", "south", hatched("amber")),
			`entries/2026-04-01-d.md:5:5: warning: brood "amber" is carried in north, not in south; if the female changed tank, a "moved" event says so`},
		{"still carried by her", newDiary("north").on("2026-03-14", "north", berriedBy("ruby", "amber")).on("2026-04-01", "north", berriedBy("ruby", "flint")),
			`entries/2026-04-01-b.md:5:5: "ruby" already carries the brood "amber" since 2026-03-14 (entries/2026-03-14-a.md:5:5); end that first with "hatched" or "dropped"`},
		{"young of a brood that has not hatched", two().on("2026-04-01", "north", &journal.Sighted{Shrimplets: 3, Brood: "amber"}),
			`entries/2026-04-01-d.md:5:5: warning: brood "amber" has no young yet as far as the journal says; a "hatched" event opens its cohort`},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := ""
			for _, p := range test.diary.replay("2026-12-31").Problems {
				got += p.Error()
			}
			if got != test.want {
				t.Errorf("got  %s\nwant %s", got, test.want)
			}
		})
	}
}

func TestABroodIsLostWithItsMother(t *testing.T) {
	tests := []struct {
		name   string
		end    journal.Happening
		reason string
	}{
		{"she died", &journal.Died{Shrimp: named("ruby")}, "the female died"},
		{"she was sold", &journal.Removed{Shrimp: named("ruby"), Reason: journal.Sold}, "the female left the colony"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			c := newDiary("north").on("2026-03-14", "north", berriedBy("ruby", "amber")).on("2026-03-20", "north", test.end).replay("2026-04-01")
			b := brood(t, c, "amber")
			if b.State != colony.WasDropped || b.Dropped != day("2026-03-20") || b.DropReason != test.reason || b.Ended.What != test.end {
				t.Errorf("brood is %s on %s: %s", b.State, b.Dropped, b.DropReason)
			}
			if b.Mother.Gone != day("2026-03-20") {
				t.Errorf("she is gone on %s", b.Mother.Gone)
			}
		})
	}
}

func TestABroodIsLostWithItsLastEggs(t *testing.T) {
	lose := func(n int) *journal.Dropped { return &journal.Dropped{Brood: "amber", Eggs: journal.Known(n)} }
	counted := &journal.Berried{Shrimp: some(1), Broods: []string{"amber"}, Eggs: journal.Known(20)}
	tests := []struct {
		name  string
		open  *journal.Berried
		drops []journal.Happening
		state colony.BroodState
		lost  int
	}{
		{"some of uncounted eggs", berried(1, "amber"), []journal.Happening{lose(15), lose(15)}, colony.Carried, 30},
		{"some of counted eggs", counted, []journal.Happening{lose(15), lose(4)}, colony.Carried, 19},
		{"the last of counted eggs", counted, []journal.Happening{lose(15), lose(5)}, colony.WasDropped, 20},
		{"all that was left", counted, []journal.Happening{lose(15), &journal.Dropped{}}, colony.WasDropped, 15},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			c := newDiary("north").on("2026-03-14", "north", test.open).on("2026-03-20", "north", test.drops...).replay("2026-04-01")
			b := brood(t, c, "amber")
			if b.State != test.state || b.EggsLost != test.lost {
				t.Errorf("brood is %s with %d eggs lost, want %s with %d", b.State, b.EggsLost, test.state, test.lost)
			}
		})
	}
}

func TestABroodFollowsAMoveWithoutNames(t *testing.T) {
	c := newDiary("north", "south").
		on("2026-03-14", "north", berried(1, "amber")).
		on("2026-03-20", "north", &journal.Moved{Shrimp: some(1), To: "south"}).
		on("2026-04-01", "south", hatched("amber")).
		replay("2026-04-10")
	if len(c.Problems) > 0 {
		t.Errorf("problems: %v", c.Problems)
	}
	want := []colony.Stay{{Tank: "north", From: day("2026-03-14")}, {Tank: "south", From: day("2026-03-20")}}
	if diff := cmp.Diff(want, brood(t, c, "amber").Stays); diff != "" {
		t.Errorf("stays (-want +got):\n%s", diff)
	}
	if c.Cohorts[0].Tank != "south" {
		t.Errorf("the cohort is in %s", c.Cohorts[0].Tank)
	}
	if events := brood(t, c, "amber").Events; len(events) != 3 || events[1].What.Kind() != "moved" {
		t.Errorf("the move is not among the brood's events: %v", events)
	}
}

// TestABroodFollowsNoMoveThatCannotHaveBeenHers has moves without names that left no room for the mother: then she stayed, and
// the keeper is told.
func TestABroodFollowsNoMoveThatCannotHaveBeenHers(t *testing.T) {
	males := journal.Who{Count: journal.Count{Total: 2, Sorted: true, Males: journal.Known(2)}}
	for name, d := range map[string]*diary{
		"males": newDiary("north", "south").on("2026-03-14", "north", berried(1, "amber")).
			on("2026-03-20", "north", &journal.Moved{Shrimp: males, To: "south"}),
		"she was still seen at home": newDiary("north", "south").on("2026-03-14", "north", berried(1, "amber")).
			on("2026-03-20", "north", &journal.Moved{Shrimp: some(1), To: "south"}).on("2026-03-25", "north", &journal.Eyed{Brood: "amber"}),
		"another mother": newDiary("north", "south").on("2026-03-14", "north", berried(2, "flint", "amber")).
			on("2026-03-20", "north", &journal.Moved{Shrimp: some(1), To: "south"}).on("2026-03-31", "south", hatched("flint")),
	} {
		c := d.on("2026-04-01", "south", hatched("amber")).replay("2026-04-10")
		if stays := brood(t, c, "amber").Stays; len(stays) != 1 || len(c.Problems) != 1 || c.Problems[0].Code != "brood-elsewhere" {
			t.Errorf("%s: stays %v, problems %v", name, stays, c.Problems)
		}
	}
}

// TestAHatchWithoutABroodSuggestsSighted asks for the hint of a hatch without a brood.
func TestAHatchWithoutABroodSuggestsSighted(t *testing.T) {
	for want, what := range map[string]journal.Happening{
		"if you never saw the eggs, write sighted: 20": hatched(""),
		"if you never saw the eggs, write sighted: 7":  &journal.Hatched{Shrimplets: journal.Known(7)},
		"": &journal.Eyed{},
	} {
		c := newDiary("north").on("2026-03-14", "north", what).replay("2026-12-31")
		if len(c.Problems) != 1 || c.Problems[0].Code != "no-open-brood" || c.Problems[0].Hint != want {
			t.Errorf("want %q, got %+v", want, c.Problems)
		}
	}
}
