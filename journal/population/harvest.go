package population

import (
	"math"

	"pleopod/journal/parallel"
)

const (
	month          = 30  // days between two harvests
	harvestPaths   = 128 // particles that are tried
	harvestRisk    = 0.05
	harvestKept    = 2.0 / 3 // share of the adults that must be left where the colony would not have grown anyway
	stillGrowing   = 1.5     // times the adults of today in a year, from which on a small colony is left alone
	harvestJudged  = 90      // last days of the year over which the adults are averaged
	firstHarvest   = 4       // the first number that is tried
	largestHarvest = 1 << 12
)

// harvest is the search for how many may leave.
type harvest struct {
	particles []particle
	streams   []stream
	legs      []leg
	floor     []float64 // by particle: with fewer adults the colony has shrunk
	safe      []int     // by particle: the most that is known to leave without shrinking it
	fatal     []int     // by particle: the least that is known to shrink it
}

// sampled returns the places of about harvestPaths evenly spaced particles of n.
func sampled(n int) []int {
	var places []int
	for i := 0; i < n; i += max(1, n/harvestPaths) {
		places = append(places, i)
	}
	return places
}

// newHarvest prepares the search from a frozen tank on a sample of its particles, for a year of legs that are cut at every harvest.
func newHarvest(t *tank, legs []leg) *harvest {
	h := &harvest{legs: legs}
	for _, i := range sampled(len(t.particles)) {
		h.particles = append(h.particles, t.particles[i])
		h.streams = append(h.streams, t.streams[i])
	}
	return h
}

// undisturbed returns what left gives for each particle when nobody leaves.
func (h *harvest) undisturbed() []float64 {
	without := make([]float64, len(h.particles))
	parallel.Each(len(without), func(i int) { without[i] = h.left(i, 0) })
	return without
}

// most returns how many half-grown or grown animals may leave every 30 days, for a year, with at most 5 % chance that the
// colony shrinks for it, given the adults of each particle when nobody leaves. All numbers are tried on the same
// particles with the same random numbers, and what was found of a particle with one number is taken to hold for larger or
// smaller ones, until the answer is tried once more; large answers are rounded down by up to a tenth.
//
// A colony is measured by its adults, averaged over the last 90 days of the year: hatchlings come by the dozen and most
// of them go again, and single weeks say little. It has shrunk when it is smaller than today; where it would not have
// grown anyway, because the tank is full or the founders grow old, when it is smaller by a third than with nobody
// leaving. A colony that dies out has shrunk, with or without a harvest. The third is an assumption: two years that begin
// alike differ by a fifth by chance alone, so less would tell nothing.
//
// Nobody may leave a small colony that grows: one that is more likely than not below SelectionSize today, and larger by
// half in a year. It could spare some in numbers, but each of its few parents that leaves takes their variety along.
func (h *harvest) most(without []float64) int {
	n := len(h.particles)
	h.floor, h.safe, h.fatal = make([]float64, n), make([]int, n), make([]int, n)
	for i := range h.particles {
		h.floor[i] = math.Max(1, math.Min(h.particles[i].adults(), harvestKept*without[i]))
		h.fatal[i] = largestHarvest
		if without[i] < h.floor[i] {
			h.fatal[i] = 0
		}
	}
	if h.shrinks(0) || h.young(without) {
		return 0
	}
	low, high := 0, firstHarvest
	for high < largestHarvest && !h.shrinks(high) {
		low, high = high, 4*high
	}
	for high-low > max(1, low/10) {
		middle := (low + high) / 2
		if h.shrinks(middle) {
			high = middle
			continue
		}
		low = middle
	}
	for low > 0 && !h.holds(low) {
		low -= max(1, low/10)
	}
	return low
}

// holds tries a number again on the particles that were taken not to shrink with it because they did not with a larger one:
// a larger harvest may leave more room for the rest.
func (h *harvest) holds(each int) bool {
	parallel.Each(len(h.particles), func(i int) {
		if h.safe[i] > each && h.fatal[i] > each && h.left(i, each) < h.floor[i] {
			h.fatal[i] = each
		}
	})
	return h.known(each) <= h.allowed()
}

// known is how many particles are known to shrink when so many leave every month.
func (h *harvest) known(each int) int {
	n := 0
	for _, fatal := range h.fatal {
		if fatal <= each {
			n++
		}
	}
	return n
}

// allowed is how many particles may shrink.
func (h *harvest) allowed() int { return int(harvestRisk * float64(len(h.particles))) }

// young reports whether the colony is more likely than not small today and grows.
func (h *harvest) young(without []float64) bool {
	young := 0
	for i := range h.particles {
		p := &h.particles[i]
		if p.effectiveSize() < SelectionSize && without[i] > stillGrowing*p.adults() {
			young++
		}
	}
	return 2*young > len(h.particles)
}

// shrinks reports whether the colony shrinks in more of the particles than may be when so many leave every month. It
// stops at the first block of particles that makes it sure.
func (h *harvest) shrinks(each int) bool {
	const block = 32
	allowed, smaller := h.allowed(), h.known(each)
	for from := 0; from < len(h.particles) && smaller <= allowed; from += block {
		n := min(block, len(h.particles)-from)
		var shrunk [block]bool
		parallel.Each(n, func(k int) { shrunk[k] = h.try(from+k, each) })
		for _, yes := range shrunk {
			if yes {
				smaller++
			}
		}
	}
	return smaller > allowed
}

// try reports whether a particle not known to shrink does so when so many leave every month.
func (h *harvest) try(i, each int) bool {
	switch {
	case each <= h.safe[i] || each >= h.fatal[i]:
		return false
	case h.left(i, each) < h.floor[i]:
		h.fatal[i] = each
		return true
	}
	h.safe[i] = each
	return false
}

// left returns the mean number of adults in the last days of the year when so many leave every month.
func (h *harvest) left(i, each int) float64 {
	p, s := h.particles[i], h.streams[i]
	var late lateAdults
	for j := range h.legs {
		l := &h.legs[j]
		p.walk(l, &s)
		if p.living == 0 {
			return 0
		}
		if each > 0 && j+1 < len(h.legs) && (l.end()-h.legs[0].from+1)%month == 0 {
			p.thin(l.table, &s, each)
		}
		late.add(&p, h.legs, j)
	}
	return late.mean()
}

// lateAdults averages the adults of a particle over the last days of its legs.
type lateAdults struct{ sum, days float64 }

// add takes in the leg that a particle has just walked.
func (a *lateAdults) add(p *particle, legs []leg, nth int) {
	if legs[nth].from <= legs[len(legs)-1].end()-harvestJudged {
		return
	}
	n := float64(len(legs[nth].days))
	a.sum += p.adults() * n
	a.days += n
}

func (a *lateAdults) mean() float64 { return a.sum / a.days }

// adults returns the number of mature animals.
func (p *particle) adults() float64 { return float64(p.grown) + math.Round(p.sires) }

// thin takes up to n half-grown or grown animals out of a particle.
func (p *particle) thin(t *table, s *stream, n int) {
	c := p.halfGrown(t)
	for range n {
		if _, ok := p.extract(t, s, c); !ok {
			break
		}
		p.left++
	}
	p.refresh(t)
}
