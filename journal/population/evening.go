package population

// Evening is what the tank held on the evening of a day, as far as was known on it: expected values, and probabilities.
type Evening struct {
	Day           Day
	Females       float64 // mature
	Adults        float64 // mature, of both sexes
	Dying         float64 // deaths a day of animals past the first two months
	Clutches      float64 // clutches that begin a day at this day's temperature, if males are there
	EffectiveSize float64 // of the mature animals
	Crowded       float64 // probability that there are more adults than the tank can carry
	CanSelect     float64 // probability that the effective size reaches SelectionSize
}

// evening sums the particles up.
func (t *tank) evening() Evening {
	e := Evening{Day: t.day}
	water := t.record.water(t.day)
	p := &t.law.profile
	perDay := p.Incubation.MeanRate(water.Mean, water.SD) / t.law.slow * p.Breeding.ReadinessAt(water.Mean)
	for i := range t.particles {
		q, weight := &t.particles[i], t.cloud.weights[i]
		adults := float64(q.grown) + q.sires
		e.Females += weight * float64(q.grown)
		e.Adults += weight * adults
		e.Dying += weight * q.riskOld * q.oldRisk
		e.Clutches += weight * float64(q.grown) * q.readiness * perDay * perIncubation / (perIncubation + float64(q.pause))
		size := q.effectiveSize()
		e.EffectiveSize += weight * size
		if adults > t.law.capacity {
			e.Crowded += weight
		}
		if size >= SelectionSize {
			e.CanSelect += weight
		}
	}
	return e
}
