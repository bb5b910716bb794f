package water

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// TestAFittedDriftIsThatOfTheRoutine makes the readings of a tank that is topped up and changed week by week, as TestARoutineRaisesHardnessAsByHand
// checks it, and asks for the creep.
func TestAFittedDriftIsThatOfTheRoutine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := Routine{
			Evaporated: rapid.Float64Range(0, 0.2).Draw(t, "evaporated"), TopUp: rapid.Float64Range(0, 20).Draw(t, "topUp"),
			Share: rapid.Float64Range(0, 0.5).Draw(t, "share"), Fresh: rapid.Float64Range(2, 15).Draw(t, "fresh"),
		}
		var samples []Sample
		var changes []Exchange
		for week := range 10 {
			value, err := r.After(8, float64(week))
			if err != nil {
				t.Fatal(err)
			}
			// the test stands at the end of the week, before the change
			samples = append(samples, Sample{7*week + 7, value + r.Evaporated*r.TopUp})
			changes = append(changes, Exchange{7*week + 7, r.Share, r.Fresh})
		}
		got, ok := FitDrift(samples, changes, 0.01)
		want := r.Evaporated * r.TopUp
		if !ok || math.Abs(got.PerWeek-want) > 1e-6 {
			t.Fatalf("%+v: %+v (%v), want %v a week", r, got, ok, want)
		}
		if math.Abs(got.Settles(0.2, 6)-(6+4*got.PerWeek)) > 1e-9 {
			t.Fatalf("settles at %v", got.Settles(0.2, 6))
		}
	})
}

func TestDriftIsFittedToReadingsBetweenChanges(t *testing.T) {
	nan := math.NaN()
	for _, row := range []struct {
		name    string
		samples []Sample
		changes []Exchange
		want    float64
	}{
		{"by hand: half a degree a week", []Sample{{0, 8}, {7, 8.5}, {14, 9}, {21, 9.5}}, nil, 0.5},
		{"in any order", []Sample{{21, 9.5}, {0, 8}, {14, 9}, {7, 8.5}}, nil, 0.5},
		{"law: a change to what the water has leaves the rest", []Sample{{0, 8}, {7, 8}, {14, 8}, {21, 8}}, []Exchange{{3, 0.5, 8}, {9, 0.2, 8}}, 0},
		{"a change that explains the fall is no creep", []Sample{{0, 10}, {7, 7}, {14, 7}, {21, 7}}, []Exchange{{3, 0.5, 4}}, 0},
		{"a change of the day of a test comes after it", []Sample{{0, 10}, {7, 10}, {14, 7}, {21, 7}}, []Exchange{{7, 0.5, 4}}, 0},
		{"an unknown change begins a stretch", []Sample{{0, 8}, {7, 9}, {14, 10}, {21, 5}, {28, 6}, {35, 7}}, []Exchange{{15, nan, 4}}, 1},
		{"unknown new water begins a stretch", []Sample{{0, 8}, {7, 9}, {14, 10}, {21, 5}, {28, 6}, {35, 7}}, []Exchange{{15, 0.4, nan}}, 1},
		{"changes before the first test do not matter", []Sample{{50, 8}, {57, 9}, {64, 10}}, []Exchange{{1, nan, nan}, {20, 0.5, 3}}, 1},
	} {
		got, ok := FitDrift(row.samples, row.changes, 0.3)
		if !ok {
			t.Errorf("%s: no estimate", row.name)
			continue
		}
		near(t, row.name, got.PerWeek, row.want, 1e-9)
	}
	for name, samples := range map[string][]Sample{
		"nothing": nil, "two readings": {{0, 8}, {7, 9}}, "one day": {{3, 8}, {3, 9}, {3, 8}, {3, 9}},
	} {
		if got, ok := FitDrift(samples, nil, 0.3); ok {
			t.Errorf("%s gave %+v", name, got)
		}
	}
	if got := (Drift{PerWeek: 0.2}).Settles(0, 6); !math.IsNaN(got) {
		t.Errorf("without changes it settles at %v", got)
	}
}

// TestAFittedDriftKnowsHowSureItIs counts how often the true creep lies within 1.645 sd over 400 tanks with rounded readings.
func TestAFittedDriftKnowsHowSureItIs(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 25))
	held := 0
	const tanks = 400
	for range tanks {
		k := 0.6 * r.Float64()
		value, day := 7.0, 0
		var samples []Sample
		var changes []Exchange
		for range 14 {
			days := 4 + r.IntN(9)
			value += k * float64(days) / 7
			day += days
			samples = append(samples, Sample{day, math.Round(value + 0.3*r.NormFloat64())})
			if r.IntN(2) == 0 {
				changes = append(changes, Exchange{day, 0.15, 6})
				value += 0.15 * (6 - value)
			}
		}
		got, ok := FitDrift(samples, changes, 0.3)
		if ok && math.Abs(got.PerWeek-k) < 1.645*got.SD {
			held++
		}
	}
	if share := float64(held) / tanks; share < 0.84 || share > 0.96 {
		t.Errorf("the 90 %% interval held the creep of %.0f %% of the tanks", 100*share)
	}
}

func ExampleFitDrift() {
	samples := []Sample{{0, 7}, {14, 8}, {28, 9}, {42, 9.5}, {56, 10}}
	changes := []Exchange{{35, 0.2, 6}}
	d, _ := FitDrift(samples, changes, 0.3)
	fmt.Printf("%.2f dGH a week, sd %.2f; with a tenth changed each week it settles at %.1f\n", d.PerWeek, d.SD, d.Settles(0.1, 6))
	// Output: 0.48 dGH a week, sd 0.05; with a tenth changed each week it settles at 10.3
}
