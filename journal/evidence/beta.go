package evidence

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// Beta is a Beta distribution, as a belief about a share.
type Beta struct {
	A, B float64 // above 0: as if A − 1 hits and B − 1 misses had been seen on top of an even spread
}

// Update returns the belief after so many hits and misses, both at least 0: A + hits, B + misses.
func (b Beta) Update(hits, misses float64) Beta { return Beta{A: b.A + hits, B: b.B + misses} }

// Mean returns the mean share, 0 to 1.
func (b Beta) Mean() float64 { return b.A / (b.A + b.B) }

// SD returns the standard deviation of the share.
//
//	√[A·B/((A + B)²·(A + B + 1))]
func (b Beta) SD() float64 {
	total := b.A + b.B
	return math.Sqrt(b.A*b.B/(total+1)) / total
}

// Quantile returns the share that is passed with probability 1 − p; p is 0 to 1.
func (b Beta) Quantile(p float64) float64 { return mathext.InvRegIncBeta(b.A, b.B, p) }

// Interval returns the central interval that holds the share with a probability, 0 to 1.
func (b Beta) Interval(probability float64) (low, high float64) {
	return b.Quantile((1 - probability) / 2), b.Quantile((1 + probability) / 2)
}
