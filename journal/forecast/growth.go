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
	b := v.knownTanks[tank]
	whole := v.whole(tank)
	c := clock{first: journal.Day(whole.First), sums: make([]float64, whole.Days())}
	speed := math.Exp(-v.maturity.on(v.asOf).tanks[b.index].Mean)
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

// growth returns the growth of each sex in a tank: the species' curve, drawn towards the keeper's lengths where they
// say enough.
func (v view) growth(tank *colony.Tank) []Growth {
	b := v.knownTanks[tank.ID]
	c := v.clock(tank.ID)
	scale := b.profile.Maturity.DegreeDays * math.Exp(v.maturity.on(v.asOf).tanks[b.index].Mean)
	var all []Growth
	for _, sex := range []journal.Sex{journal.Female, journal.Male, ""} {
		g := Growth{Sex: sex, Points: c.points(tank.Lengths, sex), Maturity: scale}
		var lengths []lifecycle.Measured
		for _, point := range g.Points {
			lengths = append(lengths, lifecycle.Measured{Phi: point.Phi, MM: point.MM})
		}
		pairs := c.recaptures(tank.Lengths, sex)
		fit, known := v.before.curve(tank.ID, sex, lengths, pairs)
		if !known {
			fit = b.profile.Growth.Fit(defaultCurve(b.profile.Growth, sex), lengths, pairs)
		}
		g.lengths, g.recaptures = lengths, pairs
		g.Curve, g.Fitted, g.Reason = fit.Curve, fit.Estimable, fit.Reason
		g.Pairs, g.fit, g.cv = fit.Pairs, fit, b.profile.Growth.CV
		if sex != "" || len(g.Points) > 0 {
			all = append(all, g)
		}
	}
	return all
}

// points returns the lengths of a sex whose hatch day is known, against their thermal age.
func (c clock) points(lengths []colony.Length, sex journal.Sex) []GrowthPoint {
	var points []GrowthPoint
	for _, l := range lengths {
		if l.Sex == sex && l.Hatched != 0 {
			points = append(points, GrowthPoint{Phi: c.between(l.Hatched, l.Day), MM: l.MM, Length: l})
		}
	}
	return points
}

// recaptures returns each two lengths in a row of a named shrimp of a sex whose age is not known. Where it is known, the
// lengths themselves say more, and must not count twice.
func (c clock) recaptures(lengths []colony.Length, sex journal.Sex) []lifecycle.Recapture {
	var pairs []lifecycle.Recapture
	last := map[string]colony.Length{}
	for _, l := range lengths {
		if l.Name == "" || l.Sex != sex || l.Hatched != 0 {
			continue
		}
		if first, ok := last[l.Name]; ok && l.Day > first.Day {
			pairs = append(pairs, lifecycle.Recapture{First: first.MM, Second: l.MM, Phi: c.between(first.Day, l.Day)})
		}
		last[l.Name] = l
	}
	return pairs
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
