package evidence

import "math"

// Normal is a normal distribution, as a belief about a number.
type Normal struct {
	Mean float64 // in the number's own unit
	SD   float64 // in the same unit, at least 0
}

// Update returns the belief after one observation of the number, when the observation's own error is known.
//
//	1/s'² = 1/s² + 1/σ²      m' = s'²·(m/s² + y/σ²)
//
// observed is y; sd is σ, above 0, in the same unit. A belief with SD 0 stays as it is. Several observations are one
// update each, in any order, or one with their mean and σ/√n. Source: A. Gelman et al., Bayesian Data Analysis, section
// 2.5 (from memory).
func (n Normal) Update(observed, sd float64) Normal {
	if n.SD == 0 {
		return n
	}
	prior, data := 1/(n.SD*n.SD), 1/(sd*sd)
	return Normal{Mean: (n.Mean*prior + observed*data) / (prior + data), SD: 1 / math.Sqrt(prior+data)}
}

// Predict returns the distribution of the next observation, whose own error has the sd given, at least 0.
func (n Normal) Predict(sd float64) Normal { return Normal{Mean: n.Mean, SD: math.Hypot(n.SD, sd)} }

// CDF returns the probability, 0 to 1, of a value at or below x. With SD 0 it is a step at the mean.
func (n Normal) CDF(x float64) float64 {
	if n.SD == 0 {
		if x < n.Mean {
			return 0
		}
		return 1
	}
	return 0.5 * math.Erfc(-(x-n.Mean)/(n.SD*math.Sqrt2))
}

// Quantile returns the value that is passed with probability 1 − p; p is 0 to 1, whose ends give −Inf and +Inf.
func (n Normal) Quantile(p float64) float64 {
	if n.SD == 0 {
		return n.Mean
	}
	return n.Mean + n.SD*standardQuantile(p)
}

// Interval returns the central interval that holds the number with a probability, 0 to 1.
func (n Normal) Interval(probability float64) (low, high float64) {
	return n.Quantile((1 - probability) / 2), n.Quantile((1 + probability) / 2)
}

// LogDensity returns the logarithm of the density at x; SD is above 0.
func (n Normal) LogDensity(x float64) float64 {
	z := (x - n.Mean) / n.SD
	return -z*z/2 - math.Log(n.SD) - math.Log(2*math.Pi)/2
}

// density is the standard normal density.
func density(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }

// standardQuantile is the inverse of the standard normal distribution function, exact in both tails.
func standardQuantile(p float64) float64 { return -math.Sqrt2 * math.Erfcinv(2*p) }
