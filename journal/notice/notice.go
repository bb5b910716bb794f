package notice

import (
	"cmp"
	"slices"
	"strings"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/parallel"
	"pleopod/journal/wording"
)

// Kind is one kind of notice.
type Kind struct {
	Word        string // as the open data writes it: lower-case words with hyphens
	Name        string // what people call it
	Watches     string // what calls for it, as a sentence
	Probability string // what its probability is of, as a sentence
	find        func(*history) []forecast.Notice
}

// Kinds returns every kind of notice, in the order in which pages list them.
func Kinds() []Kind {
	return []Kind{
		moreDeaths, failedMoults, countBelow, countAbove,
		overdueBrood, droppedAgain, noBerried, oneSex, oldFounders,
		ammoniaFound, nitriteFound, copperFound,
		temperatureChange, hardnessChange, phChange, outOfRange, typingSlip,
		fewToSelect, aboveCapacity, longSilence,
	}
}

// Weigh returns the notices that stand on the forecast's as-of day and those that stood on earlier days, each list by
// since, kind, tank, brood and reading. It changes nothing in the forecast.
func Weigh(f *forecast.Forecast) (standing, ended []forecast.Notice) {
	found := make([][]forecast.Notice, len(f.Tanks))
	parallel.Each(len(f.Tanks), func(i int) { found[i] = newHistory(f, &f.Tanks[i]).notices() })
	for _, n := range slices.Concat(found...) {
		if n.Until == 0 {
			standing = append(standing, n)
			continue
		}
		ended = append(ended, n)
	}
	slices.SortStableFunc(standing, inOrder)
	slices.SortStableFunc(ended, inOrder)
	return standing, ended
}

// notices returns all notices of the tank, by kind.
func (h *history) notices() []forecast.Notice {
	var all []forecast.Notice
	for _, kind := range Kinds() {
		for _, n := range kind.find(h) {
			n.Kind, n.Tank = kind.Word, h.ID
			h.close(&n)
			all = append(all, n)
		}
	}
	return all
}

func inOrder(a, b forecast.Notice) int {
	return cmp.Or(cmp.Compare(a.Since, b.Since), strings.Compare(a.Kind, b.Kind), strings.Compare(a.Tank, b.Tank), strings.Compare(a.Brood, b.Brood), cmp.Compare(a.Reading, b.Reading))
}

// close settles what follows from the rest of a notice: an end that lies ahead is none yet, and what rests on a private
// entry is private, as is what rests on nothing that can be shown.
func (h *history) close(n *forecast.Notice) {
	if n.Until > h.asOf {
		n.Until, n.Ending = 0, nil
	}
	n.Events = slices.DeleteFunc(slices.Clone(n.Events), func(e *journal.Event) bool { return e == nil })
	slices.SortStableFunc(n.Events, func(a, b *journal.Event) int { return cmp.Compare(a.Day, b.Day) })
	n.Events = distinct(n.Events)
	shown := len(n.Events) > 0 || n.Logged
	n.Public = shown && !slices.ContainsFunc(append([]*journal.Event{n.Ending}, n.Events...), func(e *journal.Event) bool {
		return e != nil && e.Entry.Private
	})
	if n.Odds == "" {
		n.Odds = "When all is well, something as unusual comes up with a chance of " + wording.Chance(n.Probability) + "."
	}
}

// distinct returns a list with each event once, where it stands first.
func distinct(events []*journal.Event) []*journal.Event {
	seen := map[*journal.Event]bool{}
	return slices.DeleteFunc(events, func(e *journal.Event) bool {
		again := seen[e]
		seen[e] = true
		return again
	})
}

// sign is something in the record that bears on one kind of notice, on the day it became known.
type sign struct {
	day      journal.Day
	calls    bool // for the notice; else it ends one
	p        float64
	severity forecast.Severity
	events   []*journal.Event
	logged   bool // it rests on logged days too
}

// episode is a stretch of signs that call for one notice.
type episode struct {
	signs  []sign      // those that call for it, at least one, by day
	until  journal.Day // the first day on which it stands no more; may lie ahead
	ending *journal.Event
}

// episodes joins signs, by day, into stretches: one ends with a sign that all is well, or so many days after its last.
func episodes(signs []sign, keep journal.Day) []episode {
	var all []episode
	open := false
	for _, s := range signs {
		if open && s.day >= all[len(all)-1].until {
			open = false
		}
		switch {
		case s.calls && open:
			e := &all[len(all)-1]
			e.signs, e.until = append(e.signs, s), s.day+keep
		case s.calls:
			all, open = append(all, episode{signs: []sign{s}, until: s.day + keep}), true
		case open:
			e := &all[len(all)-1]
			e.until, open = s.day, false
			if len(s.events) > 0 {
				e.ending = s.events[0]
			}
		}
	}
	// A sign that all is well on the day the notice came up would leave nothing of it.
	return slices.DeleteFunc(all, func(e episode) bool { return e.until <= e.signs[0].day })
}

// notice begins a notice from an episode: its days, its events, the least likely and the gravest of its signs.
func (e episode) notice() forecast.Notice {
	n := forecast.Notice{Since: e.signs[0].day, Until: e.until, Ending: e.ending, Probability: 1, Severity: forecast.Look}
	for _, s := range e.signs {
		n.Events = append(n.Events, s.events...)
		n.Logged = n.Logged || s.logged
		n.Probability = min(n.Probability, s.p)
		n.Severity = graver(n.Severity, s.severity)
	}
	return n
}

// worst returns the gravest sign, and of several the least likely.
func (e episode) worst() sign {
	return slices.MaxFunc(e.signs, func(a, b sign) int {
		return cmp.Or(cmp.Compare(gravity(a.severity), gravity(b.severity)), cmp.Compare(b.p, a.p))
	})
}

// last returns the newest sign.
func (e episode) last() sign { return e.signs[len(e.signs)-1] }

func gravity(s forecast.Severity) int {
	return slices.Index([]forecast.Severity{forecast.Look, forecast.Soon, forecast.Now}, s)
}

func graver(a, b forecast.Severity) forecast.Severity {
	if gravity(b) > gravity(a) {
		return b
	}
	return a
}
