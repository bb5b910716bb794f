package population

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// binomialCases cover every way in which a binomial number is drawn: one by one, by inversion, mirrored, and far away.
var binomialCases = []struct {
	n int
	p float64
}{
	{1, 0.3}, {4, 0.0024}, {5, 0.7}, {18, 0.5}, {40, 0.07}, {200, 0.0024}, {300, 0.3}, {500, 0.9}, {3000, 0.2},
}

// The draws must fit the exact distribution: chi-square over cells with at least 20 expected, below its 99.99 % point.
func TestBinomialDrawsFitTheExactDistribution(t *testing.T) {
	const draws = 40000
	for _, c := range binomialCases {
		s := newStream(9, uint64(c.n))
		seen := make([]float64, c.n+1)
		for range draws {
			seen[s.binomial(c.n, c.p)]++
		}
		exact := distuv.Binomial{N: float64(c.n), P: c.p}
		var chi2, cells, got, want float64
		for k := range seen {
			got += seen[k]
			want += draws * exact.Prob(float64(k))
			if want < 20 {
				continue
			}
			chi2 += (got - want) * (got - want) / want
			cells++
			got, want = 0, 0
		}
		if cells < 2 {
			continue
		}
		if limit := (distuv.ChiSquared{K: cells - 1}).Quantile(0.9999); chi2 > limit {
			t.Errorf("binomial(%d, %v): chi-square %.1f over %v cells, limit %.1f", c.n, c.p, chi2, cells, limit)
		}
	}
}

func TestBinomialDrawsOfNoneAndAll(t *testing.T) {
	s := newStream(1, 1)
	for _, c := range []struct {
		n    int
		p    float64
		want int
	}{{0, 0.5, 0}, {-3, 0.5, 0}, {7, 0, 0}, {7, -1, 0}, {7, 1, 7}, {7, 2, 7}} {
		if got := s.binomial(c.n, c.p); got != c.want {
			t.Errorf("binomial(%d, %v) = %d, want %d", c.n, c.p, got, c.want)
		}
	}
}

// Streams of neighbouring places and seeds must not resemble each other.
func TestStreamsAreApart(t *testing.T) {
	const n = 4000
	var sum float64
	for place := range uint64(n) {
		a, b := newStream(7, place), newStream(7, place+1)
		sum += (a.uniform() - 0.5) * (b.uniform() - 0.5)
	}
	if r := 12 * sum / n; math.Abs(r) > 4/math.Sqrt(n) {
		t.Errorf("first numbers of neighbouring streams correlate with %.3f", r)
	}
}

// distance is the greatest distance between the distribution of the values and an even spread from 0 to 1: Kolmogorov-Smirnov.
func distance(values []float64) float64 {
	greatest, n := 0.0, float64(len(values))
	for i, x := range slices.Sorted(slices.Values(values)) {
		greatest = max(greatest, float64(i+1)/n-x, x-float64(i)/n)
	}
	return greatest
}

// Samples of even, normal and exponential numbers, turned into their probabilities, pass the critical distances as often as
// they should. Source: tables of the Kolmogorov-Smirnov test at 5 % and 1 % (from memory).
func TestDrawsHaveTheirLaw(t *testing.T) {
	if d := distance([]float64{0.8, 0.1, 0.2}); math.Abs(d-(2.0/3-0.2)) > 1e-12 {
		t.Errorf("distance %v by hand, want 2/3 - 0.2", d)
	}
	const trials = 5000
	for law, draw := range map[string]func(s *stream) float64{
		"even":        (*stream).uniform,
		"normal":      func(s *stream) float64 { return math.Erfc(-s.normal()/math.Sqrt2) / 2 },
		"exponential": func(s *stream) float64 { return 1 - math.Exp(-s.exponential()) },
	} {
		for _, row := range []struct {
			n         int
			five, one float64
		}{{10, .40925, .48893}, {20, .29408, .35241}, {50, .18841, .22604}, {100, .13403, .16081}} {
			values := make([]float64, row.n)
			var five, one float64
			for trial := range uint64(trials) {
				s := newStream(uint64(row.n), trial)
				for i := range values {
					values[i] = draw(&s)
				}
				switch d := distance(values); {
				case d > row.one:
					five, one = five+1, one+1
				case d > row.five:
					five++
				}
			}
			if math.Abs(five/trials-0.05) > 0.0123 || math.Abs(one/trials-0.01) > 0.0056 {
				t.Errorf("%s samples of %d: %.4f pass the 5 %% distance, %.4f the 1 %% distance", law, row.n, five/trials, one/trials)
			}
		}
	}
}

// Rounding must keep the mean.
func TestRoundKeepsTheMean(t *testing.T) {
	s, sum := newStream(2, 2), 0
	for range 100000 {
		sum += s.round(2.3)
	}
	if mean := float64(sum) / 100000; math.Abs(mean-2.3) > 0.006 {
		t.Errorf("mean %v, want 2.3", mean)
	}
}

func TestShiftedMovesTheLogOdds(t *testing.T) {
	// Law: ln(q/(1 − q)) = ln(p/(1 − p)) + step. So one half by ln 3 is three quarters, and a step back is the way back.
	if got := shifted(0.5, math.Log(3)); math.Abs(got-0.75) > 1e-12 {
		t.Errorf("one half by ln 3 = %g, want 0.75", got)
	}
	for _, share := range []float64{0.01, 0.2, 0.5, 0.9} {
		for _, step := range []float64{-2, -0.1, 0, 0.7, 3} {
			if got := shifted(shifted(share, step), -step); math.Abs(got-share) > 1e-12 {
				t.Errorf("%g by %g and back = %g", share, step, got)
			}
		}
	}
	if got := shifted(0, 0); got != 0.001 {
		t.Errorf("a share of 0 = %g, want 0.001, from which there is a way", got)
	}
}
