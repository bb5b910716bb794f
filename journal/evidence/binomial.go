package evidence

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// Wilson returns the interval for a share after hits in so many trials, at a confidence, 0 to 1: the usual choice, good
// with few trials and at the edges.
//
//	[x + z²/2 ± z·√(x·(n − x)/n + z²/4)]/(n + z²)
//
// hits is 0 to trials; no trials give 0 to 1. Source: E. B. Wilson 1927, as in R. G. Newcombe, Stat. Med. 17 (1998)
// 857-872, method 3.
func Wilson(hits, trials int, confidence float64) (low, high float64) {
	if trials == 0 {
		return 0, 1
	}
	x, n, z := float64(hits), float64(trials), standardQuantile((1+confidence)/2)
	middle, half := x+z*z/2, z*math.Sqrt(x*(n-x)/n+z*z/4)
	return math.Max(0, (middle-half)/(n+z*z)), math.Min(1, (middle+half)/(n+z*z))
}

// ClopperPearson returns the interval that holds the true share with at least the confidence, 0 to 1, whatever the
// share is; wider than the others.
//
// low is the quantile of Beta(x, n − x + 1), high of Beta(x + 1, n − x). hits is 0 to trials; no trials give 0 to 1.
// Source: C. J. Clopper and E. S. Pearson 1934; NIST/SEMATECH e-Handbook, section 7.2.4.2.
func ClopperPearson(hits, trials int, confidence float64) (low, high float64) {
	x, n, tail := float64(hits), float64(trials), (1-confidence)/2
	low, high = 0, 1
	if hits > 0 {
		low = Beta{A: x, B: n - x + 1}.Quantile(tail)
	}
	if hits < trials {
		high = Beta{A: x + 1, B: n - x}.Quantile(1 - tail)
	}
	return low, high
}

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

// MidP returns the interval of shares that a two-sided test with the mid-P value does not refuse: between
// Clopper-Pearson, which is too wide on average, and Wilson. hits is 0 to trials; no trials give 0 to 1; confidence is
// 0 to 1.
//
// Source: Newcombe (see Wilson), method 6. Limits are exact to 1e-12.
func MidP(hits, trials int, confidence float64) (low, high float64) {
	tail := (1 - confidence) / 2
	low, high = 0, 1
	if hits > 0 {
		low = bisect(func(p float64) bool { return midTail(hits, trials, p) < tail })
	}
	if hits < trials {
		high = bisect(func(p float64) bool { return 1-midTail(hits, trials, p) >= tail })
	}
	return low, high
}

// midTail returns the probability of more than hits in trials plus half that of exactly hits; it rises with p.
func midTail(hits, trials int, p float64) float64 {
	return (AtLeast(hits, trials, p) + AtLeast(hits+1, trials, p)) / 2
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

// bisect returns the p between 0 and 1 up to which below holds.
func bisect(below func(p float64) bool) float64 {
	low, high := 0.0, 1.0
	for range 60 {
		middle := (low + high) / 2
		if below(middle) {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}
