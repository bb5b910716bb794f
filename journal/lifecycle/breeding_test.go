package lifecycle

import (
	"fmt"
	"math"
	"testing"
)

func TestLargerFemalesHaveMoreYoung(t *testing.T) {
	f := davidi(t).Fecundity
	for _, row := range []struct {
		mm, want float64
		source   string
	}{
		{23, 36, "middle of 21-51: Nur & Christianus 2013"},
		{27, 36 * 1.56668, "(27/23)^2.8 by hand: e^(2.8·0.160343)"},
		{20, 36 * 0.6761, "(20/23)^2.8 by hand: e^(2.8·(−0.139762))"},
		{5, 10, "limit: held at the minimum"},
		{40, 60, "limit: held at the maximum"},
		{-1, 10, "limit: no length"},
	} {
		near(t, fmt.Sprintf("Hatchlings(%v) [%s]", row.mm, row.source), f.Hatchlings(row.mm), row.want, 0.005)
	}
	for mm := 19.0; mm < 27; mm++ {
		if got := f.Hatchlings(mm); got < 20 || got > 60 {
			t.Errorf("Hatchlings(%v) = %v, far from the published 21-51", mm, got)
		}
	}
	// Law: the logarithm rises with the exponent.
	slope := math.Log(f.Hatchlings(24)/f.Hatchlings(22)) / math.Log(24.0/22)
	near(t, "slope of ln hatchlings on ln length", slope, 2.8, 1e-9)
}

func TestEggsAreLostToTheHeat(t *testing.T) {
	f := davidi(t).Fecundity
	for _, row := range []struct {
		celsius, want float64
		source        string
	}{
		{22, 24, "assumption: a fifth is lost"},
		{28, 24, "Tropea et al. 2015: eggs held at 28 °C"},
		{30, 12, "half-way between"},
		{32, 0, "Tropea et al. 2015: all lost at 32 °C"},
		{35, 0, "limit"},
	} {
		near(t, fmt.Sprintf("EggsToHatchlings(30, %v) [%s]", row.celsius, row.source), f.EggsToHatchlings(30, row.celsius), row.want, 1e-9)
	}
}

func TestFemalesCarryAgainAfterAnIntervalAndNotInTheCold(t *testing.T) {
	p := davidi(t)
	near(t, "IntervalDays at 24 °C", p.Breeding.IntervalDays(p.Incubation.Days(24)), 27.577, 1e-3)
	// 50-80 % of the females carry eggs in Caridina sakishimensis: Soomro et al. 2011, doi 10.1651/10-3329.1.
	if share := 20 / p.Breeding.IntervalDays(20); share < 0.5 || share > 0.8 {
		t.Errorf("share of the time with eggs = %v, want 0.5 to 0.8", share)
	}
	for _, row := range []struct{ celsius, want float64 }{{10, 0}, {17, 0}, {19, 0.5}, {21, 1}, {28, 1}} {
		near(t, fmt.Sprintf("ReadinessAt(%v)", row.celsius), p.Breeding.ReadinessAt(row.celsius), row.want, 1e-12)
	}
	for _, row := range []struct{ days, want float64 }{{100, 1}, {365, 1}, {456.5, 0.65}, {548, 0.3}, {900, 0.3}} {
		near(t, fmt.Sprintf("ReadinessOf(%v)", row.days), p.Breeding.ReadinessOf(row.days), row.want, 1e-12)
	}
}

func ExampleFecundity_Hatchlings() {
	p, _ := Default("neocaridina-davidi")
	fmt.Printf("%.0f young from a female of 25 mm, %.0f from 30 eggs\n", p.Fecundity.Hatchlings(25), p.Fecundity.EggsToHatchlings(30, 23))
	// Output: 45 young from a female of 25 mm, 24 from 30 eggs
}
