package evidence

import (
	"cmp"
	"math"
	"slices"
)

// Quantiles returns the values at levels, 0 to 1, of a weighted sample: for each the smallest value at or below which
// at least that share of the weight lies.
//
// weights is as long as values, at least 0 and not all 0, or nil for equal weights. Neither is changed. NaN for no
// values. The result is always one of the values, so that a number of animals stays whole.
func Quantiles(values, weights []float64, levels ...float64) []float64 {
	var order []int
	for i := range values {
		if weight(weights, i) > 0 {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(values[a], values[b]) })
	upTo, total := make([]float64, len(order)), 0.0
	for i, at := range order {
		total += weight(weights, at)
		upTo[i] = total
	}
	found := make([]float64, len(levels))
	for i, level := range levels {
		found[i] = math.NaN()
		// The slack keeps a sum such as 0.1 + 0.2 from passing 0.3 one value late.
		at, _ := slices.BinarySearch(upTo, level*total*(1-1e-12))
		if len(order) > 0 {
			found[i] = values[order[min(at, len(order)-1)]]
		}
	}
	return found
}

// weight returns one weight, and 1 where there are none.
func weight(weights []float64, i int) float64 {
	if weights == nil {
		return 1
	}
	return weights[i]
}

// Resample returns, for each of as many new particles, which old one it copies: systematic resampling.
//
//	new particle i copies the first old one whose cumulated weight passes (i + u)/n of the total
//
// weights are at least 0 and not all 0, of any total; u is one uniform number from 0 up to, not including, 1. An old
// particle with a share w of the weight is copied w·n times, rounded up or down. The result rises. Source: G. Kitagawa,
// J. Comput. Graph. Stat. 5 (1996) 1-25 (from memory).
func Resample(weights []float64, u float64) []int {
	total := 0.0
	for _, w := range weights {
		total += w
	}
	n := len(weights)
	copies := make([]int, n)
	old, last, sum := -1, 0, 0.0
	for i := range copies {
		goal := (float64(i) + u) / float64(n) * total
		for old < n-1 && (old < 0 || sum <= goal) {
			old++
			sum += weights[old]
			if weights[old] > 0 {
				last = old
			}
		}
		copies[i] = last
	}
	return copies
}

// EffectiveSampleSize returns how many equally weighted particles the weights are worth: (Σw)²/Σw², from 1 to their
// number; 0 when all are 0. Source: A. Kong, J. S. Liu and W. H. Wong, J. Am. Stat. Assoc. 89 (1994) 278-288 (from
// memory).
func EffectiveSampleSize(weights []float64) float64 {
	sum, squares := 0.0, 0.0
	for _, w := range weights {
		sum += w
		squares += w * w
	}
	if squares == 0 {
		return 0
	}
	return sum * sum / squares
}
