package population

import "math"

// brood is a clutch that the journal follows by name.
type brood struct {
	young float64 // expected hatchlings when eggs were counted, else 0
}

// apply lets every particle have a mother for the brood.
func (f Berried) apply(t *tank, fact Fact) {
	mothers := Group{Females: len(t.broods) + 1}
	t.demand(mothers, fact, "berried", t.lacking(mothers))
	t.note()
	t.broods[f.Brood] = brood{young: f.Young}
	recent := max(1, int(math.Ceil(float64(t.day-f.Earliest+1)*t.pace())))
	t.each(func(p *particle, s *stream) {
		p.claimRecent(t.table, s, recent)
		p.refresh(t.table)
	})
}

// pace returns how many bins of the brood clock the current day makes.
func (t *tank) pace() float64 {
	water := t.record.water(t.day)
	return perIncubation * t.law.profile.Incubation.MeanRate(water.Mean, water.SD) / t.law.slow
}

// claimRecent makes a mature female the mother of a followed brood that began in the last bins: one whose clutch the
// particle let begin about then, else any.
func (p *particle) claimRecent(t *table, s *stream, recent int) {
	for back := -3; back <= recent+2; back++ {
		bin := (t.bin + perIncubation - back + bins) % bins
		if p.clutch[bin] > 0 {
			p.clutch[bin]--
			p.carrying--
			p.held++
			return
		}
	}
	p.claim(t, s)
}

// claim makes some mature female the mother of a followed brood: one that is ready, else one at rest, else one that
// carries, else a girl that matures early, else one that was never thought to live.
func (p *particle) claim(t *table, s *stream) {
	switch {
	case p.ready > 0:
		p.ready--
	case p.resting > 0:
		pull(&p.rest, int32(s.below(int(p.resting))))
		p.resting--
	case p.carrying > 0:
		pull(&p.clutch, int32(s.below(int(p.carrying))))
		p.carrying--
	default:
		p.promote(t, s)
	}
	p.held++
}

// promote makes a new mature female: the oldest girl, else a new animal. She is not in the brood clock.
func (p *particle) promote(t *table, s *stream) {
	for a := t.span - 1; a >= 0; a-- {
		if p.herd[girl][a] > 0 {
			p.herd[girl][a]--
			p.herd[woman][a]++
			p.grown++
			return
		}
	}
	p.conjure(t, s, choice{women: true, from: min(p.sexable(t), t.span-1), to: t.span})
	p.unclock(s)
}

// apply hatches a followed brood in every particle.
func (f Hatched) apply(t *tank, _ Fact) {
	b := t.broods[f.Brood]
	t.youngNoted = true
	delete(t.broods, f.Brood)
	for i := range t.particles {
		p, s := &t.particles[i], &t.streams[i]
		young := p.expect(t.table, s, b)
		for try := 0; young < f.Seen && try < 20; try++ {
			young = p.expect(t.table, s, b)
		}
		p.endBrood(t, s)
		p.bear(t.table, s, max(young, f.Seen))
	}
}

// expect draws the young of a followed brood. Eggs that were counted leave only their losses to chance.
func (p *particle) expect(t *table, s *stream, b brood) int {
	if b.young > 0 {
		return s.binomial(s.round(b.young/0.8), 0.8)
	}
	return p.hatchlings(t, s, p.brood)
}

// endBrood sends the mother of a followed brood to rest.
func (p *particle) endBrood(t *tank, s *stream) {
	if p.held == 0 {
		p.claim(t.table, s)
	}
	p.held--
	p.repose(s, t.table.bin)
}

// apply ends a followed brood without young.
func (f Dropped) apply(t *tank, _ Fact) {
	delete(t.broods, f.Brood)
	for i := range t.particles {
		t.particles[i].endBrood(t, &t.streams[i])
	}
}
