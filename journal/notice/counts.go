package notice

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
)

// Counts against the estimate: how many of the latest are taken together, within how many days, from which probability on
// they are worth a notice, and how long it stands. Each count is judged by the estimate before it, and several low ones in a
// row, each not so unusual, are unusual together; the probability counts once for each number of counts tried.
const (
	countsTogether = 4
	countsWithin   = 60
	countsLook     = 0.05
	countsSoon     = 0.002
	countsAbove    = 0.005
	countsKeep     = 30
)

const countOdds = "Of counts at least as far off in this direction, as the estimate stood before each of the latest one to four; the least of the four, times four. For low counts also: of the latest one to three being so much lower than this keeper's counts before them."

var countBelow = Kind{
	Word: "count-below-estimate", Name: "Counts far below the estimate",
	Watches:     "A count, or several in a row together, are far below what the estimate before them expected to be seen.",
	Probability: countOdds, find: func(h *history) []forecast.Notice { return h.counts(below) },
}

var countAbove = Kind{
	Word: "count-above-estimate", Name: "Counts far above the estimate",
	Watches:     "A count, or several in a row together, are far above what the estimate before them expected to be seen, and above the number thought to live.",
	Probability: countOdds, find: func(h *history) []forecast.Notice { return h.counts(above) },
}

// side is where counts lie beside what the estimate makes of them.
type side string

const (
	below side = "below"
	above side = "above"
)

// checked is a count with its event, and how low it was on the scale of a standard normal number.
type checked struct {
	forecast.Checked
	event *journal.Event
	z     float64
	level float64 // logarithm of the count, less what was taken out since
}

// side returns on which side of the estimate the count lies.
func (c checked) side() side {
	if c.z < 0 {
		return below
	}
	return above
}

// checkedCounts returns the tank's counts against the estimates before them, by the day they became known.
func (h *history) checkedCounts() []checked {
	at := map[journal.Position]*journal.Event{}
	for _, e := range h.events {
		at[e.Position] = e
	}
	var all []checked
	for _, c := range h.Population.Counts {
		if e := at[c.At]; e != nil {
			// half of the probability of just this number belongs to each side
			middle := (c.Below + 1 - c.Above) / 2
			all = append(all, checked{Checked: c, event: e, z: distuv.UnitNormal.Quantile(math.Min(1-1e-9, math.Max(1e-9, middle)))})
		}
	}
	slices.SortStableFunc(all, func(a, b checked) int { return int(a.event.KnownFrom() - b.event.KnownFrom()) })
	return all
}

// counts follows the counts that are too far to a side.
func (h *history) counts(on side) []forecast.Notice {
	all := h.checkedCounts()
	var signs []sign
	last := map[journal.Day][]checked{}
	for i, c := range all {
		s := sign{day: c.event.KnownFrom(), events: []*journal.Event{c.event}}
		p, together := unlikeliest(all[:i+1], on)
		if q, fallen := h.fallen(all[:i+1]); on == below && q < p {
			p, together = q, fallen
		}
		switch {
		case on == below && p < countsLook || on == above && p < countsAbove && float64(c.Total) > c.Expected.P50:
			s.calls, s.p, s.events = true, p, nil
			for _, x := range together {
				s.events = append(s.events, x.event)
			}
			if on == below && p < countsSoon {
				s.severity = forecast.Soon
			}
			last[s.day] = together
		case on == c.side():
			continue // still on that side, if less so: no reason to end it
		}
		signs = append(signs, s)
	}
	var out []forecast.Notice
	for _, e := range episodes(signs, countsKeep) {
		out = append(out, h.countNotice(e, last[e.last().day], on))
	}
	return out
}

// unlikeliest returns the least likely of the latest counts taken together, and those counts. The sum of n standard
// normal numbers has the sd √n.
func unlikeliest(all []checked, on side) (p float64, together []checked) {
	newest := all[len(all)-1].event.KnownFrom()
	sum := 0.0
	p = 1
	for n := 1; n <= min(countsTogether, len(all)); n++ {
		c := all[len(all)-n]
		if newest-c.event.KnownFrom() > countsWithin {
			break
		}
		sum += c.z
		z := sum / math.Sqrt(float64(n))
		if on == above {
			z = -z
		}
		if this := countsTogether * distuv.UnitNormal.CDF(z); this < p {
			p, together = this, all[len(all)-n:]
		}
	}
	return p, together
}

// Counts that fall: how many of the latest are held against how many before them, within how many days, how much single
// counts of one keeper scatter (sd of the logarithm) and how many counts that is worth beside her own. Assumptions; a colony
// that grows makes them careful.
const (
	fallLatest  = 3
	fallBefore  = 6
	fallLeast   = 3
	fallWithin  = 90
	fallScatter = 0.25
	fallWeight  = 6
)

// fallen returns how unlikely it is that the latest counts are so much lower than those before them by chance, and those
// counts. It is Student's t of the logarithms:
//
//	t = (mean of the latest − mean before)/(s·√(1/k + 1/m))      s² pooled from the m before and fallWeight counts of fallScatter
func (h *history) fallen(all []checked) (p float64, together []checked) {
	p = 1
	newest := all[len(all)-1].event
	alike := slices.DeleteFunc(slices.Clone(all), func(c checked) bool {
		a, b := c.event.What.(*journal.Counted), newest.What.(*journal.Counted)
		return a.Method != b.Method || a.Shrimp.Sorted != b.Shrimp.Sorted || newest.KnownFrom()-c.event.KnownFrom() > fallWithin
	})
	for i := range alike {
		alike[i].level = math.Log(float64(alike[i].Total)+0.5) + math.Log(h.leftOf(alike[i].event))
	}
	for k := 1; k <= fallLatest; k++ {
		m := min(fallBefore, len(alike)-k)
		if m < fallLeast {
			break
		}
		latest, before := alike[len(alike)-k:], alike[len(alike)-k-m:len(alike)-k]
		mean, squares := scatter(before)
		level, _ := scatter(latest)
		freedom := float64(fallWeight + m - 1)
		s := math.Sqrt((fallWeight*fallScatter*fallScatter + squares) / freedom)
		t := (level - mean) / (s * math.Sqrt(1/float64(k)+1/float64(m)))
		if this := fallLatest * (distuv.StudentsT{Sigma: 1, Nu: freedom}).CDF(t); this < p {
			p, together = this, latest
		}
	}
	return p, together
}

// scatter returns the mean of the levels of counts, and the sum of the squared distances to it.
func scatter(all []checked) (mean, squares float64) {
	for _, c := range all {
		mean += c.level / float64(len(all))
	}
	for _, c := range all {
		squares += (c.level - mean) * (c.level - mean)
	}
	return mean, squares
}

// leftOf returns the share of the shrimp of a count that nobody has taken out since, at least a tenth. As mostly grown ones
// are taken, it is reckoned of the adults, which leaves a count no reason to be lower.
func (h *history) leftOf(e *journal.Event) float64 {
	taken := 0
	for _, line := range h.Ledger {
		if line.Day >= e.Day && line.Change < 0 && line.Why != colony.LeftDied {
			taken -= line.Change
		}
	}
	evening, ok := h.evening(e.KnownFrom())
	if !ok || taken == 0 {
		return 1
	}
	return math.Max(0.1, 1-float64(taken)/math.Max(1, evening.Adults))
}

// reach writes the range of a number, one number where both ends are the same.
func reach(q forecast.Quantiles) string {
	low, high := wording.Number(q.P05, 0), wording.Number(q.P95, 0)
	if low == high {
		return low
	}
	return low + " to " + high
}

func (h *history) countNotice(e episode, together []checked, on side) forecast.Notice {
	n := e.notice()
	newest := together[len(together)-1]
	n.Headline = fmt.Sprintf("The count of %d is far %s the estimate", newest.Total, on)
	var seen []string
	for _, c := range together {
		seen = append(seen, fmt.Sprintf("%d counted on %s", c.Total, wording.Date(c.event.Day)))
	}
	n.Seen = wording.List(seen) + "."
	n.Expected = fmt.Sprintf("Before the last count %s shrimp were thought to live here (90%s%% sure), of which a count of this kind sees a part.",
		reach(newest.Expected), wording.Joined)
	if len(together) > 1 {
		n.Expected = fmt.Sprintf("Each of the %d counts was %s what was expected of it; together that is unusual. ", len(together), on) + n.Expected
	}
	n.Odds = fmt.Sprintf("Counts so far %s have a chance of %s when the estimate is right.", on, wording.Chance(n.Probability))
	if on == below {
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
