package population

import "math"

// groupSpread is the sd of single animals' ages around that of the group they were stocked with, days. Assumption.
const groupSpread = 14

// juvenileDays are the ages between which stocked juveniles lie when the keeper gives none. Assumption.
var juvenileDays = [2]float64{20, 70}

// apply adds the stocked shrimp to every particle, each with its own draw of what the keeper did not say.
func (f Stocked) apply(t *tank, _ Fact) {
	t.begun = true
	t.youngNoted = t.youngNoted || f.Juveniles > 0
	t.reserve(min(ages-1, t.classOf(f.Oldest+3*groupSpread)+1))
	settling := min(bins/2, int(2*t.law.profile.Breeding.Settling*t.pace()))
	for i := range t.particles {
		p, s := &t.particles[i], &t.streams[i]
		group := f.Youngest + (f.Oldest-f.Youngest)*s.uniform()
		join := func(n int, sex func() bool, days func() float64) {
			for range n {
				t.join(p, s, sex(), days(), settling)
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
// but not carrying: that would have been seen. Up to so many bins longer than others she waits for her next eggs.
func (t *tank) join(p *particle, s *stream, female bool, days float64, longer int) {
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
	p.settle(t.table, s, s.below(longer+1))
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
	t.demand(f.Group, fact, f.verb(), func(p *particle) int {
		lack := p.missing(t.table, f.Group)
		if f.Found {
			lack -= int(p.recent[0]) + int(p.recent[1])
		}
		return lack
	})
	t.each(func(p *particle, s *stream) {
		orders := t.order(p)
		for class, n := range f.counts() {
			for range n {
				if f.Found && p.match() {
					continue
				}
				p.leave(t.table, s, orders[class]...)
				if f.Found {
					p.died++
					continue
				}
				p.left++
			}
		}
		p.refresh(t.table)
	})
}

// apply lets each animal of the group die with the probability that a failed moult kills. When one is found dead soon
// after, it is the same death.
func (f FailedMoult) apply(t *tank, fact Fact) {
	t.demand(f.Group, fact, "seen in a failed moult", t.lacking(f.Group))
	t.ensure(f.Group)
	chance := t.law.profile.Survival.FailedMoult
	for i := range t.particles {
		p, s := &t.particles[i], &t.streams[i]
		orders := t.order(p)
		for class, n := range f.counts() {
			for range s.binomial(n, chance) {
				p.loseInMoult(t.table, s, orders[class][0])
			}
		}
	}
	t.refresh()
}

// loseInMoult takes out an animal of a choice, if there is one, that was found dead.
func (p *particle) loseInMoult(t *table, s *stream, c choice) {
	if _, ok := p.extract(t, s, c); ok {
		p.died++
		p.recent[0]++
	}
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
