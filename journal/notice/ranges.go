package notice

import (
	"fmt"
	"slices"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
)

// The readings outside a range in a row: over how many days at least, and how long after the last a notice stands.
const (
	outsideDays = 2
	outsideKeep = 21
	// The share of readings that lie outside while all is well, and how many readings that is worth beside the tank's own.
	outsideUsual  = 0.05
	outsideWeight = 10
)

// coldHeater is how far below the set-point of its heater a tank without a range of its own may be, °C: an assumption.
const coldHeater = 2.5

var outOfRange = Kind{
	Word: "out-of-range", Name: "Out of range for days",
	Watches:     "Two readings in a row, or more, two days apart or more, lie outside the keeper's range or, without one, outside the usual range; for a heated tank, far below the heater's set-point.",
	Probability: "That a reading of this tank lies outside, from its earlier readings and one in twenty as the usual share.",
	find:        (*history).outside,
}

// span returns the range that a reading is held against, who set it, and false when there is none.
func (h *history) span(kind journal.ReadingKind) (span journal.WaterRange, whose string, ok bool) {
	for _, s := range h.Range {
		if s.Kind == kind {
			return s, "the range in journal.yaml", true
		}
	}
	for _, s := range journal.UsualRanges() {
		if s.Kind != kind {
			continue
		}
		if kind == journal.Temperature && h.Heater.Known && h.Heater.Value-coldHeater > s.Low {
			s.Low = h.Heater.Value - coldHeater
			return s, "what follows from the heater's set-point", true
		}
		return s, "the usual range", true
	}
	return journal.WaterRange{}, "", false
}

// outside finds the runs of readings outside their range. Ammonia, nitrite and copper have notices of their own.
func (h *history) outside() []forecast.Notice {
	var out []forecast.Notice
	for _, kind := range []journal.ReadingKind{
		journal.Temperature, journal.PH, journal.GH, journal.KH, journal.TDS, journal.Conductivity, journal.Nitrate, journal.Oxygen,
	} {
		span, whose, ok := h.span(kind)
		if !ok {
			continue
		}
		for _, e := range episodes(outsideSigns(h.clean(kind), span), outsideKeep) {
			out = append(out, h.outsideNotice(e, kind, span, whose))
		}
	}
	return out
}

// outsideSigns calls from the second reading of a run on, and ends with a reading inside.
func outsideSigns(all []reading, span journal.WaterRange) []sign {
	var signs []sign
	var run []reading
	before := 0 // readings outside before the run
	for i, x := range all {
		if x.Value >= span.Low-1e-9 && x.Value <= span.High+1e-9 {
			before += len(run)
			run = nil
			signs = append(signs, sign{day: x.day, events: sources(x)})
			continue
		}
		if len(run) > 0 && x.seen()-run[len(run)-1].seen() > outsideKeep {
			before += len(run)
			run = nil
		}
		run = append(run, x)
		if x.seen()-run[0].seen() < outsideDays {
			continue
		}
		n := i + 1 - len(run)
		s := sign{day: x.day, calls: true, events: sources(run...), logged: slices.ContainsFunc(run, reading.logged), p: (float64(before) + outsideUsual*outsideWeight) / (float64(n) + outsideWeight)}
		if beyond := max(span.Low-x.Value, x.Value-span.High); beyond > (span.High-span.Low)/2 {
			s.severity = forecast.Soon
		}
		signs = append(signs, s)
	}
	return signs
}

func (h *history) outsideNotice(e episode, kind journal.ReadingKind, span journal.WaterRange, whose string) forecast.Notice {
	n := e.notice()
	n.Reading, n.Probability = kind, e.signs[0].p
	slices.SortStableFunc(n.Events, func(a, b *journal.Event) int { return int(a.Day - b.Day) })
	n.Events = slices.Compact(n.Events)
	last := e.last()
	value := 0.0
	for _, x := range h.clean(kind) {
		if x.day <= last.day && (x.Value < span.Low || x.Value > span.High) {
			value = x.Value
		}
	}
	way := map[bool]string{true: "low", false: "high"}[value < span.Low]
	name := wording.ReadingName(kind)
	n.Headline = fmt.Sprintf("%s has been %s for days: %s", wording.Sentence(name), way, h.amount(kind, value))
	n.Seen = fmt.Sprintf("%s on %s, and outside %s to %s in the readings before it too.", h.amount(kind, value), wording.Date(last.day), h.amount(kind, span.Low), h.amount(kind, span.High))
	n.Expected = fmt.Sprintf("Between %s and %s: %s.", h.amount(kind, span.Low), h.amount(kind, span.High), whose)
	n.Odds = fmt.Sprintf("A single reading of this tank lies outside with a chance of %s.", wording.Chance(n.Probability))
	n.Other = []string{
		"The range is narrower than this tank needs: shrimp that breed and moult well are the better judge.",
		"The test or the thermometer is off.",
		"A season: water follows the room.",
	}
	n.Checks = []string{
		"Measure again with a second test or thermometer.",
		"Look when it began, and what changed then: heater, water source, stones, food.",
		"If it has to be corrected: slowly, over days.",
	}
	if kind == journal.Temperature {
		n.Checks[1] = "Look whether the heater warms and stands at its mark. Switch it off and let it cool before hands or the level change."
	}
	n.Ends = fmt.Sprintf("Ends with a reading inside, or %s after the last outside.", days(outsideKeep))
	return n
}
