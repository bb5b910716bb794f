package population

import "math"

// What is assumed of a colony that was there before the journal began.
const (
	oldestFound = 330 // days; ages are spread evenly below: a colony that breeds
	foundSD     = 0.35
	usualShare  = 1.0 / 3 // of the colony that an event other than a count is about
)

// discover fills a tank whose journal begins in the middle: something is told of shrimp that nobody stocked. How many there
// were is guessed from the first that is told: those counted over the share that the method finds, or three times those
// that an event is about, give or take a third.
func (t *tank) discover(told int, share func(p *particle) float64) {
	if t.begun {
		return
	}
	t.begun = true
	if told == 0 {
		return
	}
	t.discovered, t.noted, t.youngNoted = true, true, true
	t.reserve(t.classOf(oldestFound))
	for i := range t.particles {
		p, s := &t.particles[i], &t.streams[i]
		n := max(told, s.round(float64(told)/share(p)*math.Exp(foundSD*s.normal())))
		n = min(n, mostInFact)
		for range n {
			t.join(p, s, s.uniform() < float64(p.share), oldestFound*s.uniform(), 0)
		}
		p.came += int32(n)
	}
	t.refresh()
}

// aThird is the share of a colony that an event other than a count is taken to be about.
func aThird(*particle) float64 { return usualShare }
