package lifecycle

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestDaysToHatchAreThePublishedOnes(t *testing.T) {
	eggs := davidi(t).Incubation
	for _, row := range []struct {
		celsius, want, tol float64
		source             string
	}{
		{18, 34.1, 0.05, "239 C·d above 11 °C, by hand: 239/7"},
		{20, 26.6, 0.05, "239/9"},
		{22, 21.7, 0.05, "239/11"},
		{24, 18.4, 0.05, "239/13"},
		{26, 15.9, 0.05, "239/15"},
		{27, 15, 0.1, "Nur & Christianus 2013: 15 d at 27 °C"},
		{28, 14.1, 0.05, "239/17"},
		{30, 13.3, 0.05, "239/(17 + 2/2): half the slope above 28 °C"},
		{11, math.Inf(1), 0, "limit: nothing happens at the base"},
		{5, math.Inf(1), 0, "limit: nothing happens below the base"},
	} {
		near(t, fmt.Sprintf("Days(%v) [%s]", row.celsius, row.source), eggs.Days(row.celsius), row.want, row.tol)
	}
}

func TestWarmthShortensIncubationAsInAnotherSpecies(t *testing.T) {
	// Caridina multidentata: 40 d at 20 °C (Hamano & Hayashi 1992), about 25 d at 25.5 °C (Cao et al. 2020).
	eggs := davidi(t).Incubation
	near(t, "ratio of days at 20 and 25.5 °C", eggs.Days(20)/eggs.Days(25.5), 40.0/25, 0.02)
	near(t, "ratio by the alternative law", eggs.AltRate(25.5)/eggs.AltRate(20), 40.0/25, 0.001)
}

func TestTheAlternativeLawAgreesWithinItsRange(t *testing.T) {
	eggs := davidi(t).Incubation
	near(t, "days at 27 °C [Nur & Christianus 2013]", 1/eggs.AltRate(27), 15, 0.01)
	for celsius := 20.0; celsius <= 28; celsius++ {
		near(t, fmt.Sprintf("AltRate(%v) against Rate", celsius), eggs.Rate(celsius)/eggs.AltRate(celsius), 1, 0.04)
	}
	near(t, "AltRate at its zero", eggs.AltRate(eggs.AltZero), 0, 0)
	near(t, "AltRate below its zero", eggs.AltRate(-5), 0, 0)
}

func TestTheAlternativeLawGivesThePublishedTimesOfSeaLice(t *testing.T) {
	// D = 17840 (T + 7.439)^-2.128: 49 d at 8.5 °C, tangent 105.2 - 6.578 T. Source: J. Fish Dis. 41 (2018) 973-993.
	lice := Incubation{AltScale: 17840, AltZero: -7.439, AltPower: 2.128}
	near(t, "days at 8.5 °C", 1/lice.AltRate(8.5), 49.267, 0.001)
	slope := (1/lice.AltRate(8.501) - 1/lice.AltRate(8.499)) / 0.002
	near(t, "slope at 8.5 °C", slope, -6.578, 5e-4)
	for celsius, want := range map[float64]float64{6: 70.8321, 9: 46.1330, 12: 32.2921, 15: 23.7936, 18: 18.2176, 21: 14.3703} {
		near(t, fmt.Sprintf("days at %v °C", celsius), 1/lice.AltRate(celsius), want, 5e-5)
	}
	// D = 595 (T + 9.11)^-2.05, Calanus finmarchicus. Source: Corkett, McLaren & Sevigny 1986, from memory.
	calanus := Incubation{AltScale: 595, AltZero: -9.11, AltPower: 2.05}
	for _, row := range []struct{ celsius, want float64 }{{0, 6.42}, {5, 2.618}, {10, 1.406}, {15, 0.873}} {
		near(t, fmt.Sprintf("days at %v °C", row.celsius), 1/calanus.AltRate(row.celsius), row.want, 1e-3)
	}
}

func TestTheRateNeverFallsOrJumps(t *testing.T) {
	eggs := davidi(t).Incubation
	rapid.Check(t, func(t *rapid.T) {
		celsius := rapid.Float64Range(-5, 45).Draw(t, "celsius")
		step := rapid.Float64Range(0, 2).Draw(t, "step")
		before, after := eggs.Rate(celsius), eggs.Rate(celsius+step)
		if after < before || after-before > step/eggs.DegreeDays+1e-15 {
			t.Fatalf("Rate goes from %v at %v to %v at %v: want no fall and no jump", before, celsius, after, celsius+step)
		}
		if days := eggs.Days(celsius); !math.IsInf(days, 1) && math.Abs(days*before-1) > 1e-12 {
			t.Fatalf("Days·Rate = %v at %v, want 1", days*before, celsius)
		}
	})
}

func TestWithTheWholeSlopeTheRateHasNoBend(t *testing.T) {
	eggs := davidi(t).Incubation
	eggs.SlopeAbove = 1
	for celsius := 0.0; celsius < 40; celsius++ {
		near(t, fmt.Sprintf("Rate(%v) with the whole slope", celsius), eggs.Rate(celsius), eggs.Thermal.Rate(celsius), 1e-15)
	}
}

func TestTheMeanRateIsTheMeanOverTheDay(t *testing.T) {
	eggs := davidi(t).Incubation
	for _, mean := range []float64{8, 11, 15, 22, 28, 33} {
		for _, sd := range []float64{0, 0.5, 2, 4} {
			near(t, fmt.Sprintf("MeanRate(%v, %v)", mean, sd), eggs.MeanRate(mean, sd), expected(eggs.Rate, mean, sd), 2e-6)
			near(t, fmt.Sprintf("Thermal.MeanRate(%v, %v)", mean, sd), eggs.Thermal.MeanRate(mean, sd),
				expected(eggs.Thermal.Rate, mean, sd), 2e-6)
		}
	}
}

// expected integrates a rate over a normal temperature, the slow way.
func expected(rate func(float64) float64, mean, sd float64) float64 {
	sum, weights := 0.0, 0.0
	for z := -8.0; z <= 8; z += 0.002 {
		weight := math.Exp(-z * z / 2)
		sum += weight * rate(mean+sd*z)
		weights += weight
	}
	return sum / weights
}

func TestDatesAreFlaggedAtTheEndsAndRefusedBeyond(t *testing.T) {
	eggs := davidi(t).Incubation
	for _, row := range []struct {
		celsius float64
		want    Validity
	}{
		{15.9, NoDate}, {16, Flagged}, {19.9, Flagged}, {20, Fine}, {25, Fine}, {30, Fine},
		{30.1, Flagged}, {32, Flagged}, {32.1, NoDate}, {math.NaN(), NoDate}, {math.Inf(1), NoDate},
	} {
		got, reason := eggs.Validity(row.celsius)
		if got != row.want || (reason == "") != (row.want == Fine) {
			t.Errorf("Validity(%v) = %q, %q, want %q with a reason unless fine", row.celsius, got, reason, row.want)
		}
	}
}

func ExampleIncubation_Days() {
	p, _ := Default("neocaridina-davidi")
	for _, celsius := range []float64{20, 24, 27} {
		fmt.Printf("%v °C: %.1f d, or %.1f d by the alternative law\n", celsius, p.Incubation.Days(celsius), 1/p.Incubation.AltRate(celsius))
	}
	// Output:
	// 20 °C: 26.6 d, or 26.8 d by the alternative law
	// 24 °C: 18.4 d, or 18.9 d by the alternative law
	// 27 °C: 14.9 d, or 15.0 d by the alternative law
}
