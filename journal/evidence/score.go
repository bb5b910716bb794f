package evidence

import (
	"math"
	"slices"
)

// CRPSNormal returns the continuous ranked probability score of a normal prediction, in the unit of the number; 0 is
// perfect, and for a sure prediction it is the absolute error.
//
//	σ·[z·(2Φ(z) − 1) + 2φ(z) − 1/√π]      z = (y − μ)/σ
//
// predicted has SD at least 0; observed is y. Source: T. Gneiting and A. E. Raftery, J. Am. Stat. Assoc. 102 (2007)
// 359-378.
func CRPSNormal(predicted Normal, observed float64) float64 {
	if predicted.SD == 0 {
		return math.Abs(observed - predicted.Mean)
	}
	z := (observed - predicted.Mean) / predicted.SD
	return predicted.SD * (z*math.Erf(z/math.Sqrt2) + 2*density(z) - 1/math.Sqrt(math.Pi))
}

// CRPSEnsemble returns the continuous ranked probability score of a prediction given as equally likely members.
//
//	E|X − y| − ½·E|X − X'|
//
// members are taken with replacement in the second term. NaN for none. Source: as CRPSNormal.
func CRPSEnsemble(members []float64, observed float64) float64 {
	n := float64(len(members))
	distance, spread := ensemble(members, observed)
	return distance/n - spread/(n*n)
}

// CRPSFair returns the score of CRPSEnsemble as it would be with endlessly many members drawn in the same way: the
// second term leaves out each member's distance to itself. It needs two members, and can fall below 0.
func CRPSFair(members []float64, observed float64) float64 {
	n := float64(len(members))
	distance, spread := ensemble(members, observed)
	return distance/n - spread/(n*(n-1))
}

// ensemble returns Σ|x − y| and Σ over pairs of |x − x'|, each pair once.
func ensemble(members []float64, observed float64) (distance, spread float64) {
	sorted := slices.Sorted(slices.Values(members))
	for i, x := range sorted {
		distance += math.Abs(x - observed)
		spread += x * float64(2*i-len(sorted)+1)
	}
	return distance, spread
}

// CRPSQuantiles returns the continuous ranked probability score of a prediction given as quantiles at levels: twice the
// pinball loss, weighed by the stretch of levels that each one stands for.
//
// levels rise strictly inside 0 to 1 and quantiles belong to them. The more levels, the closer to the true score.
// Source: F. Laio and S. Tamea, Hydrol. Earth Syst. Sci. 11 (2007) 1267-1277 (from memory).
func CRPSQuantiles(levels, quantiles []float64, observed float64) float64 {
	sum := 0.0
	for i, level := range levels {
		from, to := 0.0, 1.0
		if i > 0 {
			from = (levels[i-1] + level) / 2
		}
		if i < len(levels)-1 {
			to = (level + levels[i+1]) / 2
		}
		sum += 2 * (to - from) * Pinball(quantiles[i], level, observed)
	}
	return sum
}

// Pinball returns the loss of one predicted quantile at a level, 0 to 1, in the unit of the number.
//
//	(y − q)·τ when y ≥ q, else (q − y)·(1 − τ)
//
// Source: R. Koenker and G. Bassett, Econometrica 46 (1978) 33-50 (from memory).
func Pinball(quantile, level, observed float64) float64 {
	if observed >= quantile {
		return (observed - quantile) * level
	}
	return (quantile - observed) * (1 - level)
}

// IntervalScore returns the Winkler score of a central interval that should hold the number with a probability, 0 to 1,
// in the unit of the number: its width, and 2/(1 − probability) times what the number lies outside.
//
// low is at most high. Source: R. L. Winkler 1972, in the form of Gneiting and Raftery (see CRPSNormal).
func IntervalScore(low, high, probability, observed float64) float64 {
	outside := math.Max(0, low-observed) + math.Max(0, observed-high)
	return high - low + 2/(1-probability)*outside
}

// LogScore returns minus the logarithm of the predicted density at what was observed; SD is above 0. Lower is better.
func LogScore(predicted Normal, observed float64) float64 { return -predicted.LogDensity(observed) }

// Brier returns the mean squared difference between probabilities, 0 to 1, and what happened.
//
// The original score sums over both outcomes and is twice this one. happened is as long as probabilities; NaN for none.
// Source: G. W. Brier, Mon. Weather Rev. 78 (1950) 1-3.
func Brier(probabilities []float64, happened []bool) float64 {
	sum := 0.0
	for i, p := range probabilities {
		if happened[i] {
			p = 1 - p
		}
		sum += p * p
	}
	return sum / float64(len(probabilities))
}
