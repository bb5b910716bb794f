package population

import "math"

// Looked is a day on which the keeper wrote about the tank. Broods begun since the last such day that nobody noted are a
// little less likely to be there. It comes after the day's other facts. A brood that was overlooked once is taken as overlooked
// for good, so that each counts once.
type Looked struct {
	Closely bool // each female was looked at, as in a careful count that tells them apart
}

const (
	closer     = 1.5 // step on the scale of log-odds from an entry to a careful count of the females. Assumption.
	seenSingly = 20  // adults among whom half as many berried females are noted as among few. Assumption.
)

// diligence returns the chance, in a particle, that a brood in a small tank is noted: the profile's share, for a tank in
// which none was noted so far or for later, moved by the particle's own step. So the filter learns from what was noted and
// what was not how much this keeper notes.
func (t *tank) diligence(p *particle, closely bool) float64 {
	detection := &t.law.profile.Detection
	share, step := detection.Berried, float64(p.notice)
	if !t.noted {
		share = detection.FirstBerried
	}
	if closely {
		step += closer
	}
	return shifted(share, step)
}

// singly returns the share by which a look at single animals falls off where N adults live.
//
//	1/(1 + (N/seenSingly)²)
func (p *particle) singly() float64 {
	crowd := p.adults() / seenSingly
	return 1 / (1 + crowd*crowd)
}

// apply weighs the particles by what was not noted: (1 − d)^n for the n broods begun since the last look and not followed;
// and until the first young of the tank were noted, (1 − q)^m for the m young that have come out of hiding since, with q
// from the share FirstYoung in the same way as d, the diligence.
func (f Looked) apply(t *tank, _ Fact) {
	if !t.begun {
		return
	}
	since := t.looked
	t.looked = look{t.day, t.table.bin}
	if t.crowded() {
		return
	}
	t.looks++
	out := t.classOf(float64(t.day - since.day))
	t.absorb(func(p *particle) float64 {
		log := float64(p.fresh(t.table.bin, since.bin)) * math.Log1p(-t.diligence(p, f.Closely)*p.singly())
		if t.youngNoted {
			return log
		}
		young := p.count(choice{girls: true, males: true, from: 1, to: min(out+1, p.sexable(t.table))})
		return log + float64(young)*math.Log1p(-shifted(t.law.profile.Detection.FirstYoung, float64(p.notice)))
	})
}

// look is when the keeper last looked.
type look struct {
	day Day
	bin int // of the brood clock
}

// fresh returns the number of clutches begun after a bin of the brood clock and carried in another.
func (p *particle) fresh(now, since int) int {
	n := 0
	for bin := max(now, since+perIncubation); bin < now+perIncubation+4; bin++ {
		n += int(p.clutch[bin%bins])
	}
	return n
}

// note weighs the particles by a female with eggs that was noted: a keeper who notes many is the likelier for it.
func (t *tank) note() {
	if !t.crowded() {
		t.absorb(func(p *particle) float64 { return math.Log(t.diligence(p, false)) })
	}
	t.noted = true
}

// crowded reports whether so many grown shrimp live in the tank that looks at single animals say next to nothing.
func (t *tank) crowded() bool {
	return t.mean((*particle).adults) > 2*seenSingly
}
