package water

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestTemperatureUnits(t *testing.T) {
	// NIST SP 811, appendix B.
	for fahrenheit, celsius := range map[float64]float64{
		-40: -40, 32: 0, 50: 10, 68: 20, 75.2: 24, 77: 25, 82.4: 28, 86: 30, 212: 100,
	} {
		near(t, fmt.Sprintf("Celsius(%v)", fahrenheit), Celsius(fahrenheit), celsius, 1e-12)
		near(t, fmt.Sprintf("Fahrenheit(%v)", celsius), Fahrenheit(celsius), fahrenheit, 1e-12)
	}
	near(t, "a span of 9 °F [NIST SP 811, from memory]", CelsiusSpan(9), 5, 0)
	near(t, "a span of 5 °C", FahrenheitSpan(5), 9, 0)
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Float64Range(-50, 150).Draw(t, "a"), rapid.Float64Range(-50, 150).Draw(t, "b")
		if math.Abs(Celsius(a)-Celsius(b)-CelsiusSpan(a-b)) > 1e-12 {
			t.Fatalf("the span of %v and %v does not match their difference", a, b)
		}
	})
}

func TestVolumes(t *testing.T) {
	near(t, "US gallon: 231 cubic inches [NIST Handbook 44]", LitresPerUSGallon, 231*MillimetresPerInch*MillimetresPerInch*MillimetresPerInch/1e6, 1e-12)
	near(t, "US gallon [NIST SP 811]", LitresPerUSGallon, 3.785412, 5e-7)
	near(t, "UK gallon [NIST SP 811]", LitresPerUKGallon, 4.54609, 0)
	near(t, "ratio", LitresPerUSGallon/LitresPerUKGallon, 0.832674, 1e-6)
	near(t, "US gallons in a litre", 1/LitresPerUSGallon, 0.264172, 1e-6)
	near(t, "UK gallons in a litre", 1/LitresPerUKGallon, 0.219969, 1e-6)
}

func TestHardness(t *testing.T) {
	for _, row := range []struct {
		from, to         HardnessUnit
		want, tol, value float64
		source           string
	}{
		{GermanDegree, PartsPerMillion, 17.848, 1e-4, 1, "DIN 38409-6"},
		{GermanDegree, Millimoles, 0.17833, 1e-4, 1, "DIN 38409-6"},
		{GermanDegree, Milliequivalents, 0.35665, 1e-4, 1, "DIN 38409-6"},
		{Milliequivalents, GermanDegree, 2.805, 1e-3, 1, "FAO aquaculture glossary"},
		{PartsPerMillion, Milliequivalents, 1, 1e-3, 50, "FAO aquaculture glossary"},
		{Millimoles, Milliequivalents, 2, 1e-9, 1, "German water-chemistry table"},
		{Millimoles, GermanDegree, 5.6, 3e-3, 1, "German water-chemistry table"},
		{Millimoles, EnglishDegree, 7.02, 3e-3, 1, "German water-chemistry table"},
		{Millimoles, FrenchDegree, 10, 3e-3, 1, "German water-chemistry table"},
		{EnglishDegree, PartsPerMillion, 14.254, 1e-4, 1, "grain of 64.79891 mg in a UK gallon"},
		{GrainsPerGallon, PartsPerMillion, 17.118, 1e-4, 1, "grain of 64.79891 mg in a US gallon"},
		{FrenchDegree, PartsPerMillion, 70, 1e-12, 7, "10 mg/L"},
		{Millimoles, PartsPerMillion, 100, 3e-3, 1, "German water-chemistry table"},
		{GermanDegree, PartsPerMillion, PPMPerDegree, 0, 1, "DIN 38409-6, as tables print it"},
	} {
		got, err := row.from.Convert(row.value, row.to)
		if err != nil {
			t.Fatal(err)
		}
		near(t, fmt.Sprintf("%v %s in %s [%s]", row.value, row.from, row.to, row.source), got/row.want, 1, row.tol)
	}
	// Magnesium and calcium 72 and 26 mg/L: 286.9, Standard Methods 2340 B; a published example with rounded factors
	// has 286.
	near(t, "HardnessOfIons(72, 26)", HardnessOfIons(72, 26), 286.9, 0.05)
	// One degree of calcium alone is 7.147 mg/L Ca, of magnesium alone 4.334 mg/L Mg: DIN 38409-6.
	near(t, "calcium of a degree", HardnessOfIons(7.147, 0), 17.848, 0.01)
	near(t, "magnesium of a degree", HardnessOfIons(0, 4.334), 17.848, 0.01)
	// One milliequivalent is 28 mg/L of calcium oxide, ten of which make a degree: FAO aquaculture glossary.
	meq, _ := Milliequivalents.Convert(1, GermanDegree)
	near(t, "calcium oxide of a milliequivalent", 10*meq, 28, 0.05)
	// From atomic weights (IUPAC) a degree, 10 mg/L of CaO, is 17.84813 mg/L of CaCO3.
	near(t, "a degree from atomic weights", PPMPerDegree, 10*molarCaCO3/56.077, 2e-4)
	near(t, "bicarbonate of a degree", BicarbonatePerDegree, 61.017*0.35665, 0.01)
}

func TestHardnessLaws(t *testing.T) {
	units := HardnessUnits()
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := rapid.SampledFrom(units).Draw(t, "a"), rapid.SampledFrom(units).Draw(t, "b"), rapid.SampledFrom(units).Draw(t, "c")
		value := rapid.Float64Range(0, 1000).Draw(t, "value")
		there, err := a.Convert(value, b)
		if err != nil {
			t.Fatal(err)
		}
		on, _ := b.Convert(there, c)
		straight, _ := a.Convert(value, c)
		if math.Abs(on-straight) > 1e-9*(1+straight) {
			t.Fatalf("%v %s over %s is %v %s, straight %v", value, a, b, on, c, straight)
		}
	})
	for _, bad := range []struct {
		value    float64
		from, to HardnessUnit
	}{{-1, GermanDegree, PartsPerMillion}, {math.NaN(), GermanDegree, PartsPerMillion}, {1, "soft", PartsPerMillion}, {1, GermanDegree, ""}} {
		if got, err := bad.from.Convert(bad.value, bad.to); err == nil {
			t.Errorf("%q.Convert(%v, %q) = %v, want an error", bad.from, bad.value, bad.to, got)
		}
	}
}

func TestTDS(t *testing.T) {
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
		back, err := Conductivity(got, row.factor)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "Conductivity turns it round", back, row.conductivity, 1e-9)
	}
	for _, bad := range [][2]float64{{-1, .5}, {100, 0}, {100, 1}, {100, .39}, {math.NaN(), .5}} {
		if _, err := TDS(bad[0], bad[1]); err == nil {
			t.Errorf("TDS(%v, %v) was accepted", bad[0], bad[1])
		}
		if _, err := Conductivity(bad[0], bad[1]); err == nil {
			t.Errorf("Conductivity(%v, %v) was accepted", bad[0], bad[1])
		}
	}
}

func ExampleHardnessUnit_Convert() {
	hardness, _ := PartsPerMillion.Convert(142.8, GermanDegree)
	fmt.Printf("%.1f dGH\n", hardness)
	// Output: 8.0 dGH
}

func ExampleTDS() {
	tds, _ := TDS(420, 0.5)
	fmt.Printf("%.0f ppm with the factor 0.5\n", tds)
	// Output: 210 ppm with the factor 0.5
}
