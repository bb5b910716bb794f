package population

import "math"

// enough is the share of the particles to which the effective sample size may fall before they are resampled.
const enough = 0.5

// bearableShare is the share of the particles that must stay effective in one step of taking in an observation.
const bearableShare = 0.1

// mostSteps is the number of steps after which the rest of an observation is taken in at once.
const mostSteps = 12

// absorb weighs the particles by an observation, given as the log-likelihood of it in one particle. A surprising
// observation is taken in steps: as much of it as leaves a tenth of the particles effective, then resampling and a small
// disturbance of traits and numbers, then the rest. So the cloud moves instead of collapsing onto few particles.
func (t *tank) absorb(likelihood func(p *particle) float64) {
	left := 1.0
	for step := 0; left > 0; step++ {
		logs := t.numbers(likelihood)
		power := left
		if step < mostSteps {
			least := bearableShare * float64(len(logs))
			power = t.cloud.bearable(logs, left, math.Min(least, 0.9*t.cloud.effective()))
		}
		t.cloud.weigh(logs, power)
		left -= power
		if left > 0 {
			t.resample()
			t.disturb()
		}
	}
	if t.cloud.effective() < enough*float64(len(t.particles)) {
		t.resample()
	}
}

// disturbance is the sd of the logarithm by which one disturbance scales the animals that are not mature. Assumption.
const disturbance = 0.15

// disturb scales the number of girls and young males in every particle a little, up or down. It stands for what the
// model does not know: better or worse weeks of the young.
func (t *tank) disturb() {
	t.each(func(p *particle, s *stream) {
		c := p.juveniles(t.table)
		change := s.round(float64(p.count(c))*math.Exp(disturbance*s.normal())) - p.count(c)
		for range -change {
			p.extract(t.table, s, c)
			p.died++
		}
		for range change {
			p.put(t.table, min(c.to, t.table.span)-1-s.below(max(1, c.to)), p.child(s), 1)
			p.born++
		}
		p.refresh(t.table)
	})
}

// child draws the kind of a young animal.
func (p *particle) child(s *stream) kind {
	if s.uniform() < float64(p.share) {
		return girl
	}
	return male
}

// shortage is the log-likelihood of a fact that a particle can only follow by adding animals: the price of the first
// missing one, and that of each further one as a share of the number wanted.
func shortage(missing, wanted int) float64 {
	if missing <= 0 {
		return 0
	}
	share := float64(missing) / (0.1*float64(wanted) + 0.5)
	return -4 - share*share/2
}

// stock is how many of each class a particle holds, with all of them as unsexed.
func (p *particle) stock(t *table) Group {
	g := Group{Females: int(p.grown), Unsexed: int(p.living)}
	first := p.sexable(t)
	g.Females += sum(p.herd[girl][first:t.span])
	g.Males += sum(p.herd[male][first:t.span])
	g.Juveniles = g.Unsexed - g.Females - g.Males
	return g
}

// missing returns how many animals of a group a particle lacks: of those that could be taken for the class, and in all.
func (p *particle) missing(t *table, g Group) int {
	lack := max(0, g.Females-p.count(p.maybeFemales(t))) + max(0, g.Males-p.count(p.maybeMales(t)))
	lack += max(0, g.Juveniles-p.count(p.immatures(t)))
	return max(lack, g.Total()-int(p.living))
}

// demand weighs the particles by how many animals of a group they lack for a fact about it, and notes a doubt when hardly
// any has enough.
func (t *tank) demand(g Group, fact Fact, verb string, lack func(p *particle) int) {
	t.discover(g.Total(), aThird)
	if t.short(lack) == 0 {
		return
	}
	if t.short(lack) > hardlyAny {
		t.doubt(fact, verb, g)
	}
	t.absorb(func(p *particle) float64 { return shortage(lack(p), g.Total()) })
}

// hardlyAny is the share of the weight that must lack animals before a fact is doubted.
const hardlyAny = 0.995

// short returns the share of the weight on particles that lack animals.
func (t *tank) short(lack func(p *particle) int) float64 {
	sum := 0.0
	for i, missing := range t.numbers(func(p *particle) float64 { return float64(lack(p)) }) {
		if missing > 0 {
			sum += t.cloud.weights[i]
		}
	}
	return sum
}

// lacking returns how many animals of a group a particle lacks, as a function.
func (t *tank) lacking(g Group) func(p *particle) int {
	return func(p *particle) int { return p.missing(t.table, g) }
}

// ensure lifts every particle to hold at least a group.
func (t *tank) ensure(g Group) {
	t.each(func(p *particle, s *stream) {
		if p.missing(t.table, g) == 0 {
			return
		}
		p.correct(t.table, s, g)
		p.lift(t.table, s, p.maybeFemales(t.table), g.Females)
		p.lift(t.table, s, p.maybeMales(t.table), g.Males)
		p.lift(t.table, s, p.immatures(t.table), g.Juveniles)
		if missing := g.Total() - int(p.living); missing > 0 {
			p.lift(t.table, s, p.juveniles(t.table), p.count(p.juveniles(t.table))+missing)
		}
		p.refresh(t.table)
	})
}

// correct changes the sex of animals of which a particle holds more than a group needs, where it lacks the other: their
// sex was drawn, and the keeper has told it now. Mothers of followed broods stay what they are.
func (p *particle) correct(t *table, s *stream, g Group) {
	females, males := p.maybeFemales(t), p.maybeMales(t)
	for p.count(females) < g.Females && p.count(males) > g.Males {
		one, _ := p.extract(t, s, males)
		if s.uniform() < t.mature[p.level][one.age] {
			p.put(t, one.age, woman, 1)
			p.settle(t, s, 0)
			continue
		}
		p.put(t, one.age, girl, 1)
	}
	for p.count(males) < g.Males && p.count(females) > max(g.Females, int(p.held)) {
		one, ok := p.extract(t, s, females)
		if !ok {
			return
		}
		p.put(t, one.age, male, 1)
	}
}

// apply makes every particle hold what was seen alive.
func (f Alive) apply(t *tank, fact Fact) {
	t.demand(f.Group, fact, "seen", t.lacking(f.Group))
	t.ensure(f.Group)
}

// glimpsed is the concentration of the Beta distribution of the share of the young that a sighting shows, and
// glimpsedMean its mean: young are seen now many, now few. Assumptions.
const (
	glimpsed     = 2
	glimpsedMean = 0.4
)

// apply makes every particle hold the young that were seen, and weighs it a little by how many it holds.
func (f Sighted) apply(t *tank, fact Fact) {
	if f.Young <= 0 {
		return
	}
	g := Group{Juveniles: f.Young}
	t.youngNoted = true
	t.demand(g, fact, "sighted", t.lacking(g))
	t.ensure(g)
	t.absorb(func(p *particle) float64 {
		return betaBinomial(f.Young, p.count(p.juveniles(t.table)), glimpsedMean, glimpsed)
	})
}
