package notice

import (
	"fmt"
	"slices"
	"strings"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/water"
	"pleopod/journal/wording"
)

// toxin is something that a settled tank does not hold.
type toxin struct {
	kind journal.ReadingKind
	// usual is the share of tests of a settled tank that find it, and weight is how many tests that is worth beside the
	// tank's own. Assumptions.
	usual, weight float64
	least         float64 // mg/L, below which it is no matter
	soon, now     float64 // mg/L from which it presses
	keep          journal.Day
}

// The limits of what is found by a test.
//
// Ammonia is judged by its un-ionised part as nitrogen: 0.0076 and 0.067 mg/L are those of the criteria of 1.9 (30 days) and
// 17 (one hour) mg/L total at pH 7 and 20 °C (US EPA 2013, EPA-822-R-13-001; from memory), for the animals of a lake. Nitrite
// at 0.5 and 5 mg/L is common practice without a source. Copper at 0.01 mg/L is a third of the 96 h LC50 of Macrobrachium nipponense
// in soft water, a surrogate (Yang 2014, doi 10.1186/0717-6287-47-13), and 0.03 is that LC50.
var (
	ammonia = toxin{journal.Ammonia, 0.05, 10, 0, 0.0076, 0.067, 21}
	nitrite = toxin{journal.Nitrite, 0.05, 10, 0, 0.5, 5, 21}
	copper  = toxin{journal.Copper, 0.02, 10, 0.01, 0.01, 0.03, 30}
)

// thin is what may be done at once about ammonia or nitrite, whatever it comes from.
const thin = "If the test is right: several small water changes with water of the same temperature and hardness. That thins it; what it comes from has still to be found, for this is no diagnosis."

var ammoniaFound = Kind{
	Word: "ammonia", Name: "Ammonia above zero",
	Watches:     "A test found ammonia. How much it presses follows from the un-ionised part, which is the harmful one.",
	Probability: "That a test of this tank finds ammonia at all, from its earlier tests and one in twenty as the usual share.",
	find:        func(h *history) []forecast.Notice { return h.found(ammonia, h.ammoniaNotice) },
}

var nitriteFound = Kind{
	Word: "nitrite", Name: "Nitrite above zero",
	Watches:     "A test found nitrite.",
	Probability: "That a test of this tank finds nitrite at all, from its earlier tests and one in twenty as the usual share.",
	find:        func(h *history) []forecast.Notice { return h.found(nitrite, h.nitriteNotice) },
}

// found follows the tests of a toxin.
func (h *history) found(x toxin, write func(n *forecast.Notice, worst reading)) []forecast.Notice {
	var signs []sign
	tests := h.readings(x.kind)
	finds := 0
	for i, test := range tests {
		s := sign{day: test.day, events: []*journal.Event{test.event}}
		if !test.Below && test.Value > 0 && test.Value >= x.least {
			s.calls = true
			s.p = (float64(finds) + x.usual*x.weight) / (float64(i) + x.weight)
			s.severity = x.severity(h.harmful(test))
			finds++
		}
		signs = append(signs, s)
	}
	var out []forecast.Notice
	for _, e := range episodes(signs, x.keep) {
		n := e.notice()
		n.Probability = e.signs[0].p // later tests of one spell are no news
		worst := e.worst()
		write(&n, tests[slices.IndexFunc(tests, func(t reading) bool { return t.event == worst.events[0] })])
		out = append(out, n)
	}
	return out
}

func (x toxin) severity(value float64) forecast.Severity {
	switch {
	case value >= x.now:
		return forecast.Now
	case value >= x.soon:
		return forecast.Soon
	}
	return forecast.Look
}

// harmful returns what the limits of a toxin are about: for ammonia the un-ionised nitrogen, else the value itself.
func (h *history) harmful(test reading) float64 {
	if test.Kind != journal.Ammonia {
		return test.Value
	}
	value, _, _ := h.unionised(test)
	basis := water.AmmoniaBasis(h.forecast.Colony.Settings.Ammonia)
	nitrogen, err := basis.Convert(value, water.AsN)
	if err != nil {
		return value
	}
	return nitrogen
}

// unionised returns the un-ionised part of an ammonia test on the test's own basis, and the pH behind it. Where nobody
// measured one near that day it is that of the upper end of the range that pH is held against, the worst to be expected.
func (h *history) unionised(test reading) (part, ph float64, measured bool) {
	for _, day := range h.Water {
		if day.Event == test.event && day.UnionisedAmmonia.Known {
			return day.UnionisedAmmonia.Value, day.PH.Value, true
		}
	}
	span, _, _ := h.span(journal.PH)
	part, err := water.Unionised(test.Value, span.High, h.celsius(test.event.Day))
	if err != nil {
		part = test.Value
	}
	return part, span.High, false
}

// acidity returns the tests that the pH of an ammonia test was taken from: who reads how much of it is un-ionised can tell the pH.
func (h *history) acidity(test reading) []*journal.Event {
	near := slices.DeleteFunc(h.readings(journal.PH), func(x reading) bool {
		return x.seen() < test.seen()-forecast.NearbyPH || x.seen() > test.seen()+forecast.NearbyPH
	})
	if slices.ContainsFunc(near, func(x reading) bool { return x.event == test.event }) {
		return []*journal.Event{test.event}
	}
	return sources(near...)
}

func (h *history) ammoniaNotice(n *forecast.Notice, worst reading) {
	n.Headline = fmt.Sprintf("Ammonia above zero: %s", h.amount(worst.Kind, worst.Value))
	part, ph, measured := h.unionised(worst)
	n.Events = append(n.Events, h.acidity(worst)...)
	n.Seen = fmt.Sprintf("%s total ammonia on %s, of which %s mg/L is un-ionised, the harmful part.",
		h.amount(worst.Kind, worst.Value), wording.Date(worst.event.Day), wording.Number(part, 4))
	if !measured {
		_, whose, _ := h.span(journal.PH)
		n.Seen = fmt.Sprintf("%s total ammonia on %s. Nobody measured the pH near that day, which decides how much of it is harmful: at %s, the upper end of %s, it would be %s mg/L. Until the pH is known the worse is taken.",
			h.amount(worst.Kind, worst.Value), wording.Date(worst.event.Day), h.amount(journal.PH, ph), whose, wording.Number(part, 4))
	}
	n.Expected = "In a settled tank a test shows zero: bacteria turn ammonia into nitrate faster than it comes."
	n.Odds = fmt.Sprintf("A test of this tank finds some with a chance of %s.", wording.Chance(n.Probability))
	n.Other = []string{
		"The tank is young, or its filter was cleaned or stood still.",
		"Tap water treated with chloramine, old test liquid, or a colour read in poor light.",
		"Some tests also count ammonia that a water conditioner has bound.",
	}
	n.Checks = []string{
		"Repeat the test, and test the tap water beside it.",
		"Measure the pH: the higher it is, the more of the ammonia harms.",
		thin,
		"Look for a dead animal and for food that was left.",
		"Look whether the filter runs and the water moves.",
		"Test nitrite in the next days: it follows ammonia.",
	}
	n.Ends = "Ends with a test that finds none, or three weeks after the last that did."
}

func (h *history) nitriteNotice(n *forecast.Notice, worst reading) {
	n.Headline = fmt.Sprintf("Nitrite above zero: %s", h.amount(worst.Kind, worst.Value))
	n.Seen = fmt.Sprintf("%s nitrite on %s.", h.amount(worst.Kind, worst.Value), wording.Date(worst.event.Day))
	n.Expected = "In a settled tank a test shows zero: bacteria turn nitrite into nitrate faster than it comes."
	n.Odds = fmt.Sprintf("A test of this tank finds some with a chance of %s.", wording.Chance(n.Probability))
	n.Other = []string{
		"The tank is young, or its filter was cleaned or stood still.",
		"Old test liquid, or a colour read in poor light.",
		"Ammonia some days before: nitrite is what becomes of it.",
	}
	n.Checks = []string{
		"Repeat the test, and test the tap water beside it.",
		"Test ammonia too.",
		thin,
		"Look for a dead animal and for food that was left.",
		"Look whether the filter runs and the water moves.",
	}
	n.Ends = "Ends with a test that finds none, or three weeks after the last that did."
}

var copperFound = Kind{
	Word: "copper", Name: "Copper",
	Watches:     "Copper was measured, or something with copper in its name was added to the water.",
	Probability: "That a test of this tank finds so much copper, from its earlier tests and one in fifty as the usual share.",
	find:        (*history).copperSigns,
}

// copperSigns joins tests of copper and doses whose name tells of it. Deaths within a week after make it press.
func (h *history) copperSigns() []forecast.Notice {
	var signs []sign
	tests, finds := 0, 0.0
	for _, e := range h.events {
		s := sign{day: e.KnownFrom(), events: []*journal.Event{e}, p: (finds + copper.usual*copper.weight) / (float64(tests) + copper.weight)}
		switch what := e.What.(type) {
		case *journal.Dosed:
			if !namesCopper(what.Substance + " " + what.Amount) {
				continue
			}
			s.calls, s.severity = true, forecast.Soon
		case *journal.WaterTest:
			test, ok := journal.ReadingOf(what.Readings, journal.Copper)
			if !ok {
				continue
			}
			tests++
			if s.calls = !test.Below && test.Value >= copper.least; s.calls {
				finds++
				s.severity = copper.severity(test.Value)
			}
		case *journal.Died:
			if n := len(signs); n == 0 || !signs[n-1].calls || s.day-signs[n-1].day > 7 {
				continue
			}
			s.calls, s.severity, s.p = true, forecast.Now, signs[len(signs)-1].p
		default:
			continue
		}
		signs = append(signs, s)
	}
	var out []forecast.Notice
	for _, e := range episodes(signs, copper.keep) {
		out = append(out, h.copperNotice(e))
	}
	return out
}

// namesCopper reports whether a text tells of copper in what was added, and not of its absence.
func namesCopper(text string) bool {
	text = strings.NewReplacer("-", " ", "sulphate", "sulfate").Replace(strings.ToLower(text))
	for _, without := range []string{"copper free", "no copper", "without copper", "free of copper", "removes copper"} {
		text = strings.ReplaceAll(text, without, "")
	}
	for _, word := range []string{"copper", "cuso4", "cupric"} {
		if strings.Contains(text, word) {
			return true
		}
	}
	return false
}

func (h *history) copperNotice(e episode) forecast.Notice {
	n := e.notice()
	n.Probability = e.signs[0].p
	n.Headline, n.Seen = "Copper in the water", ""
	var seen []string
	for _, s := range e.signs {
		switch what := s.events[0].What.(type) {
		case *journal.WaterTest:
			value, _ := journal.MeasuredOf(what.Readings, journal.Copper)
			seen = append(seen, fmt.Sprintf("%s measured on %s", h.amount(journal.Copper, value), wording.Date(s.events[0].Day)))
		case *journal.Dosed:
			seen = append(seen, fmt.Sprintf("something with copper added on %s", wording.Date(s.events[0].Day)))
		case *journal.Died:
			seen = append(seen, fmt.Sprintf("%s found dead on %s", wording.Count(what.Shrimp.Count.Total, "shrimp", "shrimp"), wording.Date(s.events[0].Day)))
		}
	}
	n.Seen = wording.Sentence(wording.List(seen)) + "."
	n.Expected = fmt.Sprintf("None. From %s on shrimp may suffer: a third of what killed half of another freshwater shrimp in soft water within four days.",
		h.amount(journal.Copper, copper.least))
	n.Odds = fmt.Sprintf("A test of this tank finds so much with a chance of %s.", wording.Chance(n.Probability))
	n.Other = []string{
		"Copper pipes, above all with soft water that stood in them.",
		"Many fertilisers hold traces that harm nothing; the label says how much.",
		"Tests for copper are near their limit at so little, and read too high in coloured water.",
	}
	n.Checks = []string{
		"Read the labels of all that was added for copper, also as Cu or copper sulfate. Medicines with copper kill shrimp.",
		"Test the tap water, after it has run for a minute, beside the tank's.",
		"If a dose is the cause: several small water changes with water of the same temperature and hardness, and fresh activated carbon.",
		"Watch for shrimp that lie on their side or swim without rest.",
	}
	n.Ends = fmt.Sprintf("Ends with a test below %s, or 30 days after the last sign.", h.amount(journal.Copper, copper.least))
	return n
}
