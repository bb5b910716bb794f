package notice

import (
	"fmt"
	"math"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
)

// agedDays is how long the notice of old founders stands at most: then few of them are left.
const agedDays = 270

var oldFounders = Kind{
	Word: "founders-old", Name: "Founders past breeding age",
	Watches:     "The first shrimp of a tank are more likely than not past the age at which females begin to carry less often, and no young that the diary tells of have grown up.",
	Probability: "That the founders are past that age, from the age that was written or is usual.",
	find:        (*history).agedFounders,
}

func (h *history) agedFounders() (all []forecast.Notice) {
	for _, founders := range h.FoundersBefore {
		all = append(all, h.aged(founders)...)
	}
	return append(all, h.aged(h.Founders)...)
}

// aged is about one colony of the tank.
func (h *history) aged(founders forecast.Founders) []forecast.Notice {
	if founders.Oldest == 0 {
		return nil
	}
	first, middle := founders.First, (founders.Youngest+founders.Oldest)/2
	p := h.Profile.Breeding
	past := func(day journal.Day) float64 {
		oldest := founders.Oldest + float64(day-first)
		return math.Min(1, math.Max(0, (oldest-p.DeclineFrom)/math.Max(1, founders.Oldest-founders.Youngest)))
	}
	since := max(first, first+journal.Day(math.Ceil(p.DeclineFrom-middle)))
	until, ending := h.followed(first)
	if end := founders.Ended; end != nil && (until == 0 || end.KnownFrom() < until) {
		until, ending = end.KnownFrom(), end
	}
	if since > h.asOf || until != 0 && until <= since {
		return nil
	}
	n := forecast.Notice{
		Severity: forecast.Look, Since: since, Until: since + agedDays,
		Headline: "The founders may be past breeding age",
		Other: []string{
			"Their age is a guess where nobody wrote it: shops sell shrimp of three to seven months.",
			"Young grew up that nobody wrote of: then the colony renews itself.",
			"Well kept shrimp breed longer.",
		},
		Checks: []string{
			"Look for smaller shrimp among the large: are there young?",
			"Look for saddles and eggs.",
			"If there are no young, a few young shrimp keep the colony going.",
		},
		Ends: "Ends when young that the diary tells of have grown up, others join the tank, or nobody is left when it is emptied.",
	}
	if until != 0 && until < n.Until {
		n.Until, n.Ending = until, ending
	}
	last := min(h.asOf, n.Until-1)
	if last >= since+60 && past(last) == 1 {
		n.Severity = forecast.Soon
	}
	for _, line := range h.Ledger {
		if line.Day == first {
			n.Events = append(n.Events, line.Event)
		}
	}
	n.Probability = past(last)
	n.Seen = fmt.Sprintf("The first shrimp came on %s and were about %s old on %s; the diary tells of no young that would have grown up since.",
		wording.Date(first), months(journal.Day(middle)+last-first), wording.Date(last))
	if unseen := h.unseenBy(last); len(unseen) > 0 {
		n.Seen += fmt.Sprintf(" %s taken as hatched unseen, with young in the numbers that nobody has seen.", wording.Count(len(unseen), "brood is", "broods are"))
		n.Events = append(n.Events, unseen...)
	}
	n.Expected = fmt.Sprintf("From about %s on females carry eggs less often, and half of grown shrimp have died by %s.", months(journal.Day(p.DeclineFrom)), months(journal.Day(h.Profile.Survival.MedianLife)))
	n.Odds = fmt.Sprintf("The chance that they are past that age is %s.", wording.Chance(n.Probability))
	return []forecast.Notice{n}
}

func months(days journal.Day) string {
	return wording.Count(wording.Months(int(days)), "month", "months")
}

// unseenBy returns what began the broods that were taken as hatched unseen by a day.
func (h *history) unseenBy(day journal.Day) (opened []*journal.Event) {
	for _, b := range h.broods() {
		if b.State == forecast.Unseen && b.Tank() == h.ID && b.Foreseen.P95+forecast.Forgotten < day {
			opened = append(opened, b.Opened)
		}
	}
	return opened
}

// followed returns the first day on which young of the tank had grown up or others had joined, and what says so.
func (h *history) followed(first journal.Day) (journal.Day, *journal.Event) {
	var day journal.Day
	var event *journal.Event
	earlier := func(d journal.Day, e *journal.Event) {
		if d != 0 && (day == 0 || d < day) {
			day, event = d, e
		}
	}
	for _, c := range h.forecast.Cohorts {
		if c.Tank == h.ID && c.Cohort.Hatched >= first {
			earlier(max(c.Mature.P50, c.Brood.Ended.KnownFrom()), c.Brood.Ended)
		}
	}
	grown := journal.Day(math.Round(h.Profile.Maturity.Days(h.Tank.Celsius)))
	for _, e := range h.events {
		if e.Day < first {
			continue
		}
		switch what := e.What.(type) {
		case *journal.Sighted:
			earlier(e.KnownFrom()+grown, e)
		case *journal.Counted:
			if what.Shrimp.Juveniles.Or(0) > 0 {
				earlier(e.KnownFrom()+grown/2, e)
			}
		case *journal.Stocked:
			if e.Day > first {
				earlier(e.KnownFrom(), e)
			}
		case *journal.Moved:
			if what.To == h.ID && e.Day > first {
				earlier(e.KnownFrom(), e)
			}
		}
	}
	return day, event
}
