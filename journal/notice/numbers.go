package notice

import (
	"fmt"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
)

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
	find:        (*history).crowded,
}

// capacity returns how many adults the tank can carry, and false where nothing is known of its size.
func (h *history) capacity() (float64, bool) {
	if h.Capacity.Known {
		return h.Capacity.Value, true
	}
	return h.Profile.Density.Capacity(h.Volume.Or(0)), h.Volume.Known
}

func (h *history) crowded() []forecast.Notice {
	capacity, ok := h.capacity()
	if !ok {
		return nil
	}
	var signs []sign
	for _, x := range h.Population.Evenings {
		s := sign{day: x.Day, calls: x.Crowded >= crowdedFrom, p: x.Crowded}
		if x.Adults > crowdedSoon*capacity {
			s.severity = forecast.Soon
		}
		if s.calls || x.Crowded < crowdedUntil {
			signs = append(signs, s)
		}
	}
	var out []forecast.Notice
	for _, e := range episodes(signs, crowdedKeep) {
		n := e.notice()
		w, _ := h.evening(e.last().day)
		n.Probability = w.Crowded
		n.Events = h.shownBefore(e.last().day)
		n.Headline = fmt.Sprintf("More grown shrimp than %s can carry", h.name())
		n.Seen = fmt.Sprintf("About %s grown shrimp live here, as estimated on %s.", wording.Number(w.Adults, 0), wording.Date(e.last().day))
		n.Expected = fmt.Sprintf("Room for about %s.", wording.Number(capacity, 0))
		n.Odds = fmt.Sprintf("The chance that there are more than the tank can carry is %s.", wording.Chance(n.Probability))
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

// shownBefore returns what the number of shrimp on a day rests on most: the latest two counts, or what came where nobody
// counted.
func (h *history) shownBefore(day journal.Day) []*journal.Event {
	var counts, came []*journal.Event
	for _, c := range h.Censuses {
		if c.Event.KnownFrom() <= day {
			counts = append(counts, c.Event)
		}
	}
	for _, line := range h.Ledger {
		if line.Change > 0 && line.Event.KnownFrom() <= day {
			came = append(came, line.Event)
		}
	}
	if len(counts) == 0 {
		return came
	}
	return counts[max(0, len(counts)-2):]
}

var fewToSelect = Kind{
	Word: "too-few-to-select", Name: "Too few adults to select from",
	Watches:     "Shrimp were graded or culled while there are too few adults to select from: fewer than 50 breeders that count.",
	Probability: "That there are enough adults to begin selecting.",
	find:        (*history).selectsTooFew,
}

func (h *history) selectsTooFew() []forecast.Notice {
	var signs []sign
	for _, e := range h.events {
		evening, ok := h.evening(e.KnownFrom())
		if !ok || !selects(e) {
			continue
		}
		s := sign{day: e.KnownFrom(), calls: evening.CanSelect < selectBelow, p: evening.CanSelect, events: []*journal.Event{e}}
		if s.calls || evening.CanSelect > selectFrom {
			signs = append(signs, s)
		}
	}
	var out []forecast.Notice
	for _, e := range episodes(signs, selectKeep) {
		n := e.notice()
		evening, _ := h.evening(e.last().day)
		n.Headline = "Few adults to select from"
		n.Seen = fmt.Sprintf("Shrimp were graded or culled on %s, with about %s breeders that count.", wording.Date(e.last().day), wording.Number(evening.EffectiveSize, 0))
		n.Expected = "50 breeders that count, or more: breeding from the better half then adds at most 2" + wording.Joined + "% inbreeding a generation."
		n.Odds = fmt.Sprintf("The chance that there are enough adults is %s.", wording.Chance(n.Probability))
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
