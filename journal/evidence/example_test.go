package evidence_test

import (
	"fmt"

	"pleopod/journal/evidence"
)

func ExampleAtLeast() {
	fmt.Printf("8 females or more of 10: %.1f %%\n", 100*evidence.AtLeast(8, 10, 0.5))
	// Output: 8 females or more of 10: 5.5 %
}

func ExampleAtLeastClumped() {
	// Four deaths where one is expected: by itself each, and where deaths come together.
	fmt.Printf("%.1f %% and %.1f %%\n", 100*evidence.AtLeastPoisson(4, 1), 100*evidence.AtLeastClumped(4, 1, 1))
	// Output: 1.9 % and 6.3 %
}

func ExampleNoneSince() {
	// Six broods in 120 days, none in the last 60.
	fmt.Printf("%.1f %%\n", 100*evidence.NoneSince(6, 120, 60))
	// Output: 8.8 %
}

func ExampleTwoSided() {
	fmt.Printf("2.5 standard deviations away: %.1f %%\n", 100*evidence.TwoSided(2.5))
	// Output: 2.5 standard deviations away: 1.2 %
}

func ExampleHeld() {
	for _, day := range []float64{19, 20, 24, 28} {
		fmt.Print(evidence.Held(20, 28, day), " ")
	}
	// Output: 0 0.5 1 0.5
}

func ExampleNormal_Quantile() {
	multiplier := evidence.Normal{Mean: 1.05, SD: 0.1}
	fmt.Printf("%.2f to %.2f\n", multiplier.Quantile(0.05), multiplier.Quantile(0.95))
	// Output: 0.89 to 1.21
}

func ExampleEffectiveSampleSize() {
	fmt.Printf("%.1f of 4\n", evidence.EffectiveSampleSize([]float64{0.7, 0.1, 0.1, 0.1}))
	// Output: 1.9 of 4
}
