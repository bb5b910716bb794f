package colony

import (
	"fmt"
	"slices"

	"pleopod/journal"
)

// enter writes a line into a tank's ledger and moves the tank's bound.
func (r *replay) enter(tank string, line Line) {
	r.tanks[tank].Ledger = append(r.tanks[tank].Ledger, line)
	if line.Change < 0 {
		r.takeOut(tank, line)
		return
	}
	r.bounds[tank].add(line.Why, line.Change)
}

// prove notes that an event shows a number of living shrimp.
func (r *replay) prove(e *journal.Event, n int) {
	if n > 0 {
		r.tanks[e.Tank].Proofs = append(r.tanks[e.Tank].Proofs, Proof{Day: e.Day, AtLeast: n, Event: e})
	}
}

// see notes living shrimp that stay in the tank. More of them than can be alive means that some came unseen.
func (r *replay) see(e *journal.Event, n int) {
	r.prove(e, n)
	if b := r.bounds[e.Tank]; n > b.most() {
		b.open = true
	}
}

// stocked adds shrimp to a tank.
func (r *replay) stocked(e *journal.Event, what *journal.Stocked) {
	r.enter(e.Tank, Line{Day: e.Day, Change: what.Shrimp.Total, Why: CameStocked, Count: what.Shrimp, Event: e})
}

// hatch writes the young of a brood into the ledger.
func (r *replay) hatch(e *journal.Event, b *Brood) {
	tank, seen := b.Tank(), b.Shrimplets.Or(0)
	line := Line{Day: e.Day, Change: seen, Why: CameHatched, Count: journal.Count{Total: seen}, Event: e, Cohort: b.Cohort}
	r.tanks[tank].Ledger = append(r.tanks[tank].Ledger, line)
	r.bounds[tank].add(CameHatched, b.mostYoung())
	if tank == e.Tank {
		r.prove(e, seen)
	}
}

// sighted notes young shrimp. Without a brood they may come from one that nobody wrote down.
func (r *replay) sighted(e *journal.Event, what *journal.Sighted) {
	r.prove(e, what.Shrimplets)
	if what.Brood != "" {
		r.youngOf(e, what.Brood)
		return
	}
	r.bounds[e.Tank].add(CameHatched, what.Shrimplets)
}

// counted keeps a census.
func (r *replay) counted(e *journal.Event, what *journal.Counted) {
	tank := r.tanks[e.Tank]
	r.checkOrder(e, what.Shrimp.Total)
	tank.Censuses = append(tank.Censuses, Census{Day: e.Day, Count: what.Shrimp, Method: what.Method, Event: e})
	if what.Method == journal.Emptied && complete(what.Shrimp) {
		r.bounds[e.Tank] = &bound{counted: what.Shrimp.Total, on: e.Day}
	}
	r.see(e, what.Shrimp.Total)
}

// Closings returns the counts of the emptied tank that found nobody, in order: each ends a colony.
func (t *Tank) Closings() (all []*journal.Event) {
	for _, c := range t.Censuses {
		if c.Method == journal.Emptied && complete(c.Count) && c.Count.Total == 0 {
			all = append(all, c.Event)
		}
	}
	return all
}

// Closed reports whether, as was known on a day, the tank was emptied with nobody left, and nobody came or was seen since.
func (t *Tank) Closed(day journal.Day) bool {
	var last *journal.Event
	for _, e := range t.Closings() {
		if e.KnownFrom() <= day {
			last = e
		}
	}
	since := func(e *journal.Event) bool { return last != nil && e.KnownFrom() <= day && e.Compare(last) > 0 }
	return last != nil &&
		!slices.ContainsFunc(t.Ledger, func(l Line) bool { return (l.Change > 0 || l.Why == CameHatched) && since(l.Event) }) &&
		!slices.ContainsFunc(t.Proofs, func(p Proof) bool { return since(p.Event) })
}

// graded notes what a grading shows: that these animals were alive, and that a brood's young were looked at.
func (r *replay) graded(e *journal.Event, what *journal.Graded) {
	total := 0
	for _, n := range what.Counts {
		total += n
	}
	r.see(e, total)
	if what.Brood != "" {
		r.youngOf(e, what.Brood)
	}
}

// left takes shrimp out that died or were removed. A female's open brood is lost with her.
func (r *replay) left(e *journal.Event, who journal.Who, why Why) {
	if why == LeftRemoved {
		r.prove(e, who.Count.Total)
	}
	for _, s := range r.mentionAll(e, who) {
		if s.Gone != 0 {
			continue
		}
		s.Gone = e.Day
		r.dropWith(e, s, why)
	}
	r.enter(e.Tank, Line{Day: e.Day, Change: -who.Count.Total, Why: why, Count: who.Count, Names: who.Names, Event: e})
}

// moved takes shrimp from one tank to another. A female's open brood goes with her.
func (r *replay) moved(e *journal.Event, what *journal.Moved) {
	to := r.tanks[what.To]
	// The reader has already complained about a tank that does not exist.
	if to == nil {
		return
	}
	if what.To == e.Tank {
		r.warn(e.At("to"), "moved-nowhere", fmt.Sprintf("moved from %s to %s: nothing changes", e.Tank, what.To))
		return
	}
	r.prove(e, what.Shrimp.Count.Total)
	to.Events = append(to.Events, e)
	for _, s := range r.mentionAll(e, what.Shrimp) {
		s.Tank = what.To
		for _, b := range s.Broods {
			if b.State == Carried && b.Tank() != what.To {
				b.Events = append(b.Events, e)
				r.carry(b, what.To, e.Day)
			}
		}
	}
	who := what.Shrimp
	line := Line{Day: e.Day, Change: -who.Count.Total, Why: LeftMoved, Count: who.Count, Names: who.Names, Event: e, Other: what.To}
	r.enter(e.Tank, line)
	line.Change, line.Why, line.Other = who.Count.Total, CameMoved, e.Tank
	r.enter(what.To, line)
}

// Totals is the sum of a ledger by cause. Every field is a number of shrimp, not negative.
type Totals struct {
	Stocked, MovedIn         int
	Hatched                  int // shrimplets seen at hatches; broods nobody counted add nothing
	Died, Removed, MovedAway int
}

// Balance returns what came less what left. It is no estimate of the living: young and deaths go unseen.
func (t Totals) Balance() int {
	return t.Stocked + t.MovedIn + t.Hatched - t.Died - t.Removed - t.MovedAway
}

// Totals returns the sums of the tank's ledger.
func (t *Tank) Totals() Totals {
	var sum Totals
	for _, line := range t.Ledger {
		*sum.of(line.Why) += max(line.Change, -line.Change)
	}
	return sum
}

// of returns the field that a cause is summed in.
func (t *Totals) of(why Why) *int {
	switch why {
	case CameStocked:
		return &t.Stocked
	case CameMoved:
		return &t.MovedIn
	case CameHatched:
		return &t.Hatched
	case LeftDied:
		return &t.Died
	case LeftRemoved:
		return &t.Removed
	case LeftMoved:
		return &t.MovedAway
	}
	panic("colony: no total for " + string(why))
}

// Totals returns the sums of all ledgers. Moves between tanks stand in MovedIn and MovedAway alike.
func (c *Colony) Totals() Totals {
	var sum Totals
	for _, tank := range c.Tanks {
		for _, line := range tank.Ledger {
			*sum.of(line.Why) += max(line.Change, -line.Change)
		}
	}
	return sum
}
