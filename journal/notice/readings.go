package notice

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"pleopod/journal"
	"pleopod/journal/evidence"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
)

// clean returns the readings of a kind that have an exact value and do not look like a slip of the pen, with the days of the
// logger file for temperatures, by day.
func (h *history) clean(kind journal.ReadingKind) []reading {
	all := slices.DeleteFunc(h.readings(kind), func(x reading) bool { return x.Below || h.slips()[x.Position] })
	if kind == journal.Temperature {
		for _, day := range h.Logged {
			all = append(all, reading{Reading: journal.Reading{Kind: kind, Value: day.Mean, Position: day.Position}, day: day.Day})
		}
	}
	slices.SortStableFunc(all, func(a, b reading) int { return cmp.Compare(a.seen(), b.seen()) })
	return all
}

// seen returns the day on which the reading was taken.
func (x reading) seen() journal.Day {
	if x.logged() {
		return x.day
	}
	return x.event.Day
}

// logged reports whether the reading is a day of a logger file.
func (x reading) logged() bool { return x.event == nil }

// sources returns the events of readings; those of a logger have none.
func sources(all ...reading) []*journal.Event {
	var events []*journal.Event
	for _, x := range all {
		if !x.logged() {
			events = append(events, x.event)
		}
	}
	return events
}

// pace is what counts as a fast change of one kind of reading. All are assumptions but for the law of the temperature:
// keepers call three degrees of temperature or hardness within days fast, and drop tests are good to a step.
type pace struct {
	kind     journal.ReadingKind
	least    float64                                // no smaller change counts
	soon     float64                                // from which it presses
	spread   func(h *history, a, b reading) float64 // sd of the difference when all is well
	relative bool                                   // least and soon are shares of the value before
	within   journal.Day                            // days within which two readings are compared
}

// For how many days a notice of a change stands, and from which probability on a change is worth one.
const (
	changeKeep = 10
	changeLook = 0.01
	changeSoon = 0.001
)

func paces() []pace {
	drop := func(sd float64) func(*history, reading, reading) float64 {
		return func(*history, reading, reading) float64 { return math.Sqrt2 * sd }
	}
	share := func(_ *history, a, _ reading) float64 { return math.Sqrt2 * 0.08 * a.Value }
	return []pace{
		{journal.Temperature, 3, 4, temperatureSpread, false, 31},
		{journal.GH, 3, 4, drop(0.7), false, 60},
		{journal.KH, 3, 4, drop(0.7), false, 60},
		{journal.TDS, 0.35, 0.5, share, true, 60},
		{journal.Conductivity, 0.35, 0.5, share, true, 60},
		{journal.PH, 0.8, 1.2, drop(0.2), false, 30},
	}
}

// temperatureSpread returns the sd of the difference of two readings of one tank, in °C.
//
//	√(2·σ²·(1 − e^(−Δ/τ)) + 2·s²)
//
// with σ and τ of the species profile's tank water and s the sd of a reading; see package water.
func temperatureSpread(h *history, a, b reading) float64 {
	t := h.Profile.Temperature
	sd := t.UnheatedSD
	if h.Heater.Known {
		sd = t.HeatedSD
	}
	apart := float64(b.seen() - a.seen())
	return math.Sqrt(2*sd*sd*(1-math.Exp(-apart/t.CorrelationDays)) + 2*t.ReadingSD*t.ReadingSD)
}

const changeOdds = "Of a difference at least as large, up or down, between two such readings of a tank that nothing happens to."

var temperatureChange = Kind{
	Word: "temperature-change", Name: "Fast change of temperature", Watches: "Two temperatures at most a month apart differ by 3 °C or more, and by more than the tank's water usually moves.",
	Probability: changeOdds, find: func(h *history) []forecast.Notice { return h.changes(journal.Temperature) },
}

var hardnessChange = Kind{
	Word: "hardness-change", Name: "Fast change of hardness", Watches: "Two tests at most two months apart differ by 3 degrees of general or carbonate hardness or more, or by a third of the dissolved solids.",
	Probability: changeOdds, find: func(h *history) []forecast.Notice {
		return h.changes(journal.GH, journal.KH, journal.TDS, journal.Conductivity)
	},
}

var phChange = Kind{
	Word: "ph-change", Name: "Fast change of pH", Watches: "Two tests at most a month apart differ by 0.8 of pH or more.",
	Probability: changeOdds, find: func(h *history) []forecast.Notice { return h.changes(journal.PH) },
}

// changes finds the fast changes of some kinds of readings.
func (h *history) changes(kinds ...journal.ReadingKind) []forecast.Notice {
	var out []forecast.Notice
	for _, pace := range paces() {
		if !slices.Contains(kinds, pace.kind) {
			continue
		}
		all := h.clean(pace.kind)
		var signs []sign
		pairs := map[journal.Day][2]reading{}
		for i := 1; i < len(all); i++ {
			s, ok := pace.sign(h, all[i-1], all[i])
			if ok {
				signs = append(signs, s)
				pairs[s.day] = [2]reading{all[i-1], all[i]}
			}
		}
		slices.SortStableFunc(signs, func(a, b sign) int { return cmp.Compare(a.day, b.day) })
		for _, e := range episodes(signs, changeKeep) {
			// Dissolved solids follow hardness: one notice tells of both.
			if slices.ContainsFunc(out, func(n forecast.Notice) bool { return n.Since < e.until && e.signs[0].day < n.Until }) {
				continue
			}
			pair := pairs[e.worst().day]
			out = append(out, h.changeNotice(e, pair[0], pair[1]))
		}
	}
	return out
}

// sign returns what two neighbouring readings say, and false when they say nothing.
func (p pace) sign(h *history, a, b reading) (sign, bool) {
	apart := b.seen() - a.seen()
	size := math.Abs(b.Value - a.Value)
	if apart < 1 || apart > p.within {
		return sign{}, false
	}
	s := sign{day: max(a.day, b.day), calls: true, p: evidence.TwoSided(size / p.spread(h, a, b)), events: sources(a, b), logged: a.logged() || b.logged()}
	if p.relative {
		size /= math.Max(a.Value, 1)
	}
	if size < p.least-1e-9 || s.p > changeLook {
		return sign{}, false
	}
	if size >= p.soon-1e-9 && s.p < changeSoon {
		s.severity = forecast.Soon
	}
	if p.kind == journal.Temperature && (b.Value >= deadlyHeat || b.Value <= deadlyCold) {
		s.severity = forecast.Now
	}
	return s, true
}

// The temperatures at which a change presses at once: above 32 °C eggs are lost and shrimp die (Tropea et al. 2015, doi
// 10.1371/journal.pone.0119468), and below 10 °C keepers lose them. The second is common practice, no source.
const (
	deadlyHeat = 33 // °C
	deadlyCold = 10 // °C
)

func (h *history) changeNotice(e episode, a, b reading) forecast.Notice {
	n := e.notice()
	n.Reading = b.Kind
	name := wording.ReadingName(b.Kind)
	way := map[bool]string{true: "rose", false: "fell"}[b.Value > a.Value]
	fast := map[bool]string{true: " fast", false: ""}[b.seen()-a.seen() <= 14]
	n.Headline = fmt.Sprintf("%s %s%s: from %s to %s", wording.Sentence(name), way, fast, h.amount(a.Kind, a.Value), h.amount(b.Kind, b.Value))
	n.Seen = fmt.Sprintf("%s on %s and %s on %s, %s later.", h.amount(a.Kind, a.Value), wording.Date(a.seen()), h.amount(b.Kind, b.Value), wording.Date(b.seen()), days(b.seen()-a.seen()))
	n.Expected = fmt.Sprintf("Two such readings usually differ by less than %s.", h.difference(b.Kind, 2*h.spreadOf(a, b)))
	n.Odds = fmt.Sprintf("So large a difference has a chance of %s when nothing happened to the water.", wording.Chance(n.Probability))
	if change := h.changeBetween(a.seen(), b.seen()); change != nil {
		n.Expected += fmt.Sprintf(" Between the two readings water was changed, on %s: %s.", wording.Date(change.Day), h.changed(change))
		n.Events = append(n.Events, change)
	}
	switch b.Kind {
	case journal.Temperature:
		n.Other = []string{"A warm or cold spell, an open window, lights or a pump that warm the water.", "Another thermometer, another place in the tank, or another time of day.", "A large water change with colder or warmer water."}
		n.Checks = []string{"Read a second thermometer.", "Look whether the heater is plugged in, warms, and stands at its mark. Switch it off and let it cool before hands or the level change.", "Compare the room with other days.", "Bring the water back slowly, a degree or two in a day."}
	case journal.PH:
		n.Other = []string{"Plants in the light raise pH through the day; compare readings of the same hour.", "A meter that was not calibrated, or test liquid near its end.", "Peat, leaves, carbon dioxide or new stones."}
		n.Checks = []string{"Repeat the test, at the same hour as the one before.", "Test carbonate hardness: where it is low, pH has no hold.", "Think of what was added or changed between the readings."}
	default:
		n.Other = []string{"New water that was softer or harder than the tank's, or remineraliser that was forgotten or doubled.", "Another test, or one drop more or less: a step is one degree.", "Stones or sand that give off lime, or soil that takes it up."}
		n.Checks = []string{"Repeat the test, and test the new water beside it.", "Think of the last water change: how much, and with which water?", "Watch for failed moults in the next days: a jump in hardness can bring on a moult too early.", "Bring the water back slowly, with small changes over days."}
	}
	n.Ends = fmt.Sprintf("Ends by itself %s after the last fast change.", days(changeKeep))
	return n
}

// spreadOf returns the sd of the difference of two readings when all is well.
func (h *history) spreadOf(a, b reading) float64 {
	for _, p := range paces() {
		if p.kind == a.Kind {
			return p.spread(h, a, b)
		}
	}
	return 0
}

// difference writes a difference of two readings in the keeper's units.
func (h *history) difference(kind journal.ReadingKind, size float64) string {
	switch {
	case kind == journal.Temperature && h.units.Temperature == "F":
		return wording.Number(1.8*size, 1) + wording.Joined + "°F"
	case kind == journal.PH:
		return wording.Number(size, 1)
	}
	return h.amount(kind, size)
}

// changeBetween returns the largest water change after one day and up to another, or nil.
func (h *history) changeBetween(after, until journal.Day) *journal.Event {
	var found *journal.Event
	for _, e := range h.events {
		if _, ok := e.What.(*journal.WaterChange); !ok || e.Day < after || e.Day > until {
			continue
		}
		if found == nil || h.share(e) > h.share(found) {
			found = e
		}
	}
	return found
}

// share returns the part of the water that a change replaced, or 0 when nobody knows the tank's volume.
func (h *history) share(e *journal.Event) float64 {
	what, ok := e.What.(*journal.WaterChange)
	switch {
	case !ok:
		return 0
	case what.Share.Known:
		return what.Share.Value
	case h.Volume.Known && h.Volume.Value > 0:
		return math.Min(1, what.Volume.Value/h.Volume.Value)
	}
	return 0
}

// changed writes how much a water change replaced.
func (h *history) changed(e *journal.Event) string {
	if share := h.share(e); share > 0 {
		return wording.Number(100*share, 0) + wording.Joined + "% of it"
	}
	return "how much of it is not known"
}
