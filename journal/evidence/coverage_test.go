package evidence

import (
	"fmt"
	"math"
	"testing"
)

func TestHeld(t *testing.T) {
	for _, row := range []struct{ low, high, observed, want float64 }{
		{3, 7, 2, 0}, {3, 7, 3, 0.5}, {3, 7, 5, 1}, {3, 7, 7, 0.5}, {3, 7, 8, 0}, {4, 4, 4, 0.5},
	} {
		near(t, fmt.Sprintf("Held(%v, %v, %v)", row.low, row.high, row.observed), Held(row.low, row.high, row.observed), row.want, 0)
	}
	// Law: a window of whole days between two quantiles of a finely spread number holds what its name says.
	truth, held := Normal{Mean: 0.3, SD: 9}, 0.0
	low, high := math.Round(truth.Quantile(0.1)), math.Round(truth.Quantile(0.9))
	for i := range 10000 {
		held += Held(low, high, math.Round(truth.Quantile((float64(i)+0.5)/10000)))
	}
	near(t, "share held by an 80 % window", held/10000, 0.8, 0.01)
}

func TestPIT(t *testing.T) {
	near(t, "in the middle", PIT([]float64{4, 1, 2, 3}, 2.5), 0.5, 0)
	near(t, "ties count half", PIT([]float64{1, 2, 2, 3}, 2), 0.5, 0)
	near(t, "below all", PIT([]float64{1, 2}, 0), 0, 0)
	near(t, "above all", PIT([]float64{1, 2}, 9), 1, 0)
}

func TestKolmogorovSmirnov(t *testing.T) {
	near(t, "by hand", KolmogorovSmirnov([]float64{0.8, 0.1, 0.2}), 2.0/3-0.2, 1e-12)
	near(t, "by hand, below", KolmogorovSmirnov([]float64{0.9, 0.05, 0.95}), 0.9-1.0/3, 1e-12)
	near(t, "all at 0", KolmogorovSmirnov([]float64{0, 0}), 1, 0)
	near(t, "all at 1", KolmogorovSmirnov([]float64{1, 1}), 1, 0)
	var even []float64
	for i := range 50 {
		even = append(even, (float64(i)+0.5)/50)
	}
	near(t, "law: even values are half a step away", KolmogorovSmirnov(even), 0.01, 1e-12)
	near(t, "none", KolmogorovSmirnov(nil), 0, 0)
}
