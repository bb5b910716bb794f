package evidence

import (
	"fmt"
	"math"
	"math/rand/v2"
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

func TestCoverageBands(t *testing.T) {
	// Hits of a correct interval, central 99.9 %: 90 % of 200 gives 165 to 192, 80 % of 500 gives 370 to 428. Source: tables of
	// the binomial distribution (from memory); each end is the first whose tail is not below 0.0005.
	for _, row := range []struct {
		n, low, high int
		p            float64
	}{{200, 165, 192, 0.9}, {500, 370, 428, 0.8}} {
		below := func(k int) float64 { return 1 - AtLeast(k, row.n, row.p) }
		if tail := below(row.low + 1); tail < 0.0005 || below(row.low) > 0.0005 {
			t.Errorf("%d of %d at %g: P(at most) = %g, want the first of 0.0005 or more", row.low, row.n, row.p, tail)
		}
		if tail := AtLeast(row.high, row.n, row.p); tail < 0.0005 || AtLeast(row.high+1, row.n, row.p) > 0.0005 {
			t.Errorf("%d of %d at %g: P(at least) = %g, want the last of 0.0005 or more", row.high, row.n, row.p, tail)
		}
	}
}

func TestKolmogorovSmirnovTables(t *testing.T) {
	// Critical values of D at 5 % and 1 %. Source: tables of the Kolmogorov-Smirnov test (from memory).
	for _, row := range []struct {
		n         int
		five, one float64
	}{{10, .40925, .48893}, {20, .29408, .35241}, {50, .18841, .22604}, {100, .13403, .16081}} {
		random := rand.New(rand.NewPCG(uint64(row.n), 9))
		const trials = 20000
		values := make([]float64, row.n)
		var five, one float64
		for range trials {
			for i := range values {
				values[i] = random.Float64()
			}
			d := KolmogorovSmirnov(values)
			if d > row.five {
				five++
			}
			if d > row.one {
				one++
			}
		}
		near(t, fmt.Sprintf("share of even samples of %d beyond the 5 %% value", row.n), five/trials, 0.05, 0.006)
		near(t, fmt.Sprintf("share of even samples of %d beyond the 1 %% value", row.n), one/trials, 0.01, 0.003)
	}
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
