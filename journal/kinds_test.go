package journal

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestEveryKindWithEveryAttribute reads each kind of event in each form of its value.
func TestEveryKindWithEveryAttribute(t *testing.T) {
	one, ten := Who{Count: Count{Total: 1}}, Count{Total: 10}
	ruby := Who{Count: Count{Total: 1}, Names: []string{"ruby"}}
	pair := Who{Count: Count{Total: 2}, Names: []string{"ruby", "O'Hara 2"}}
	sorted := Count{Total: 7, Sorted: true, Females: Known(4), Males: Known(3)}
	tests := []struct {
		written string
		want    Happening
	}{
		{"- stocked: 10", &Stocked{Shrimp: ten}},
		{"- stocked: {females: 4, males: 3}\n    age: 3 months\n    length: 18 mm\n    source: a keeper nearby\n    line: red",
			&Stocked{Shrimp: sorted, Age: Known(91.3125), Length: Known(18.0), Source: "a keeper nearby", Line: "red"}},
		{"- saddled: 1", &Saddled{Shrimp: one}},
		{"- saddled: [ruby]", &Saddled{Shrimp: ruby}},
		{"- moulted: 1", &Moulted{Shrimp: one}},
		{"- moulted: [ruby]\n    failed: true", &Moulted{Shrimp: ruby, Failed: true}},
		{"- moulted: [ruby]\n    failed: false", &Moulted{Shrimp: ruby}},
		{"- courting: true", &Courting{}},
		{"- berried: 1", &Berried{Shrimp: one}},
		{"- berried: [ruby]\n    brood: amber\n    eggs: 30\n    last-clear: 2026-03-12",
			&Berried{Shrimp: ruby, Broods: []string{"amber"}, Eggs: Known(30), LastClear: NewDay(2026, 3, 12)}},
		{"- berried: [ruby, O'Hara 2]\n    brood: [amber, flint]", &Berried{Shrimp: pair, Broods: []string{"amber", "flint"}}},
		{"- berried:\n    - ruby\n    brood: amber", &Berried{Shrimp: ruby, Broods: []string{"amber"}}},
		{"- brood: amber\n    berried: 1", &Berried{Shrimp: one, Broods: []string{"amber"}}},
		{"- eyed: amber", &Eyed{Brood: "amber"}},
		{"- eyed: true", &Eyed{}},
		{"- eyed: \"true\"", &Eyed{Brood: "true"}},
		{"- hatched: amber", &Hatched{Brood: "amber"}},
		{"- hatched: true\n    shrimplets: 18\n    last-carried: 2026-03-13", &Hatched{Shrimplets: Known(18), LastCarried: NewDay(2026, 3, 13)}},
		{"- dropped: amber", &Dropped{Brood: "amber"}},
		{"- dropped: true\n    eggs: 5\n    reason: moulted early", &Dropped{Eggs: Known(5), Reason: "moulted early"}},
		{"- sighted: 7", &Sighted{Shrimplets: 7}},
		{"- sighted: 0\n    brood: amber", &Sighted{Brood: "amber"}},
		{"- counted: 10", &Counted{Shrimp: ten, Method: Glance}},
		{"- counted: {females: 4, males: 3}\n    method: emptied", &Counted{Shrimp: sorted, Method: Emptied}},
		{"- counted: {females: 0, males: 1, juveniles: 2, unsexed: 3}\n    method: careful",
			&Counted{Shrimp: Count{Total: 6, Sorted: true, Females: Known(0), Males: Known(1),
				Juveniles: Known(2), Unsexed: Known(3)}, Method: Careful}},
		{"- measured: [21 mm, 22.5, 0.9 in, 2.1 cm]", &Measured{Lengths: []float64{21, 22.5, 22.86, 21}}},
		{"- measured: 21", &Measured{Lengths: []float64{21}}},
		{"- measured: [21]\n    sex: female\n    brood: amber\n    names: [ruby]", &Measured{Lengths: []float64{21}, Sex: Female, Brood: "amber", Names: []string{"ruby"}}},
		{"- measured: [21]\n    sex: male\n    hatched-on: 2026-01-03", &Measured{Lengths: []float64{21}, Sex: Male, HatchedOn: NewDay(2026, 1, 3)}},
		{"- graded: {deep: 5, pale: 2}\n    sex: female\n    brood: amber", &Graded{Counts: []int{2, 0, 5}, Sex: Female, Brood: "amber"}},
		{"- died: 1\n    cause: failed moult", &Died{Shrimp: one, Cause: "failed moult"}},
		{"- died: {females: 4, males: 3}", &Died{Shrimp: Who{Count: sorted}}},
		{"- removed: 1\n    reason: sold\n    to: a friend", &Removed{Shrimp: one, Reason: Sold, To: "a friend"}},
		{"- removed: [ruby]\n    reason: moved-out", &Removed{Shrimp: ruby, Reason: MovedOut}},
		{"- moved: [ruby]\n    to: window", &Moved{Shrimp: ruby, To: "window"}},
		{"- water: {ph: 7.4, ammonia: <0.25}", &WaterTest{Readings: []Reading{{Kind: PH, Value: 7.4}, {Kind: Ammonia, Value: 0.25, Below: true}}}},
		{"- water-change: 25 %", &WaterChange{Share: Known(0.25)}},
		{"- water-change: 10 gal\n    with: {gh: 6}\n    temperature: 71.6 F", &WaterChange{Volume: Known(37.85411784), With: []Reading{{Kind: GH, Value: 6}}, Temperature: Known(22.0)}},
		{"- dosed: 5 mL\n    substance: remineraliser", &Dosed{Amount: "5 mL", Substance: "remineraliser"}},
		{"- dosed: alder cones", &Dosed{Amount: "alder cones"}},
		{"- fed: blanched nettle", &Fed{Food: "blanched nettle"}},
	}
	seen := map[string]bool{}
	for _, test := range tests {
		got := happening(t, twoTanks, test.written)
		if diff := cmp.Diff(test.want, got, closeNumbers, anyPlace); diff != "" {
			t.Errorf("%q (-want +got):\n%s", test.written, diff)
		}
		if got.Kind() != test.want.Kind() {
			t.Errorf("%q is %q", test.written, got.Kind())
		}
		seen[got.Kind()] = true
	}
	for _, kind := range Words().Kinds {
		if !seen[kind.Name] {
			t.Errorf("no test reads %q", kind.Name)
		}
	}
}

func TestEventsTakeTankDateAndNote(t *testing.T) {
	entry, problems := ParseEntry("e.md",
		[]byte(entryWith("- moulted: 1\n    tank: window\n    date: 2026-03-12\n    note: under the moss\n  - moulted: 2")), settingsOf(t, twoTanks))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	first, second := entry.Events[0], entry.Events[1]
	if first.Tank != "window" || first.Day != NewDay(2026, 3, 12) || first.Note != "under the moss" || first.Entry != entry {
		t.Errorf("first event %+v", first)
	}
	if second.Tank != "north-shelf" || second.Day != NewDay(2026, 3, 14) || second.Note != "" {
		t.Errorf("second event %+v", second)
	}
	for place, want := range map[Position]string{
		first.Position: "e.md:5:5", first.At("moulted"): "e.md:5:14", first.At("tank"): "e.md:6:11",
		first.At("note"):    "e.md:8:11",
		first.At("nothing"): "e.md:5:5", second.Position: "e.md:9:5",
	} {
		if place.String() != want {
			t.Errorf("place %s, want %s", place, want)
		}
	}
}

func TestPlacesOfListItems(t *testing.T) {
	entry, _ := ParseEntry("e.md", []byte(entryWith("- berried: [ruby, pearl]\n    brood: [amber, flint]")),
		settingsOf(t, twoTanks))
	event := entry.Events[0]
	for i, want := range []string{"e.md:6:13", "e.md:6:20", "e.md:6:12"} {
		if got := event.AtItem("brood", i).String(); got != want {
			t.Errorf("item %d at %s, want %s", i, got, want)
		}
	}
	if got := event.AtItem("berried", 1).String(); got != "e.md:5:21" {
		t.Errorf("second name at %s", got)
	}
}

func TestListOfTanks(t *testing.T) {
	source := "---\ndate: 2026-03-14\ntank: [north-shelf, window]\nwater: {ph: 7.2}\nevents:\n  - fed: nettle\n  - moulted: 1\n  - moulted: 2\n    tank: window\n---\n"
	entry, problems := ParseEntry("e.md", []byte(source), settingsOf(t, twoTanks))
	want := "7:5 no-tank: \"moulted\" needs its own tank, because the entry names several: \"north-shelf\" or \"window\" | add to the event: tank: north-shelf\n"
	if got := briefs(problems); got != want {
		t.Errorf("problems %s, want %s", got, want)
	}
	var got []string
	for _, event := range entry.Events {
		got = append(got, event.What.Kind()+" "+event.Tank)
	}
	if diff := cmp.Diff([]string{"water north-shelf", "water window", "fed north-shelf", "fed window", "moulted window"}, got); diff != "" {
		t.Error(diff)
	}
}

func TestTankMayBeLeftOutWithOneTank(t *testing.T) {
	source := []byte("---\ndate: 2026-03-14\nevents:\n  - moulted: 1\n---\n")
	entry, problems := ParseEntry("e.md", source, settingsOf(t, titled+"tanks: {only: }"))
	if len(problems) > 0 || entry.Events[0].Tank != "only" || entry.Tanks[0] != "only" {
		t.Errorf("entry %+v, problems %v", entry, problems)
	}
	_, problems = ParseEntry("e.md", source, settingsOf(t, twoTanks))
	want := "4:5 no-tank: no tank for \"moulted\"; journal.yaml has \"north-shelf\" or \"window\" | add to the entry: tank: north-shelf\n"
	if got := briefs(problems); got != want {
		t.Errorf("problems %s, want %s", got, want)
	}
}

func TestDoubtfulVisibilityIsPrivate(t *testing.T) {
	for written, want := range map[string]bool{
		"": false, "visibility: public\n": false, "visibility: private\n": true, "visibility: Private\n": true,
		"visibility: hidden\n": true, "visibility:\n": true, "visibilty: private\n": false, // an unknown key stops publishing anyway
	} {
		entry, _ := ParseEntry("e.md", []byte("---\ndate: 2026-03-14\n"+written+"---\n"), nil)
		if entry.Private != want {
			t.Errorf("%q: private is %v", written, entry.Private)
		}
	}
}

func TestEmptyEventsAreNoMistake(t *testing.T) {
	source := "---\ndate: 2026-03-14\nevents:\n#  - moulted: 1\ntopics:\n---\n"
	if _, problems := ParseEntry("e.md", []byte(source), nil); len(problems) > 0 {
		t.Error(problems)
	}
}

func TestGradedNeedsAScale(t *testing.T) {
	_, problems := ParseEntry("e.md", []byte("---\ndate: 2026-03-14\nevents:\n  - graded: {pale: 2, deep: 1}\n---\n"), settingsOf(t, titled+"tanks: {a: }"))
	want := "4:5 no-grades: \"graded\" needs the journal's own scale; journal.yaml has no \"grades\" | add to journal.yaml, worst first: grades: [pale, deep]\n"
	if got := briefs(problems); got != want {
		t.Errorf("problems %s, want %s", got, want)
	}
}

func TestDatesOutOfOrder(t *testing.T) {
	for written, want := range map[string]string{
		"- berried: 1\n    last-clear: 2026-03-15":          "6:17 date-order: \"last-clear\" is 2026-03-15, after the berried of 2026-03-14 | it is the last day she was seen without eggs\n",
		"- hatched: true\n    last-carried: 2026-03-15":     "6:19 date-order: \"last-carried\" is 2026-03-15, after the hatched of 2026-03-14 | it is the last day the eggs were still carried\n",
		"- measured: [9]\n    hatched-on: 2026-03-15":       "6:17 date-order: \"hatched-on\" is 2026-03-15, after the measured of 2026-03-14 | it is the day they hatched, when no brood of the journal says so\n",
		"- berried: 1\n    last-clear: 2026-03-14":          "",
		"- fed: x\n    date: 2026-03-20\n    note: planned": "",
	} {
		_, problems := ParseEntry("e.md", []byte(entryWith(written)), settingsOf(t, twoTanks))
		if got := briefs(problems); got != want {
			t.Errorf("%q: %s, want %s", written, got, want)
		}
	}
}
