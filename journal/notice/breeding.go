package notice

import (
	"fmt"
	"math"
	"slices"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/evidence"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
)

// How a keeper notices broods: of the visits on which at least one new clutch must be there, she notes one on a share that is
// gamma distributed with so many visits noted among so many, before her own record speaks; visits of so many days count; and
// a visit sees the clutches of so many days. All are assumptions.
const (
	notedPrior  = 8
	visitsPrior = 10
	notedMemory = 180
	visitReach  = 14
	noEggsLook  = 0.05
	noEggsSoon  = 0.005
	leastVisits = 4 // since the last eggs, below which nobody has looked often enough
)

var noBerried = Kind{
	Word: "no-berried-female", Name: "No female with eggs",
	Watches:     "Nobody wrote of a female with eggs for longer than the grown females, the water and this keeper's own eye make likely.",
	Probability: "That as many visits pass without a note of new eggs, from the clutches that the estimated females should have begun and the share of them that this keeper has noted.",
	find:        (*history).withoutEggs,
}

// visit is a day on which the keeper wrote about the tank.
type visit struct {
	day    journal.Day
	chance float64 // that a clutch was new since the visit before
	noted  bool    // a female with eggs was written of
	eggs   bool    // that, or a brood was known to be carried, or ended
	event  *journal.Event
}

// eggVisits returns the visits from the first shrimp on.
func (h *history) eggVisits() []visit {
	noted, eggs := map[journal.Day]*journal.Event{}, map[journal.Day]*journal.Event{}
	for _, e := range h.events {
		switch e.What.(type) {
		case *journal.Berried:
			noted[e.KnownFrom()], eggs[e.KnownFrom()] = e, e
		case *journal.Eyed, *journal.Hatched, *journal.Dropped:
			eggs[e.KnownFrom()] = e
		}
	}
	var all []visit
	broods := h.broods()
	for i, day := range h.visits {
		evening, ok := h.evening(day)
		if !ok {
			continue
		}
		since := journal.Day(visitReach)
		if i > 0 {
			since = min(since, day-h.visits[i-1])
		}
		v := visit{day: day, chance: 1 - math.Exp(-evening.Clutches*float64(since)), noted: noted[day] != nil, event: eggs[day]}
		v.eggs = v.event != nil || h.carriedOn(day, broods)
		all = append(all, v)
	}
	return all
}

// broods returns what is predicted of the broods that were ever carried in the tank.
func (h *history) broods() (all []*forecast.Brood) {
	for i := range h.forecast.Broods {
		b := &h.forecast.Broods[i]
		if slices.ContainsFunc(b.Stays, func(s colony.Stay) bool { return s.Tank == h.ID }) {
			all = append(all, b)
		}
	}
	return all
}

// carriedOn reports whether one of the broods was known to be carried in the tank on a day, and not long overdue.
func (h *history) carriedOn(day journal.Day, broods []*forecast.Brood) bool {
	return slices.ContainsFunc(broods, func(b *forecast.Brood) bool {
		ended := b.Ended != nil && b.Ended.KnownFrom() <= day
		late := b.Foreseen.P95 != 0 && day > b.Foreseen.P95
		return b.Opened.KnownFrom() <= day && !ended && !late && b.TankOn(max(day, b.Berried)) == h.ID
	})
}

// wait is the visits since eggs were last known of.
type wait struct {
	day      journal.Day    // of the newest visit
	visits   int            // since
	exposure float64        // expected visits with a new clutch among them
	last     *journal.Event // with eggs, or nil
	from     journal.Day    // of the first visit of the wait
	p        float64
}

// waits returns the wait on every visit; with eggs the exposure is 0.
func (h *history) waits() []wait {
	if h.waited == nil {
		h.waited = h.findWaits()
	}
	return h.waited
}

func (h *history) findWaits() []wait {
	var all []wait
	var w wait
	var hits, before float64
	visits := h.eggVisits()
	for i, v := range visits {
		if v.eggs {
			w = wait{last: v.event}
			if v.event == nil && len(all) > 0 {
				w.last = all[len(all)-1].last
			}
			w.day, w.p = v.day, 1
			all = append(all, w)
			continue
		}
		if w.visits == 0 {
			w.from = v.day
			hits, before = notes(visits[:i], w.from)
		}
		w.day, w.visits, w.exposure = v.day, w.visits+1, w.exposure+v.chance
		w.p = evidence.NoneSince(hits, before, w.exposure)
		all = append(all, w)
	}
	return all
}

// notes returns what the visits before a wait say of the keeper's eye, prior included.
func notes(visits []visit, from journal.Day) (hits, exposure float64) {
	hits, exposure = notedPrior, visitsPrior
	for _, v := range visits {
		if v.day < from-notedMemory {
			continue
		}
		exposure += v.chance
		if v.noted {
			hits++
		}
	}
	return hits, exposure
}

func (h *history) withoutEggs() []forecast.Notice {
	var signs []sign
	waits := map[journal.Day]wait{}
	for _, w := range h.waits() {
		s := sign{day: w.day, p: w.p, events: []*journal.Event{w.last}}
		s.calls = w.visits >= leastVisits && w.p < noEggsLook
		if w.p < noEggsSoon {
			s.severity = forecast.Soon
		}
		if !s.calls && w.visits > 0 {
			continue
		}
		waits[s.day] = w
		signs = append(signs, s)
	}
	var out []forecast.Notice
	for _, e := range episodes(signs, 2*visitReach) {
		out = append(out, h.withoutEggsNotice(e, waits[e.last().day]))
	}
	return out
}

func (h *history) withoutEggsNotice(e episode, w wait) forecast.Notice {
	n := e.notice()
	n.Events = append(h.writtenOn(w.day), w.last)
	evening, _ := h.evening(w.day)
	if w.last == nil {
		n.Headline = "No female with eggs was seen yet"
		n.Seen = fmt.Sprintf("No eggs in %s up to %s.", wording.Count(w.visits, "entry", "entries"), wording.Date(w.day))
	} else {
		n.Headline = fmt.Sprintf("No female with eggs since %s", wording.Date(w.last.Day))
		n.Seen = fmt.Sprintf("No eggs in the %s after %s, up to %s.", wording.Count(w.visits, "entry", "entries"), wording.Date(w.last.Day), wording.Date(w.day))
	}
	n.Expected = fmt.Sprintf("About %s grown females live here, and one carries eggs again every %s or so: a note of new eggs was likely on about %s of these days, for a keeper who notes as many as this one.",
		wording.Number(evening.Females, 0), days(journal.Day(math.Round(evening.Females/math.Max(evening.Clutches, 1e-6)))), wording.Number(w.exposure*notedPrior/visitsPrior, 0))
	n.Odds = fmt.Sprintf("So long a wait has a chance of %s when females breed as usual.", wording.Chance(n.Probability))
	n.Other = []string{
		"Eggs were there and nobody wrote of them.",
		"The females are young, or fewer than estimated.",
		"The water is cool: below 21 °C they breed more slowly, below 18 °C not at all.",
		"Only one sex lives in the tank.",
	}
	n.Checks = []string{
		"Look at the bellies of the largest shrimp from the side, with a torch.",
		"Look for saddles, the yellow or green patch behind the head: females that are ready have one.",
		"Look for males: smaller, slimmer, without a saddle.",
		"Read the thermometer, and test hardness and nitrate.",
	}
	n.Ends = "Ends with the next note of eggs, or four weeks after the last entry."
	return n
}
