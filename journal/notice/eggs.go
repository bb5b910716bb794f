package notice

import (
	"cmp"
	"fmt"
	"slices"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/evidence"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
)

var overdueBrood = Kind{
	Word: "overdue-brood", Name: "Overdue brood",
	Watches:     "A brood is still carried after the last day of its window, the one by which 95 of 100 such broods have hatched.",
	Probability: "That nothing is written of such a brood's end by the last day of the notice: it is still carried, or its end went unseen, as one in twenty does and as this keeper's earlier broods say.",
	find:        (*history).overdue,
}

// The share of broods whose end nobody writes of, how many broods that is worth beside the keeper's own, and from which
// share on a late brood says nothing of the brood. Assumptions.
const (
	unseenUsual  = 0.05
	unseenWeight = 10
	unseenOften  = 0.07
)

// unseen returns the share of broods whose end goes unwritten, as this keeper's broods say that were settled by a day: those
// with an end, and those given up.
func (h *history) unseen(day journal.Day) float64 {
	settled, lost := float64(unseenWeight), unseenUsual*unseenWeight
	for i := range h.forecast.Broods {
		b := &h.forecast.Broods[i]
		switch {
		case b.State == forecast.Unseen:
			if b.Foreseen.P95+forecast.Forgotten < day {
				settled, lost = settled+1, lost+1
			}
		case b.Ended != nil && b.Ended.KnownFrom() <= day:
			settled++
		}
	}
	return lost / settled
}

// overdue finds the broods that were carried past their windows, of this tank as the last of their stays.
func (h *history) overdue() []forecast.Notice {
	var all []forecast.Notice
	for i := range h.forecast.Broods {
		b := &h.forecast.Broods[i]
		if b.LateFrom == 0 || b.Tank() != h.ID {
			continue
		}
		unseen := h.unseen(b.LateFrom)
		if unseen > unseenOften {
			continue
		}
		p := b.StillCarried + (1-b.StillCarried)*unseen
		n := forecast.Notice{
			Severity: forecast.Look, Brood: b.ID, Since: b.LateFrom, Probability: p, Events: slices.Clone(b.Events),
			Headline: fmt.Sprintf("The eggs of %s are later than expected", b.ID),
			Expected: fmt.Sprintf("The window closed before %s: of 20 such broods 19 have hatched by then.", wording.Date(b.LateFrom)),
			Odds:     fmt.Sprintf("That such a brood is still carried has a chance of %s; that its end went unseen %s.", wording.Chance(b.StillCarried), wording.Chance(unseen)),
			Other: []string{
				"They hatched unseen: the young hide for the first three or four days.",
				"She was seen with eggs earlier than it was noted, or the water was colder than the readings say.",
				"She lost the eggs, or these are the eggs of her next brood.",
			},
			Checks: []string{
				"Look at her belly: are the eggs there, and do they have eyes?",
				"Look for young on moss and filter with a torch after dark.",
				"Compare the thermometer with a second one.",
			},
			Ends: fmt.Sprintf("Ends with \"hatched\" or \"dropped\", or %s after the window first foreseen: then the eggs are taken as hatched unseen.", days(forecast.Forgotten)),
		}
		if b.Ended != nil {
			n.Until, n.Ending = b.Ended.KnownFrom(), b.Ended
		}
		if last := b.Foreseen.P95; last != 0 && (n.Until == 0 || n.Until > last+forecast.Forgotten) {
			n.Until, n.Ending = last+forecast.Forgotten+1, nil
		}
		n.Events = slices.DeleteFunc(n.Events, func(e *journal.Event) bool { return e == b.Ended })
		last := h.asOf
		if n.Until != 0 {
			last = min(last, n.Until-1)
		}
		n.Seen = fmt.Sprintf("With eggs on %s, and nothing was written of their end up to %s, %d days later.", wording.Date(b.Berried), wording.Date(last), last-b.Berried)
		if last >= n.Since {
			all = append(all, n)
		}
	}
	return all
}

// The loss of whole broods: which share of them a healthy colony loses, how long losses are taken together, and from
// what probability on they are worth a notice. Assumptions: nobody has counted; keepers call one lost brood normal.
const (
	usualLoss  = 0.10
	lossDays   = 60
	lossLook   = 0.10
	lossSoon   = 0.005
	warmForEgg = 28 // °C, from where eggs are lost to the heat: Tropea et al. 2015, doi 10.1371/journal.pone.0119468, has all lost at 32
)

var droppedAgain = Kind{
	Word: "eggs-dropped-again", Name: "Eggs dropped again",
	Watches:     "A second whole brood was lost within two months, and few hatched in between.",
	Probability: "That at least so many of the tank's broods, or of the mother's last two, are lost when one in ten is.",
	find:        (*history).lostAgain,
}

// finished is a brood that hatched or was lost for another reason than its mother's end.
type finished struct {
	*colony.Brood
	day  journal.Day
	lost bool
}

// finishedBroods returns the tank's finished broods by the day their end was known.
func (h *history) finishedBroods() []finished {
	var all []finished
	for _, b := range h.Tank.Broods {
		if b.Ended == nil || b.Tank() != h.ID {
			continue
		}
		_, dropped := b.Ended.What.(*journal.Dropped)
		if dropped || b.State == colony.HasHatched {
			all = append(all, finished{b, b.Ended.KnownFrom(), dropped})
		}
	}
	slices.SortStableFunc(all, func(a, b finished) int { return cmp.Compare(a.day, b.day) })
	return all
}

func (h *history) lostAgain() []forecast.Notice {
	var signs []sign
	all := h.finishedBroods()
	for i, b := range all {
		s := sign{day: b.day, events: []*journal.Event{b.Ended}}
		if b.lost {
			recent := slices.DeleteFunc(slices.Clone(all[:i+1]), func(x finished) bool { return x.day <= b.day-lossDays })
			s.p, s.events = lossChance(recent, b)
			s.calls = len(s.events) > 1 && s.p <= lossLook
			if !s.calls {
				continue // one lost brood says nothing, for or against
			}
			if s.p < lossSoon {
				s.severity = forecast.Soon
			}
		}
		signs = append(signs, s)
	}
	var out []forecast.Notice
	for _, e := range episodes(signs, lossDays) {
		out = append(out, h.lossNotice(e))
	}
	return out
}

// lossChance returns how unlikely the latest losses are, of the tank or of the mother alone, and the losses.
func lossChance(recent []finished, latest finished) (float64, []*journal.Event) {
	var lost []*journal.Event
	var own []finished
	for _, x := range recent {
		if x.lost {
			lost = append(lost, x.Ended)
		}
		if latest.Mother != nil && x.Mother == latest.Mother {
			own = append(own, x)
		}
	}
	p := evidence.AtLeast(len(lost), len(recent), usualLoss)
	if n := len(own); n > 1 && own[n-2].lost {
		p = min(p, usualLoss*usualLoss)
	}
	return p, lost
}

func (h *history) lossNotice(e episode) forecast.Notice {
	n := e.notice()
	lost := len(e.last().events)
	last := e.last().day
	n.Headline = fmt.Sprintf("Eggs were dropped again: %s lost within two months", wording.Count(lost, "brood", "broods"))
	n.Seen = fmt.Sprintf("%s lost in the 60 days up to %s; the water was at %s.", wording.Sentence(wording.Count(lost, "whole brood was", "whole broods were")), wording.Date(last), h.temperature(h.celsius(last)))
	n.Expected = "About one brood in ten is lost, most often the first of a young female. One lost brood says nothing."
	n.Other = []string{
		"Young females lose their first eggs more often.",
		"She was disturbed, moved, or moulted while she carried.",
	}
	if h.celsius(last) >= warmForEgg {
		n.Other = append([]string{fmt.Sprintf("Above %s eggs are lost to the heat.", h.temperature(warmForEgg))}, n.Other...)
	}
	n.Checks = []string{
		"Read the thermometer, at the warmest time of the day too.",
		"Test ammonia, nitrite and hardness, and compare with the days before the losses.",
		"Think of what changed: a new fish, a new medicine or fertiliser, a large water change.",
		"Look whether males are there: eggs that were never fertilised are dropped.",
	}
	n.Ends = "Ends when a brood hatches, or two months after the last loss."
	return n
}
