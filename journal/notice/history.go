package notice

import (
	"cmp"
	"slices"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
)

// history is one tank's record, ready to be weighed.
type history struct {
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

func newHistory(f *forecast.Forecast, t *forecast.Tank) *history {
	h := &history{Tank: t, forecast: f, asOf: f.Colony.AsOf, units: wording.Units{Units: f.Colony.Settings.Units}}
	h.events = slices.Clone(t.Events)
	slices.SortStableFunc(h.events, func(a, b *journal.Event) int { return cmp.Compare(a.KnownFrom(), b.KnownFrom()) })
	for _, e := range f.Colony.Entries {
		if !h.isAbout(e) {
			continue
		}
		if n := len(h.visits); n == 0 || h.visits[n-1] != e.Date {
			h.visits = append(h.visits, e.Date)
		}
	}
	return h
}

// isAbout reports whether an entry is about the tank.
func (h *history) isAbout(e *journal.Entry) bool {
	return slices.Contains(e.Tanks, h.ID) || slices.ContainsFunc(e.Events, func(e journal.Event) bool { return e.Tank == h.ID })
}

// evening returns what was known of the tank's shrimp at the end of the week that ended on a day or last before it, and
// false before the first.
func (h *history) evening(day journal.Day) (forecast.Evening, bool) {
	all := h.Population.Evenings
	i, found := slices.BinarySearchFunc(all, day, func(e forecast.Evening, day journal.Day) int { return cmp.Compare(e.Day, day) })
	if !found {
		i--
	}
	if i < 0 || i >= len(all) {
		return forecast.Evening{}, false
	}
	return all[i], true
}

// name returns what the tank is called.
func (h *history) name() string {
	if h.Tank.Name != "" {
		return h.Tank.Name
	}
	return h.ID
}

// celsius returns the estimated mean temperature of a day.
func (h *history) celsius(day journal.Day) float64 {
	if len(h.Course) == 0 {
		return h.Tank.Celsius
	}
	i := min(max(0, int(day-h.Course[0].Day)), len(h.Course)-1)
	return h.Course[i].Mean
}

// reading is one value of a water test.
type reading struct {
	journal.Reading
	day   journal.Day    // from which it was known
	event *journal.Event // nil for a day of a logger file
}

// readings returns the values of a kind by day; those that only say "below" are among them.
func (h *history) readings(kind journal.ReadingKind) []reading {
	var all []reading
	for _, test := range h.Tests {
		if one, ok := journal.ReadingOf(test.Readings, kind); ok {
			all = append(all, reading{one, test.Event.KnownFrom(), test.Event})
		}
	}
	slices.SortStableFunc(all, func(a, b reading) int { return cmp.Compare(a.day, b.day) })
	return all
}
