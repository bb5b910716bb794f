package notice

import (
	"fmt"
	"slices"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/lifecycle"
	"pleopod/journal/wording"
)

// From which probability of one sex on it is worth a notice, and presses; and below how many shrimp both sexes cannot be
// hoped for.
const (
	oneSexLook   = 0.5
	oneSexSoon   = 0.9
	leastArrived = 2
)

var oneSex = Kind{
	Word: "one-sex", Name: "Only one sex likely",
	Watches:     "What was stocked, what was told apart since, and the wait for eggs together make it likelier than not that all grown shrimp are of one sex.",
	Probability: "That only one sex lives in the tank.",
	find:        (*history).onlyOneSex,
}

// pickedShare is the concentration of the Beta distribution of the share of females in a bag: shrimp are picked by colour
// and size, which favours one sex. Assumption; it makes a bag of ten all of one sex with 2.2 %, where blind picking has 0.2 %.
const pickedShare = 10

// sexes is what is known of the sexes of a tank in which nothing has hatched.
type sexes struct {
	arrived, gone  int         // shrimp that came, and that left or were found dead
	last           journal.Day // on which shrimp came
	eggs           bool        // of a mating elsewhere were seen
	females, males int         // the most that were told apart at once
	both           bool
	events         []*journal.Event
}

// onlyOneSex follows what is known until both sexes are.
func (h *history) onlyOneSex() []forecast.Notice {
	var signs []sign
	var known sexes
	events := h.events
	odds := map[journal.Day]float64{}
	for _, w := range h.waits() {
		for len(events) > 0 && events[0].KnownFrom() <= w.day {
			known.learn(h, events[0])
			events = events[1:]
		}
		if known.both {
			signs = append(signs, sign{day: w.day, events: []*journal.Event{known.events[len(known.events)-1]}})
			break
		}
		if known.arrived-known.gone < leastArrived {
			signs = append(signs, sign{day: w.day})
			continue
		}
		one := 1 - known.bothSexes()
		p := one / (one + (1-one)*w.p)
		s := sign{day: w.day, calls: p >= oneSexLook, p: p, events: slices.Clone(known.events)}
		if p >= oneSexSoon {
			s.severity = forecast.Soon
		}
		odds[s.day] = p
		signs = append(signs, s)
	}
	var out []forecast.Notice
	for _, e := range episodes(signs, 6*visitReach) {
		out = append(out, h.oneSexNotice(e, odds))
	}
	return out
}

// learn takes an event into account.
func (s *sexes) learn(h *history, e *journal.Event) {
	tell := func(females, males int) {
		s.females, s.males = max(s.females, females), max(s.males, males)
		s.both = s.both || s.females > 0 && s.males > 0
	}
	switch what := e.What.(type) {
	case *journal.Stocked:
		s.arrived, s.last = s.arrived+what.Shrimp.Total, e.Day
		tell(what.Shrimp.Females.Or(0), what.Shrimp.Males.Or(0))
	case *journal.Moved:
		if what.To != h.ID {
			s.gone += what.Shrimp.Count.Total
			return
		}
		s.arrived, s.last = s.arrived+what.Shrimp.Count.Total, e.Day
		tell(what.Shrimp.Count.Females.Or(0), what.Shrimp.Count.Males.Or(0))
	case *journal.Counted:
		tell(what.Shrimp.Females.Or(0), what.Shrimp.Males.Or(0))
	case *journal.Saddled:
		tell(what.Shrimp.Count.Total, 0)
	case *journal.Measured:
		switch what.Sex {
		case journal.Female:
			tell(len(what.Lengths), 0)
		case journal.Male:
			tell(0, len(what.Lengths))
		}
	case *journal.Died:
		s.gone += what.Shrimp.Count.Total
		return
	case *journal.Removed:
		s.gone += what.Shrimp.Count.Total
		return
	case *journal.Berried:
		tell(what.Shrimp.Count.Total, 0)
		s.eggs = true
		s.both = s.both || s.arrived > 0 && e.Day > s.last+forecast.AlreadyMated
	case *journal.Courting:
		tell(0, 1)
	case *journal.Hatched, *journal.Sighted:
		s.both = true // or will be, when the young are grown
	default:
		return
	}
	s.events = append(s.events, e)
}

// bothSexes returns the probability that both sexes came, before the wait for eggs is counted in.
func (s *sexes) bothSexes() float64 {
	told := s.females + s.males
	return lifecycle.BothSexesCounted(s.females, s.males, max(0, s.arrived-told), pickedShare/2, pickedShare/2)
}

func (h *history) oneSexNotice(e episode, odds map[journal.Day]float64) forecast.Notice {
	n := e.notice()
	last := e.last()
	n.Probability = odds[last.day]
	var s sexes
	for _, event := range last.events {
		s.learn(h, event)
	}
	n.Events = append(h.writtenOn(last.day), last.events...)
	n.Headline = "Perhaps only one sex lives here"
	n.Seen = fmt.Sprintf("%s came, and no young and no mating were seen up to %s.", wording.Count(s.arrived, "shrimp", "shrimp"), wording.Date(last.day))
	if s.females+s.males > 0 {
		n.Seen = fmt.Sprintf("%s came; told apart were %s and %s; no young and no mating were seen up to %s.",
			wording.Count(s.arrived, "shrimp", "shrimp"), wording.Count(s.females, "female", "females"), wording.Count(s.males, "male", "males"), wording.Date(last.day))
	}
	n.Expected = fmt.Sprintf("By chance both sexes come with %s, as shrimp are usually picked; with both, eggs would have been seen by now.", wording.Chance(s.bothSexes()))
	if s.eggs {
		n.Expected = fmt.Sprintf("By chance both sexes come with %s, as shrimp are usually picked; the eggs that were seen may be of a mating before they came.", wording.Chance(s.bothSexes()))
	}
	n.Odds = fmt.Sprintf("The chance that only one sex lives here is %s.", wording.Chance(n.Probability))
	n.Other = []string{
		"The shrimp are younger than thought: females carry eggs from about three months on.",
		"Eggs were there and nobody wrote of them.",
		"The water is too cool or too soft for them to breed.",
	}
	if s.eggs {
		n.Other = []string{"A male came with them and was not told apart.", "A male mated here, and hides or died unseen."}
	}
	n.Checks = []string{
		"Look from the side: females are larger, with a deep curved belly and often a saddle behind the head; males are slim and straight below.",
		"Look after a moult, when males swim through the whole tank in search of a female.",
		"If all look the same, a few shrimp of the other sex from another keeper help; let them get used to the water slowly.",
	}
	n.Ends = "Ends when both sexes or young are written of."
	return n
}
