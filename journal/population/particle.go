package population

// kind is what an animal is to a particle.
type kind uint8

const (
	girl  kind = iota // female, not mature
	woman             // female, mature
	male              // male of any age
)

// particle is one possible state of a tank.
//
// The mature females are also somewhere in the brood clock: women = ready + resting + carrying + held, held being the
// mothers of broods that the journal follows by name.
type particle struct {
	traits
	herd               [3][ages]uint16 // animals by kind and age class
	all                [ages]uint16    // their sum over the kinds
	clutch, rest       [bins]uint16    // females whose eggs hatch, or who become ready, when the clock passes that bin
	reach              int32           // age classes in use: those from reach on are empty
	ready              int32
	resting, carrying  int32 // sums of rest and clutch
	held               int32
	living             int32
	young              int32   // animals of the ages that die at the hazard of the young
	grown              int32   // sum of women
	oldRisk            float64 // Σ hazard over the animals past those ages
	riskYoung, riskOld float64 // factors that turn young and oldRisk into this particle's daily hazard
	clock              float64 // hazard left until the next death
	brood              float64 // mean hatchlings of a brood
	readiness          float64 // mean share of the full rate of clutches
	firstDays          float64 // share of the hatchlings that live through their first days now
	luck               float32 // of the young, in these weeks: logarithm
	sires              float64 // expected number of mature males
	recent             [2]uint16
	bornBefore         int32 // births up to the last age period
	ledger
}

// ledger is where every animal came from and went: living = came + born - died - left.
type ledger struct{ came, born, died, left int32 }

// risk returns the daily hazard that one animal of the tank dies.
func (p *particle) risk() float64 { return p.riskYoung*float64(p.young) + p.riskOld*p.oldRisk }

// put adds n animals of one age class and kind. Mature females need a place in the brood clock besides.
func (p *particle) put(t *table, age int, k kind, n int) {
	p.herd[k][age] += uint16(n)
	if k == woman {
		p.grown += int32(n)
	}
	p.all[age] += uint16(n)
	p.reach = max(p.reach, int32(age)+1)
	p.living += int32(n)
	if age < t.youngAges {
		p.young += int32(n)
		return
	}
	p.oldRisk += float64(n) * t.hazard[age]
}

// take removes n animals of one age class and kind. Mature females keep their place in the brood clock.
func (p *particle) take(t *table, age int, k kind, n int) {
	p.herd[k][age] -= uint16(n)
	if k == woman {
		p.grown -= int32(n)
	}
	p.all[age] -= uint16(n)
	p.living -= int32(n)
	if age < t.youngAges {
		p.young -= int32(n)
		return
	}
	p.oldRisk -= float64(n) * t.hazard[age]
}

// run lives through days. Nothing but what the model itself draws happens in them.
func (p *particle) run(t *table, s *stream, days []pace) {
	for i := range days {
		p.clock -= p.risk()
		if p.clock < 0 {
			p.deaths(t, s)
		}
		p.tick(t, s, &days[i])
	}
}

// tick moves the brood clock through a day.
func (p *particle) tick(t *table, s *stream, day *pace) {
	for bin := day.from; bin < day.to; bin++ {
		if n := p.clutch[bin%bins]; n > 0 {
			p.hatch(t, s, bin, int(n))
		}
		if n := p.rest[bin%bins]; n > 0 {
			p.rest[bin%bins] = 0
			p.resting -= int32(n)
			p.ready += int32(n)
		}
	}
	if p.ready > 0 && p.sires >= 0.5 && day.gate > 0 {
		p.breed(t, s, day)
	}
}

// deaths carries out the deaths of a day whose hazard has used up the clock. Hazards compete in continuous time, so that
// each animal lives through the day with exp(-hazard), whatever happens to the others.
func (p *particle) deaths(t *table, s *stream) {
	left := 1.0
	p.clock += p.risk()
	for {
		rate := p.risk()
		if p.clock >= rate*left {
			p.clock -= rate * left
			return
		}
		left -= p.clock / rate
		p.die(t, s, rate)
		p.clock = s.exponential()
	}
}

// die draws who dies.
func (p *particle) die(t *table, s *stream, rate float64) {
	mark := s.uniform() * rate
	if limit := p.riskYoung * float64(p.young); mark < limit {
		p.dieYoung(t, s, int(mark/p.riskYoung))
		return
	}
	mark = s.uniform() * p.oldRisk
	age := t.youngAges
	for ; age < int(p.reach); age++ { // empty classes take nothing away, and cost less than to look for them
		if mark -= float64(p.all[age]) * t.hazard[age]; mark < 0 {
			break
		}
	}
	age = min(age, int(p.reach)-1) // the sum of the risks may be off by rounding
	for age >= t.youngAges && p.all[age] == 0 {
		age--
	}
	if age < t.youngAges {
		p.oldRisk = 0
		return
	}
	p.kill(t, s, age, s.below(int(p.all[age])))
	p.recent[0]++
}

// dieYoung kills the nth of the young. They are no mature females, or hardly ever, so that it need not look twice.
func (p *particle) dieYoung(t *table, s *stream, nth int) {
	nth = min(nth, int(p.young)-1)
	for a := range t.youngAges {
		n := int(p.all[a])
		if nth < n {
			p.kill(t, s, a, nth)
			return
		}
		nth -= n
	}
}

// kill kills the nth animal of an age class. A mother of a followed brood is spared: the journal says how it ends.
func (p *particle) kill(t *table, s *stream, age, nth int) {
	k := p.kindOf(age, nth)
	if k == woman {
		if p.grown == p.held {
			return
		}
		p.unclock(s)
	}
	p.take(t, age, k, 1)
	p.died++
}

// kindOf returns the kind of the nth animal of an age class.
func (p *particle) kindOf(age, nth int) kind {
	k := girl
	if nth >= int(p.herd[girl][age]) {
		k = woman
	}
	if nth >= int(p.herd[girl][age])+int(p.herd[woman][age]) {
		k = male
	}
	return k
}

// unclock takes a mature female that is not held out of the brood clock; her eggs, if any, are lost.
func (p *particle) unclock(s *stream) {
	nth := int32(s.below(int(p.grown - p.held)))
	switch {
	case nth < p.ready:
		p.ready--
	case nth < p.ready+p.resting:
		pull(&p.rest, nth-p.ready)
		p.resting--
	default:
		pull(&p.clutch, nth-p.ready-p.resting)
		p.carrying--
	}
}

// pull removes the nth female of a ring and returns her bin.
func pull(ring *[bins]uint16, nth int32) int {
	for bin := range ring {
		if nth < int32(ring[bin]) {
			ring[bin]--
			return bin
		}
		nth -= int32(ring[bin])
	}
	panic("population: the brood clock holds fewer females than it should")
}

// hatch hatches n broods whose eggs are due in a bin, and sends their mothers to rest.
func (p *particle) hatch(t *table, s *stream, bin, n int) {
	p.clutch[bin%bins] = 0
	p.carrying -= int32(n)
	young := 0
	for range n {
		young += p.hatchlings(t, s, p.brood)
		p.repose(s, bin)
	}
	p.bear(t, s, young)
}

// hatchlings draws the young of one brood, with the given mean, that live through their first days.
func (p *particle) hatchlings(t *table, s *stream, mean float64) int {
	return s.round(mean * float64(p.fecundity) * t.warmthLeft * p.firstDays * float64(t.law.ladder[s.below(ladderSteps)]))
}

// bear adds newly hatched young.
func (p *particle) bear(t *table, s *stream, young int) {
	girls := s.binomial(young, float64(p.share))
	p.put(t, 0, girl, girls)
	p.put(t, 0, male, young-girls)
	p.born += int32(young)
}

// repose sends a female to rest after her eggs have hatched in a bin.
func (p *particle) repose(s *stream, bin int) {
	pause := max(1, min(bins-1, s.round(float64(p.pause))+jitter(s)))
	p.rest[(bin+pause)%bins]++
	p.resting++
}

// jitter returns a whole number with mean 0 and sd 1.63: one tenth of an incubation in bins.
func jitter(s *stream) int { return s.below(5) + s.below(3) - 3 }

// breed lets females that are ready begin clutches. With a readiness a below 1, from age and water, a ready female waits
// on average W = interval·(1/a − 1) incubations, so that her broods follow each other at a times the full rate. The wait
// is geometric: on a day that makes a share d of an incubation she begins with probability d/(d + W).
func (p *particle) breed(t *table, s *stream, day *pace) {
	begin := int(p.ready)
	if a := p.readiness * day.gate; a < 1 {
		wait := (1 + float64(p.pause)/perIncubation) * (1/a - 1)
		begin = s.binomial(begin, day.share/(day.share+wait))
	}
	for range begin {
		p.clutch[(day.to+perIncubation+jitter(s))%bins]++
	}
	p.ready -= int32(begin)
	p.carrying += int32(begin)
}

// turn begins a new age period: everybody moves up one class, some mature, and what depends on ages is worked out anew.
func (p *particle) turn(t *table, s *stream) {
	p.recent[1], p.recent[0] = p.recent[0], 0
	p.wander(t.law, s)
	for _, class := range []*[ages]uint16{&p.herd[girl], &p.herd[woman], &p.herd[male], &p.all} {
		class[ages-1] += class[ages-2]
		copy(class[1:ages-1], class[:ages-2])
		class[0] = 0
	}
	p.reach = min(p.reach+1, ages)
	matures := &t.matures[p.level]
	for a := range min(int(p.reach), t.grownUp) {
		if p.herd[girl][a] > 0 && matures[a] > 0 {
			p.mature(t, s, a, s.binomial(int(p.herd[girl][a]), matures[a]))
		}
	}
	p.refresh(t)
}

// mature makes n girls of an age mature. They are ready after a moult, spread over half an incubation.
func (p *particle) mature(t *table, s *stream, age, n int) {
	p.herd[girl][age] -= uint16(n)
	p.herd[woman][age] += uint16(n)
	p.grown += int32(n)
	for range n {
		p.settle(t, s, 0)
	}
}

// settle puts a mature female into the brood clock with half an incubation or less before she is ready, and so many bins
// longer.
func (p *particle) settle(t *table, s *stream, longer int) {
	p.rest[(t.bin+longer+s.below(perIncubation/2))%bins]++
	p.resting++
}

// refresh works out the sums over ages.
func (p *particle) refresh(t *table) {
	var women int32
	var risk, sires, fed, brood, readiness float64
	mature := &t.mature[p.level]
	for a := range int(p.reach) { // empty classes add nothing, and cost less than to look for them
		n, f := float64(p.all[a]), float64(p.herd[woman][a])
		sires += float64(p.herd[male][a]) * mature[a]
		fed += n * t.weight[a]
		women += int32(p.herd[woman][a])
		brood += f * t.fecundity[a]
		readiness += f * t.readiness[a]
	}
	young := sum(p.all[:min(t.youngAges, int(p.reach))])
	for a := t.youngAges; a < int(p.reach); a++ {
		risk += float64(p.all[a]) * t.hazard[a]
	}
	reach := int(p.reach)
	for reach > 0 && p.all[reach-1] == 0 {
		reach--
	}
	p.reach = int32(reach)
	p.young, p.oldRisk, p.grown, p.sires = int32(young), risk, women, sires
	p.brood, p.readiness = t.usualBrood, 1
	if women > 0 {
		p.brood, p.readiness = brood/float64(women), readiness/float64(women)
	}
	first, crowded := p.crowding(t, fed)
	p.firstDays = first * p.spared()
	p.riskOld = float64(p.grownRisk)
	p.riskYoung = t.youngRisk*float64(p.youngRisk) + crowded
}
