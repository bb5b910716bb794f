package forecast

import (
	"math"
	"testing"

	"pleopod/journal"
	"pleopod/journal/lifecycle"
)

func TestAgesOfTheFirstShrimp(t *testing.T) {
	p, _ := lifecycle.Default("neocaridina-davidi")
	start := day(t, "2026-01-10")
	old := &journal.Stocked{Shrimp: some(4).Count, Age: journal.Known(300.0)}
	young := &journal.Stocked{Shrimp: some(6).Count, Age: journal.Known(100.0)}
	usual := &journal.Stocked{Shrimp: some(6).Count}
	for _, c := range []struct {
		name             string
		write            func(d *diary)
		youngest, oldest float64
		guessed          bool
	}{
		{"an age that was written, a tenth to either side", func(d *diary) { d.on(start, "shelf", old) }, 270, 330, false},
		{"of two groups the older", func(d *diary) { d.on(start, "shelf", young, old) }, 270, 330, false},
		{"in whatever order", func(d *diary) { d.on(start, "shelf", old, young) }, 270, 330, false},
		{"later shrimp are no founders", func(d *diary) { d.on(start, "shelf", young).on(start+5, "shelf", old) }, 90, 110, false},
		{"those before the tank was emptied are gone", func(d *diary) {
			d.on(start-90, "shelf", old).on(start-60, "shelf", &journal.Counted{Method: journal.Emptied}).on(start, "shelf", young)
		}, 90, 110, false},
		{"the usual ages", func(d *diary) { d.on(start, "shelf", usual) }, p.Stocking.YoungestDays, p.Stocking.OldestDays, true},
	} {
		d := newDiary(heated("shelf", 24))
		c.write(d)
		got := predictFounders(t, d, start+10)
		if math.Abs(got.Youngest-c.youngest) > 1e-9 || math.Abs(got.Oldest-c.oldest) > 1e-9 || got.First != start || got.Guessed != c.guessed {
			t.Errorf("%s: %v to %v on %s, want %v to %v on %s", c.name, got.Youngest, got.Oldest, got.First, c.youngest, c.oldest, start)
		}
		if want := start + journal.Day(p.Breeding.DeclineFrom-c.oldest); got.OldFrom != want {
			t.Errorf("%s: old from %s, want %s", c.name, got.OldFrom, want)
		}
	}
}

// predictFounders returns the founders of a diary's only tank.
func predictFounders(t *testing.T, d *diary, asOf journal.Day) Founders {
	t.Helper()
	f := Days(d.replay(asOf))
	_, now := founders(&f.Tanks[0])
	return now
}
