package forecast

import (
	"math"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/water"
)

// The days of a tank's course: how far it looks ahead, how far back its average goes, and how far it reaches back where
// nothing was measured.
const (
	yearAhead  = 365
	monthBack  = 30
	roomBehind = 30
)

// tanks describes every tank as it is known on the as-of day.
func (r *record) tanks() []Tank {
	all := make([]Tank, len(r.colony.Tanks))
	each(len(all), func(i int, d *scratch) { all[i] = r.view(r.colony.AsOf, d).tank(r.colony.Tanks[i]) })
	return all
}

func (v view) tank(tank *colony.Tank) Tank {
	b := v.knownTanks[tank.ID]
	t := Tank{Tank: tank, Profile: b.profile}
	whole := v.whole(tank.ID)
	for i := range whole.Days() {
		mean, sd := whole.Day(i)
		t.Course = append(t.Course, Daily{Day: journal.Day(whole.First + i), Mean: mean, SD: sd})
	}
	t.Celsius, t.CelsiusSD = v.lately(t.Course)
	t.Growth = v.growth(tank)
	t.Water = WaterOf(tank, t.Course, v.colony.Settings)
	t.Rates, t.Creep = RatesOf(tank), CreepOf(tank, v.asOf)
	return t
}

// whole returns a tank's temperature from the first day that anything is asked of it to a year after the as-of day.
func (v view) whole(tank string) *water.Span {
	b := v.knownTanks[tank]
	if b.whole == nil {
		first := v.asOf - roomBehind
		for _, s := range b.until(v.asOf) {
			first = min(first, journal.Day(s.Day))
		}
		for _, cohort := range b.tank.Cohorts {
			first = min(first, cohort.Hatched-hatchBefore)
		}
		for _, e := range b.tank.Events {
			first = min(first, e.Day)
		}
		b.whole = v.before.whole(v.record, tank, first)
		if b.whole == nil {
			b.whole = b.course(v.asOf).Span(int(first), int(v.asOf)+yearAhead, nil)
		}
	}
	return b.whole
}

// lately returns the mean of the last days up to the as-of day, and the sd of one daily mean around it.
func (v view) lately(course []Daily) (mean, sd float64) {
	var n, sum, squares float64
	for _, day := range course {
		if day.Day > v.asOf-monthBack && day.Day <= v.asOf {
			n++
			sum += day.Mean
			squares += day.Mean*day.Mean + day.SD*day.SD
		}
	}
	mean = sum / n
	return mean, math.Sqrt(math.Max(0, squares/n-mean*mean))
}
