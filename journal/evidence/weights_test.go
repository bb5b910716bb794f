package evidence

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestQuantilesFollowTheWeights(t *testing.T) {
	for _, row := range []struct {
		values, weights, levels, want []float64
		why                           string
	}{
		{[]float64{3, 1, 2, 4}, nil, []float64{0, .25, .26, .5, .75, 1}, []float64{1, 1, 2, 2, 3, 4}, "equal weights, by hand"},
		{[]float64{10, 20, 30}, []float64{.1, .2, .7}, []float64{.1, .3, .31}, []float64{10, 20, 30}, "0.1 + 0.2 is not late"},
		{[]float64{1, 2, 3}, []float64{0, 1, 0}, []float64{0, .5, 1}, []float64{2, 2, 2}, "no weight, no value"},
		{[]float64{7}, []float64{3}, []float64{.05, .95}, []float64{7, 7}, "one value"},
	} {
		if diff := cmp.Diff(row.want, Quantiles(row.values, row.weights, row.levels...)); diff != "" {
			t.Errorf("Quantiles(%v, %v, %v) (%s): want −, got +\n%s", row.values, row.weights, row.levels,
				row.why, diff)
		}
	}
	if got := Quantiles(nil, nil, .5)[0]; !math.IsNaN(got) {
		t.Errorf("Quantiles of nothing = %v", got)
	}
}

func TestResamplingTakesEachByItsWeight(t *testing.T) {
	for _, row := range []struct {
		weights []float64
		u       float64
		want    []int
	}{
		{[]float64{.25, .25, .25, .25}, 0, []int{0, 1, 2, 3}},
		{[]float64{.25, .25, .25, .25}, .999, []int{0, 1, 2, 3}},
		{[]float64{1, 0, 3, 0}, .5, []int{0, 2, 2, 2}},
		{[]float64{0, 0, 1}, 0, []int{2, 2, 2}},
		{[]float64{.1, .2, .3, .4}, .5, []int{1, 2, 3, 3}},
		{nil, .5, []int{}},
	} {
		if diff := cmp.Diff(row.want, Resample(row.weights, row.u)); diff != "" {
			t.Errorf("Resample(%v, %v): want −, got +\n%s", row.weights, row.u, diff)
		}
	}
}

func TestResamplingKeepsNumberAndOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		weights := rapid.SliceOfN(rapid.Float64Range(0, 9), 1, 40).Draw(t, "weights")
		weights[0] += 0.5
		u := rapid.Float64Range(0, 0.999999).Draw(t, "u")
		total := 0.0
		for _, w := range weights {
			total += w
		}
		copies := Resample(weights, u)
		if len(copies) != len(weights) || !slices.IsSorted(copies) {
			t.Fatalf("Resample(%v, %v) = %v", weights, u, copies)
		}
		for i, w := range weights {
			count, expected := 0.0, w/total*float64(len(weights))
			for _, old := range copies {
				if old == i {
					count++
				}
			}
			if math.Abs(count-expected) > 1+1e-9 || (w == 0 && count > 0) {
				t.Fatalf("particle %d with %v expected copies got %v", i, expected, count)
			}
		}
	})
}

func TestResampleIsUnbiased(t *testing.T) {
	weights, mean := []float64{.1, .2, .3, .4}, make([]float64, 4)
	for i := range 1000 {
		for _, old := range Resample(weights, (float64(i)+0.5)/1000) {
			mean[old] += 1.0 / 1000
		}
	}
	for i, w := range weights {
		near(t, fmt.Sprintf("mean copies of %d", i), mean[i], 4*w, 5e-3)
	}
}

func TestTheEffectiveSampleSizeCountsEqualWeights(t *testing.T) {
	near(t, "equal weights", EffectiveSampleSize([]float64{2, 2, 2, 2}), 4, 1e-12)
	near(t, "one holds all", EffectiveSampleSize([]float64{0, 5, 0}), 1, 1e-12)
	near(t, "by hand", EffectiveSampleSize([]float64{1, 3}), 1.6, 1e-12)
	near(t, "nothing", EffectiveSampleSize([]float64{0, 0}), 0, 0)
}

func ExampleQuantiles() {
	fmt.Println(Quantiles([]float64{12, 9, 15, 11}, []float64{1, 1, 2, 4}, 0.1, 0.5, 0.9))
	// Output: [9 11 15]
}

func ExampleResample() {
	fmt.Println(Resample([]float64{0.1, 0.2, 0.3, 0.4}, 0.5))
	// Output: [1 2 3 3]
}
