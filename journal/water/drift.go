package water

import (
	"cmp"
	"math"
	"slices"
)

// Sample is one reading of anything that water carries, on a day counted from any start.
type Sample struct {
	Day   int
	Value float64 // in one unit for all samples: dGH, ppm, µS/cm
}

// Exchange is a water change. A NaN says that its share, or the new water's value, is not known.
type Exchange struct {
	Day   int
	Share float64 // 0 to 1
	Fresh float64 // in the unit of the samples
}

// Drift is how a value creeps beside what water changes do to it, whatever the cause: topping up with hard water, stone
// that dissolves, food; or below 0, plants and moults that take minerals out.
type Drift struct {
	PerWeek float64 // in the unit of the samples
	SD      float64 // of PerWeek
	Samples int     // readings that it rests on
}

// FitDrift estimates a constant creep from readings and water changes, in any order.
//
//	c(t) = a(t)·c₀ + b(t) + k·g(t)
//
// k is the creep per week; a, b and g follow from the changes, each of which makes of all three what one change of Series makes of a
// value, and g grows by one each week. The model is linear in c₀ and k, so both come from least squares. A change whose
// share or new water is not known begins a stretch with a c₀ of its own. noise is the sd of one reading, above 0, such as
// 0.3 for a test that counts in whole degrees: the scatter is never taken for less. A test of the day of a change is
// taken as made before it.
//
// It is false with fewer than two readings more than unknowns, or when all readings stand at the start of a stretch. A
// dose of minerals, and new water that differs from what was noted, look like creep. Source: conservation of mass; least
// squares.
func FitDrift(samples []Sample, changes []Exchange, noise float64) (Drift, bool) {
	samples, changes = slices.Clone(samples), slices.Clone(changes)
	slices.SortStableFunc(samples, func(a, b Sample) int { return cmp.Compare(a.Day, b.Day) })
	slices.SortStableFunc(changes, func(a, b Exchange) int { return cmp.Compare(a.Day, b.Day) })
	var sum, stretch driftSums
	var at path
	unknowns := 2
	for _, s := range samples {
		var known bool
		if changes, known = at.until(s.Day, changes); !known && stretch.n > 0 {
			sum.add(stretch)
			stretch = driftSums{}
			unknowns++
		}
		if stretch.n == 0 {
			at = path{day: s.Day, a: 1}
		}
		stretch.see(at, s.Value)
	}
	sum.add(stretch)
	degrees := sum.n - unknowns
	if degrees < 1 || !(sum.gg > 1e-9) {
		return Drift{}, false
	}
	k := sum.gy / sum.gg
	variance := max((sum.yy-k*sum.gy)/float64(degrees), noise*noise)
	return Drift{PerWeek: k, SD: math.Sqrt(variance / sum.gg), Samples: sum.n}, true
}

// Settles returns the value that a tank comes to when the creep and the weekly changes go on for ever.
//
//	n + (1 − s)·k/s
//
// share is s, the share changed in a week, above 0 and up to 1; fresh is n, the new water. Without changes there is no
// such value: NaN.
func (d Drift) Settles(share, fresh float64) float64 {
	if !(share > 0 && share <= 1) {
		return math.NaN()
	}
	return fresh + (1-share)*d.PerWeek/share
}

// path is how the value of a day follows from the start of its stretch and from the creep.
type path struct {
	day     int
	a, b, g float64
}

// until goes on to a day, through the changes before it, and returns those that are left. It is false when one of them is
// not known well enough to go on.
func (p *path) until(day int, changes []Exchange) (left []Exchange, known bool) {
	known = true
	for len(changes) > 0 && changes[0].Day < day {
		c := changes[0]
		changes = changes[1:]
		if c.Day < p.day {
			continue
		}
		p.wait(c.Day)
		known = known && !math.IsNaN(c.Share) && !math.IsNaN(c.Fresh)
		p.a *= 1 - c.Share
		p.b = (1-c.Share)*p.b + c.Share*c.Fresh
		p.g *= 1 - c.Share
	}
	p.wait(day)
	return changes, known
}

func (p *path) wait(day int) {
	p.g += float64(day-p.day) / 7
	p.day = day
}

// driftSums are the sums of squares and products of one stretch, or of several from which their c₀ was taken out.
type driftSums struct {
	n                      int
	aa, ag, ay, gg, gy, yy float64
}

func (s *driftSums) see(at path, value float64) {
	y := value - at.b
	s.n++
	s.aa += at.a * at.a
	s.ag += at.a * at.g
	s.ay += at.a * y
	s.gg += at.g * at.g
	s.gy += at.g * y
	s.yy += y * y
}

// add takes c₀ out of a stretch and adds what is left.
func (s *driftSums) add(stretch driftSums) {
	if stretch.n == 0 {
		return
	}
	s.n += stretch.n
	s.gg += stretch.gg - stretch.ag*stretch.ag/stretch.aa
	s.gy += stretch.gy - stretch.ag*stretch.ay/stretch.aa
	s.yy += stretch.yy - stretch.ay*stretch.ay/stretch.aa
}
