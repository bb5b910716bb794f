package evidence

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestUpdate(t *testing.T) {
	// Gelman et al., Bayesian Data Analysis, exercise 2.8 (from memory): weights of students, prior N(180, 40²), σ 20,
	// mean 150.
	prior := Normal{Mean: 180, SD: 40}
	for _, row := range []struct {
		n                                               float64
		mean, sd, low, high, predictSD, nextLow, nextUp float64
	}{
		{10, 150.7317, 6.24695, 138.49, 162.98, 20.9529, 109.66, 191.80},
		{100, 150.0748, 1.997505, 146.16, 153.99, 20.0995, 110.68, 189.47},
	} {
		got := prior.Update(150, 20/math.Sqrt(row.n))
		near(t, fmt.Sprintf("mean after %v", row.n), got.Mean, row.mean, 5e-5)
		near(t, fmt.Sprintf("sd after %v", row.n), got.SD, row.sd, 5e-6)
		low, high := got.Interval(0.95)
		near(t, "low", low, row.low, 6e-3)
		near(t, "high", high, row.high, 6e-3)
		next := got.Predict(20)
		near(t, "predictive sd", next.SD, row.predictSD, 5e-5)
		low, high = next.Interval(0.95)
		near(t, "next low", low, row.nextLow, 6e-3)
		near(t, "next high", high, row.nextUp, 6e-3)
	}
	equal := Normal{Mean: 10, SD: 2}.Update(14, 2)
	near(t, "equal precisions: mean", equal.Mean, 12, 1e-12)
	near(t, "equal precisions: sd", equal.SD, math.Sqrt2, 1e-12)
	if sure := (Normal{Mean: 3}).Update(9, 1); sure != (Normal{Mean: 3}) {
		t.Errorf("a sure belief moved to %v", sure)
	}
}

func TestUpdateLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		prior := Normal{Mean: rapid.Float64Range(-9, 9).Draw(t, "mean"), SD: rapid.Float64Range(0.1, 9).Draw(t, "sd")}
		y1, y2 := rapid.Float64Range(-9, 9).Draw(t, "y1"), rapid.Float64Range(-9, 9).Draw(t, "y2")
		sigma := rapid.Float64Range(0.1, 9).Draw(t, "sigma")
		one, other := prior.Update(y1, sigma).Update(y2, sigma), prior.Update(y2, sigma).Update(y1, sigma)
		both := prior.Update((y1+y2)/2, sigma/math.Sqrt2)
		for _, got := range []Normal{other, both} {
			if math.Abs(one.Mean-got.Mean) > 1e-9 || math.Abs(one.SD-got.SD) > 1e-9 {
				t.Fatalf("one by one %v, in another order or at once %v", one, got)
			}
		}
		if one.SD >= prior.SD {
			t.Fatalf("two observations widened the belief from %v to %v", prior.SD, one.SD)
		}
	})
}

func TestNormalQuantiles(t *testing.T) {
	standard := Normal{SD: 1}
	// Tables of the normal distribution.
	for p, want := range map[float64]float64{0.75: .6744898, 0.9: 1.2815516, 0.95: 1.6448536, 0.975: 1.9599640, 0.5: 0} {
		near(t, fmt.Sprintf("Quantile(%v)", p), standard.Quantile(p), want, 5e-8)
		near(t, fmt.Sprintf("CDF of Quantile(%v)", p), standard.CDF(standard.Quantile(p)), p, 1e-12)
		near(t, fmt.Sprintf("Quantile(1 − %v)", p), standard.Quantile(1-p), -want, 5e-8)
	}
	near(t, "within one sd", standard.CDF(1)-standard.CDF(-1), .6826895, 5e-8)
	near(t, "Quantile(0)", standard.Quantile(0), math.Inf(-1), 0)
	sure := Normal{Mean: 5}
	near(t, "sure quantile", sure.Quantile(0.1), 5, 0)
	near(t, "sure CDF below", sure.CDF(4.9), 0, 0)
	near(t, "sure CDF at", sure.CDF(5), 1, 0)
}

func ExampleNormal_Update() {
	// How fast one journal's eggs develop: ln of a multiplier, before and after one well-dated brood.
	before := Normal{Mean: 0, SD: 0.15}
	after := before.Update(math.Log(1.10), 0.11)
	fmt.Printf("%.3f ± %.3f\n", math.Exp(after.Mean), after.SD)
	// Output: 1.064 ± 0.089
}
