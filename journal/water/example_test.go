package water_test

import (
	"fmt"

	"pleopod/journal/water"
)

// Readings a week apart, and what is known of the days between and after them.
func ExampleRecord_On() {
	climate := water.Climate{Mean: 23, MeanSD: 0.5, SD: 0.8, CorrelationDays: 5}
	record := water.NewRecord(climate, []water.Observation{{Day: 1, Celsius: 22.4, SD: 0.3}, {Day: 8, Celsius: 23.1, SD: 0.3}})
	days := record.On(8).Span(1, 30, nil)
	for _, day := range []int{1, 4, 8, 30} {
		mean, sd := days.Day(day - 1)
		fmt.Printf("day %d: %.1f ± %.1f °C\n", day, mean, sd)
	}
	// Output:
	// day 1: 22.5 ± 0.3 °C
	// day 4: 22.8 ± 0.6 °C
	// day 8: 23.1 ± 0.3 °C
	// day 30: 22.9 ± 0.9 °C
}

func ExampleUnionisedFraction() {
	for _, ph := range []float64{6.5, 7.5, 8.5} {
		fraction, _ := water.UnionisedFraction(ph, 24)
		fmt.Printf("pH %v: %.1f %% of the ammonia is toxic\n", ph, 100*fraction)
	}
	// Output:
	// pH 6.5: 0.2 % of the ammonia is toxic
	// pH 7.5: 1.6 % of the ammonia is toxic
	// pH 8.5: 14.3 % of the ammonia is toxic
}

func ExamplePKa() {
	fmt.Printf("at pH %.2f half of the ammonia is un-ionised at 15 °C, at pH %.2f at 25 °C\n", water.PKa(15), water.PKa(25))
	// Output: at pH 9.56 half of the ammonia is un-ionised at 15 °C, at pH 9.25 at 25 °C
}

func ExampleAmmoniaBasis_Convert() {
	mass, _ := water.AsN.Convert(1, water.AsNH3)
	fmt.Printf("%.2f mg/L as NH3\n", mass)
	// Output: 1.22 mg/L as NH3
}

func ExampleSeries() {
	values, _ := water.Series(40, 5, 0.25, 4)
	fmt.Printf("nitrate after 1 to 4 changes: %.1f mg/L\n", values)
	// Output: nitrate after 1 to 4 changes: [31.2 24.7 19.8 16.1] mg/L
}

func ExampleChangesFor() {
	changes, _ := water.ChangesFor(40, 5, 15, 0.25)
	fmt.Println(changes, "changes of a quarter")
	// Output: 5 changes of a quarter
}

func ExampleFreshValue() {
	fresh, _ := water.FreshValue(12, 10, 0.25)
	fmt.Printf("from 12 to 10 dGH by a change of a quarter: new water of %.0f dGH\n", fresh)
	_, err := water.FreshValue(12, 8, 0.25)
	fmt.Println(err)
	// Output:
	// from 12 to 10 dGH by a change of a quarter: new water of 4 dGH
	// the change is too small for the target: from 12 to 8 with a share of 0.25
}

func ExampleFreshTemperature() {
	fresh, _ := water.FreshTemperature(24, 23, 0.2)
	fmt.Printf("%.0f °C\n", fresh)
	// Output: 19 °C
}

func ExampleSaltFor() {
	// The packet says: 10 g in 50 L raise the hardness by 1 dGH.
	grams, _ := water.SaltFor(20, 0, 6, water.Salt{Grams: 10, Litres: 50, Raises: 1})
	fmt.Printf("%.0f g\n", grams)
	// Output: 24 g
}
