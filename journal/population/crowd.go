package population

import "math"

// appetite is the power of the length with which food rises: metabolism as mass to the power 3/4 (M. Kleiber 1932,
// Hilgardia 6:315-353, from memory), mass as the cube of the length.
const appetite = 2.25

// crowding returns the share of newly hatched young that live through their first days, 0 to 1, and the additional
// daily hazard of all young, where the tank feeds so many adults or their equivalent.
//
//	f = YoungFactor at F + (C − F)·x^θ adults      x = max(0, fed − F)/(C − F)
//
// with C the capacity and F the number below which crowding does nothing, both as this particle believes them. θ = 1 is the
// profile's law of Beverton and Holt, which brakes hard as soon as F is passed; above 1 the brake sets in later, and is the
// same at C (the form of J. Maynard Smith and M. Slatkin 1973, Ecology 54:384-391, from memory). The factor is split in
// two: f^α acts at once, on young that starve or are eaten before anybody sees them, the rest over the time that the
// young die at their own hazard. So a full tank holds young of all ages, many or few, and a tank that was overfilled by
// its young loses them. That there is a split, and α, the particle's own, are assumptions.
func (p *particle) crowding(t *table, fed float64) (first, risk float64) {
	density := t.law.profile.Density
	capacity := t.law.capacity * float64(p.room)
	if capacity <= 0 {
		return 0, 1
	}
	free := capacity * math.Min(0.99, density.Free/density.AdultsPerLitre)
	if fed <= free {
		return 1, 0
	}
	excess := math.Pow((fed-free)/(capacity-free), float64(p.bend))
	left := math.Log(density.YoungFactor(free+(capacity-free)*excess, capacity, t.law.perFemale))
	atOnce := float64(p.atOnce)
	return math.Exp(atOnce * left), -(1 - atOnce) * left / float64(t.youngAges*t.law.width)
}

// Good and bad weeks of the young: the logarithm of the share that lives through its first days wanders with this
// spread, and forgets half of a departure in three weeks. Assumptions, checked by the coverage on simulated colonies.
const (
	luckSD   = 0.4
	luckDays = 30 // e-folding time
)

// wander moves the luck of the young through a period of so many days.
func (p *particle) wander(s *stream, days int) {
	keep := math.Exp(-float64(days) / luckDays)
	p.luck = float32(keep*float64(p.luck) + luckSD*math.Sqrt(1-keep*keep)*s.normal())
}

// spared returns the factor of luck on the young that live through their first days, 1 on average.
func (p *particle) spared() float64 { return math.Exp(float64(p.luck) - luckSD*luckSD/2) }
