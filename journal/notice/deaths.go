package notice

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"pleopod/journal"
	"pleopod/journal/evidence"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
)

// The deaths above what the model expects: over which spans they are counted, how much the rate itself varies, from which
// probability on they are worth a notice, and for how long it stands. A keeper who finds many at once in a few days should
// know today. All are assumptions; with two spans each probability counts twice.
const (
	deathClumps = 2
	deathsLook  = 0.01
	deathsSoon  = 0.001
	deathsNow   = 1e-6
	nowAtLeast  = 5
	deathsKeep  = 14
)

// deathSpans are the days over which deaths are counted.
func deathSpans() []journal.Day { return []journal.Day{7, 30} }

var moreDeaths = Kind{
	Word: "deaths-above-expected", Name: "More deaths than expected",
	Watches:     "More shrimp were found dead within a week, or within a month, than the model lets die in a colony of these numbers and ages.",
	Probability: "Of at least so many deaths among the shrimp estimated before them, if every death is found; the rate may vary from month to month.",
	find:        (*history).tooManyDeaths,
}

// tooManyDeaths judges every death by those of the days before it.
func (h *history) tooManyDeaths() []forecast.Notice {
	var signs []sign
	var dead []*journal.Event
	found := map[journal.Day]deathCount{}
	for _, e := range h.events {
		if _, ok := e.What.(*journal.Died); !ok {
			continue
		}
		dead = append(dead, e)
		c, ok := h.deathsUpTo(dead, e.KnownFrom())
		if !ok || c.p >= deathsLook {
			continue
		}
		s := sign{day: e.KnownFrom(), calls: true, p: c.p, events: c.events}
		switch {
		case c.p < deathsNow && c.n >= nowAtLeast && c.span == 7:
			s.severity = forecast.Now
		case c.p < deathsSoon:
			s.severity = forecast.Soon
		}
		found[s.day] = c
		signs = append(signs, s)
	}
	var out []forecast.Notice
	for _, e := range episodes(signs, deathsKeep) {
		out = append(out, h.deathNotice(e, found[e.worst().day]))
	}
	return out
}

// deathCount is the deaths of a span of days that is least likely.
type deathCount struct {
	day      journal.Day
	span     journal.Day
	n        int
	expected float64
	p        float64
	events   []*journal.Event
}

// deathsUpTo returns the least likely of the spans that end on a day, and false where the tank's shrimp are not known.
func (h *history) deathsUpTo(dead []*journal.Event, day journal.Day) (deathCount, bool) {
	best := deathCount{p: 2}
	for _, span := range deathSpans() {
		c := deathCount{day: day, span: span}
		for _, e := range dead {
			if e.KnownFrom() > day-span {
				c.n += e.What.(*journal.Died).Shrimp.Count.Total
				c.events = append(c.events, e)
			}
		}
		ok := false
		for d := day - span; d < day; d++ {
			if evening, known := h.evening(d); known {
				c.expected += evening.Dying
				ok = true
			}
		}
		if !ok {
			continue // the first shrimp came today
		}
		c.p = math.Min(1, float64(len(deathSpans()))*evidence.AtLeastClumped(c.n, c.expected, deathClumps))
		if c.p < best.p {
			best = c
		}
	}
	return best, best.p <= 1
}

func (h *history) deathNotice(e episode, c deathCount) forecast.Notice {
	n := e.notice()
	n.Headline = fmt.Sprintf("%s found dead within %s", wording.Count(c.n, "shrimp", "shrimp"), days(c.span))
	n.Seen = fmt.Sprintf("%s found dead in the %s up to %s%s.", wording.Count(c.n, "shrimp was", "shrimp were"), days(c.span), wording.Date(c.day), h.stockedBefore(c.day))
	n.Expected = fmt.Sprintf("About %s in so many days, for shrimp as many and as old as these.", wording.Number(c.expected, 1))
	n.Odds = fmt.Sprintf("So many have a chance of %s when all is well.", wording.Chance(n.Probability))
	n.Other = []string{
		"Shrimp that came lately: the journey and new water cost some in the first days.",
		"Founders of one age die of old age within a few months of each other.",
		"More was found than usual: after a cleaning, or plants were taken out.",
	}
	n.Checks = []string{
		"Test ammonia, nitrite, hardness and pH, and read the thermometer.",
		"Look at the dead: pink and opaque, stuck in an old shell, a white ring around the middle?",
		"Think of the last days: a large water change, a new fertiliser or medicine, insect spray in the room, new plants or wood.",
		"Look for a hunter: a fish, a dragonfly larva that came with plants.",
		"Take the dead out, and change a little water with water of the same temperature and hardness.",
	}
	n.Ends = fmt.Sprintf("Ends by itself %s after the last death too many.", days(deathsKeep))
	return n
}

// stockedBefore tells of shrimp that came, as a public entry has it, in the fortnight before a day.
func (h *history) stockedBefore(day journal.Day) string {
	for _, line := range slices.Backward(h.Ledger) {
		if line.Change > 0 && line.Cohort == nil && !line.Event.Entry.Private && line.Day <= day && day-line.Day <= 14 {
			return fmt.Sprintf("; %s came on %s", wording.Count(line.Change, "shrimp", "shrimp"), wording.Date(line.Day))
		}
	}
	return ""
}

// Failed moults: which share of grown shrimp has one in a month while all is well, within how many days they are taken
// together, and from which probability on they are worth a notice. The rate is an assumption: nobody has counted.
const (
	failedPerMonth = 0.005
	failedDays     = 30
	failedLook     = 0.1
	failedSoon     = 0.01
)

var failedMoults = Kind{
	Word: "failed-moults", Name: "Failed moults",
	Watches:     "Shrimp were found stuck in their shells, more within a month than the tank's number makes likely.",
	Probability: "Of at least so many failed moults in 30 days, where of 200 grown shrimp one fails a month.",
	find:        (*history).stuckInShell,
}

// failed returns how many failed moults an event tells of: as a moult, or as the cause of a death.
func failed(e *journal.Event) int {
	switch what := e.What.(type) {
	case *journal.Moulted:
		if what.Failed {
			return what.Shrimp.Count.Total
		}
	case *journal.Died:
		cause := strings.ToLower(what.Cause)
		if strings.Contains(cause, "moult") || strings.Contains(cause, "molt") || strings.Contains(cause, "stuck in") {
			return what.Shrimp.Count.Total
		}
	}
	return 0
}

// failures returns the events that tell of failed moults. A moult and the death that followed in one entry are one.
func (h *history) failures() []*journal.Event {
	var all []*journal.Event
	for _, e := range h.events {
		again := slices.ContainsFunc(all, func(f *journal.Event) bool { return f.Entry == e.Entry && f.What.Kind() != e.What.Kind() })
		if failed(e) > 0 && !again {
			all = append(all, e)
		}
	}
	return all
}

func (h *history) stuckInShell() []forecast.Notice {
	var signs []sign
	all := h.failures()
	for i, e := range all {
		day := e.KnownFrom()
		evening, ok := h.evening(day)
		if !ok {
			continue
		}
		s := sign{day: day, calls: true}
		n := 0
		for _, f := range all[:i+1] {
			if f.KnownFrom() > day-failedDays {
				n += failed(f)
				s.events = append(s.events, f)
			}
		}
		s.p = evidence.AtLeastPoisson(n, failedPerMonth*math.Max(1, evening.Adults))
		if s.p >= failedLook {
			continue
		}
		if s.p < failedSoon && n > 1 {
			s.severity = forecast.Soon
		}
		signs = append(signs, s)
	}
	var out []forecast.Notice
	for _, e := range episodes(signs, failedDays) {
		out = append(out, h.moultNotice(e))
	}
	return out
}

func (h *history) moultNotice(e episode) forecast.Notice {
	n := e.notice()
	last := e.last()
	count := 0
	for _, f := range last.events {
		count += failed(f)
	}
	evening, _ := h.evening(last.day)
	n.Headline = fmt.Sprintf("%s within a month", wording.Count(count, "failed moult", "failed moults"))
	n.Seen = fmt.Sprintf("%s in the %s up to %s.", wording.Sentence(wording.Count(count, "failed moult", "failed moults")), days(failedDays), wording.Date(last.day))
	if hardness := h.lastBefore(journal.GH, last.day); hardness != nil {
		n.Seen += fmt.Sprintf(" General hardness was %s on %s.", h.amount(journal.GH, hardness.Value), wording.Date(hardness.seen()))
		n.Events = append(n.Events, sources(*hardness)...)
	} else {
		n.Seen += " General hardness was not measured in the two months before."
	}
	if change := h.changeBetween(last.day-14, last.day); change != nil {
		n.Seen += fmt.Sprintf(" Water was changed on %s: %s.", wording.Date(change.Day), h.changed(change))
		n.Events = append(n.Events, change)
	}
	n.Expected = fmt.Sprintf("About %s in a month among some %s grown shrimp.", wording.Number(failedPerMonth*evening.Adults, 2), wording.Number(evening.Adults, 0))
	n.Odds = fmt.Sprintf("So many have a chance of %s when all is well.", wording.Chance(n.Probability))
	n.Other = []string{
		"One old or hurt shrimp: a single failed moult says little.",
		"Water too soft to harden a shell, or a jump in hardness that brought on a moult too early.",
		"A large water change, which often sets off many moults at once.",
	}
	n.Checks = []string{
		"Test general hardness, of the tank and of the new water.",
		"Think of the last water change: keep the next ones small, with water of the same temperature and hardness.",
		"Leave good shells in the tank: they are eaten, and give their lime back.",
		"Look whether the food holds calcium, and whether there is too much of it.",
	}
	n.Ends = fmt.Sprintf("Ends by itself %s after the last failed moult.", days(failedDays))
	return n
}

// lastBefore returns the newest reading of a kind in the two months up to a day, or nil.
func (h *history) lastBefore(kind journal.ReadingKind, day journal.Day) *reading {
	var found *reading
	for _, x := range h.clean(kind) {
		if x.day <= day && x.seen() > day-60 {
			found = &x
		}
	}
	return found
}
