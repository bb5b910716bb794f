package lifecycle

import (
	"fmt"
	"testing"
)

func TestEffectiveSizesAreThePublishedOnes(t *testing.T) {
	for _, row := range []struct {
		males, females, want, tol float64
		source                    string
	}{
		{1, 99, 3.96, 1e-9, "US FWS Inland Salmonid Broodstock Handbook p. 1-8"},
		{2, 2, 4, 1e-9, "same"},
		{10, 10, 20, 1e-9, "KVL population-genetics notes"},
		{100, 100000, 400, 0.5, "same, printed 400"},
		{1, 10, 3.636364, 1e-6, "same, printed 3.7 by a rounding slip"},
		{1, 1e9, 4, 1e-6, "Holsinger: a single male gives less than 4"},
		{0, 10, 0, 0, "limit: one sex only"},
		{10, 0, 0, 0, "limit: one sex only"},
	} {
		near(t, fmt.Sprintf("EffectiveSize(%v, %v) [%s]", row.males, row.females, row.source), EffectiveSize(row.males, row.females), row.want, row.tol)
	}
	near(t, "a single pair", EffectiveSize(1, 1), 2, 0)
	near(t, "law: symmetric", EffectiveSize(3, 8), EffectiveSize(8, 3), 0)
}

func TestInbreedingOfAGenerationIsThePublishedOne(t *testing.T) {
	for _, row := range []struct {
		males, females, want float64
		source               string
	}{
		{25, 25, 0.01, "FAO guideline text"},
		{50, 50, 0.005, "FAO guideline text"},
		{10, 10, 0.025, "KVL population-genetics notes"},
	} {
		near(t, fmt.Sprintf("InbreedingRate of %v + %v [%s]", row.males, row.females, row.source),
			InbreedingRate(EffectiveSize(row.males, row.females)), row.want, 1e-12)
	}
	near(t, "no breeding", InbreedingRate(0), 1, 0)
	kept := 1.0
	for range 3 {
		kept *= 1 - InbreedingRate(20)
	}
	near(t, "three generations: 1 − 0.975^3", 1-kept, 0.073141, 1e-6)
	// n unrelated founders keep 1 − 1/(2n) of the heterozygosity of their stock: textbook.
	for n, want := range map[float64]float64{1: 0.5, 2: 0.75, 5: 0.9, 10: 0.95} {
		near(t, fmt.Sprintf("heterozygosity that %v founders keep", n), 1-InbreedingRate(n), want, 1e-12)
	}
}

func ExampleEffectiveSize() {
	ne := EffectiveSize(4, 16)
	fmt.Printf("effective size %.1f, inbreeding %.1f %% a generation\n", ne, 100*InbreedingRate(ne))
	// Output: effective size 12.8, inbreeding 3.9 % a generation
}
