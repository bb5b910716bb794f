package forecast

import (
	"testing"

	"pgregory.net/rapid"

	"pleopod/journal"
)

// recordOf is a tank with a random record and one brood.
type recordOf struct {
	celsius   []float64 // every third day from the 90th before she was seen
	lastClear int       // days before she was seen, 0 for not noted
	eyed      int       // day after, 0 for not seen
	after     int       // the as-of day after she was seen
	heater    bool
}

func drawRecord(t *rapid.T) recordOf {
	r := recordOf{
		lastClear: rapid.IntRange(0, 9).Draw(t, "last clear"),
		after:     rapid.IntRange(0, 40).Draw(t, "as of"),
		heater:    rapid.Bool().Draw(t, "heater"),
	}
	if rapid.Bool().Draw(t, "eyes") {
		r.eyed = rapid.IntRange(6, 20).Draw(t, "eyed")
	}
	base := rapid.Float64Range(20, 26).Draw(t, "celsius")
	for range 30 {
		r.celsius = append(r.celsius, base+rapid.Float64Range(-1.5, 1.5).Draw(t, "departure"))
	}
	return r
}

// hatch predicts the brood of a record.
func (r recordOf) hatch(t fataler) Window {
	start := journal.NewDay(2026, 4, 1)
	tank := unheated("shelf")
	if r.heater {
		tank = heated("shelf", 23)
	}
	d := newDiary(tank)
	for i, c := range r.celsius {
		d.on(start-90+3*journal.Day(i), "shelf", temperature(c))
	}
	seen := berried("amber")
	if r.lastClear > 0 {
		seen.LastClear = start - journal.Day(r.lastClear)
	}
	d.on(start, "shelf", seen)
	if r.eyed > 0 {
		d.on(start+journal.Day(r.eyed), "shelf", &journal.Eyed{Brood: "amber"})
	}
	return find(t, Days(d.replay(start+journal.Day(r.after))), "amber").Hatch
}

// dated reports whether a window has days: eggs that are three weeks late are taken as hatched unseen.
func dated(w Window) bool { return w.P50 != 0 }

// median is the place of the middle among days.
const median = 3

func (w Window) days() []journal.Day {
	return []journal.Day{w.P05, w.P10, w.P25, w.P50, w.P75, w.P90, w.P95}
}

// TestForecastLaws holds whole forecasts, from the record to the days, against what must be so whatever the record.
func TestForecastLaws(t *testing.T) {
	start := journal.NewDay(2026, 4, 1)
	rapid.Check(t, func(t *rapid.T) {
		r := drawRecord(t)
		w := r.hatch(t)
		if !dated(w) {
			return
		}
		last := start + journal.Day(r.after)
		for _, day := range w.days() {
			if day < last || day <= start+journal.Day(r.after) || day <= start {
				t.Fatalf("%v: out of order, or not after the as-of day and the berried day", w.days())
			}
			last = day
		}
		near(t, "a hundredth of a degree", w, r.warmer(0.01).hatch(t), 1)
		// The rate of development grows with the degrees above a base of 11 °C, by at most a seventh for one degree above 18.5;
		// two days more are for the spread, which is wide where the readings contradict the heater.
		warm := r.warmer(1).hatch(t)
		for i, day := range warm.days() {
			if before := w.days()[i]; dated(warm) && (day > before+2 || day < before-2-(before-start+6)/7) {
				t.Fatalf("a degree warmer moves a quantile from %s to %s", before, day)
			}
		}
		// On the day she is first seen: later, that she still carries in warm water tells of a slow brood. With a heater the
		// ends may widen by a day, where the warmer readings contradict it more.
		first := r
		first.after = 0
		before := first.hatch(t).days()
		for i, day := range first.warmer(0.5).hatch(t).days() {
			if later := day - before[i]; later > 1 || later == 1 && (i == median || !r.heater) {
				t.Fatalf("half a degree warmer moves a quantile from %s to %s", before[i], day)
			}
		}
		carried := r
		carried.after++
		if carried.eyed == 0 || carried.eyed <= r.after || carried.eyed > carried.after {
			later := carried.hatch(t)
			near(t, "one more day carried", w, later, 2)
			for i, day := range later.days() {
				if dated(later) && day < w.days()[i] {
					t.Fatalf("one more day carried moves a quantile from %s to %s", w.days()[i], day)
				}
			}
		}
		if r.lastClear > 0 {
			earlier := r
			earlier.lastClear++
			near(t, "last clear a day earlier", w, earlier.hatch(t), 2)
		}
	})
}

// warmer is the same record with other temperatures, all below 28 °C.
func (r recordOf) warmer(by float64) recordOf {
	warm := r
	warm.celsius = nil
	for _, c := range r.celsius {
		warm.celsius = append(warm.celsius, min(c+by, 28))
	}
	return warm
}

// near fails where a quantile moves by more than so many days.
func near(t *rapid.T, what string, a, b Window, most journal.Day) {
	t.Helper()
	if !dated(b) {
		return
	}
	for i, day := range a.days() {
		if moved := b.days()[i] - day; moved > most || moved < -most {
			t.Fatalf("%s moves %v to %v, by more than %d days", what, a.days(), b.days(), most)
		}
	}
}
