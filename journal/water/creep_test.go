package water

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestARoutineRaisesHardnessAsByHand(t *testing.T) {
	for _, row := range []struct {
		routine       Routine
		before, weeks float64
		want          float64
		source        string
	}{
		{Routine{Evaporated: 0.05, TopUp: 12}, 8, 10, 14, "by hand: 0.6 degrees a week"},
		{Routine{Evaporated: 0.05, TopUp: 0}, 8, 52, 8, "by hand: pure water adds nothing"},
		{Routine{Share: 0.5, Fresh: 4}, 8, 2, 5, "by hand: half-way twice"},
		{Routine{Evaporated: 0.1, TopUp: 12, Share: 0.2, Fresh: 6}, 10, 1000, 10.8, "by hand: 0.8·1.2/0.2 + 6"},
		{Routine{}, 8, 3, 8, "limit: nothing done"},
	} {
		got, err := row.routine.After(row.before, row.weeks)
		if err != nil {
			t.Fatal(err)
		}
		near(t, fmt.Sprintf("%+v after %v weeks from %v [%s]", row.routine, row.weeks, row.before, row.source), got, row.want, 1e-9)
	}
}

func TestARoutineIsItsWeeksOneByOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := Routine{
			Evaporated: rapid.Float64Range(0, 0.3).Draw(t, "evaporated"),
			TopUp:      rapid.Float64Range(0, 25).Draw(t, "topUp"),
			Share:      rapid.Float64Range(0, 1).Draw(t, "share"),
			Fresh:      rapid.Float64Range(0, 25).Draw(t, "fresh"),
		}
		weeks := rapid.IntRange(0, 30).Draw(t, "weeks")
		value := 8.0
		for range weeks {
			full, _ := Mix(Part{1 - r.Evaporated, value / (1 - r.Evaporated)}, Part{r.Evaporated, r.TopUp})
			value, _ = changed(full, r.Fresh, r.Share)
		}
		got, err := r.After(8, float64(weeks))
		if err != nil || math.Abs(got-value) > 1e-6*(1+value) {
			t.Fatalf("%+v after %d weeks: %v (%v), step by step %v", r, weeks, got, err, value)
		}
	})
}

func TestARoutineSettlesWhereAWeekChangesNothing(t *testing.T) {
	settled, err := Routine{Evaporated: 0.1, TopUp: 12, Share: 0.2, Fresh: 6}.Settles()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "settles at", settled, 10.8, 1e-12)
	if creep, _ := (Routine{Evaporated: 0.1, TopUp: 10}).Settles(); !math.IsInf(creep, 1) {
		t.Errorf("without changes it settles at %v, want never", creep)
	}
	if stay, _ := (Routine{}).Settles(); !math.IsNaN(stay) {
		t.Errorf("doing nothing settles at %v, want any value", stay)
	}
	for _, bad := range []Routine{{Evaporated: -0.1}, {Evaporated: 1}, {Share: 1.5}, {Share: math.NaN()}} {
		if _, err := bad.Settles(); err == nil {
			t.Errorf("%+v was accepted", bad)
		}
		if _, err := bad.After(8, 1); err == nil {
			t.Errorf("%+v was accepted", bad)
		}
	}
	if _, err := (Routine{}).After(8, -1); err == nil {
		t.Error("weeks before now were accepted")
	}
}

func ExampleRoutine_After() {
	hard := Routine{Evaporated: 0.06, TopUp: 12, Share: 0.10, Fresh: 7}
	for _, weeks := range []float64{4, 26} {
		gh, _ := hard.After(7, weeks)
		fmt.Printf("after %v weeks %.1f dGH\n", weeks, gh)
	}
	// Output:
	// after 4 weeks 9.2 dGH
	// after 26 weeks 13.1 dGH
}
