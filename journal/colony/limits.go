package colony

import (
	"fmt"

	"pleopod/journal"
)

// What a journal may hold at most. Each event, brood and year costs a calculation of its own; these limits are far above
// any room full of tanks, and keep a slip or a stranger's journal from running for hours.
const (
	// mostBroods is how many broods one event may open. A tank holds fewer females; a slip such as 1000 for 10 would make
	// a page and a prediction for each.
	mostBroods = 200
	// mostBroodsInAll is how many broods a journal may open.
	mostBroodsInAll = 5_000
	// mostEventsOfDay is how many events one tank may have on one day.
	mostEventsOfDay = 100
	// mostEvents is how many events a journal may have.
	mostEvents = 100_000
	// mostStocked is how many shrimp one tank may be stocked with in all. The simulation's time grows with their number.
	mostStocked = 20_000
	// mostNamesCompared is how many named shrimp a new name is compared with, for a slip in it.
	mostNamesCompared = 500
	// mostYears is how long before the as-of day the record may begin.
	mostYears = 25
)

// limit cuts the events at the limits and reports the first one beyond each.
func (r *replay) limit() {
	type place struct {
		tank string
		day  journal.Day
	}
	ofDay := map[place]int{}
	stocked := map[string]int{}
	kept := r.events[:0]
	for i, e := range r.events {
		if i >= mostEvents {
			r.fault(e.Position, "too-many-events", fmt.Sprintf("the journal has %d events; at most %d are calculated", len(r.events), mostEvents))
			break
		}
		at := place{e.Tank, e.Day}
		if ofDay[at]++; ofDay[at] > mostEventsOfDay {
			if ofDay[at] == mostEventsOfDay+1 {
				r.fault(e.Position, "too-many-events", fmt.Sprintf("more than %d events of the tank %q on %s", mostEventsOfDay, e.Tank, e.Day))
			}
			continue
		}
		if what, ok := e.What.(*journal.Stocked); ok {
			if stocked[e.Tank] += what.Shrimp.Total; stocked[e.Tank] > mostStocked {
				r.fault(e.At("stocked"), "too-many-shrimp", fmt.Sprintf("%d shrimp stocked in the tank %q up to here; at most %d are followed", stocked[e.Tank], e.Tank, mostStocked))
				continue
			}
		}
		kept = append(kept, e)
	}
	r.events = kept
	r.limitYears()
}

// limitYears reports a record that begins so early that the days up to the as-of day cannot be calculated one by one.
func (r *replay) limitYears() {
	var first journal.Day
	var at journal.Position
	see := func(day journal.Day, where journal.Position) {
		if day != 0 && (first == 0 || day < first) {
			first, at = day, where
		}
	}
	for _, e := range r.events {
		see(e.Day, e.Position)
	}
	for _, tank := range r.colony.Tanks {
		for i := range tank.Logged {
			see(tank.Logged[i].Day, tank.Logged[i].Position)
		}
	}
	if first != 0 && first < r.colony.AsOf-mostYears*365 {
		r.fault(at, "too-long-ago", fmt.Sprintf("the record begins on %s, more than %d years before the day of the calculation, %s", first, mostYears, r.colony.AsOf))
	}
}
