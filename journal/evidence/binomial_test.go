package evidence

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"
)

// methods names the intervals for a share, so that laws can be asked of each.
var methods = map[string]func(int, int, float64) (float64, float64){
	"Wilson": Wilson, "ClopperPearson": ClopperPearson, "MidP": MidP, "Jeffreys": Jeffreys,
}

func TestIntervals(t *testing.T) {
	const newcombe = "Newcombe 1998, Stat. Med. 17:857-872, table I (from memory)"
	for _, row := range []struct {
		method         string
		hits, trials   int
		confidence     float64
		low, high, tol float64
		source         string
	}{
		{"Wilson", 81, 263, .95, .2553, .3662, 5e-5, newcombe},
		{"Wilson", 15, 148, .95, .0624, .1605, 5e-5, newcombe},
		{"Wilson", 0, 20, .95, 0, .1611, 5e-5, newcombe},
		{"Wilson", 1, 29, .95, .0061, .1718, 5e-5, newcombe},
		{"ClopperPearson", 81, 263, .95, .2527, .3676, 5e-5, newcombe},
		{"ClopperPearson", 15, 148, .95, .0578, .1617, 5e-5, newcombe},
		{"ClopperPearson", 0, 20, .95, 0, .1684, 5e-5, newcombe},
		{"ClopperPearson", 1, 29, .95, .0009, .1776, 5e-5, newcombe},
		{"MidP", 81, 263, .95, .2544, .3658, 5e-5, newcombe},
		{"MidP", 15, 148, .95, .0601, .1581, 5e-5, newcombe},
		{"MidP", 0, 20, .95, 0, .1391, 5e-5, newcombe},
		{"MidP", 1, 29, .95, .0017, .1585, 5e-5, newcombe},
		{"Jeffreys", 81, 263, .95, .2545, .3656, 5e-5, "computed for Newcombe's cases"},
		{"Jeffreys", 15, 148, .95, .0604, .1576, 5e-5, "computed for Newcombe's cases"},
		{"Jeffreys", 0, 20, .95, 0, .1166, 5e-5, "computed for Newcombe's cases"},
		{"Jeffreys", 1, 29, .95, .0037, .1501, 5e-5, "computed for Newcombe's cases"},
		{"ClopperPearson", 0, 10, .95, 0, .3084971078, 1e-8, "R 3.6.2 in the tests of SciPy; 1 − .025^(1/10)"},
		{"ClopperPearson", 10, 10, .95, .6915028922, 1, 1e-8, "R 3.6.2 in the tests of SciPy"},
		{"Wilson", 3, 10, .95, .1077913, .6032219, 1e-6, "R 3.6.2 in the tests of SciPy"},
		{"Wilson", 3, 10, .99, .07956632, .6799753, 1e-6, "R 3.6.2 in the tests of SciPy"},
		{"Wilson", 0, 10, .95, 0, .2775328, 1e-6, "R 3.6.2 in the tests of SciPy"},
		{"Wilson", 10, 10, .95, .7224672, 1, 1e-6, "R 3.6.2 in the tests of SciPy"},
		{"ClopperPearson", 4, 20, .90, .0713538843, .4010281173, 2e-6, "NIST/SEMATECH e-Handbook 7.2.4.2"},
		{"Wilson", 0, 0, .95, 0, 1, 0, "limit: nothing tried"},
		{"ClopperPearson", 0, 0, .95, 0, 1, 0, "limit: nothing tried"},
		{"MidP", 0, 0, .95, 0, 1, 0, "limit: nothing tried"},
		{"Jeffreys", 0, 0, .95, 0, 1, 0, "limit: nothing tried"},
		{"Jeffreys", 20, 20, .95, 1 - .1166, 1, 5e-5, "mirror of 0/20"},
	} {
		low, high := methods[row.method](row.hits, row.trials, row.confidence)
		what := fmt.Sprintf("%s(%d, %d, %v) [%s]", row.method, row.hits, row.trials, row.confidence, row.source)
		near(t, what+" low", low, row.low, row.tol)
		near(t, what+" high", high, row.high, row.tol)
	}
}

func TestIntervalLaws(t *testing.T) {
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
				t.Fatalf("%s(%d, %d, %v) is no mirror: %v, %v against %v, %v", name, hits, trials, confidence, low, high, mirrorLow, mirrorHigh)
			}
		}
	})
}

func TestAtLeast(t *testing.T) {
	// Tables of the binomial distribution to four digits (from memory): n 10, p .3.
	single := []float64{.0282, .1211, .2335, .2668, .2001, .1029, .0368, .0090, .0014, .0001, .0000}
	for k, want := range single {
		near(t, fmt.Sprintf("P(exactly %d of 10 at .3)", k), AtLeast(k, 10, .3)-AtLeast(k+1, 10, .3), want, 5e-5)
	}
	cumulated := []float64{.0032, .0243, .0913, .2252, .4148, .6172, .7858, .8982, .9591, .9861, .9961, .9991}
	for k, want := range cumulated {
		near(t, fmt.Sprintf("P(up to %d of 20 at .25)", k), 1-AtLeast(k+1, 20, .25), want, 5e-5)
	}
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

func TestBeta(t *testing.T) {
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
	near(t, "CDF of the quantile", girls.CDF(girls.Quantile(0.1)), 0.1, 1e-9)
	near(t, "CDF(-0.1)", girls.CDF(-0.1), 0, 0)
	near(t, "CDF(1.1)", girls.CDF(1.1), 1, 0)
	glance := NewBeta(0.4, 12)
	near(t, "NewBeta mean", glance.Mean(), 0.4, 1e-12)
	near(t, "NewBeta concentration", glance.A+glance.B, 12, 1e-12)
}

func ExampleWilson() {
	low, high := Wilson(7, 9, 0.8)
	fmt.Printf("7 of 9 windows held: %.0f to %.0f %%\n", 100*low, 100*high)
	// Output: 7 of 9 windows held: 57 to 90 %
}

func ExampleBeta_Interval() {
	females := Beta{A: 5, B: 5}.Update(8, 3)
	low, high := females.Interval(0.9)
	fmt.Printf("%.0f to %.0f %%, mean %.0f %%\n", 100*low, 100*high, 100*females.Mean())
	// Output: 44 to 78 %, mean 62 %
}
