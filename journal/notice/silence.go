package notice

import (
	"fmt"
	"math"
	"slices"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
)

// A long silence: how many days it must last at least, how unlikely it must be, how many of the latest gaps between entries
// say how often this keeper writes, and what is thought before they do: two gaps of a week. Assumptions.
const (
	silentLeast = 21
	silentBelow = 0.02
	silentGaps  = 20
	gapsPrior   = 2
	gapPrior    = 7
)

var longSilence = Kind{
	Word: "no-record", Name: "No record for long",
	Watches:     "Nothing was written about a tank with shrimp for three weeks or more, and for longer than this keeper's gaps make likely.",
	Probability: "Of a gap at least as long, from the latest twenty gaps between entries about the tank.",
	find:        (*history).silences,
}

// silences finds the gaps between entries that are unusually long. Gaps are taken as exponential, with a rate learned from
// those before:
//
//	P(gap > g) = (B/(B + g))^A      A = 2 + gaps, B = 14 + their sum
func (h *history) silences() []forecast.Notice {
	var out []forecast.Notice
	var gaps []float64
	for i, day := range h.visits {
		next := h.asOf + 1
		if i+1 < len(h.visits) {
			next = h.visits[i+1]
		}
		a, b := float64(gapsPrior), float64(gapsPrior*gapPrior)
		known := gaps[max(0, len(gaps)-silentGaps):]
		for _, gap := range known {
			a, b = a+1, b+gap
		}
		limit := journal.Day(math.Ceil(math.Max(silentLeast, b*(math.Pow(silentBelow, -1/a)-1))))
		gaps = append(gaps, float64(next-day))
		if next-day <= limit || !h.inhabited(day) {
			continue
		}
		n := forecast.Notice{Severity: forecast.Look, Since: day + limit, Events: h.writtenOn(day)}
		last := h.asOf
		if i+1 < len(h.visits) {
			n.Until, last = next, next-1
			if written := h.writtenOn(next); len(written) > 0 {
				n.Ending = written[0]
			}
		}
		n.Probability = math.Pow(b/(b+float64(last-day)), a)
		n.Headline = fmt.Sprintf("Nothing was written about %s for %s", h.name(), days(last-day))
		n.Seen = fmt.Sprintf("The last entry before was that of %s.", wording.Date(day))
		rhythm := days(journal.Day(math.Max(1, math.Round(b/a))))
		n.Expected = fmt.Sprintf("This keeper writes about the tank every %s or so.", rhythm)
		if len(known) < gapsPrior {
			n.Expected = fmt.Sprintf("An entry about the tank every %s or so is taken as usual, until there are more to learn from.", rhythm)
		}
		n.Odds = fmt.Sprintf("So long a gap has a chance of %s.", wording.Chance(n.Probability))
		n.Other = []string{"All is well and there was nothing to tell.", "A journey, or an entry that names another tank."}
		n.Checks = []string{
			"Look in: is the water at its level, does the filter run, do shrimp graze?",
			"A glance at the thermometer and a rough count already narrow the estimates again.",
		}
		n.Ends = "Ends with the next entry about the tank."
		out = append(out, n)
	}
	return out
}

// inhabited reports whether shrimp live in the tank, as far as is known on a day.
func (h *history) inhabited(day journal.Day) bool {
	if h.Closed(day) {
		return false
	}
	came := false
	for _, line := range h.Ledger {
		came = came || line.Day <= day && line.Change > 0
	}
	if evening, ok := h.evening(day); ok {
		return evening.Adults >= 0.5 || evening.Females > 0
	}
	return came
}

// writtenOn returns an event of each entry about the tank on a day. For an entry of words alone it is one in which nothing
// happened, so that the notice leads to it, and is private with it.
func (h *history) writtenOn(day journal.Day) []*journal.Event {
	var events []*journal.Event
	for _, entry := range h.forecast.Colony.Entries {
		if entry.Date != day || !h.isAbout(entry) {
			continue
		}
		i := slices.IndexFunc(h.events, func(e *journal.Event) bool { return e.Entry == entry })
		if i >= 0 {
			events = append(events, h.events[i])
			continue
		}
		events = append(events, &journal.Event{Position: entry.At("date"), Entry: entry, Day: day, Tank: h.ID})
	}
	return events
}
