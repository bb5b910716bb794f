package evidence

import "math"

// Normal is a normal distribution, as a belief about a number.
type Normal struct {
	Mean float64 // in the number's own unit
	SD   float64 // in the same unit, at least 0
}

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

// standardQuantile is the inverse of the standard normal distribution function, exact in both tails.
func standardQuantile(p float64) float64 { return -math.Sqrt2 * math.Erfcinv(2*p) }
