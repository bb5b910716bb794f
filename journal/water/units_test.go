package water

import (
	"fmt"
	"math"
	"testing"
)

func TestTemperaturesConvertAtTheirFixedPoints(t *testing.T) {
	// NIST SP 811, appendix B.
	for fahrenheit, celsius := range map[float64]float64{
		-40: -40, 32: 0, 50: 10, 68: 20, 75.2: 24, 77: 25, 82.4: 28, 86: 30, 212: 100,
	} {
		near(t, fmt.Sprintf("Fahrenheit(%v)", celsius), Fahrenheit(celsius), fahrenheit, 1e-12)
		near(t, fmt.Sprintf("law: the span of %v and 20 is their difference", celsius), FahrenheitSpan(celsius-20), fahrenheit-68, 1e-12)
	}
	near(t, "a span of 5 °C [NIST SP 811, from memory]", FahrenheitSpan(5), 9, 0)
}

func TestVolumesConvertByTheirDefinition(t *testing.T) {
	near(t, "US gallon: 231 cubic inches [NIST Handbook 44]", LitresPerUSGallon, 231*MillimetresPerInch*MillimetresPerInch*MillimetresPerInch/1e6, 1e-12)
	near(t, "US gallon [NIST SP 811]", LitresPerUSGallon, 3.785412, 5e-7)
	near(t, "UK gallon [NIST SP 811]", LitresPerUKGallon, 4.54609, 0)
	near(t, "ratio", LitresPerUSGallon/LitresPerUKGallon, 0.832674, 1e-6)
	near(t, "US gallons in a litre", 1/LitresPerUSGallon, 0.264172, 1e-6)
	near(t, "UK gallons in a litre", 1/LitresPerUKGallon, 0.219969, 1e-6)
}

func TestHardnessConvertsByItsDefinition(t *testing.T) {
	const caco3, cao = 100.087, 56.077 // g/mol: IUPAC standard atomic weights
	near(t, "ppm of a degree [DIN 38409-6]", PPMPerDegree, 17.848, 1e-4)
	near(t, "a degree from atomic weights: 10 mg/L of CaO", PPMPerDegree, 10*caco3/cao, 2e-4)
	near(t, "mmol of a degree [DIN 38409-6]", PPMPerDegree/caco3, 0.17833, 2e-5)
	near(t, "degrees of a milliequivalent [FAO aquaculture glossary]", caco3/2/PPMPerDegree, 2.805, 3e-3)
	near(t, "degrees of a millimole [German water-chemistry table]", caco3/PPMPerDegree, 5.6, 0.01)
	// Calcium 7.147 mg/L or magnesium 4.334 mg/L alone make a degree: DIN 38409-6.
	near(t, "a degree of calcium", 7.147/40.078*caco3, PPMPerDegree, 0.01)
	near(t, "a degree of magnesium", 4.334/24.305*caco3, PPMPerDegree, 0.01)
}

func TestDissolvedSolidsFollowConductivity(t *testing.T) {
	// Meter makers' tables of conductivity standards: on the 442 scale 1413 µS/cm is 1000 ppm, on the NaCl scale 702.1, on
	// the KCl scale 744.7. No single factor fits a scale, which is why the factor must be shown.
	for _, row := range []struct{ conductivity, factor, want float64 }{
		{1413, .7078, 1000}, {1500, .7000, 1050}, {447, .6712, 300}, {84, .6012, 50.50}, {12880, .8825, 11367},
		{1413, .4969, 702.1}, {447, .4821, 215.5}, {1500, .4914, 737.1}, // NaCl
		{1413, .5270, 744.7}, {84, .4807, 40.38}, {1500, .5047, 757.1}, // KCl
	} {
		got, err := TDS(row.conductivity, row.factor)
		if err != nil {
			t.Fatal(err)
		}
		near(t, fmt.Sprintf("TDS(%v, %v)", row.conductivity, row.factor), got/row.want, 1, 5e-4)
	}
	for _, bad := range [][2]float64{{-1, .5}, {100, 0}, {100, 1}, {100, .39}, {math.NaN(), .5}} {
		if _, err := TDS(bad[0], bad[1]); err == nil {
			t.Errorf("TDS(%v, %v) was accepted", bad[0], bad[1])
		}
	}
}

func ExampleFahrenheit() {
	fmt.Printf("%.1f °F\n", Fahrenheit(24))
	// Output: 75.2 °F
}

func ExampleTDS() {
	tds, _ := TDS(420, 0.5)
	fmt.Printf("%.0f ppm with the factor 0.5\n", tds)
	// Output: 210 ppm with the factor 0.5
}
