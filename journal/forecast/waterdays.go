package forecast

import (
	"cmp"
	"slices"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/water"
)

// nearbyPH is how many days a pH reading may be away from an ammonia test that has none of its own: an assumption.
const nearbyPH = 14

// waterDays returns a tank's water tests, one for each, with what follows from them.
func (v view) waterDays(tank *colony.Tank, course []Daily) []WaterDay {
	acidity := acidityOf(tank)
	var days []WaterDay
	for _, test := range tank.Tests {
		day := WaterDay{Day: test.Day, Readings: test.Readings, Event: test.Event}
		day.unionise(course, acidity)
		days = append(days, day)
	}
	return days
}

// unionise fills in the un-ionised ammonia, with the day's own temperature and pH where they were measured, else with the
// tank's course and with the pH of the days around. A test that only says "below" gives none.
func (w *WaterDay) unionise(course []Daily, acidity []dayValue) {
	ammonia, ok := measuredOf(w.Readings, journal.Ammonia)
	if !ok {
		return
	}
	celsius, ok := measuredOf(w.Readings, journal.Temperature)
	if !ok {
		if len(course) == 0 || w.Day < course[0].Day || int(w.Day-course[0].Day) >= len(course) {
			return
		}
		celsius = course[w.Day-course[0].Day].Mean
	}
	ph, measured := measuredOf(w.Readings, journal.PH)
	if !measured {
		if ph, ok = around(acidity, w.Day); !ok {
			return
		}
	}
	if value, err := water.Unionised(ammonia, ph, celsius); err == nil {
		w.UnionisedAmmonia, w.InterpolatedPH = journal.Known(value), !measured
	}
}

// measuredOf returns the value of a kind, and false where it was not measured or only a limit was.
func measuredOf(readings []journal.Reading, kind journal.ReadingKind) (float64, bool) {
	for _, r := range readings {
		if r.Kind == kind && !r.Below {
			return r.Value, true
		}
	}
	return 0, false
}

// dayValue is one value on one day.
type dayValue struct {
	day   journal.Day
	value float64
}

// acidityOf returns a tank's pH readings by day.
func acidityOf(tank *colony.Tank) []dayValue {
	var all []dayValue
	for _, test := range tank.Tests {
		if ph, ok := measuredOf(test.Readings, journal.PH); ok {
			all = append(all, dayValue{test.Day, ph})
		}
	}
	slices.SortStableFunc(all, func(a, b dayValue) int { return cmp.Compare(a.day, b.day) })
	return all
}

// around returns the value of a day on the straight line between its neighbours, or that of the only near one; false where
// none is near enough.
func around(all []dayValue, day journal.Day) (float64, bool) {
	i, _ := slices.BinarySearchFunc(all, day, func(v dayValue, day journal.Day) int { return cmp.Compare(v.day, day) })
	before := i > 0 && day-all[i-1].day <= nearbyPH
	after := i < len(all) && all[i].day-day <= nearbyPH
	switch {
	case before && after:
		share := float64(day-all[i-1].day) / float64(all[i].day-all[i-1].day)
		return all[i-1].value + share*(all[i].value-all[i-1].value), true
	case before:
		return all[i-1].value, true
	case after:
		return all[i].value, true
	}
	return 0, false
}
