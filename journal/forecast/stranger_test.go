package forecast

import (
	"math"
	"math/rand/v2"
)

// newStranger is a keeper whose room follows laws of another form than the predictor's: development bends with warmth,
// days swing, broods are late far more easily than early, the thermometer reads 0.4 °C high and is read at the same hour
// every day, and she is lazier with her looks and her dates.
func newStranger(seed uint64, years float64) *keeper {
	k := newKeeper(seed, years)
	r := rand.New(rand.NewPCG(seed, 1935))
	// Both are tied to 15 d at 27 °C: Nur & Christianus 2013, doi 10.3923/ajava.2013.108.115.
	curve := briere(8+4*r.Float64(), 33+4*r.Float64())
	if seed%2 == 0 {
		curve = belehradek(2+7*r.Float64(), 1.3+0.9*r.Float64())
	}
	multiplier := math.Exp(0.26 * (2*r.Float64() - 1))
	k.law = func(celsius float64) float64 { return curve(celsius) / curve(27) / (15 * multiplier) }
	youth := briere(7+5*r.Float64(), 33+4*r.Float64())
	slow := 75 * math.Exp(0.35*(2*r.Float64()-1))
	k.nursery.law = func(celsius float64) float64 { return youth(celsius) / youth(27) / slow }
	k.nursery.spread = func() float64 { return 1 + 0.2*(r.ExpFloat64()-1) }
	k.broodSpread = 0.06 + 0.06*r.Float64()
	k.brood = func() float64 { return 1 + k.broodSpread*(r.ExpFloat64()-1) }
	k.looks = 0.3 + 0.6*r.Float64()
	k.notesClear = 0.6 * r.Float64()
	k.notesEyes = 0.8 * r.Float64()
	for _, w := range k.tanks {
		w.swing = 0.3 + 1.2*r.Float64()
		hour := 2 * math.Pi * r.Float64()
		w.bias = 0.4 + w.swing*math.Sin(hour)
	}
	return k
}

// briere is a curve with a base, a bend and an optimum: T(T − T0)√(Tm − T).
// Source: J.-F. Brière et al., Environ. Entomol. 28 (1999) 22-29, equation 1 (from memory).
func briere(base, top float64) func(float64) float64 {
	return func(t float64) float64 {
		return t * math.Max(0, t-base) * math.Sqrt(math.Max(0, top-t))
	}
}

// belehradek is a power of the distance from a zero: (T − α)^b.
func belehradek(zero, power float64) func(float64) float64 {
	return func(t float64) float64 { return math.Pow(math.Max(0, t-zero), power) }
}
