package evidence

import "gonum.org/v1/gonum/mathext"

// Jeffreys returns the central interval of Beta(x + ½, n − x + ½), reaching to the edge when no trial or every trial
// was a hit. hits is 0 to trials, confidence 0 to 1. Source: L. D. Brown, T. T. Cai and A. DasGupta, Stat. Sci. 16
// (2001) 101-133 (from memory).
func Jeffreys(hits, trials int, confidence float64) (low, high float64) {
	low, high = Beta{A: 0.5, B: 0.5}.Update(float64(hits), float64(trials-hits)).Interval(confidence)
	if hits == 0 {
		low = 0
	}
	if hits == trials {
		high = 1
	}
	return low, high
}

// AtLeast returns the probability of hits or more in so many trials, each a hit with probability p, 0 to 1.
func AtLeast(hits, trials int, p float64) float64 {
	switch {
	case hits <= 0:
		return 1
	case hits > trials || p <= 0:
		return 0
	case p >= 1:
		return 1
	}
	return mathext.RegIncBeta(float64(hits), float64(trials-hits+1), p)
}
