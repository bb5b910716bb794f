package forecast

import (
	"math"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/lifecycle"
)

// clock is the thermal time of a tank: the share of the way to maturity gained up to the end of each day.
type clock struct {
	first journal.Day
	sums  []float64
}

// clock returns a tank's thermal time, with the journal's own speed of maturing.
func (v view) clock(tank string) clock {
	b := v.basins[tank]
	whole := v.whole(tank)
	c := clock{first: journal.Day(whole.First), sums: make([]float64, whole.Days())}
	speed := math.Exp(-v.young.on(v.asOf).tanks[b.index].Mean)
	var sum float64
	for i := range c.sums {
		rate, _ := b.growing.Over(whole.Day(i))
		sum += rate * speed
		c.sums[i] = sum
	}
	return c
}

// between returns the thermal time from the middle of one day to the middle of another, not before it.
func (c clock) between(from, to journal.Day) float64 { return math.Max(0, c.at(to)-c.at(from)) }

// at returns the thermal time up to the middle of a day.
func (c clock) at(day journal.Day) float64 {
	i := min(max(int(day-c.first), 0), len(c.sums)-1)
	if i == 0 {
		return c.sums[0] / 2
	}
	return (c.sums[i-1] + c.sums[i]) / 2
}

// growth returns the growth of each sex in a tank.
func (v view) growth(tank *colony.Tank) []Growth {
	p := v.basins[tank.ID].profile
	c := v.clock(tank.ID)
	scale := p.Maturity.DegreeDays * math.Exp(v.young.on(v.asOf).tanks[v.basins[tank.ID].index].Mean)
	var all []Growth
	for _, sex := range []journal.Sex{journal.Female, journal.Male, ""} {
		g := Growth{Sex: sex, Curve: defaultCurve(p.Growth, sex), Maturity: scale}
		for _, length := range tank.Lengths {
			if length.Sex == sex && length.Hatched != 0 {
				g.Points = append(g.Points, GrowthPoint{Phi: c.between(length.Hatched, length.Day), MM: length.MM, Length: length})
			}
		}
		if sex != "" || len(g.Points) > 0 {
			all = append(all, g)
		}
	}
	return all
}

// defaultCurve returns the species' curve of a sex, and the mean of both where the sex is not known.
func defaultCurve(g lifecycle.Growth, sex journal.Sex) lifecycle.Curve {
	switch sex {
	case journal.Female:
		return g.Female
	case journal.Male:
		return g.Male
	}
	return g.Female.Mean(g.Male)
}

// curveOf returns the curve of a sex in a tank.
func curveOf(growth []Growth, sex journal.Sex) lifecycle.Curve {
	for _, g := range growth {
		if g.Sex == sex {
			return g.Curve
		}
	}
	return lifecycle.Curve{}
}
