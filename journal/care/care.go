// Package care says what to look for in each tank, and when: saddles, eyes, hatches, young that hide, sexes that can be
// told apart, the next count and the next water test.
//
// Everything comes from a forecast: windows of days from its predictions, and the keeper's own rhythm of counts and
// tests. It plans looking, never an intervention, and it is a pure function: the same forecast gives the same calendar.
package care

import (
	"cmp"
	"fmt"
	"slices"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
)

// Task is one kind of thing to look for.
type Task string

// The tasks.
const (
	Eyes   Task = "eyes"
	Hatch  Task = "hatch"
	End    Task = "end" // how eggs ended that should have hatched
	Young  Task = "young"
	Saddle Task = "saddle"
	Sexing Task = "sexing"
	Count  Task = "count"
	Test   Task = "test"
)

// Item is one thing to look for in one tank.
type Item struct {
	Task             Task
	Tank             string      // id
	Brood            string      // the brood or cohort that it is about, or ""
	From, To, Likely journal.Day // the days to look, both ends included, and the likeliest of them
	Words            string      // what to look for, as a sentence
	Why              string      // why now, or what helps, as a sentence; or ""
}

// Key names the item the same way on every day, until it is done.
func (i Item) Key() string { return "care " + string(i.Task) + " " + i.Tank + " " + i.Brood }

// Calendar returns everything to look for from the as-of day on, the likeliest day first.
func Calendar(f *forecast.Forecast) []Item {
	var all []Item
	for i := range f.Broods {
		all = append(all, ofBrood(f, &f.Broods[i])...)
	}
	for i := range f.Cohorts {
		all = append(all, ofCohort(f, &f.Cohorts[i])...)
	}
	for i := range f.Tanks {
		all = append(all, ofTank(f, &f.Tanks[i])...)
	}
	all = slices.DeleteFunc(all, func(i Item) bool { return i.To < f.Colony.AsOf })
	slices.SortStableFunc(all, func(a, b Item) int { return cmp.Compare(a.Likely, b.Likely) })
	return all
}

// Days is how many days a week of Week has.
const Days = 7

// Week returns the items of a calendar that touch the seven days from the as-of day on.
func Week(calendar []Item, asOf journal.Day) []Item {
	var week []Item
	for _, i := range calendar {
		if i.From < asOf+Days && i.To >= asOf {
			week = append(week, i)
		}
	}
	return week
}

// hiding is how many days new young keep out of sight. Common practice, no source: the first three or four.
const hiding = 4

// asked is how many days a keeper is asked how eggs ended that are taken as hatched unseen.
const asked = 21

// ofBrood looks for the eyes and the hatch of carried eggs, and for the saddle of a mother whose eggs have hatched.
func ofBrood(f *forecast.Forecast, b *forecast.Brood) []Item {
	if b.State == forecast.Hatched {
		return nextSaddle(f, b)
	}
	today := f.Colony.AsOf
	ask := Item{Task: End, Tank: b.Tank(), Brood: b.ID, From: today, Likely: today, To: today}
	switch {
	case b.State == forecast.Overdue:
		ask.Words, ask.Why = "Look whether the mother of "+b.ID+" still carries her eggs.", b.Expected().Reason
		return []Item{ask}
	case b.State == forecast.Unseen && today <= b.Foreseen.P95+forecast.Forgotten+asked:
		ask.Words, ask.Why = "Write how the eggs of "+b.ID+" ended: hatched or dropped, on the day that you think likeliest.", b.Hatch.Reason
		return []Item{ask}
	case b.State != forecast.Carried || b.Hatch.P50 == 0:
		return nil
	}
	var items []Item
	if b.Eyed == 0 && b.Eyes.P50 != 0 {
		items = append(items, Item{
			Task: Eyes, Tank: b.Tank(), Brood: b.ID, From: b.Eyes.P10, Likely: b.Eyes.P50, To: b.Eyes.P90,
			Words: "Look for eyes in the eggs of " + b.ID + ".", Why: "The day they are seen narrows the window of the hatch.",
		})
	}
	return append(items, Item{
		Task: Hatch, Tank: b.Tank(), Brood: b.ID, From: b.Hatch.P10, Likely: b.Hatch.P50, To: b.Hatch.P90,
		Words: "Look whether " + b.ID + " has hatched: young sit on moss and sponge, most of all at night.",
		Why:   "A sponge over the inlet of the filter keeps them out of it (common practice).",
	})
}

// nextSaddle looks for the ovaries of a mother that fill again, until she is expected to carry the next eggs. Where
// another female may carry by now, nothing says which to look at.
func nextSaddle(f *forecast.Forecast, b *forecast.Brood) []Item {
	tank := tankOf(f, b.Tank())
	if tank == nil || b.Brood.Hatched == 0 || b.Mother != nil && b.Mother.Gone != 0 {
		return nil
	}
	carried := float64(b.Brood.Hatched - b.Berried)
	gap := max(2, journal.Day(tank.Profile.Breeding.IntervalDays(carried)-carried+0.5))
	until := b.Brood.Hatched + gap + hiding
	if until < f.Colony.AsOf {
		return nil
	}
	for i := range f.Broods {
		next := &f.Broods[i]
		same := b.Mother != nil && next.Mother == b.Mother || b.Mother == nil && next.Tank() == b.Tank()
		if next != b && same && next.Berried >= b.Berried {
			return nil
		}
	}
	who := "the mother of " + b.ID
	if b.Mother != nil {
		who = b.Mother.Name
	}
	return []Item{{
		Task: Saddle, Tank: b.Tank(), Brood: b.ID, From: b.Brood.Hatched + 1, Likely: b.Brood.Hatched + gap - 1, To: until,
		Words: "Look for a saddle on " + who + ": she may carry eggs again soon.", Why: "The ovaries fill again around the hatch; the next eggs come after a moult.",
	}}
}

// ofCohort looks after the young of one hatch: while they hide, when their sexes show, and when the first saddles do.
func ofCohort(f *forecast.Forecast, c *forecast.Cohort) []Item {
	items := []Item{{
		Task: Young, Tank: c.Tank, Brood: c.ID, From: c.Cohort.Hatched, Likely: c.Cohort.Hatched + hiding, To: c.Cohort.Hatched + hiding,
		Words: "The young of " + c.ID + " still hide: wait before you count them.", Why: "Hardly one is seen in the first three or four days (common practice).",
	}}
	if c.Sexable.P50 != 0 {
		items = append(items, Item{
			Task: Sexing, Tank: c.Tank, Brood: c.ID, From: c.Sexable.P10, Likely: c.Sexable.P50, To: c.Sexable.P90,
			Words: "Tell females from males among the young of " + c.ID + ".", Why: "A count by sex narrows how many broods will come.",
		})
	}
	if c.Mature.P50 != 0 && c.FirstSaddled == 0 && c.FirstBerried == 0 {
		items = append(items, Item{
			Task: Saddle, Tank: c.Tank, Brood: c.ID, From: c.Mature.P10, Likely: c.Mature.P50, To: c.Mature.P90,
			Words: "Look for the first saddles among the young females of " + c.ID + ".", Why: "The first of them teaches how fast shrimp grow up in this tank.",
		})
	}
	return items
}

// The rhythms that are taken where the keeper has none yet, in days. Common practice, no source.
const (
	usualCount = 28
	usualTest  = 14
	freshTest  = 7  // while a tank is new
	newTank    = 56 // days that a tank is new
)

// ofTank plans the next count and the next water test of a tank with shrimp.
func ofTank(f *forecast.Forecast, t *forecast.Tank) []Item {
	if len(t.Events) == 0 || t.Population.Now.P50 < 0.5 {
		return nil
	}
	if deserted(t) {
		return []Item{{
			Task: Count, Tank: t.ID, From: f.Colony.AsOf, Likely: f.Colony.AsOf, To: f.Colony.AsOf,
			Words: "Look whether anybody is left: as many have left as ever came.", Why: "If nobody is, write counted: 0 with method: emptied, and nothing is due here any more.",
		}}
	}
	first := t.Events[0].Day
	var counts, tests []journal.Day
	for _, census := range t.Censuses {
		counts = append(counts, census.Day)
	}
	for _, test := range t.Tests {
		tests = append(tests, test.Day)
	}
	usual := usualTest
	if f.Colony.AsOf-first < newTank {
		usual = freshTest
	}
	return []Item{
		regular(Item{Task: Count, Tank: t.ID, Words: "Count the shrimp."}, counts, first, usualCount, f.Colony.AsOf),
		regular(Item{Task: Test, Tank: t.ID, Words: "Test the water."}, tests, first, usual, f.Colony.AsOf),
	}
}

// deserted reports whether all shrimp that the keeper knows of have left a tank, so that only young hatched unseen can live
// there.
func deserted(t *forecast.Tank) bool {
	totals := t.Totals()
	return totals.Stocked+totals.MovedIn > 0 && totals.Balance() <= 0 && t.Population.AdultFemales.P95+t.Population.AdultMales.P95 < 0.5
}

// regular plans the next of something that is done again and again: a rhythm after the last time, or at once when that has
// passed.
func regular(item Item, days []journal.Day, first journal.Day, usual int, asOf journal.Day) Item {
	every, own := rhythm(days, usual)
	last := first
	item.Why = "Not done yet."
	if n := len(days); n > 0 {
		last = days[n-1]
		item.Why = "Last done on " + wording.Date(last)
		if own {
			item.Why += fmt.Sprintf("; your own rhythm is every %d days", every)
		}
		item.Why += "."
	}
	item.Likely = max(last+journal.Day(every), asOf)
	item.From, item.To = item.Likely, item.Likely
	return item
}

// The gaps that make a rhythm: how many at least and at most, and between how many days each is kept.
const (
	fewestGaps = 3
	mostGaps   = 8
	shortest   = 3
	longest    = 60
)

// rhythm returns the median of the newest gaps between days, and whether there were enough for one.
func rhythm(days []journal.Day, usual int) (every int, own bool) {
	days = slices.Compact(slices.Sorted(slices.Values(days)))
	var gaps []int
	for i := len(days) - 1; i > 0 && len(gaps) < mostGaps; i-- {
		gaps = append(gaps, int(days[i]-days[i-1]))
	}
	if len(gaps) < fewestGaps {
		return usual, false
	}
	slices.Sort(gaps)
	return min(max(gaps[len(gaps)/2], shortest), longest), true
}

// tankOf returns a tank of a forecast, or nil.
func tankOf(f *forecast.Forecast, id string) *forecast.Tank {
	for i := range f.Tanks {
		if f.Tanks[i].ID == id {
			return &f.Tanks[i]
		}
	}
	return nil
}
