package population

import "math"

// The numbers that nobody knows exactly and that every particle draws for itself. Each is kept as a standard normal
// number z, and turned into its value by law.value.
const (
	zFecundity = iota // hatchlings per brood
	zYoung            // hazard of the young
	zGrown            // hazard of the others
	zSpeed            // speed of maturing
	zInterval         // time between two broods
	zShare            // share of females at hatching
	zGlance           // share of shrimp that a glance sees
	zCareful          // share that a careful count sees
	zHidden           // how much better juveniles hide than adults
	zRoom             // what the tank can carry
	zBend             // how late crowding sets in
	zAtOnce           // how much of it acts on the newly hatched
	zNotice           // how many broods are noted
	traitCount
)

// How uncertain the traits are before anything was counted: sd of the logarithm, or of the log-odds for shares. All are
// assumptions; maturing takes its own from the profile or from what the journal has taught.
const (
	sdFecundity = 0.20 // keepers' averages of 25 to 45 young
	sdYoung     = 0.50 // daily losses of the young of 0.3 to 0.8 %: water, food and hiding places differ most here
	sdGrown     = 0.30
	sdInterval  = 0.20 // 50-80 % of females berried
	sdShare     = 0.12 // 44-56 % females; 45-59 % published (Schoolmann & Arndt 2018, doi 10.1016/j.limno.2018.05.001)
	sdDetection = 0.55 // a glance sees 0.21 to 0.62 in nineteen journals of twenty
	sdHidden    = 0.50
	sdRoom      = 0.45 // tanks of one volume differ in plants, food and filter: two-fold either way
	sdOwnRoom   = 0.20 // where the keeper has named a capacity
	sdBend      = 0.40
	sdAtOnce    = 0.80 // of the log-odds around one half
	sdNotice    = 1.20 // one keeper of a kind notes 7 % of the broods, another 80 %
)

// bendMedian is the middle of the bends: a brake that sets in later than Beverton and Holt's. Assumption.
const bendMedian = 1.7

// hiddenMean is the share of juveniles that is seen, where all adults are.
const hiddenMean = 0.8

// shrink is the width h of the kernel that keeps traits from dying out when particles are resampled. Mean and spread
// stay as they are. Source: J. Liu and M. West 2001, in Sequential Monte Carlo Methods in Practice, ch. 10 (from memory).
const shrink = 0.15

// traits are a particle's own values.
type traits struct {
	z         [traitCount]float32
	fecundity float32 // factor on hatchlings
	youngRisk float32 // factor on the hazard of the young
	grownRisk float32 // factor on the hazard of the others
	speed     float32 // factor on thermal age
	level     uint8   // row of the maturing tables nearest to speed
	pause     float32 // bins of the brood clock from a hatch to being ready
	share     float32 // of females at hatching
	glance    float32 // share seen
	careful   float32
	hidden    float32 // large juveniles seen for each adult seen, 0 to 1
	room      float32 // factor on the capacity
	bend      float32
	atOnce    float32 // share of crowding, on the scale of logarithms, that acts on the newly hatched
	notice    float32 // step on the scale of log-odds from the usual share of broods that are noted
}

// draw gives a new particle its traits.
func (p *particle) draw(l *law, s *stream) {
	for i := range p.z {
		p.z[i] = float32(s.normal())
	}
	p.express(l)
}

// express turns the standard normal numbers into values.
func (p *particle) express(l *law) {
	z := func(i int) float64 { return float64(p.z[i]) }
	p.fecundity = float32(math.Exp(sdFecundity * z(zFecundity)))
	p.youngRisk = float32(math.Exp(sdYoung * z(zYoung)))
	p.grownRisk = float32(math.Exp(sdGrown * z(zGrown)))
	p.level, p.speed = l.speed(z(zSpeed))
	interval := l.interval * math.Exp(sdInterval*z(zInterval))
	p.pause = float32(math.Max(1, (interval-1)*perIncubation))
	p.share = float32(shifted(l.share, sdShare*z(zShare)))
	p.glance = float32(shifted(l.glance, sdDetection*z(zGlance)))
	p.careful = float32(shifted(l.careful, sdDetection*z(zCareful)))
	p.room = float32(math.Exp(l.roomSD * z(zRoom)))
	p.bend = float32(bendMedian * math.Exp(sdBend*z(zBend)))
	p.atOnce = float32(shifted(0.5, sdAtOnce*z(zAtOnce)))
	p.notice = float32(sdNotice * z(zNotice))
	p.hidden = float32(shifted(hiddenMean, sdHidden*z(zHidden)))
}

// shifted moves a share by a step on the scale of log-odds.
func shifted(share, step float64) float64 {
	share = math.Min(0.999, math.Max(0.001, share))
	return 1 / (1 + (1-share)/share*math.Exp(-step))
}

// seen returns the share of the adults that a count by a method finds on average.
func (p *particle) seen(m Method) float64 {
	switch m {
	case Emptied:
		return 1
	case Careful:
		return float64(p.careful)
	}
	return float64(p.glance)
}
