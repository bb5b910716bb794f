package water

import (
	"cmp"
	"math"
	"slices"
)

// Observation is one measured temperature. The sd counts everything that separates it from the mean of its day.
type Observation struct {
	Day     int     // any count of days
	Celsius float64 // °C
	SD      float64 // °C, above 0
}

// Climate is what is assumed of a tank before its record speaks: a baseline, and departures from it that fade.
//
//	T(day) = mean + a·cos(2π·day/365.25) + b·sin(2π·day/365.25) + x(day)
//
// where x is an Ornstein-Uhlenbeck process, seen once a day: corr(x(s), x(t)) = exp(−|s−t|/CorrelationDays).
type Climate struct {
	Mean            float64 // °C, the heater's set-point, or a guess for an unheated tank
	MeanSD          float64 // °C, how far the true baseline may be from Mean; 0 or more
	YearlySD        float64 // °C, prior sd of a and b once the record covers more than half a year; 0 for no yearly course
	SD              float64 // °C, of x; above 0
	CorrelationDays float64 // above 0
	Fixed           bool    // SD and CorrelationDays are known and not estimated from the record
}

// The days that a record must cover before an unheated tank gets a yearly course, and before it counts in full.
// In between its prior sd rises in a straight line, so that no single day changes a prediction by a leap.
const (
	YearlyFrom = 183 // days
	YearlyFull = 243 // days
)

// coveredGap is the longest gap between two observations that still counts as covered by them, in days.
const coveredGap = 31

// yearLength is the mean length of a year in days (the Julian year).
const yearLength = 365.25

// measured is all observations of one day as one equivalent observation.
type measured struct {
	day      int
	celsius  float64
	variance float64
	h        vector // how the state shows in it
	covered  float64
}

// Record is a tank's observations in order, ready to be asked what was known on any day.
// It remembers intermediate results, so that one Record must not be used by two goroutines at once.
type Record struct {
	climate Climate
	days    []measured
	laws    []law // laws[k] is estimated from the first k·fitEvery days
	runs    map[int]*run
}

// NewRecord takes observations in any order. The same value on the same day with the same sd counts once; different
// ones of one day are averaged by precision, with the variance raised where they disagree (the Birge ratio, R. T. Birge,
// "The calculation of errors by the method of least squares", Phys. Rev. 40 (1932) 207; from memory).
func NewRecord(climate Climate, observations []Observation) *Record {
	r := &Record{climate: climate, days: daily(observations), runs: map[int]*run{}}
	r.laws = estimate(climate, r.days)
	return r
}

// daily joins the observations of each day.
func daily(observations []Observation) []measured {
	sorted := slices.Clone(observations)
	slices.SortFunc(sorted, func(a, b Observation) int {
		return cmp.Or(cmp.Compare(a.Day, b.Day), cmp.Compare(a.Celsius, b.Celsius), cmp.Compare(a.SD, b.SD))
	})
	sorted = slices.Compact(sorted)
	var days []measured
	for len(sorted) > 0 {
		n := 1
		for n < len(sorted) && sorted[n].Day == sorted[0].Day {
			n++
		}
		day := join(sorted[:n])
		if k := len(days); k > 0 {
			day.covered = days[k-1].covered + math.Min(float64(day.day-days[k-1].day), coveredGap)
		}
		days = append(days, day)
		sorted = sorted[n:]
	}
	return days
}

// join returns the observation that says the same as several of one day.
func join(same []Observation) measured {
	var precision, sum float64
	for _, o := range same {
		precision += 1 / (o.SD * o.SD)
		sum += o.Celsius / (o.SD * o.SD)
	}
	m := measured{day: same[0].Day, celsius: sum / precision, variance: 1 / precision, h: design(same[0].Day)}
	if len(same) < 2 {
		return m
	}
	var misfit float64
	for _, o := range same {
		misfit += (o.Celsius - m.celsius) * (o.Celsius - m.celsius) / (o.SD * o.SD)
	}
	m.variance *= math.Max(1, misfit/float64(len(same)-1))
	return m
}

// Basis says what a Course rests on.
type Basis int

// The bases, from the weakest.
const (
	Assumed  Basis = iota // no reading: the climate alone
	Measured              // readings around a constant baseline
	Yearly                // readings around a yearly course
)

// Course is the temperature of a tank as it was known on one day: a joint distribution of the mean of every day,
// before, between and after the readings.
type Course struct {
	Basis Basis
	// Readings counts the days with a reading; First and Last are the outermost of them.
	Readings, First, Last int
	// SD (°C) and CorrelationDays are what the record, shrunk towards the climate, says of the departures.
	SD, CorrelationDays float64

	law  law
	days []measured
	run  *run
}

// On returns the course as it was known on a day: later observations change nothing in it.
func (r *Record) On(day int) *Course {
	n, found := slices.BinarySearchFunc(r.days, day, func(m measured, day int) int { return cmp.Compare(m.day, day) })
	if found {
		n++
	}
	fit := n / fitEvery
	c := &Course{law: r.laws[fit], days: r.days[:n], Readings: n}
	c.SD, c.CorrelationDays = math.Sqrt(c.law.variance), c.law.tau
	if n == 0 {
		c.run = &run{law: c.law}
		return c
	}
	c.First, c.Last, c.Basis = c.days[0].day, c.days[n-1].day, Measured
	if c.law.n > level {
		c.Basis = Yearly
	}
	if r.runs[fit] == nil {
		r.runs[fit] = newRun(c.law, r.days[:min(len(r.days), (fit+1)*fitEvery)])
	}
	c.run = r.runs[fit]
	return c
}
