package lifecycle

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestDaysToMaturityAreThePublishedOnes(t *testing.T) {
	m := davidi(t).Maturity
	for _, row := range []struct {
		celsius, want, tol float64
		source             string
	}{
		{27, 75, 1.5, "Nur & Christianus 2013; Mahmoud et al. 2020: 75 d"},
		{27, 73.571, 1e-3, "1030/14"},
		{24, 93.636, 1e-3, "1030/11; within about 90 d in Tropea et al. 2015"},
		{21, 128.75, 1e-9, "1030/8; four to six months: common practice, no source"},
		{13, math.Inf(1), 0, "limit: no growth at the base"},
	} {
		near(t, fmt.Sprintf("Maturity.Days(%v) [%s]", row.celsius, row.source), m.Days(row.celsius), row.want, row.tol)
	}
}

func TestLengthsOfTheProfileAreThePublishedOnes(t *testing.T) {
	growth := davidi(t).Growth
	near(t, "female kappa", growth.Female.Kappa(), 1.93, 0.005)
	near(t, "male kappa", growth.Male.Kappa(), 2.41, 0.005)
	near(t, "male length at maturity: a little under 20 mm, common practice", growth.Male.Length(1), 19.5, 1e-9)
	near(t, "female length at maturity: 23 mm, common practice", growth.Female.Length(1), 23, 1e-9)
	near(t, "hatchling [Nur & Christianus 2013]", growth.Female.Length(0), 2.3, 1e-9)
	near(t, "before hatching", growth.Female.Length(-1), 2.3, 1e-9)
	near(t, "very old", growth.Female.Length(100), 26.5, 1e-9)
	near(t, "phi of the maximum", growth.Female.Phi(26.5), math.Inf(1), 0)
	near(t, "phi of a hatchling", growth.Female.Phi(2.3), 0, 0)
	mean := growth.Female.Mean(growth.Male)
	near(t, "mean of the sexes at maturity", mean.Length(1), 21.25, 1e-9)
	near(t, "mean of the sexes at hatching", mean.Hatch, 2.3, 1e-9)
	near(t, "mean of the sexes, greatest", mean.Max, 23.85, 1e-9)
}

func TestACurveGivesThePublishedLengthsOfHake(t *testing.T) {
	// Females of Pacific hake: 61.2332996 (1 - e^(-0.296253 (t + 0.0572644))). Source: Kimura 1980, US Fishery Bulletin
	// 77:765-776.
	const greatest, k, t0 = 61.2332996, 0.296253, -0.0572644
	curve := NewCurve(0, greatest, k)
	for _, row := range []struct{ age, want float64 }{{1, 16.466}, {2, 27.945}, {5.3, 48.710}, {10.3, 58.386}} {
		near(t, fmt.Sprintf("length at %v", row.age), curve.Length(row.age-t0), row.want, 1e-3)
	}
	near(t, "age at 50 cm", curve.Phi(50)+t0, 5.6669, 1e-3)
}

func TestACurveRisesFromHatchToItsGreatestLength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		hatch := rapid.Float64Range(1, 4).Draw(t, "hatch")
		greatest := hatch + rapid.Float64Range(1, 40).Draw(t, "span")
		kappa := rapid.Float64Range(0.1, 6).Draw(t, "kappa")
		phi := rapid.Float64Range(0, 3).Draw(t, "phi")
		curve := NewCurve(hatch, greatest, kappa)
		if got := curve.Kappa(); math.Abs(got-kappa) > 1e-9*kappa {
			t.Fatalf("Kappa = %v, want %v", got, kappa)
		}
		length := curve.Length(phi)
		if back := curve.Phi(length); length < greatest*(1-1e-6) && math.Abs(back-phi) > 1e-5 {
			t.Fatalf("Phi(Length(%v)) = %v", phi, back)
		}
		// The law itself: dL/dphi = kappa·(Max − L).
		const step = 1e-5
		slope := (curve.Length(phi+step) - length) / step
		if want := kappa * (greatest - length); math.Abs(slope-want) > 1e-3*(1+want) {
			t.Fatalf("slope at %v = %v, want %v", phi, slope, want)
		}
	})
}

func ExampleCurve_Length() {
	p, _ := Default("neocaridina-davidi")
	days, celsius := 60.0, 24.0
	phi := days * p.Maturity.Rate(celsius)
	fmt.Printf("after %v days at %v °C: female %.1f mm, male %.1f mm\n", days, celsius, p.Growth.Female.Length(phi), p.Growth.Male.Length(phi))
	// Output: after 60 days at 24 °C: female 19.5 mm, male 17.2 mm
}
