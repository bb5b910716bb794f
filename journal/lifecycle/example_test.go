package lifecycle_test

import (
	"fmt"

	"pleopod/journal/lifecycle"
	"pleopod/journal/water"
)

// The window of a hatch: the water as a few readings tell it, the eggs' development in it, and the days that it passes with one
// chance in ten, in two and in ten.
func Example() {
	climate := water.Climate{Mean: 23, MeanSD: 0.5, SD: 0.8, CorrelationDays: 5}
	readings := []water.Observation{{Day: 0, Celsius: 23.2, SD: 0.3}, {Day: 4, Celsius: 22.9, SD: 0.3}, {Day: 9, Celsius: 23.4, SD: 0.3}}
	days := water.NewRecord(climate, readings).On(9).Span(0, 60, nil)

	davidi, _ := lifecycle.Default("neocaridina-davidi")
	var progress lifecycle.Progress
	progress.Count(days, davidi.Incubation.Response())
	window := progress.Window(lifecycle.Stage{Begun: lifecycle.Interval{From: -1, To: 0}, Share: 1, LogSD: 0.15, Notice: lifecycle.Interval{To: 2}})
	for _, p := range []float64{0.1, 0.5, 0.9} {
		day, _ := window.Quantile(p)
		fmt.Printf("by day %d with %.0f %%\n", day, 100*p)
	}
	late, _ := window.After(24).Quantile(0.5)
	fmt.Printf("still carried on day 24: likeliest by day %d\n", late)
	// Output:
	// by day 17 with 10 %
	// by day 21 with 50 %
	// by day 25 with 90 %
	// still carried on day 24: likeliest by day 26
}

func ExampleIncubation_Validity() {
	davidi, _ := lifecycle.Default("neocaridina-davidi")
	for _, celsius := range []float64{14, 18, 24} {
		trust, reason := davidi.Incubation.Validity(celsius)
		fmt.Println(celsius, trust, reason)
	}
	// Output:
	// 14 none Below 16 °C eggs hardly develop, and no published brood tells how long they take.
	// 18 flagged Below 20 °C the time to hatch rests on no published brood.
	// 24 fine
}

func ExampleBothSexesCounted() {
	// Of ten bought, three are females and seven not told apart; the share of females is about one half.
	fmt.Printf("%.1f %%\n", 100*lifecycle.BothSexesCounted(3, 0, 7, 5, 5))
	// Output: 93.2 %
}

func ExampleBreeding_IntervalDays() {
	davidi, _ := lifecycle.Default("neocaridina-davidi")
	carried := davidi.Incubation.Days(24)
	fmt.Printf("carries %.0f days, berried again after %.0f\n", carried, davidi.Breeding.IntervalDays(carried))
	// Output: carries 18 days, berried again after 28
}

func ExampleFecundity_EggsToHatchlings() {
	davidi, _ := lifecycle.Default("neocaridina-davidi")
	for _, celsius := range []float64{24, 30} {
		fmt.Printf("of 30 eggs at %v °C hatch about %.0f\n", celsius, davidi.Fecundity.EggsToHatchlings(30, celsius))
	}
	// Output:
	// of 30 eggs at 24 °C hatch about 24
	// of 30 eggs at 30 °C hatch about 12
}

func ExampleDensity_YoungFactor() {
	davidi, _ := lifecycle.Default("neocaridina-davidi")
	capacity := davidi.Density.Capacity(40)
	for _, share := range []float64{0.25, 0.5, 1} {
		fmt.Printf("with %.0f adults in 40 L %.0f %% of the young that could grow up do\n", share*capacity, 100*davidi.Density.YoungFactor(share*capacity, capacity, 50))
	}
	// Output:
	// with 50 adults in 40 L 100 % of the young that could grow up do
	// with 100 adults in 40 L 100 % of the young that could grow up do
	// with 200 adults in 40 L 2 % of the young that could grow up do
}
