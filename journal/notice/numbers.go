package notice

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"pleopod/journal"
	"pleopod/journal/forecast"
)

// Counts against the estimate: how many of the latest are taken together, within how many days, from which probability on
// they are worth a notice, and how long it stands. Each count is judged by the estimate before it, and several low ones in a
// row, each not so unusual, are unusual together; the probability counts once for each number of counts tried.
const (
	countsTogether = 4
	countsWithin   = 60
	countsLook     = 0.02
	countsSoon     = 0.002
	countsAbove    = 0.005
	countsKeep     = 30
)

const countOdds = "Of counts at least as far off in this direction, as the estimate stood before each of the latest one to four; the least of the four, times four."

var countBelow = Kind{
	Word: "count-below-estimate", Name: "Counts far below the estimate",
	Watches:     "A count, or several in a row together, are far below what the estimate before them expected to be seen.",
	Probability: countOdds, find: func(r *record) []forecast.Notice { return r.counts(true) },
}

var countAbove = Kind{
	Word: "count-above-estimate", Name: "Counts far above the estimate",
	Watches:     "A count, or several in a row together, are far above what the estimate before them expected to be seen, and above the number thought to live.",
	Probability: countOdds, find: func(r *record) []forecast.Notice { return r.counts(false) },
}

// checked is a count with its event, and how low it was on the scale of a standard normal number.
type checked struct {
	forecast.Checked
	event *journal.Event
	z     float64
}

// checkedCounts returns the tank's counts against the estimates before them, by the day they became known.
func (r *record) checkedCounts() []checked {
	at := map[journal.Position]*journal.Event{}
	for _, e := range r.events {
		at[e.Position] = e
	}
	var all []checked
	for _, c := range r.Population.Counts {
		if e := at[c.At]; e != nil {
			// half of the probability of just this number belongs to each side
			middle := (c.Below + 1 - c.Above) / 2
			all = append(all, checked{c, e, distuv.UnitNormal.Quantile(math.Min(1-1e-9, math.Max(1e-9, middle)))})
		}
	}
	slices.SortStableFunc(all, func(a, b checked) int { return int(known(a.event) - known(b.event)) })
	return all
}

// counts follows the counts that are too low, or too high.
func (r *record) counts(low bool) []forecast.Notice {
	all := r.checkedCounts()
	var signs []sign
	last := map[journal.Day][]checked{}
	for i, c := range all {
		s := sign{day: known(c.event), events: []*journal.Event{c.event}}
		p, together := unlikeliest(all[:i+1], low)
		switch {
		case low && p < countsLook || !low && p < countsAbove && float64(c.Total) > c.Expected.P50:
			s.calls, s.p, s.events = true, p, nil
			for _, x := range together {
				s.events = append(s.events, x.event)
			}
			if low && p < countsSoon {
				s.severity = forecast.Soon
			}
			last[s.day] = together
		case low == (c.z < 0):
			continue // still on that side, if less so: no reason to end it
		}
		signs = append(signs, s)
	}
	var out []forecast.Notice
	for _, e := range episodes(signs, countsKeep) {
		out = append(out, r.countNotice(e, last[e.last().day], low))
	}
	return out
}

// unlikeliest returns the least likely of the latest counts taken together, and those counts. The sum of n standard
// normal numbers has the sd √n.
func unlikeliest(all []checked, low bool) (p float64, together []checked) {
	newest := known(all[len(all)-1].event)
	sum := 0.0
	p = 1
	for n := 1; n <= min(countsTogether, len(all)); n++ {
		c := all[len(all)-n]
		if newest-known(c.event) > countsWithin {
			break
		}
		sum += c.z
		z := sum / math.Sqrt(float64(n))
		if !low {
			z = -z
		}
		if this := countsTogether * distuv.UnitNormal.CDF(z); this < p {
			p, together = this, all[len(all)-n:]
		}
	}
	return p, together
}

func (r *record) countNotice(e episode, together []checked, low bool) forecast.Notice {
	n := e.notice()
	newest := together[len(together)-1]
	way := map[bool]string{true: "below", false: "above"}[low]
	n.Headline = fmt.Sprintf("The count of %d is far %s the estimate", newest.Total, way)
	var seen []string
	for _, c := range together {
		seen = append(seen, fmt.Sprintf("%d counted on %s", c.Total, date(c.event.Day)))
	}
	n.Seen = list(seen) + "."
	n.Expected = fmt.Sprintf("Before the last count %s to %s shrimp were thought to live here (90%s%% sure), of which a count of this kind sees a part.",
		number(newest.Expected.P05, 0), number(newest.Expected.P95, 0), joined)
	if len(together) > 1 {
		n.Expected = fmt.Sprintf("Each of the %d counts was %s what was expected of it; together that is unusual. ", len(together), way) + n.Expected
	}
	n.Odds = fmt.Sprintf("Counts so far %s have a chance of %s when the estimate is right.", way, chance(n.Probability))
	if low {
		n.Other = []string{
			"They hide: after a water change, while many moult, or when a fish looks on.",
			"The light was poor, or the count was shorter than usual.",
			"Fewer young lived than the model thinks: then the estimate was too high, and the next count confirms this one.",
		}
		n.Checks = []string{
			"Count again at feeding time, on another day.",
			"Look for dead shrimp, and for empty shells with a hole.",
			"Look for a hunter: a fish, a dragonfly larva that came with plants, a hydra on the glass.",
			"Look at filter and overflow: young are drawn into an inlet without a sponge.",
			"Test the water.",
		}
	} else {
		n.Other = []string{
			"More young lived than the model thinks, or a brood hatched that nobody wrote of.",
			"The count was more thorough than usual: then \"careful\" is the word for it.",
			"Shrimp were added that the diary does not tell of.",
		}
		n.Checks = []string{"Look whether a stocking, a move or a hatch is missing in the diary.", "Count again on another day.", "Look whether the tank has room and food for so many."}
	}
	n.Ends = fmt.Sprintf("Ends with a count on the other side of the estimate, or %s after the last count so far off.", days(countsKeep))
	return n
}

// Numbers that do not fit what the keeper wants: from which probability of more adults than the tank can carry a notice
// stands, and below which it ends; below which probability of enough adults selecting is early; and how long each stands.
const (
	crowdedFrom  = 0.9
	crowdedUntil = 0.5
	crowdedSoon  = 1.5 // times the capacity
	crowdedKeep  = 30
	selectBelow  = 0.05
	selectFrom   = 0.5
	selectKeep   = 60
)

var aboveCapacity = Kind{
	Word: "above-capacity", Name: "More adults than the tank can carry",
	Watches:     "Grown shrimp are more than the tank's capacity: the keeper's own number, or five for each litre.",
	Probability: "That there are more adults than the tank can carry.",
	find:        (*record).crowded,
}

// capacity returns how many adults the tank can carry, and false where nothing is known of its size.
func (r *record) capacity() (float64, bool) {
	if r.Capacity.Known {
		return r.Capacity.Value, true
	}
	return r.Profile.Density.Capacity(r.Volume.Or(0)), r.Volume.Known
}

func (r *record) crowded() []forecast.Notice {
	capacity, ok := r.capacity()
	if !ok {
		return nil
	}
	var signs []sign
	for _, w := range r.Population.Weeks {
		s := sign{day: w.Day, calls: w.Crowded >= crowdedFrom, p: w.Crowded}
		if w.Adults > crowdedSoon*capacity {
			s.severity = forecast.Soon
		}
		if s.calls || w.Crowded < crowdedUntil {
			signs = append(signs, s)
		}
	}
	var out []forecast.Notice
	for _, e := range episodes(signs, crowdedKeep) {
		n := e.notice()
		w, _ := r.week(e.last().day)
		n.Probability = w.Crowded
		n.Events = r.censusesBefore(e.last().day)
		n.Headline = fmt.Sprintf("More grown shrimp than %s can carry", r.name())
		n.Seen = fmt.Sprintf("About %s grown shrimp live here, as estimated on %s.", number(w.Adults, 0), date(e.last().day))
		n.Expected = fmt.Sprintf("Room for about %s.", number(capacity, 0))
		n.Odds = fmt.Sprintf("The chance that there are more than the tank can carry is %s.", chance(n.Probability))
		n.Other = []string{
			"The estimate is too high: a careful count would tell.",
			"The tank carries more than was thought, with much moss, a large filter and steady water: then capacity in journal.yaml is too low.",
		}
		n.Checks = []string{
			"Count with care, or count at feeding time.",
			"Test nitrate, and ammonia after feeding.",
			"Look whether few of the young live: that is how a full tank slows down.",
			"Shrimp may leave for another tank or keeper; never into open water.",
		}
		n.Ends = "Ends when the estimate falls to what the tank can carry."
		out = append(out, n)
	}
	return out
}

// censusesBefore returns the latest counts up to a day.
func (r *record) censusesBefore(day journal.Day) []*journal.Event {
	var events []*journal.Event
	for _, c := range r.Censuses {
		if known(c.Event) <= day {
			events = append(events, c.Event)
		}
	}
	return events[max(0, len(events)-2):]
}

var fewToSelect = Kind{
	Word: "too-few-to-select", Name: "Too few adults to select from",
	Watches:     "Shrimp were graded or culled while there are too few adults to select from: an effective size below 50.",
	Probability: "That there are enough adults to begin selecting.",
	find:        (*record).selectsTooFew,
}

func (r *record) selectsTooFew() []forecast.Notice {
	var signs []sign
	for _, e := range r.events {
		week, ok := r.week(known(e))
		if !ok || !selects(e) {
			continue
		}
		s := sign{day: known(e), calls: week.CanSelect < selectBelow, p: week.CanSelect, events: []*journal.Event{e}}
		if s.calls || week.CanSelect > selectFrom {
			signs = append(signs, s)
		}
	}
	var out []forecast.Notice
	for _, e := range episodes(signs, selectKeep) {
		n := e.notice()
		week, _ := r.week(e.last().day)
		n.Headline = "Few adults to select from"
		n.Seen = fmt.Sprintf("Shrimp were graded or culled on %s, with an effective size of about %s.", date(e.last().day), number(week.EffectiveSize, 0))
		n.Expected = "An effective size of 50 or more: breeding from the better half then adds at most 2 % inbreeding a generation."
		n.Odds = fmt.Sprintf("The chance that there are enough adults is %s.", chance(n.Probability))
		n.Other = []string{
			"Grading alone takes nothing from the colony: it is a record of where it stands.",
			"More adults live here than were counted.",
			"Several tanks of one line count together, when shrimp are exchanged between them.",
		}
		n.Checks = []string{
			"See when there will be enough: the tank's page gives the day.",
			"Look at the number of males: one male for many females counts little.",
			"Until then take out only the few that are clearly wrong, and keep as many parents as you can.",
		}
		n.Ends = fmt.Sprintf("Ends when there are enough adults, or %s after the last selection.", days(selectKeep))
		out = append(out, n)
	}
	return out
}

// selects reports whether an event is part of selecting.
func selects(e *journal.Event) bool {
	switch what := e.What.(type) {
	case *journal.Graded:
		return true
	case *journal.Removed:
		return what.Reason == journal.Culled
	}
	return false
}
