package population

// Week is what the tank held on the evening of a day, as far as was known on it: expected values, and probabilities.
type Week struct {
	Day           Day
	Females       float64 // mature
	Adults        float64 // mature, of both sexes
	Dying         float64 // deaths a day of animals past the first two months
	Clutches      float64 // clutches that begin a day at this day's temperature, if males are there
	EffectiveSize float64 // of the mature animals
	Crowded       float64 // probability that there are more adults than the tank can carry
	CanSelect     float64 // probability that the effective size reaches SelectionSize
}

// week sums the particles up.
func (t *tank) week() Week {
	w := Week{Day: t.day}
	water := t.record.water(t.day)
	p := &t.law.profile
	perDay := p.Incubation.MeanRate(water.Mean, water.SD) / t.law.slow * p.Breeding.ReadinessAt(water.Mean)
	for i := range t.particles {
		q, weight := &t.particles[i], t.cloud.weights[i]
		adults := float64(q.grown) + q.sires
		w.Females += weight * float64(q.grown)
		w.Adults += weight * adults
		w.Dying += weight * q.riskOld * q.oldRisk
		w.Clutches += weight * float64(q.grown) * q.readiness * perDay * perIncubation / (perIncubation + float64(q.pause))
		size := q.effectiveSize()
		w.EffectiveSize += weight * size
		if adults > t.law.capacity {
			w.Crowded += weight
		}
		if size >= SelectionSize {
			w.CanSelect += weight
		}
	}
	return w
}
