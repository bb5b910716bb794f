package population

import "math"

const (
	month          = 30  // days between two harvests
	harvestPaths   = 128 // particles that are tried
	harvestRisk    = 0.05
	largestHarvest = 1 << 12
)

// harvest is the search for how many may leave.
type harvest struct {
	from  *tank
	floor float64 // share of today's adults below which a colony counts as shrunk
}

// newHarvest prepares the search in a frozen tank, on at most harvestPaths of its particles.
func newHarvest(t *tank, floor float64) harvest { return harvest{t.part(harvestPaths), floor} }

// most returns how many half-grown or grown animals may leave every 30 days, for a year from now, with at most 5 %
// chance that the colony ends below the floor. All numbers are tried on the same particles with the same random numbers,
// so that the chance rises with the harvest; large answers are rounded down by up to a tenth.
//
// The colony is measured by its adults: hatchlings come by the dozen and most of them go again, so that their number says
// little about whether a colony stands. With the floor at today's number the answer is 0 for a colony that fills its tank: it is as likely to be a little smaller
// in a year as a little larger, even when nobody leaves.
func (h harvest) most() int {
	if h.shrinks(0) > harvestRisk {
		return 0
	}
	low, high := 0, 1
	for high < largestHarvest && h.shrinks(high) <= harvestRisk {
		low, high = high, 4*high
	}
	for high-low > max(1, low/10) {
		middle := (low + high) / 2
		if h.shrinks(middle) <= harvestRisk {
			low = middle
			continue
		}
		high = middle
	}
	return low
}

// shrinks returns the share of the particles that end below the floor, or empty, when so many leave every month.
func (h harvest) shrinks(each int) float64 {
	c := h.from.clone()
	end := c.day + Horizon
	for c.day < end {
		c.live(min(end, c.day+month))
		if c.day < end {
			c.each(func(p *particle, s *stream) { c.thin(p, s, each) })
		}
	}
	smaller := 0
	for i := range c.particles {
		if c.particles[i].adults() < max(1, h.floor*h.from.particles[i].adults()) {
			smaller++
		}
	}
	return float64(smaller) / float64(len(c.particles))
}

// adults returns the number of mature animals.
func (p *particle) adults() float64 { return float64(p.grown) + math.Round(p.sires) }

// thin takes up to n half-grown or grown animals out of a particle.
func (t *tank) thin(p *particle, s *stream, n int) {
	c := p.halfGrown(t.table)
	for range n {
		if _, ok := p.extract(t.table, s, c); !ok {
			break
		}
		p.left++
	}
	p.refresh(t.table)
}

// part returns a clone of a tank with evenly spaced particles, about n of them.
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
