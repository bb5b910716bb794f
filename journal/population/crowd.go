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
	l := t.law
	capacity := l.capacity * float64(p.room)
	if capacity <= 0 {
		return 0, 1
	}
	free := capacity * l.freeShare
	if fed <= free || l.perFemale <= 1 {
		return 1, 0
	}
	excess := math.Exp(float64(p.bend) * math.Log((fed-free)/(capacity-free)))
	left := -math.Log(1 + (l.perFemale-1)*excess) // the logarithm of YoungFactor
	atOnce := float64(p.atOnce)
	return math.Exp(atOnce * left), -(1 - atOnce) * left / float64(t.youngAges*l.width)
}

// Good and bad weeks of the young: the logarithm of the share that lives through its first days wanders with this
// spread, and forgets half of a departure in three weeks. Assumptions, checked by the coverage on simulated colonies.
const (
	luckSD   = 0.4
	luckDays = 30 // e-folding time
)

// wander moves the luck of the young through an age period.
func (p *particle) wander(l *law, s *stream) {
	p.luck = float32(l.keepLuck*float64(p.luck) + l.newLuck*s.normal())
}

// spared returns the factor of luck on the young that live through their first days, 1 on average.
func (p *particle) spared() float64 { return math.Exp(float64(p.luck) - luckSD*luckSD/2) }
