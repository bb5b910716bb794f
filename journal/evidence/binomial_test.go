package evidence

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// methods names the intervals for a share: the one in use, and the published others that it is compared with.
var methods = map[string]func(int, int, float64) (float64, float64){
	"wilson": wilson, "clopperPearson": clopperPearson, "midP": midP, "Jeffreys": Jeffreys,
}

func TestIntervalsAreThePublishedOnes(t *testing.T) {
	const newcombe = "Newcombe 1998, Stat. Med. 17:857-872, table I (from memory)"
	for _, row := range []struct {
		method         string
		hits, trials   int
		confidence     float64
		low, high, tol float64
		source         string
	}{
		{"wilson", 81, 263, .95, .2553, .3662, 5e-5, newcombe},
		{"wilson", 15, 148, .95, .0624, .1605, 5e-5, newcombe},
		{"wilson", 0, 20, .95, 0, .1611, 5e-5, newcombe},
		{"wilson", 1, 29, .95, .0061, .1718, 5e-5, newcombe},
		{"clopperPearson", 81, 263, .95, .2527, .3676, 5e-5, newcombe},
		{"clopperPearson", 15, 148, .95, .0578, .1617, 5e-5, newcombe},
		{"clopperPearson", 0, 20, .95, 0, .1684, 5e-5, newcombe},
		{"clopperPearson", 1, 29, .95, .0009, .1776, 5e-5, newcombe},
		{"midP", 81, 263, .95, .2544, .3658, 5e-5, newcombe},
		{"midP", 15, 148, .95, .0601, .1581, 5e-5, newcombe},
		{"midP", 0, 20, .95, 0, .1391, 5e-5, newcombe},
		{"midP", 1, 29, .95, .0017, .1585, 5e-5, newcombe},
		{"Jeffreys", 81, 263, .95, .2545, .3656, 5e-5, "computed for Newcombe's cases"},
		{"Jeffreys", 15, 148, .95, .0604, .1576, 5e-5, "computed for Newcombe's cases"},
		{"Jeffreys", 0, 20, .95, 0, .1166, 5e-5, "computed for Newcombe's cases"},
		{"Jeffreys", 1, 29, .95, .0037, .1501, 5e-5, "computed for Newcombe's cases"},
		{"clopperPearson", 0, 10, .95, 0, .3084971078, 1e-8, "R 3.6.2 in the tests of SciPy; 1 − .025^(1/10)"},
		{"clopperPearson", 10, 10, .95, .6915028922, 1, 1e-8, "R 3.6.2 in the tests of SciPy"},
		{"wilson", 3, 10, .95, .1077913, .6032219, 1e-6, "R 3.6.2 in the tests of SciPy"},
		{"wilson", 3, 10, .99, .07956632, .6799753, 1e-6, "R 3.6.2 in the tests of SciPy"},
		{"wilson", 0, 10, .95, 0, .2775328, 1e-6, "R 3.6.2 in the tests of SciPy"},
		{"wilson", 10, 10, .95, .7224672, 1, 1e-6, "R 3.6.2 in the tests of SciPy"},
		{"clopperPearson", 4, 20, .90, .0713538843, .4010281173, 2e-6, "NIST/SEMATECH e-Handbook 7.2.4.2"},
		{"wilson", 0, 0, .95, 0, 1, 0, "limit: nothing tried"},
		{"clopperPearson", 0, 0, .95, 0, 1, 0, "limit: nothing tried"},
		{"midP", 0, 0, .95, 0, 1, 0, "limit: nothing tried"},
		{"Jeffreys", 0, 0, .95, 0, 1, 0, "limit: nothing tried"},
		{"Jeffreys", 20, 20, .95, 1 - .1166, 1, 5e-5, "mirror of 0/20"},
	} {
		low, high := methods[row.method](row.hits, row.trials, row.confidence)
		what := fmt.Sprintf("%s(%d, %d, %v) [%s]", row.method, row.hits, row.trials, row.confidence, row.source)
		near(t, what+" low", low, row.low, row.tol)
		near(t, what+" high", high, row.high, row.tol)
	}
}

func TestIntervalsHoldTheShareAndMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		trials := rapid.IntRange(1, 300).Draw(t, "trials")
		hits := rapid.IntRange(0, trials).Draw(t, "hits")
		confidence := rapid.Float64Range(0.5, 0.99).Draw(t, "confidence")
		share := float64(hits) / float64(trials)
		for name, method := range methods {
			low, high := method(hits, trials, confidence)
			if low < 0 || high > 1 || low > share+1e-9 || high < share-1e-9 {
				t.Fatalf("%s(%d, %d, %v) = %v, %v", name, hits, trials, confidence, low, high)
			}
			mirrorLow, mirrorHigh := method(trials-hits, trials, confidence)
			if d := low + mirrorHigh - 1; d > 1e-6 || d < -1e-6 {
				t.Fatalf("%s(%d, %d, %v) is no mirror: %v, %v against %v, %v", name, hits, trials, confidence,
					low, high, mirrorLow, mirrorHigh)
			}
		}
		low, high := Jeffreys(hits, trials, confidence)
		if sureLow, sureHigh := clopperPearson(hits, trials, confidence); low < sureLow-1e-9 || high > sureHigh+1e-9 {
			t.Fatalf("Jeffreys(%d, %d, %v) = %v, %v reaches outside the sure %v, %v", hits, trials, confidence,
				low, high, sureLow, sureHigh)
		}
	})
}

func TestBinomialTailsAreThoseOfTheTables(t *testing.T) {
	// Tables of the binomial distribution to four digits (from memory): n 10, p .3.
	single := []float64{.0282, .1211, .2335, .2668, .2001, .1029, .0368, .0090, .0014, .0001, .0000}
	for k, want := range single {
		near(t, fmt.Sprintf("P(exactly %d of 10 at .3)", k), AtLeast(k, 10, .3)-AtLeast(k+1, 10, .3), want, 5e-5)
	}
	cumulated := []float64{.0032, .0243, .0913, .2252, .4148, .6172, .7858, .8982, .9591, .9861, .9961, .9991}
	for k, want := range cumulated {
		near(t, fmt.Sprintf("P(up to %d of 20 at .25)", k), 1-AtLeast(k+1, 20, .25), want, 5e-5)
	}
	// An allele of frequency .05 among 10 and 30 founders, two copies each: 1 − (1 − p)^(2n). Source: D. Tave,
	// FAO Fisheries Technical Paper 392 (formula from memory).
	near(t, "an allele among 10 founders", AtLeast(1, 20, .05), .641514, 1e-6)
	near(t, "an allele among 30 founders", AtLeast(1, 60, .05), .953930, 1e-6)
	// R binom.test, in the tests of SciPy.
	near(t, "51 of 235 against 1/6, greater", AtLeast(51, 235, 1.0/6), .02654424571169085, 1e-12)
	near(t, "51 of 235 against 1/6, less", 1-AtLeast(52, 235, 1.0/6), .982022657605858, 1e-12)
	near(t, "3 of 10 against 1/2, two-sided", 2*(1-AtLeast(4, 10, .5)), .34375, 1e-12)
	for _, row := range []struct {
		hits int
		p    float64
		want float64
	}{{0, 0, 1}, {-1, .5, 1}, {11, .5, 0}, {1, 0, 0}, {10, 1, 1}} {
		near(t, fmt.Sprintf("limit AtLeast(%d, 10, %v)", row.hits, row.p), AtLeast(row.hits, 10, row.p), row.want, 0)
	}
}

func TestABetaLearnsAsPublished(t *testing.T) {
	// Uniform prior, 3 of 10.
	b := Beta{1, 1}.Update(3, 7)
	low, high := b.Interval(0.95)
	near(t, "mean", b.Mean(), 1.0/3, 1e-12)
	near(t, "low", low, .109263, 1e-6)
	near(t, "high", high, .609743, 1e-6)
	// Gelman et al., Bayesian Data Analysis, section 2.5 (from memory): placenta praevia, 437 girls of 980.
	girls := Beta{1, 1}.Update(437, 543)
	near(t, "girls: mean", girls.Mean(), .446029, 1e-6)
	near(t, "girls: sd", girls.SD(), .015854, 1e-6)
}

func ExampleJeffreys() {
	low, high := Jeffreys(7, 9, 0.8)
	fmt.Printf("7 of 9 windows held: %.0f to %.0f %%\n", 100*low, 100*high)
	// Output: 7 of 9 windows held: 57 to 91 %
}

func ExampleBeta_Interval() {
	females := Beta{A: 5, B: 5}.Update(8, 3)
	low, high := females.Interval(0.9)
	fmt.Printf("%.0f to %.0f %%, mean %.0f %%\n", 100*low, 100*high, 100*females.Mean())
	// Output: 44 to 78 %, mean 62 %
}

// wilson returns the interval for a share after hits in so many trials, at a confidence, 0 to 1: the usual choice, good
// with few trials and at the edges.
//
//	[x + z²/2 ± z·√(x·(n − x)/n + z²/4)]/(n + z²)
//
// hits is 0 to trials; no trials give 0 to 1. Source: E. B. Wilson 1927, as in R. G. Newcombe, Stat. Med. 17 (1998)
// 857-872, method 3.
func wilson(hits, trials int, confidence float64) (low, high float64) {
	if trials == 0 {
		return 0, 1
	}
	x, n, z := float64(hits), float64(trials), standardQuantile((1+confidence)/2)
	middle, half := x+z*z/2, z*math.Sqrt(x*(n-x)/n+z*z/4)
	return math.Max(0, (middle-half)/(n+z*z)), math.Min(1, (middle+half)/(n+z*z))
}

// clopperPearson returns the interval that holds the true share with at least the confidence, 0 to 1, whatever the
// share is; wider than the others.
//
// low is the quantile of Beta(x, n − x + 1), high of Beta(x + 1, n − x). hits is 0 to trials; no trials give 0 to 1.
// Source: C. J. Clopper and E. S. Pearson 1934; NIST/SEMATECH e-Handbook, section 7.2.4.2.
func clopperPearson(hits, trials int, confidence float64) (low, high float64) {
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

// midP returns the interval of shares that a two-sided test with the mid-P value does not refuse: between
// Clopper-Pearson, which is too wide on average, and Wilson. hits is 0 to trials; no trials give 0 to 1; confidence is
// 0 to 1.
//
// Source: Newcombe (see wilson), method 6. Limits are exact to 1e-12.
func midP(hits, trials int, confidence float64) (low, high float64) {
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
