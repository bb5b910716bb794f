package forecast

import (
	"context"

	"pleopod/journal"
	"pleopod/journal/colony"
	model "pleopod/journal/population"
)

// Make predicts everything that a colony's record lets one predict. It is a pure function of the colony: no clock, no
// random numbers that the colony does not fix, nothing that changes.
func Make(c *colony.Colony) *Forecast {
	return new(Predictor).Make(context.Background(), c)
}

// Days predicts what has a day, such as hatches, and leaves out the numbers of shrimp: Population is empty. It takes a
// small part of the time of Make.
func Days(c *colony.Colony) *Forecast {
	f, _ := predict(c, nil)
	return f
}

// Past predicts what has a day and estimates the numbers of shrimp up to the as-of day, as Make does; what lies ahead of it
// is left out of Population. Only tests of notices call it: they weigh years of diaries, and nothing there looks ahead.
func Past(c *colony.Colony) *Forecast {
	f := Days(c)
	tr, parts := f.parts("")
	results := make([][]model.Outlook, len(parts))
	for i := range parts {
		filter := model.New(parts[i].records, model.Particles)
		filter.Advance(parts[i].last)
		results[i] = filter.Hindsights()
	}
	f.fill(tr, parts, results)
	return f
}

// predict is Days, and takes over from an earlier forecast what still holds.
func predict(c *colony.Colony, before *memory) (*Forecast, *memory) {
	r := newRecord(c, before)
	f := &Forecast{Colony: c, Profiles: r.profiles}
	f.Broods = r.broods()
	f.Tanks = r.tanks()
	f.Cohorts = r.cohorts(f.Tanks)
	f.Learning = Learning{Incubation: r.incubation.learned(c.AsOf, c.Tanks), Maturity: r.maturity.learned(c.AsOf, c.Tanks)}
	f.Record = r.trackRecord()
	f.Problems = r.problems()
	return f, r.memory(f)
}

// Problems returns the warnings of Forecast.Problems alone, also for a journal with mistakes that nothing is predicted
// from: a keeper sees all at once.
func Problems(c *colony.Colony) []journal.Problem { return newRecord(c, nil).problems() }

// problems returns the warnings found while learning.
func (r *record) problems() []journal.Problem {
	var all []journal.Problem
	for _, l := range r.incubation.lessons {
		if l.problem != nil {
			all = append(all, *l.problem)
		}
	}
	return all
}
