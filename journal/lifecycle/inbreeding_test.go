package lifecycle

import (
	"fmt"
	"testing"
)

func TestEffectiveSize(t *testing.T) {
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

func TestInbreeding(t *testing.T) {
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
	near(t, "one generation", InbreedingAfter(20), 0.025, 1e-12)
	near(t, "three generations: 1 − 0.975^3", InbreedingAfter(20, 20, 20), 0.073141, 1e-6)
	near(t, "no generation", InbreedingAfter(), 0, 0)
	near(t, "law: many equal generations against the harmonic mean", InbreedingAfter(10, 40), 1-0.95*0.9875, 1e-12)
}

func TestHarmonicMean(t *testing.T) {
	// Frankham, Ballou & Briscoe, from memory.
	near(t, "10, 100, 1000", HarmonicMean(10, 100, 1000), 27.027027, 1e-6)
	near(t, "1000, 1000, 10, 1000", HarmonicMean(1000, 1000, 10, 1000), 38.834951, 1e-6)
	near(t, "a generation of none", HarmonicMean(10, 0), 0, 0)
	near(t, "generations of one", HarmonicMean(1, 1), 1, 0)
	near(t, "law: equal sizes", HarmonicMean(7, 7, 7), 7, 1e-12)
}

func TestEffectiveSizeOfFamilies(t *testing.T) {
	// Wright; Kimura & Crow 1963, from memory.
	for variance, want := range map[float64]float64{0: 19, 2: 9.5, 4: 6.333} {
		near(t, fmt.Sprintf("EffectiveSizeOfFamilies(10, %v)", variance), EffectiveSizeOfFamilies(10, variance), want, 1e-3)
	}
	near(t, "Ne/(1 + F) of 50 with 0.25 [NACA training text]", EffectiveSizeInbred(50, 0.25), 40, 1e-12)
}

func TestFounderAlleles(t *testing.T) {
	// Tave, FAO Fish. Tech. Pap. 392, formula from memory.
	near(t, "AlleleCaught(0.05, 10)", AlleleCaught(0.05, 10), 0.641514, 1e-6)
	near(t, "AlleleCaught(0.05, 30)", AlleleCaught(0.05, 30), 0.953930, 1e-6)
	near(t, "law: no founder", AlleleCaught(0.3, 0), 0, 0)
	for n, want := range map[int]float64{0: 0, 1: 0.5, 2: 0.75, 5: 0.9, 10: 0.95} {
		near(t, fmt.Sprintf("HeterozygosityKept(%d)", n), HeterozygosityKept(n), want, 1e-12)
	}
}

func ExampleEffectiveSize() {
	ne := EffectiveSize(4, 16)
	fmt.Printf("effective size %.1f, inbreeding %.1f %% a generation\n", ne, 100*InbreedingRate(ne))
	// Output: effective size 12.8, inbreeding 3.9 % a generation
}
