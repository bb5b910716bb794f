package population

import "pleopod/journal/lifecycle"

// effectiveSize returns the effective size of the mature animals of a particle.
func (p *particle) effectiveSize() float64 {
	return lifecycle.EffectiveSize(p.sires, float64(p.grown))
}

// pyramid returns the expected numbers by age and sex, in classes of about a month, up to the oldest that is there.
func (t *tank) pyramid() []AgeClass {
	const periods = 4
	var classes []AgeClass
	for from := 0; from < t.table.span; from += periods {
		to := min(from+periods, t.table.span)
		class := AgeClass{FromDays: from * t.law.width, ToDays: to * t.law.width}
		for a := from; a < to; a++ {
			class.Mature += t.mean(func(p *particle) float64 { return float64(p.women[a]) })
			class.Females += t.mean(func(p *particle) float64 { return float64(p.girls[a]) + float64(p.women[a]) })
			class.Males += t.mean(func(p *particle) float64 { return float64(p.males[a]) })
		}
		classes = append(classes, class)
	}
	for len(classes) > 0 && classes[len(classes)-1].Females+classes[len(classes)-1].Males < 0.05 {
		classes = classes[:len(classes)-1]
	}
	return classes
}
