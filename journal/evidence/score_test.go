package evidence

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestCRPSNormal(t *testing.T) {
	for _, row := range []struct {
		mean, sd, observed, want, tol float64
		source                        string
	}{
		{0, 1, -3, 2.4365747251, 1e-9, "test of the R package scoringRules: 2.43657473"},
		{0, 1, 0, (math.Sqrt2 - 1) / math.Sqrt(math.Pi), 1e-12, "closed form"},
		{0, 1, 1, 0.6024413576, 1e-9, "numeric integral"},
		{0, 1, 2, 1.4527918217, 1e-9, "numeric integral"},
		{0, 2, 1, 0.6628070625, 1e-9, "numeric integral"},
		{25, 1.5, 27, 1.2809009698, 1e-9, "numeric integral"},
		{1, 0.5, 0.2, 0.5411471762, 1e-9, "numeric integral"},
		{5, 0, 7.5, 2.5, 0, "limit: absolute error"},
	} {
		got := CRPSNormal(Normal{row.mean, row.sd}, row.observed)
		near(t, fmt.Sprintf("CRPSNormal(%v, %v, %v) [%s]", row.mean, row.sd, row.observed, row.source), got, row.want, row.tol)
	}
	// Under a true N(μ, σ²) the mean score is σ/√π.
	sum, steps := 0.0, 20000
	for i := range steps {
		sum += CRPSNormal(Normal{3, 2}, Normal{3, 2}.Quantile((float64(i)+0.5)/float64(steps)))
	}
	near(t, "mean score of the truth", sum/float64(steps), 2*0.5641895835, 1e-4)
}

func TestCRPSEnsemble(t *testing.T) {
	for _, row := range []struct {
		members        []float64
		observed, want float64
		fair           float64
	}{
		{[]float64{1, 2, 3, 4}, 2.5, 0.375, 1.0 / 6},
		{[]float64{1, 0}, 0.5, 0.25, 0},
		{[]float64{30, 22, 23, 27, 20}, 24, 1.2, 3.2 - 2.5},
	} {
		near(t, fmt.Sprintf("CRPSEnsemble(%v, %v) [by hand]", row.members, row.observed), CRPSEnsemble(row.members, row.observed), row.want, 1e-12)
		near(t, fmt.Sprintf("CRPSFair(%v, %v) [by hand]", row.members, row.observed), CRPSFair(row.members, row.observed), row.fair, 1e-12)
	}
	near(t, "one member: absolute error", CRPSEnsemble([]float64{2}, 5), 3, 0)
	if !math.IsNaN(CRPSEnsemble(nil, 1)) {
		t.Error("CRPSEnsemble of nothing is a number")
	}
}

func TestCRPSAgree(t *testing.T) {
	// The three forms meet for a finely divided normal.
	truth := Normal{Mean: 20, SD: 3}
	var levels, quantiles []float64
	for i := range 2000 {
		levels = append(levels, (float64(i)+0.5)/2000)
		quantiles = append(quantiles, truth.Quantile(levels[i]))
	}
	for _, observed := range []float64{12, 19, 20, 27} {
		want := CRPSNormal(truth, observed)
		near(t, fmt.Sprintf("CRPSEnsemble at %v", observed), CRPSEnsemble(quantiles, observed), want, 2e-3)
		near(t, fmt.Sprintf("CRPSQuantiles at %v", observed), CRPSQuantiles(levels, quantiles, observed), want, 2e-3)
	}
	// With the equally weighted members of an ensemble at levels (i + ½)/n the two are the same.
	members := []float64{20, 22, 23, 27, 30}
	near(t, "quantile form of an ensemble", CRPSQuantiles([]float64{.1, .3, .5, .7, .9}, members, 24), 1.2, 1e-12)
}

func TestLosses(t *testing.T) {
	// By hand from the definitions.
	near(t, "Pinball(10, .9, 12)", Pinball(10, .9, 12), 1.8, 1e-9)
	near(t, "Pinball(12, .9, 10)", Pinball(12, .9, 10), .2, 1e-9)
	near(t, "Pinball(10, .1, 12)", Pinball(10, .1, 12), .2, 1e-9)
	near(t, "IntervalScore inside", IntervalScore(10, 20, .9, 15), 10, 1e-9)
	near(t, "IntervalScore above", IntervalScore(10, 20, .9, 22), 50, 1e-9)
	near(t, "IntervalScore below", IntervalScore(10, 20, .8, 9), 20, 1e-9)
	near(t, "LogScore of N(0, 1) at 1", LogScore(Normal{0, 1}, 1), 1.4189385332, 1e-9)
	near(t, "LogScore scales", LogScore(Normal{0, 2}, 2), 1.4189385332+math.Ln2, 1e-9)
}

func TestIntervalScoreIsPinball(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low := rapid.Float64Range(-5, 5).Draw(t, "low")
		high := low + rapid.Float64Range(0, 5).Draw(t, "width")
		y, p := rapid.Float64Range(-12, 12).Draw(t, "y"), rapid.Float64Range(0.05, 0.95).Draw(t, "p")
		pinballs := Pinball(low, (1-p)/2, y) + Pinball(high, (1+p)/2, y)
		if got := IntervalScore(low, high, p, y); math.Abs(got-pinballs*2/(1-p)) > 1e-9*(1+got) {
			t.Fatalf("IntervalScore = %v, want 2/α times the two pinball losses %v", got, pinballs)
		}
	})
}

func TestBrier(t *testing.T) {
	// Brier 1950: ten rain forecasts; the original two-class score is 0.19, twice this one.
	forecasts := []float64{.7, .9, .8, .4, .2, 0, 0, 0, 0, .1}
	rain := []bool{false, true, true, true, false, false, false, false, false, false}
	near(t, "Brier 1950", Brier(forecasts, rain), 0.095, 1e-12)
	for _, row := range []struct {
		p    float64
		rain bool
		want float64
	}{{.7, true, .09}, {.3, true, .49}, {.5, true, .25}, {.5, false, .25}, {1, false, 1}} {
		near(t, fmt.Sprintf("Brier(%v, %v)", row.p, row.rain), Brier([]float64{row.p}, []bool{row.rain}), row.want, 1e-12)
	}
}

func ExampleCRPSNormal() {
	// A hatch foreseen for day 20 ± 2 came on day 23.
	fmt.Printf("%.2f days\n", CRPSNormal(Normal{Mean: 20, SD: 2}, 23))
	// Output: 1.99 days
}

func ExampleIntervalScore() {
	fmt.Printf("%.0f\n", IntervalScore(10, 20, 0.9, 22))
	// Output: 50
}
