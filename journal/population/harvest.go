package population

const (
	month          = 30  // days between two harvests
	harvestPaths   = 250 // particles that are tried
	harvestRisk    = 0.05
	largestHarvest = 1 << 12
)

// mayLeave returns how many half-grown or grown animals may leave every 30 days, for a year from now, with at most 5 %
// chance that the colony is smaller then than now. All harvests are tried on the same particles with the same random
// numbers, so that the chance rises with the harvest; large answers are
// rounded down by up to a twelfth. A colony at the tank's capacity is as likely to shrink as
// to grow, even when nobody leaves: the answer is then 0.
func (t *tank) mayLeave() int {
	base := t.part(harvestPaths)
	if base.shrinks(0) > harvestRisk {
		return 0
	}
	low, high := 0, 1
	for high < largestHarvest && base.shrinks(high) <= harvestRisk {
		low, high = high, 4*high
	}
	for high-low > max(1, low/12) {
		middle := (low + high) / 2
		if base.shrinks(middle) <= harvestRisk {
			low = middle
			continue
		}
		high = middle
	}
	return low
}

// part returns a clone of a tank with evenly spaced particles, at most n of them.
func (t *tank) part(n int) *tank {
	c := t.clone()
	step := max(1, len(t.particles)/n)
	c.particles, c.streams = nil, nil
	for i := 0; i < len(t.particles); i += step {
		c.particles = append(c.particles, t.particles[i])
		c.streams = append(c.streams, t.streams[i])
	}
	c.cloud = newCloud(len(c.particles))
	return c
}

// shrinks returns the share of the particles that are smaller in a year when so many leave every month.
func (t *tank) shrinks(harvest int) float64 {
	c := t.clone()
	c.quiet = true
	start := c.day
	for c.day < start+Horizon {
		c.live(min(start+Horizon, c.day+month))
		if c.day == start+Horizon {
			break
		}
		c.each(func(p *particle, s *stream) { c.harvest(p, s, harvest) })
	}
	smaller := 0
	for i := range c.particles {
		if c.particles[i].living < t.particles[i].living {
			smaller++
		}
	}
	return float64(smaller) / float64(len(c.particles))
}

// harvest takes up to n animals out of a particle.
func (t *tank) harvest(p *particle, s *stream, n int) {
	c := p.halfGrown(t.table)
	for range n {
		if _, ok := p.extract(t.table, s, c); !ok {
			break
		}
		p.left++
	}
	p.refresh(t.table)
}
