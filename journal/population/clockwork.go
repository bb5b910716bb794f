package population

import "pleopod/journal/parallel"

// clockwork is what moves on in a tank whatever its particles do: the day, the tables of the age period, and the clocks
// that the water drives.
type clockwork struct {
	record *Record
	law    *law
	table  *table
	day    Day           // the last day that was lived through
	phi    [ages]float64 // thermal age by age class, today
	began  [ages]float64 // phi when the age period began
	clock  float64       // bins of the brood clock passed since the first day
	heat   float64       // running mean temperature of about an incubation, °C
}

// newClockwork returns the clockwork on the day before the record's first fact.
func newClockwork(r *Record) clockwork {
	c := clockwork{record: r, law: newLaw(r), table: &table{}}
	c.table.law = c.law
	c.day = r.From - 1
	if len(r.Facts) > 0 {
		c.day = r.Facts[0].Day - 1
	}
	c.heat = r.water(c.day + 1).Mean
	// Whoever joins a tank has grown up elsewhere, in ordinary water.
	daily := c.law.profile.Maturity.Rate(reference)
	for a := range c.phi {
		c.phi[a] = float64(a*c.law.width) * daily
	}
	c.began = c.phi
	c.table.span = int(min(ages, max(2, 2/(daily*float64(c.law.width)))))
	c.table.fill(&c.phi, &c.began)
	c.table.warmthLeft = 1
	return c
}

// clone returns a copy that shares nothing that changes.
func (c *clockwork) clone() clockwork {
	copied, table := *c, *c.table
	copied.table = &table
	return copied
}

// periodEnd returns the last day of the age period that a day is in.
func (c *clockwork) periodEnd(day Day) Day {
	return c.periodOf(day)*Day(c.law.width) + Day(c.law.width) - 1
}

// periodOf returns the number of the age period that a day is in.
func (c *clockwork) periodOf(day Day) Day { return day / Day(c.law.width) }

// turn begins a new age period on the day after c.day.
func (c *clockwork) turn() {
	before := c.age()
	c.table.fill(&c.phi, &before)
}

// age is turn without filling the table. It returns the thermal ages of one period ago.
func (c *clockwork) age() (before [ages]float64) {
	c.phi[0] /= 2 // hatched evenly over the period
	before = c.began
	copy(c.phi[1:], c.phi[:ages-1])
	copy(before[1:], before[:ages-1])
	c.phi[0], before[0] = 0, 0
	c.began = c.phi
	c.table.span = min(ages, c.table.span+1)
	c.table.warmthLeft = c.law.profile.Fecundity.HeatFactor(c.heat)
	return before
}

// pass moves the clocks through a day.
func (c *clockwork) pass(day Day) pace {
	water := c.record.water(day)
	p := &c.law.profile
	share := p.Incubation.MeanRate(water.Mean, water.SD) / c.law.slow
	growth := p.Maturity.MeanRate(water.Mean, water.SD)
	for a := range c.phi {
		c.phi[a] += growth
	}
	const memory = 1.0 / 20 // per day
	c.heat += memory * (water.Mean - c.heat)
	from := int(c.clock)
	c.clock += share * perIncubation
	return pace{from: from, to: int(c.clock), share: share, gate: p.Breeding.ReadinessAt(water.Mean)}
}

// leg is a stretch of days within one age period, with the table that holds in it.
type leg struct {
	table *table
	turns bool // the leg begins a new age period
	from  Day  // its first day
	days  []pace
}

// end returns the last day of the leg.
func (l *leg) end() Day { return l.from + Day(len(l.days)) - 1 }

// almanac returns the days after c.day up to end as legs, none of which goes over a multiple of cut days from c.day, or
// over an age period. It leaves the clockwork as it is. No fact may lie in these days.
func (c *clockwork) almanac(end, cut Day) []leg {
	ahead := c.clone()
	var legs []leg
	var fills []func() // of the tables, which need nothing of one another
	for first := c.day; ahead.day < end; {
		to := min(end, ahead.periodEnd(ahead.day+1), first+(ahead.day-first)/cut*cut+cut)
		l := leg{from: ahead.day + 1, turns: ahead.periodEnd(ahead.day) == ahead.day}
		if l.turns {
			before, phi := ahead.age(), ahead.phi
			fills = append(fills, func() { l.table.fill(&phi, &before) })
		}
		table := *ahead.table
		l.table = &table
		for ahead.day < to {
			ahead.day++
			l.days = append(l.days, ahead.pass(ahead.day))
		}
		ahead.table.bin = l.days[len(l.days)-1].to
		legs = append(legs, l)
	}
	parallel.Each(len(fills), func(i int) { fills[i]() })
	for i := 1; i < len(legs); i++ {
		if l := &legs[i]; !l.turns {
			bin := l.table.bin
			*l.table = *legs[i-1].table
			l.table.bin = bin
		}
	}
	return legs
}

// walk lives through a leg.
func (p *particle) walk(l *leg, s *stream) {
	if l.turns {
		p.turn(l.table, s)
	}
	p.run(l.table, s, l.days)
}
