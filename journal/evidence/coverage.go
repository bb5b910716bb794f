package evidence

import (
	"math"
	"slices"
)

// Held returns how far a window of whole steps, such as days, held what was observed: 1 inside, 0 outside, and one half
// on either edge, because a window of whole days holds more than its name says. A window of one day counts one half.
func Held(low, high, observed float64) float64 {
	switch {
	case observed < low || observed > high:
		return 0
	case observed == low || observed == high:
		return 0.5
	}
	return 1
}

// PIT returns the share, 0 to 1, of equally likely members below what was observed, those equal to it counted half: the
// probability integral transform. Over many good predictions it is spread evenly. NaN for no members.
func PIT(members []float64, observed float64) float64 {
	below := 0.0
	for _, x := range members {
		switch {
		case x < observed:
			below++
		case x == observed:
			below += 0.5
		}
	}
	return below / float64(len(members))
}

// KolmogorovSmirnov returns the greatest distance, 0 to 1, between the distribution of the values and an even spread
// from 0 to 1. It is 0 for no values.
func KolmogorovSmirnov(values []float64) float64 {
	greatest, n := 0.0, float64(len(values))
	for i, x := range slices.Sorted(slices.Values(values)) {
		greatest = math.Max(greatest, math.Max(float64(i+1)/n-x, x-float64(i)/n))
	}
	return greatest
}
