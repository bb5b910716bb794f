package forecast

import (
	"cmp"
	"slices"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/water"
)

// NearbyPH is how many days a pH reading may be away from an ammonia test that has none of its own: an assumption.
const NearbyPH = 14

// WaterOf returns a tank's water tests, one for each, with what follows from them: the un-ionised ammonia and the
// dissolved solids. course is the tank's daily temperature. Nothing but the tank's own record goes in, so a record without
// its private parts gives a result without them.
func WaterOf(tank *colony.Tank, course []Daily, settings *journal.Settings) []WaterDay {
	acidity, warmth := valuesOf(tank, journal.PH), warmthOf(tank)
	var days []WaterDay
	for _, test := range tank.Tests {
		day := WaterDay{Day: test.Day, Readings: test.Readings, Event: test.Event}
		day.warm(warmth, course)
		day.acid(acidity)
		day.unionise()
		day.dissolve(settings.TDSFactor)
		days = append(days, day)
	}
	return days
}

// warm finds the temperature of a test: its own, else the day's, else that of the tank's course.
func (w *WaterDay) warm(warmth []dayValue, course []Daily) {
	if celsius, ok := journal.MeasuredOf(w.Readings, journal.Temperature); ok {
		w.Celsius = journal.Known(celsius)
		return
	}
	if celsius, ok := on(warmth, w.Day); ok {
		w.Celsius = journal.Known(celsius)
		return
	}
	if len(course) > 0 && w.Day >= course[0].Day && int(w.Day-course[0].Day) < len(course) {
		w.Celsius, w.EstimatedTemperature = journal.Known(course[w.Day-course[0].Day].Mean), true
	}
}

// acid finds the pH of a test: its own, else the day's, else that of the days around.
func (w *WaterDay) acid(acidity []dayValue) {
	if ph, ok := journal.MeasuredOf(w.Readings, journal.PH); ok {
		w.PH = journal.Known(ph)
		return
	}
	if ph, ok := on(acidity, w.Day); ok {
		w.PH = journal.Known(ph)
		return
	}
	if ph, ok := around(acidity, w.Day); ok {
		w.PH, w.InterpolatedPH = journal.Known(ph), true
	}
}

// unionise fills in the un-ionised ammonia. A test that only says "below" gives an upper limit.
func (w *WaterDay) unionise() {
	r, ok := journal.ReadingOf(w.Readings, journal.Ammonia)
	if !ok || !w.PH.Known || !w.Celsius.Known {
		return
	}
	value, err := water.Unionised(r.Value, w.PH.Value, w.Celsius.Value)
	switch {
	case err != nil:
	case r.Below:
		w.UnionisedAtMost = journal.Known(value)
	default:
		w.UnionisedAmmonia = journal.Known(value)
	}
}

// dissolve fills in the dissolved solids, as measured or from the conductivity.
func (w *WaterDay) dissolve(factor float64) {
	if tds, ok := journal.MeasuredOf(w.Readings, journal.TDS); ok {
		w.TDS = journal.Known(tds)
		return
	}
	conductivity, ok := journal.MeasuredOf(w.Readings, journal.Conductivity)
	if !ok {
		return
	}
	if tds, err := water.TDS(conductivity, factor); err == nil {
		w.TDS, w.ConvertedTDS = journal.Known(tds), true
	}
}

// dayValue is one value on one day.
type dayValue struct {
	day   journal.Day
	value float64
}

// valuesOf returns a reading by day, the mean where a day has several.
func valuesOf(tank *colony.Tank, kind journal.ReadingKind) []dayValue {
	var all []dayValue
	for _, test := range tank.Tests {
		if value, ok := journal.MeasuredOf(test.Readings, kind); ok {
			all = append(all, dayValue{test.Day, value})
		}
	}
	return daily(all)
}

// warmthOf returns a tank's measured temperature by day, the mean where a day has several.
func warmthOf(tank *colony.Tank) []dayValue {
	var all []dayValue
	for _, t := range tank.Temperatures {
		all = append(all, dayValue{t.Day, t.Celsius})
	}
	return daily(all)
}

// daily sorts values by day and makes one of those of the same day: their mean.
func daily(all []dayValue) []dayValue {
	slices.SortStableFunc(all, func(a, b dayValue) int { return cmp.Compare(a.day, b.day) })
	var days []dayValue
	count := 0.0
	for _, v := range all {
		if n := len(days); n > 0 && days[n-1].day == v.day {
			count++
			days[n-1].value += (v.value - days[n-1].value) / count
			continue
		}
		days, count = append(days, v), 1
	}
	return days
}

// on returns the value of a day.
func on(all []dayValue, day journal.Day) (float64, bool) {
	i, ok := slices.BinarySearchFunc(all, day, func(v dayValue, day journal.Day) int { return cmp.Compare(v.day, day) })
	if !ok {
		return 0, false
	}
	return all[i].value, true
}

// around returns the value of a day on the straight line between its neighbours, or that of the only near one; false where
// none is near enough.
func around(all []dayValue, day journal.Day) (float64, bool) {
	i, _ := slices.BinarySearchFunc(all, day, func(v dayValue, day journal.Day) int { return cmp.Compare(v.day, day) })
	before := i > 0 && day-all[i-1].day <= NearbyPH
	after := i < len(all) && all[i].day-day <= NearbyPH
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
