package water

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestUnionisedFractionsAreThoseOfThePublishedTable(t *testing.T) {
	// University of Florida, IFAS EDIS FA031, table of fractions. Left out: the column of 32 °C, computed for another
	// temperature, and 20 °C with pH 7.4, which are misprints.
	celsius := []float64{6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30}
	for ph, row := range map[float64][]float64{
		7.0: {.0013, .0016, .0018, .0022, .0025, .0029, .0034, .0039, .0046, .0052, .0060, .0069, .0080},
		7.2: {.0021, .0025, .0029, .0034, .0040, .0046, .0054, .0062, .0072, .0083, .0096, .0110, .0126},
		7.6: {.0053, .0063, .0073, .0086, .0100, .0116, .0134, .0155, .0179, .0206, .0236, .0271, .0310},
		7.8: {.0084, .0099, .0116, .0135, .0157, .0182, .0211, .0244, .0281, .0322, .0370, .0423, .0482},
		8.0: {.0133, .0156, .0182, .0212, .0247, .0286, .0330, .0381, .0438, .0502, .0574, .0654, .0743},
		8.6: {.0510, .0593, .0688, .0795, .0914, .1048, .1197, .1361, .1541, .1737, .1950, .2178},
	} {
		for i, want := range row {
			got, err := UnionisedFraction(ph, celsius[i])
			if err != nil {
				t.Fatal(err)
			}
			near(t, fmt.Sprintf("UnionisedFraction(%v, %v)", ph, celsius[i]), got, want, 6e-5)
		}
	}
}

func TestUnionisedFractionsHoldToSixDigits(t *testing.T) {
	// Emerson's formula evaluated separately to six digits.
	celsius := []float64{10, 15, 20, 25, 30}
	for ph, row := range map[float64][]float64{
		7.0: {.001853, .002721, .003942, .005639, .007965},
		7.5: {.005835, .008553, .012361, .017616, .024760},
		8.0: {.018221, .026557, .038071, .053662, .074319},
		8.5: {.055437, .079420, .111235, .152052, .202480},
		9.0: {.156543, .214339, .283555, .361859, .445326},
	} {
		for i, want := range row {
			got, _ := UnionisedFraction(ph, celsius[i])
			near(t, fmt.Sprintf("UnionisedFraction(%v, %v)", ph, celsius[i]), got, want, 1e-6)
		}
	}
}

func TestUnionisedFractionsAreNearThoseOfTrussell(t *testing.T) {
	// Trussell 1972, J. Fish. Res. Board Can. 29:1505-1507, % un-ionised at 10, 15, 20, 25 °C: another pKa, within 2.6
	// %.
	celsius := []float64{10, 15, 20, 25}
	for ph, row := range map[float64][]float64{
		7.0: {.19, .27, .40, .55}, 7.5: {.59, .85, 1.24, 1.73}, 8.0: {1.83, 2.65, 3.83, 5.28}, 8.5: {5.55, 7.98, 11.18, 14.97},
	} {
		for i, want := range row {
			got, _ := UnionisedFraction(ph, celsius[i])
			tolerance := 0.026
			if ph >= 7.5 && celsius[i] <= 20 {
				tolerance = 0.012
			}
			near(t, fmt.Sprintf("UnionisedFraction(%v, %v) against Trussell", ph, celsius[i]), 100*got/want, 1, tolerance)
		}
	}
	// The same manual: 1.0 mg/L at 20 °C and pH 8.5 holds 0.1118.
	got, _ := Unionised(1, 8.5, 20)
	near(t, "Unionised(1, 8.5, 20)", got, 0.1118, 0.001)
	near(t, "ionised of 1 mg/L", 1-got, 0.8882, 0.001)
}

func TestPKaIsThePublishedOneAndHalvesAmmonia(t *testing.T) {
	for celsius, want := range map[float64]float64{0: 10.0844, 10: 9.7314, 20: 9.4025, 25: 9.2464, 30: 9.0954} {
		near(t, fmt.Sprintf("PKa(%v) [Emerson et al. 1975]", celsius), PKa(celsius), want, 5e-5)
		half, _ := UnionisedFraction(PKa(celsius), celsius)
		near(t, "half at pH = pKa", half, 0.5, 1e-12)
	}
}

func TestMoreAmmoniaIsUnionisedInWarmerAndHigherPH(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ph, celsius := rapid.Float64Range(0, 13.9).Draw(t, "ph"), rapid.Float64Range(0, 44).Draw(t, "celsius")
		here, err := UnionisedFraction(ph, celsius)
		warmer, _ := UnionisedFraction(ph, celsius+1)
		higher, _ := UnionisedFraction(ph+0.1, celsius)
		if err != nil || here < 0 || here > 1 || warmer < here || higher < here {
			t.Fatalf("fraction %v, a degree warmer %v, 0.1 pH higher %v, error %v", here, warmer, higher, err)
		}
		double, _ := Unionised(2, ph, celsius)
		if math.Abs(double-2*here) > 1e-15 {
			t.Fatalf("Unionised(2, …) = %v, want twice %v", double, here)
		}
	})
}

func TestImpossibleWaterHasNoUnionisedPart(t *testing.T) {
	for _, row := range []struct{ total, ph, celsius float64 }{
		{-0.1, 7, 20}, {1, -1, 20}, {1, 14.1, 20}, {1, 7, -1}, {1, 7, 46},
		{math.NaN(), 7, 20}, {1, math.NaN(), 20}, {1, 7, math.NaN()}, {math.Inf(1), 7, 20},
	} {
		if got, err := Unionised(row.total, row.ph, row.celsius); err == nil {
			t.Errorf("Unionised(%v, %v, %v) = %v, want an error", row.total, row.ph, row.celsius, got)
		}
	}
}

func TestAmmoniaBasesConvertByTheirMasses(t *testing.T) {
	for _, row := range []struct {
		from, to AmmoniaBasis
		want     float64
	}{{AsN, AsNH3, 1.2159}, {AsN, AsNH4, 1.2879}, {AsNH4, AsNH3, 17.031 / 18.039}, {AsNH3, AsN, 1 / 1.2159}, {AsN, AsN, 1}} {
		got, err := row.from.Convert(1, row.to)
		if err != nil {
			t.Fatal(err)
		}
		near(t, fmt.Sprintf("1 as %s is as %s [IUPAC atomic weights]", row.from, row.to), got/row.want, 1, 1e-4)
	}
	// The toxic part of a total as NH4, told as NH3: the worked example of FA031 on another basis.
	part, _ := Unionised(1, 8, 24)
	asNH3, _ := AsNH4.Convert(part, AsNH3)
	near(t, "un-ionised as NH3 from a total as NH4 [IUPAC]", asNH3, 0.0502*17.031/18.039, 6e-5)
	if _, err := AmmoniaBasis("NO3").Convert(1, AsN); err == nil {
		t.Error("converted from a basis that does not exist")
	}
	if _, err := AsN.Convert(1, ""); err == nil {
		t.Error("converted to a basis that does not exist")
	}
	near(t, "nitrite [IUPAC]", NitritePerNitrogen, 3.2844, 3e-4)
	near(t, "nitrate [IUPAC]", NitratePerNitrogen, 4.4266, 4e-4)
}

func ExampleUnionised() {
	// The worked example of the University of Florida fact sheet FA031: 1.0 mg/L at pH 8.0 and 24 °C (75 °F).
	harmful, err := Unionised(1.0, 8.0, 24)
	fmt.Printf("%.4f mg/L %v\n", harmful, err)
	_, err = Unionised(1.0, 8.0, 75)
	fmt.Println(err)
	// Output:
	// 0.0502 mg/L <nil>
	// temperature is 75 °C; it must lie between 0 and 45 °C
}
