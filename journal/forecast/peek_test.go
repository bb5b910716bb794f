package forecast

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"pleopod/journal"
)

// TestNoPeeking holds every prediction of an earlier day against what is predicted from the journal as it stood on that day.
func TestNoPeeking(t *testing.T) {
	if testing.Short() {
		t.Skip("slow: predicts again for every day of the record; run without -short")
	}
	keepers := 4
	if *full {
		keepers = 100
	}
	for seed := range keepers {
		k := newKeeper(uint64(seed)+1, 0.5)
		d := k.write()
		k.disturb(d)
		c := k.seen(d)
		f := Days(c)
		now := map[journal.Day]*Forecast{}
		earlier := func(day journal.Day) *Forecast {
			if now[day] == nil {
				now[day] = Days(c.Earlier(day))
			}
			return now[day]
		}
		for _, h := range f.Record.Hindcasts {
			same(t, "hindcast", h.Brood.ID, h.Made, find(t, earlier(h.Made), h.Brood.ID).Hatch, h.Window)
		}
		for _, b := range f.Broods {
			noted := b.Opened.KnownFrom()
			same(t, "first prediction", b.ID, noted, find(t, earlier(noted), b.ID).Foreseen, b.Foreseen)
			for i, shot := range b.History {
				if (i+seed)%5 != 0 {
					continue
				}
				w := find(t, earlier(shot.Day), b.ID).Hatch
				same(t, "history", b.ID, shot.Day, [3]journal.Day{w.P10, w.P50, w.P90}, [3]journal.Day{shot.P10, shot.P50, shot.P90})
			}
		}
	}
}

func same(t *testing.T, what, id string, day journal.Day, want, got any) {
	t.Helper()
	if diff := cmp.Diff(want, got); diff != "" {
		t.Fatalf("%s of %s on %s differs from what the journal of that day gives (-then +now):\n%s", what, id, day, diff)
	}
}

// disturb writes what happens late or elsewhere: readings and eyes noted days afterwards, and females who move.
func (k *keeper) disturb(d *diary) {
	r := k.random
	for range 10 {
		day := k.start + journal.Day(r.IntN(k.days-20))
		tank := k.tanks[r.IntN(len(k.tanks))]
		d.late(day+journal.Day(1+r.IntN(12)), day, tank.id, temperature(20+6*r.Float64()))
	}
	for i, name := range []string{"ruby", "opal", "jade"} {
		day := k.start + journal.Day(20+r.IntN(k.days-80))
		from, to := k.tanks[i%len(k.tanks)].id, k.tanks[(i+1)%len(k.tanks)].id
		brood := name + "-1"
		d.late(day+journal.Day(r.IntN(4)), day, from, &journal.Berried{Shrimp: named(name), Broods: []string{brood}})
		if from != to {
			d.late(day+9, day+journal.Day(5+r.IntN(4)), from, &journal.Moved{Shrimp: named(name), To: to})
		}
		d.late(day+16, day+journal.Day(12+r.IntN(4)), to, &journal.Eyed{Brood: brood})
		if i < 2 {
			d.late(day+26, day+journal.Day(20+r.IntN(6)), to, &journal.Hatched{Brood: brood})
		}
	}
}
