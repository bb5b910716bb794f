package lifecycle

import "math"

// Response is a rate of development as the average over a day whose temperature is not known exactly.
type Response interface {
	// Over returns the expected rate, per day, over a normal distribution of temperature with mean and sd in °C (sd 0 or
	// more), and the expected slope of the rate, per day and °C: by Stein's lemma cov(rate, X) = slope·cov(T, X).
	Over(mean, sd float64) (rate, slope float64)
}

// kinked is a law that rises in straight lines: Σ gain·max(0, T − from).
type kinked []struct{ from, gain float64 }

// Response returns the degree-day law with its flatter part above Break.
func (i Incubation) Response() Response {
	slope := 1 / i.DegreeDays
	return kinked{{i.Base, slope}, {i.Break, -slope * (1 - i.SlopeAbove)}}
}

// Response returns the degree-day law from hatching to maturity.
func (m Maturity) Response() Response { return kinked{{m.Base, 1 / m.DegreeDays}} }

// Over uses E max(0, T − a) = s·φ(z) + (m − a)·Φ(z) with z = (m − a)/s, the closed form for a normal T.
func (k kinked) Over(mean, sd float64) (rate, slope float64) {
	for _, piece := range k {
		z := (mean - piece.from) / sd
		switch {
		case z > 8 || sd == 0 && mean > piece.from:
			rate += piece.gain * (mean - piece.from)
			slope += piece.gain
		case z > -8:
			above := normalCDF(z)
			rate += piece.gain * (sd*normalDensity(z) + (mean-piece.from)*above)
			slope += piece.gain * above
		}
	}
	return rate, slope
}

// averaged is any law, averaged by Gauss-Hermite quadrature.
type averaged func(celsius float64) float64

// Averaged turns the rate at one temperature, per day, into a Response. It integrates with nine Gauss-Hermite nodes:
// exact for polynomials up to degree 17, and good to a few parts in a thousand where the law has a kink.
func Averaged(rate func(celsius float64) float64) Response { return averaged(rate) }

// The positive nodes and the weights of the nine-point rule for a standard normal (Abramowitz & Stegun, "Handbook of
// Mathematical Functions", table 25.10, rescaled by √2 and 1/√π).
var (
	hermiteNodes   = [5]float64{0, 1.0232556637891326, 2.0768479786778302, 3.2054290028564703, 4.5127458633997830}
	hermiteWeights = [5]float64{0.40634920634920635, 0.24409750289493942, 0.049916406765217866, 0.0027891413212317693, 0.000022345844007746571}
)

func (f averaged) Over(mean, sd float64) (rate, slope float64) {
	if sd < 1e-9 {
		const h = 1e-4
		return f(mean), (f(mean+h) - f(mean-h)) / (2 * h)
	}
	rate = hermiteWeights[0] * f(mean)
	for i := 1; i < len(hermiteNodes); i++ {
		high, low := f(mean+sd*hermiteNodes[i]), f(mean-sd*hermiteNodes[i])
		rate += hermiteWeights[i] * (high + low)
		slope += hermiteWeights[i] * hermiteNodes[i] * (high - low) / sd
	}
	return rate, slope
}

// upper is the standard normal probability above z.
func upper(z float64) float64 {
	if z < -8 {
		return 1
	}
	return 0.5 * math.Erfc(z/math.Sqrt2)
}
