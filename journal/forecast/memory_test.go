package forecast

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"pleopod/journal"
)

// TestMemoryChangesNothing edits diaries at random, and holds what is predicted with a memory of the day before the edit
// against what is predicted without.
func TestMemoryChangesNothing(t *testing.T) {
	keepers, edits := 2, 24
	if *full {
		keepers, edits = 10, 100
	}
	taken := 0
	for seed := range uint64(keepers) {
		k := newKeeper(seed+1, 0.6)
		k.nursery.names = 0.5
		d := k.write()
		k.disturb(d)
		asOf, random := k.start+journal.Day(k.days-10), rand.New(rand.NewPCG(seed, 7))
		last, told := predict(d.replay(asOf), nil)
		for i := range edits {
			asOf += editAtRandom(d, random)
			var f *Forecast
			f, told = predict(d.replay(asOf), told)
			if want := Days(d.replay(asOf)); !reflect.DeepEqual(want, f) {
				t.Fatalf("keeper %d, edit %d: with a memory (+) it is another forecast: %s", seed, i, cmp.Diff(want.Broods, f.Broods))
			}
			taken += takenOver(last, f)
			last = f
		}
	}
	if taken < 50 {
		t.Errorf("only %d broods were taken over", taken)
	}
}

// editAtRandom changes a diary, and returns by how many days time goes on meanwhile.
func editAtRandom(d *diary, random *rand.Rand) journal.Day {
	entries := &d.journal.Entries
	i := random.IntN(len(*entries))
	if random.IntN(2) == 0 { // rather one about a hatch
		i = max(0, slices.IndexFunc(*entries, func(e *journal.Entry) bool {
			return e.Events[0].What.Kind() == "hatched" && random.IntN(4) == 0
		}))
	}
	// an entry is written anew, as the reader does it: nothing of the old one changes
	again := *(*entries)[i]
	again.Events = slices.Clone(again.Events)
	for k := range again.Events {
		again.Events[k].Entry = &again
	}
	settings := &d.journal.Settings
	settings.Tanks = slices.Clone(settings.Tanks)
	tank := &settings.Tanks[random.IntN(len(settings.Tanks))]
	switch random.IntN(9) {
	case 0:
		*entries = slices.Delete(*entries, i, i+1)
	case 1:
		again.Date += journal.Day(random.IntN(4))
		(*entries)[i] = &again
	case 2:
		again.Events[0].Day -= journal.Day(random.IntN(3))
		(*entries)[i] = &again
	case 3:
		d.on(again.Date, again.Tanks[0], temperature(20+5*random.Float64()))
	case 4:
		d.on(again.Date, again.Tanks[0], careful(random.IntN(30)))
	case 5:
		return 1
	case 6:
		tank.Name += "'"
	case 7:
		tank.Heater = journal.Known(22 + 3*random.Float64())
	case 8:
		settings.Units.Temperature = map[string]string{"C": "F", "F": "C"}[settings.Units.Temperature]
	}
	return 0
}

// TestMemorySeesSmallChanges makes changes that random edits seldom make alone.
func TestMemorySeesSmallChanges(t *testing.T) {
	start := day(t, "2024-03-01")
	write := func(hatched journal.Day, end *journal.Hatched, line int) *diary {
		d := newDiary(heated("shelf", 24))
		d.on(start, "shelf", temperature(24), berried("amber")).on(start+1, "shelf", berried("flint"))
		d.on(hatched, "shelf", end).on(start+5, "shelf", &journal.Hatched{Brood: "flint"}) // far too early
		d.journal.Entries[3].Events[0].Line = line
		return d
	}
	amber := &journal.Hatched{Brood: "amber"}
	_, told := predict(write(start+22, amber, 4).replay(start+100), nil)
	for name, d := range map[string]*diary{
		"a hatch of another day": write(start+21, amber, 4),
		"the last day carried":   write(start+22, &journal.Hatched{Brood: "amber", LastCarried: start + 21}, 4),
		"a warning further down": write(start+22, amber, 9),
		"an earlier beginning":   write(start+22, amber, 4).on(start-200, "shelf", stocking(4, 4)),
	} {
		f, _ := predict(d.replay(start+100), told)
		if want := Days(d.replay(start + 100)); len(want.Problems) == 0 || !reflect.DeepEqual(want, f) {
			t.Errorf("%s: with a memory (+) it is another forecast: %s", name, cmp.Diff(want.Problems, f.Problems))
		}
	}
}

// takenOver returns how many broods of a forecast share memory with the last one.
func takenOver(last, f *Forecast) (n int) {
	kept := map[*Snapshot]bool{}
	for i := range last.Broods {
		if len(last.Broods[i].History) > 0 {
			kept[&last.Broods[i].History[0]] = true
		}
	}
	for i := range f.Broods {
		if len(f.Broods[i].History) > 0 && kept[&f.Broods[i].History[0]] {
			n++
		}
	}
	return n
}
