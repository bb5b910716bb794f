package evidence

import (
	"fmt"
	"math"
	"testing"
)

func TestADayOnTheEdgeIsHeldByHalf(t *testing.T) {
	for _, row := range []struct{ low, high, observed, want float64 }{
		{3, 7, 2, 0}, {3, 7, 3, 0.5}, {3, 7, 5, 1}, {3, 7, 7, 0.5}, {3, 7, 8, 0}, {4, 4, 4, 0.5},
	} {
		near(t, fmt.Sprintf("Held(%v, %v, %v)", row.low, row.high, row.observed),
			Held(row.low, row.high, row.observed), row.want, 0)
	}
	// Law: a window of whole days between two quantiles of a finely spread number holds what its name says.
	truth, held := Normal{Mean: 0.3, SD: 9}, 0.0
	low, high := math.Round(truth.Quantile(0.1)), math.Round(truth.Quantile(0.9))
	for i := range 10000 {
		held += Held(low, high, math.Round(truth.Quantile((float64(i)+0.5)/10000)))
	}
	near(t, "share held by an 80 % window", held/10000, 0.8, 0.01)
}

func TestBandsOfCoverageAreThoseOfTheTables(t *testing.T) {
	// Hits of a correct interval, central 99.9 %: 90 % of 200 gives 165 to 192, 80 % of 500 gives 370 to 428.
	// Source: tables of the binomial distribution (from memory); each end is the first whose tail is not below
	// 0.0005.
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
