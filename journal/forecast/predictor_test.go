package forecast

import (
	"context"
	"maps"
	"testing"

	"github.com/google/go-cmp/cmp"

	"pleopod/journal"
	model "pleopod/journal/population"
)

// shelf is a Shelf in memory that counts what it is asked for.
type shelf struct {
	kept map[string][]byte
	got  int
}

func (s *shelf) Get(name string) []byte {
	if s.kept[name] != nil {
		s.got++
	}
	return s.kept[name]
}

func (s *shelf) Put(name string, content []byte) { s.kept[name] = content }

// fourteenMonths is a diary of two tanks over fourteen months, one of them with a move into the other when tied.
func fourteenMonths(t *testing.T, tied bool) (*diary, journal.Day) {
	start := day(t, "2024-03-01")
	d := newDiary(heated("north", 24), heated("south", 23))
	for i, tank := range []string{"north", "south"} {
		d.on(start+journal.Day(i), tank, stocking(8, 6))
		for k := range 12 {
			when := start + journal.Day(40+33*k)
			d.on(when, tank, temperature(23))
			if k%3 == 1 {
				d.on(when+2, tank, careful(14+k))
			}
		}
	}
	if tied {
		d.on(start+200, "north", &journal.Moved{Shrimp: some(2), To: "south"})
	}
	return d, start + 440
}

func stocking(females, males int) journal.Happening {
	return &journal.Stocked{Shrimp: journal.Count{Total: females + males, Sorted: true, Females: journal.Known(females), Males: journal.Known(males)}}
}

func careful(n int) journal.Happening {
	return &journal.Counted{Shrimp: journal.Count{Total: n}, Method: journal.Careful}
}

// estimates is what a forecast says of the population.
func estimates(f *Forecast) map[string]Population {
	all := map[string]Population{}
	for i := range f.Tanks {
		all[f.Tanks[i].ID] = f.Tanks[i].Population
	}
	return all
}

// TestPredictorGivesWhatMakeGives edits a diary again and again: late, early, in water only, a day further.
func TestPredictorGivesWhatMakeGives(t *testing.T) {
	if testing.Short() {
		t.Skip("simulates two years again and again")
	}
	for _, tied := range []bool{false, true} {
		d, asOf := fourteenMonths(t, tied)
		p := &Predictor{Repeats: true, Shelf: &shelf{kept: map[string][]byte{}}}
		edits := []func(){
			func() {},
			func() { d.on(asOf-3, "north", &journal.Died{Shrimp: some(1)}) },
			func() { d.on(asOf-100, "south", careful(30)) },
			func() { d.on(asOf-6, "north", temperature(24.5)) },
			func() { d.on(asOf-300, "north", careful(22)) },
			func() { asOf++ },
			func() { d.on(asOf-400, "south", &journal.Fed{Food: "leaf"}) },
		}
		for i, edit := range edits {
			if tied && i > 2 {
				break
			}
			edit()
			got, want := p.Make(context.Background(), d.replay(asOf)), Make(d.replay(asOf))
			if diff := cmp.Diff(estimates(want), estimates(got)); diff != "" {
				t.Errorf("tied %v, after edit %d: %s", tied, i, diff)
			}
			if diff := cmp.Diff(want.Problems, got.Problems); diff != "" {
				t.Errorf("tied %v, problems after edit %d: %s", tied, i, diff)
			}
		}
	}
}

func TestNumbersComeFromTheShelf(t *testing.T) {
	d, asOf := fourteenMonths(t, false)
	kept := &shelf{kept: map[string][]byte{}}
	first := (&Predictor{Shelf: kept}).Make(context.Background(), d.replay(asOf))
	if len(kept.kept) != 2 || kept.got != 0 {
		t.Fatalf("%d on the shelf, %d found", len(kept.kept), kept.got)
	}
	again := (&Predictor{Shelf: kept}).Make(context.Background(), d.replay(asOf))
	if kept.got != 2 {
		t.Errorf("%d of 2 found on the shelf", kept.got)
	}
	if diff := cmp.Diff(estimates(first), estimates(again)); diff != "" {
		t.Error(diff)
	}
	if f, complete := (&Predictor{Shelf: kept, Version: "other"}).MakeAtOnce(d.replay(asOf)); complete || f == nil {
		t.Error("numbers of another version were used")
	}
	if _, complete := (&Predictor{Shelf: kept}).MakeAtOnce(d.replay(asOf + 1)); complete {
		t.Error("numbers of another day were used")
	}
	// an event in one tank leaves the other's numbers on the shelf
	d.on(asOf-3, "north", &journal.Died{Shrimp: some(1)})
	(&Predictor{Shelf: kept}).Make(context.Background(), d.replay(asOf))
	if len(kept.kept) != 3 {
		t.Errorf("%d on the shelf after an event in one of two tanks, want 3", len(kept.kept))
	}
	for name, content := range maps.Clone(kept.kept) {
		kept.kept[name] = append(content[:len(content)-1:len(content)-1], 'x')
	}
	spoilt := (&Predictor{Shelf: kept}).Make(context.Background(), d.replay(asOf))
	if diff := cmp.Diff(estimates(Make(d.replay(asOf))), estimates(spoilt)); diff != "" {
		t.Errorf("with a spoilt shelf: %s", diff)
	}
	for _, content := range [][]byte{nil, {}, make([]byte, 32), make([]byte, 4096), encodeOutlooks(nil)} {
		if decodeOutlooks(content, 2) != nil {
			t.Errorf("%d bytes were taken for numbers", len(content))
		}
	}
}

func TestAtOnceIsMarkedAsIncomplete(t *testing.T) {
	d, asOf := fourteenMonths(t, false)
	p := &Predictor{Repeats: true}
	p.Make(context.Background(), d.replay(asOf))
	if _, complete := p.MakeAtOnce(d.replay(asOf)); !complete {
		t.Error("nothing has changed, and yet it is incomplete")
	}
	d.on(asOf-40, "north", careful(30))
	late, complete := p.MakeAtOnce(d.replay(asOf))
	if diff := cmp.Diff(estimates(Make(d.replay(asOf))), estimates(late)); !complete || diff != "" {
		t.Errorf("after a change of late: complete %v, %s", complete, diff)
	}
	before := late
	d.on(asOf-400, "north", careful(30))
	quick, complete := p.MakeAtOnce(d.replay(asOf))
	if complete || quick.Tanks[0].Population.Now != before.Tanks[0].Population.Now {
		t.Errorf("complete %v with %v, want the numbers of before: %v", complete, quick.Tanks[0].Population.Now, before.Tanks[0].Population.Now)
	}
	stopped, stop := context.WithCancel(context.Background())
	stop()
	if p.Make(stopped, d.replay(asOf)) != nil {
		t.Error("a forecast although the context has ended")
	}
	if got := p.Make(context.Background(), d.replay(asOf)); got.Tanks[0].Population.Now == before.Tanks[0].Population.Now {
		t.Error("a count changed nothing")
	}
}

func TestPartsAreWhatMovesTie(t *testing.T) {
	move := func(n int) (model.Fact, model.Fact) {
		return model.Fact{Day: 5, Order: n, What: model.MovedOut{Parcel: n}}, model.Fact{Day: 5, Order: n, What: model.MovedIn{Parcel: n}}
	}
	records := make([]model.Record, 6)
	tie := func(from, to, n int) {
		out, in := move(n)
		records[from].Facts = append(records[from].Facts, out)
		records[to].Facts = append(records[to].Facts, in)
	}
	tie(4, 0, 1)
	tie(2, 5, 2)
	tie(5, 4, 3)
	if diff := cmp.Diff([][]int{{0, 2, 4, 5}, {1}, {3}}, together(records)); diff != "" {
		t.Error(diff)
	}
}
