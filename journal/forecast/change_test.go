package forecast

import (
	"strings"
	"testing"

	"pleopod/journal"
)

// TestChangeComparesWithYesterday holds the comparison against the forecast of the journal as it stood on each of the two days.
func TestChangeComparesWithYesterday(t *testing.T) {
	compared, moved := 0, 0
	for seed := range uint64(4) {
		k := newKeeper(seed+1, 0.5)
		d := k.write()
		k.disturb(d)
		c := k.seen(d)
		for asOf := k.start + 60; asOf < k.start+journal.Day(k.days); asOf += 9 {
			today, yesterday := Days(c.Earlier(asOf)), Days(c.Earlier(asOf-1))
			for _, b := range today.Broods {
				if b.Change == nil {
					continue
				}
				compared++
				before := find(t, yesterday, b.ID).Hatch
				same(t, "the window of yesterday", b.ID, asOf-1, [3]journal.Day{before.P10, before.P50, before.P90}, [3]journal.Day{b.Change.From.P10, b.Change.From.P50, b.Change.From.P90})
				same(t, "the window of today", b.ID, asOf, [3]journal.Day{b.Hatch.P10, b.Hatch.P50, b.Hatch.P90}, [3]journal.Day{b.Change.To.P10, b.Change.To.P50, b.Change.To.P90})
				shift, wider := 0, 0
				for _, cause := range b.Change.Causes {
					shift += cause.Shift
					wider += cause.Widened
				}
				if want := int(b.Hatch.P50 - before.P50); shift != want {
					t.Errorf("%s on %s: the causes move it by %d days, and it moved by %d: %+v", b.ID, asOf, shift, want, b.Change)
				}
				if want := int(b.Hatch.P90 - b.Hatch.P10 - before.P90 + before.P10); wider != want {
					t.Errorf("%s on %s: the causes widen it by %d days, and it widened by %d: %+v", b.ID, asOf, wider, want, b.Change)
				}
				if shift != 0 || wider != 0 {
					moved++
				}
			}
		}
	}
	if compared < 50 || moved < 20 {
		t.Errorf("compared %d broods, of which %d moved: too few to tell", compared, moved)
	}
}

func TestChangeNamesItsCause(t *testing.T) {
	start := day(t, "2026-01-10")
	usual := func() *diary {
		d := newDiary(unheated("shelf"), unheated("cellar"))
		for i := range 12 {
			d.on(start-40+4*journal.Day(i), "shelf", temperature(23))
		}
		return d.on(start, "shelf", &journal.Berried{Shrimp: named("ruby"), Broods: []string{"amber"}})
	}
	today := start + 10
	for _, c := range []struct {
		name  string
		write func(d *diary)
		why   string // the last cause
		sign  int    // of its shift
	}{
		{"nothing new", func(*diary) {}, "one more day has passed, and no hatch was written", 0},
		{"warmer water", func(d *diary) { d.on(today, "shelf", temperature(29)) }, "29 °C measured", -1},
		{"colder water", func(d *diary) { d.on(today, "shelf", temperature(17)) }, "17 °C measured", 1},
		{"water noted late", func(d *diary) { d.late(today, today-4, "shelf", temperature(29)) }, "29 °C measured", -1},
		{"early eyes", func(d *diary) {
			d.on(today-3, "shelf", temperature(23)).late(today, today-3, "shelf", &journal.Eyed{Brood: "amber"})
		}, "eyes seen", -1},
		{"a move to the cold", func(d *diary) {
			d.on(today-1, "cellar", temperature(17)).on(today, "shelf", &journal.Moved{Shrimp: named("ruby"), To: "cellar"})
		}, "moved to cellar", 1},
		{"another brood that took long", func(d *diary) {
			d.on(start-20, "shelf", berried("flint")).on(today, "shelf", &journal.Hatched{Brood: "flint"})
		}, "1 other brood hatched", 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := usual()
			c.write(d)
			change := find(t, Days(d.replay(today)), "amber").Change
			if change == nil || len(change.Causes) == 0 {
				t.Fatalf("no comparison with yesterday: %+v", change)
			}
			last := change.Causes[len(change.Causes)-1]
			if !strings.Contains(last.Why, c.why) || last.Shift*c.sign < 0 || c.sign != 0 && last.Shift == 0 {
				t.Errorf("last cause %+v, want %q with a shift of sign %d", last, c.why, c.sign)
			}
		})
	}
	if b := find(t, Days(usual().replay(start)), "amber"); b.Change != nil {
		t.Errorf("on the berried day there is no yesterday, got %+v", b.Change)
	}
	ended := usual().on(today, "shelf", &journal.Hatched{Brood: "amber"})
	if b := find(t, Days(ended.replay(today+1)), "amber"); b.Change != nil {
		t.Errorf("a hatched brood does not change any more, got %+v", b.Change)
	}
}
