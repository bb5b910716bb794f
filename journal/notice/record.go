package notice

import (
	"cmp"
	"slices"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
)

// record is one tank's record, ready to be weighed.
type record struct {
	*forecast.Tank
	forecast *forecast.Forecast
	asOf     journal.Day
	units    wording.Units
	events   []*journal.Event          // by the day they became known
	visits   []journal.Day             // days of entries about the tank, each once
	waited   []wait                    // for eggs, once looked for
	mistyped []slip                    // readings that look like slips, once looked for
	slipped  map[journal.Position]bool // by the place of such a reading, whether it can be nothing else
}

func newRecord(f *forecast.Forecast, t *forecast.Tank) *record {
	r := &record{Tank: t, forecast: f, asOf: f.Colony.AsOf, units: wording.Units{Units: f.Colony.Settings.Units}}
	r.events = slices.Clone(t.Events)
	slices.SortStableFunc(r.events, func(a, b *journal.Event) int { return cmp.Compare(a.KnownFrom(), b.KnownFrom()) })
	for _, e := range f.Colony.Entries {
		if !r.isAbout(e) {
			continue
		}
		if n := len(r.visits); n == 0 || r.visits[n-1] != e.Date {
			r.visits = append(r.visits, e.Date)
		}
	}
	return r
}

// isAbout reports whether an entry is about the tank.
func (r *record) isAbout(e *journal.Entry) bool {
	return slices.Contains(e.Tanks, r.ID) || slices.ContainsFunc(e.Events, func(e journal.Event) bool { return e.Tank == r.ID })
}

// week returns what was known of the tank's shrimp at the end of the last week before or on a day, and false before the
// first.
func (r *record) week(day journal.Day) (forecast.Week, bool) {
	weeks := r.Population.Weeks
	i, found := slices.BinarySearchFunc(weeks, day, func(w forecast.Week, day journal.Day) int { return cmp.Compare(w.Day, day) })
	if !found {
		i--
	}
	if i < 0 || i >= len(weeks) {
		return forecast.Week{}, false
	}
	return weeks[i], true
}

// name returns what the tank is called.
func (r *record) name() string {
	if r.Tank.Name != "" {
		return r.Tank.Name
	}
	return r.ID
}

// celsius returns the estimated mean temperature of a day.
func (r *record) celsius(day journal.Day) float64 {
	if len(r.Course) == 0 {
		return r.Tank.Celsius
	}
	i := min(max(0, int(day-r.Course[0].Day)), len(r.Course)-1)
	return r.Course[i].Mean
}

// reading is one value of a water test.
type reading struct {
	journal.Reading
	day   journal.Day    // from which it was known
	event *journal.Event // nil for a day of a logger file
}

// readings returns the values of a kind by day; those that only say "below" are among them.
func (r *record) readings(kind journal.ReadingKind) []reading {
	var all []reading
	for _, test := range r.Tests {
		if one, ok := journal.ReadingOf(test.Readings, kind); ok {
			all = append(all, reading{one, test.Event.KnownFrom(), test.Event})
		}
	}
	slices.SortStableFunc(all, func(a, b reading) int { return cmp.Compare(a.day, b.day) })
	return all
}
