package population

import "math"

// groupSpread is the sd of single animals' ages around that of the group they were stocked with, days. Assumption.
const groupSpread = 14

// juvenileDays are the ages between which stocked juveniles lie when the keeper gives none. Assumption.
var juvenileDays = [2]float64{20, 70}

// apply adds the stocked shrimp to every particle, each with its own draw of what the keeper did not say.
func (f Stocked) apply(t *tank, _ Fact) {
	t.begun = true
	t.reserve(min(ages-1, t.classOf(f.Oldest+3*groupSpread)+1))
	for i := range t.particles {
		p, s := &t.particles[i], &t.streams[i]
		group := f.Youngest + (f.Oldest-f.Youngest)*s.uniform()
		join := func(n int, sex func() bool, days func() float64) {
			for range n {
				t.join(p, s, sex(), days())
			}
		}
		grown := func() float64 { return group + groupSpread*s.normal() }
		either := func() bool { return s.uniform() < float64(p.share) }
		join(f.Females, func() bool { return true }, grown)
		join(f.Males, func() bool { return false }, grown)
		join(f.Unsexed, either, grown)
		join(f.Juveniles, either, func() float64 {
			youngest, oldest := math.Min(juvenileDays[0], f.Youngest), math.Min(juvenileDays[1], f.Oldest)
			return youngest + (oldest-youngest)*s.uniform()
		})
		p.came += int32(f.Total())
	}
	t.refresh()
}

// join adds one animal of an age in days to a particle. A female may be mature, and is then anywhere between two broods,
// but not carrying: that would have been seen.
func (t *tank) join(p *particle, s *stream, female bool, days float64) {
	age := min(t.classOf(days), t.table.span-1)
	if !female {
		p.put(t.table, age, male, 1)
		return
	}
	if s.uniform() >= t.table.mature[p.level][age] {
		p.put(t.table, age, girl, 1)
		return
	}
	p.put(t.table, age, woman, 1)
	p.settle(t.table, s)
}

// order is the choices from which an animal of each class of a group is taken.
func (t *tank) order(p *particle) [4][]choice {
	half, all := p.halfGrown(t.table), everybody(t.table)
	females := p.females(t.table)
	males := p.grownMales(t.table)
	youngFemales, youngMales := females, males
	youngFemales.from, youngMales.from = 0, 0
	return [4][]choice{
		{females, youngFemales, all},
		{males, youngMales, all},
		{p.juveniles(t.table), all},
		{half, all},
	}
}

// counts returns the classes of a group in the order of tank.order.
func (g Group) counts() [4]int { return [4]int{g.Females, g.Males, g.Juveniles, g.Unsexed} }

// apply takes the shrimp out of every particle. Those found dead are first matched with deaths that the particle drew
// in the last days: they are the same deaths.
func (f Left) apply(t *tank, fact Fact) {
	t.demand(f.Group, fact, f.verb())
	for i := range t.particles {
		p, s := &t.particles[i], &t.streams[i]
		orders := t.order(p)
		for class, n := range f.counts() {
			for range n {
				if f.Found && p.match() {
					continue
				}
				p.leave(t.table, s, orders[class]...)
				p.book(f.Found)
			}
		}
	}
	t.refresh()
}

func (f Left) verb() string {
	if f.Found {
		return "found dead"
	}
	return "removed"
}

// match uses up one of the deaths drawn in this period or the last, and reports whether there was one.
func (p *particle) match() bool {
	for i := range p.recent {
		if p.recent[i] > 0 {
			p.recent[i]--
			return true
		}
	}
	return false
}

// book writes one animal off.
func (p *particle) book(died bool) {
	if died {
		p.died++
		return
	}
	p.left++
}

// parcel is what every particle of one tank packed for another.
type parcel struct{ animals [][]mover }

// mover is one animal on its way.
type mover struct {
	days   int16 // of age
	kind   kind
	mother bool // of a followed brood
}

// apply packs the shrimp of every particle.
func (f MovedOut) apply(t *tank, fact Fact) {
	t.demand(f.Group, fact, "moved out")
	if t.cloud.effective() < 0.999*float64(len(t.particles)) {
		t.resample() // the other tank takes all particles for equal
	}
	packed := &parcel{animals: make([][]mover, len(t.particles))}
	t.parcels[f.Parcel] = packed
	mothers := 0
	for _, id := range f.Broods {
		if _, ok := t.broods[id]; ok {
			mothers++
			delete(t.broods, id)
		}
	}
	for i := range t.particles {
		p, s := &t.particles[i], &t.streams[i]
		packed.animals[i] = t.pack(p, s, f.Group, mothers)
	}
	t.refresh()
}

// pack takes a group out of one particle.
func (t *tank) pack(p *particle, s *stream, g Group, mothers int) []mover {
	var out []mover
	orders := t.order(p)
	add := func(one animal, mother bool) {
		out = append(out, mover{int16(one.age * t.law.width), one.kind, mother})
		p.book(false)
	}
	counts := g.counts()
	for range min(mothers, g.Total()) {
		class := 0
		if counts[0] == 0 {
			class = 3
		}
		counts[class] = max(0, counts[class]-1)
		add(p.part(t.table, s), true)
	}
	for class, n := range counts {
		for range n {
			add(p.leave(t.table, s, orders[class]...), false)
		}
	}
	return out
}

// part takes the mother of a followed brood out of a particle.
func (p *particle) part(t *table, s *stream) animal {
	if p.held == 0 {
		p.claim(t, s)
	}
	c := choice{women: true, to: t.span}
	one := p.nth(c, s.below(p.count(c)))
	p.take(t, one.age, one.kind, 1)
	p.held--
	return one
}

// apply unpacks what the other tank packed.
func (f MovedIn) apply(t *tank, _ Fact) {
	packed := t.parcels[f.Parcel]
	if packed == nil {
		return
	}
	t.begun = true
	oldest := 0
	for _, animals := range packed.animals {
		for _, one := range animals {
			oldest = max(oldest, int(one.days))
		}
	}
	t.reserve(t.classOf(float64(oldest)))
	for i := range t.particles {
		p, s := &t.particles[i], &t.streams[i]
		for _, one := range packed.animals[i%len(packed.animals)] {
			t.unpack(p, s, one)
		}
	}
	for _, id := range f.Broods {
		t.broods[id] = brood{}
	}
	t.refresh()
}

// unpack adds one mover to a particle.
func (t *tank) unpack(p *particle, s *stream, one mover) {
	p.put(t.table, t.classOf(float64(one.days)), one.kind, 1)
	p.came++
	if one.kind != woman {
		return
	}
	if one.mother {
		p.held++
		return
	}
	p.settle(t.table, s)
}

// brood is a clutch that the journal follows by name.
type brood struct {
	young float64 // expected hatchlings when eggs were counted, else 0
}

// apply lets every particle have a mother for the brood.
func (f Berried) apply(t *tank, fact Fact) {
	t.demand(Group{Females: len(t.broods) + 1}, fact, "berried")
	t.broods[f.Brood] = brood{young: f.Young}
	recent := max(1, int(math.Ceil(float64(t.day-f.Earliest+1)*t.pace())))
	for i := range t.particles {
		t.particles[i].claimRecent(t.table, &t.streams[i], recent)
	}
	t.refresh()
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
		if p.girls[a] > 0 {
			p.girls[a]--
			p.women[a]++
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
