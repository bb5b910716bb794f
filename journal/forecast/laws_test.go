package forecast

import (
	"reflect"
	"testing"

	"pleopod/journal"
)

// teller writes the same story in other ways.
type teller struct {
	ruby, kit      string // names of shrimp
	start          journal.Day
	split, private bool // an entry for each event; private entries
}

// tell writes a story of two tanks with a move, a brood that hatches after it, and counts.
func (w teller) tell() *diary {
	d := newDiary(heated("b", 23), heated("a", 23))
	on := func(after journal.Day, tank string, what ...journal.Happening) {
		if !w.split {
			d.on(w.start+after, tank, what...)
			return
		}
		for _, one := range what {
			d.on(w.start+after, tank, one)
		}
	}
	count := journal.Count{Total: 7, Sorted: true, Females: journal.Known(4), Males: journal.Known(3)}
	on(0, "a", &journal.Stocked{Shrimp: count, Age: journal.Known(130.0)}, temperature(23.4))
	on(6, "a", &journal.Berried{Shrimp: named(w.ruby), Broods: []string{"amber"}, LastClear: w.start + 4}, &journal.Moulted{Shrimp: some(1)})
	on(12, "a", &journal.Moved{Shrimp: named(w.ruby), To: "b"}, temperature(22.8), &journal.Counted{Shrimp: count, Method: journal.Careful})
	on(28, "b", &journal.Hatched{Brood: "amber", Shrimplets: journal.Known(12)}, &journal.Saddled{Shrimp: named(w.ruby)})
	on(80, "b", &journal.Measured{Lengths: []float64{15}, Names: []string{w.kit}, Brood: "amber"}, &journal.Counted{Shrimp: count, Method: journal.Careful})
	on(90, "a", &journal.Died{Shrimp: some(1)}, berried("flint"), &journal.Counted{Shrimp: count, Method: journal.Careful})
	for _, entry := range d.journal.Entries {
		entry.Private = w.private
	}
	return d
}

// The same story told in other ways has the same numbers: each event in an entry of its own, under other names, in private.
// Told of other years it has the same windows; the numbers differ by chance, since they are drawn by the day.
func TestTheWayOfTellingChangesNoNumber(t *testing.T) {
	start := day(t, "2025-03-02")
	usual := teller{ruby: "ruby", kit: "kit", start: start}
	want := Past(usual.tell().replay(start + 100))
	for name, w := range map[string]teller{
		"split":       {ruby: "ruby", kit: "kit", start: start, split: true},
		"private":     {ruby: "ruby", kit: "kit", start: start, private: true},
		"other names": {ruby: "zelda", kit: "agate", start: start},
		"other years": {ruby: "ruby", kit: "kit", start: start - 728},
	} {
		got := Past(w.tell().replay(w.start + 100))
		for i, b := range want.Broods {
			if moved := later(got.Broods[i].Hatch, start-w.start); !reflect.DeepEqual(moved, b.Hatch) || got.Broods[i].State != b.State {
				t.Errorf("%s: %s hatches %+v, want %+v", name, b.ID, moved, b.Hatch)
			}
		}
		for i, c := range want.Cohorts {
			if moved := later(got.Cohorts[i].Mature, start-w.start); !reflect.DeepEqual(moved, c.Mature) {
				t.Errorf("%s: %s is mature %+v, want %+v", name, c.ID, moved, c.Mature)
			}
		}
		for i, tank := range want.Tanks {
			if w.start == start && got.Tanks[i].Population.Now != tank.Population.Now {
				t.Errorf("%s: %s holds %v, want %v", name, tank.ID, got.Tanks[i].Population.Now, tank.Population.Now)
			}
		}
	}
}

// later moves a window by days.
func later(w Window, days journal.Day) Window {
	for _, day := range []*journal.Day{&w.P05, &w.P10, &w.P25, &w.P50, &w.P75, &w.P90, &w.P95} {
		*day += days
	}
	return w
}
