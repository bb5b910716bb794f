package forecast

import (
	"math"
	"slices"

	"pleopod/journal"
	"pleopod/journal/colony"
	model "pleopod/journal/population"
)

// lookEvery is how many days lie at least between two looks that count as two: what was overlooked on one evening is
// easily overlooked on the next. Assumption.
const lookEvery = 4

// afterAll is the order of a look among the facts of its day. It is the same however many events there are: else each new
// one would change all looks of the past.
const afterAll = math.MaxInt32

// looks are the days on which the keeper wrote about a tank, after the first of the facts. Facts need not be in order.
func (tr *translator) looks(t *Tank, facts []model.Fact) []model.Fact {
	if len(facts) == 0 {
		return nil
	}
	first := facts[0].Day
	for _, fact := range facts {
		first = min(first, fact.Day)
	}
	last := first
	var all []model.Fact
	for _, e := range tr.forecast.Colony.Entries {
		day := model.Day(e.Date)
		if day <= first || !slices.Contains(e.Tanks, t.ID) {
			continue
		}
		closely := closeLook(t, e)
		switch n := len(all); {
		case n > 0 && day == last: // the entries of a day are one look
			if closely {
				all[n-1].What = model.Looked{Closely: true}
			}
		case day >= last+lookEvery || closely:
			last = day
			all = append(all, model.Fact{Day: day, Order: afterAll, What: model.Looked{Closely: closely}})
		}
	}
	return all
}

// closeLook reports whether an entry holds a count of that day for which each female was looked at: a careful one that tells
// the females apart, or one of the emptied tank.
func closeLook(t *Tank, e *journal.Entry) bool {
	return slices.ContainsFunc(t.Censuses, func(c colony.Census) bool {
		return c.Event.Entry == e && c.Day == e.Date &&
			(c.Method == journal.Emptied || c.Method == journal.Careful && c.Count.Females.Known)
	})
}
