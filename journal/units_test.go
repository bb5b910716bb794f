package journal

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// TestAmounts reads every way to write an amount. The factors are those of NIST SP 811 (gallon, inch), the Kelvin
// definition of the degree Fahrenheit, and DIN 38409-6 (one German degree is 17.848 mg/L of calcium carbonate).
func TestAmounts(t *testing.T) {
	metric, imperial := MetricUnits(), Units{Temperature: "F", Volume: "gal", Length: "in", Hardness: "ppm"}
	for _, test := range []struct {
		written  string
		quantity Quantity
		units    Units
		want     float64
	}{
		{"23.4 C", QuantityTemperature, metric, 23.4}, {"22C", QuantityTemperature, metric, 22}, {"22 °C", QuantityTemperature, metric, 22},
		{"22°C", QuantityTemperature, imperial, 22}, {"22", QuantityTemperature, metric, 22}, {"74 F", QuantityTemperature, metric, 23.333333},
		{"74", QuantityTemperature, imperial, 23.333333}, {"73.4°F", QuantityTemperature, metric, 23}, {"23 celsius", QuantityTemperature, metric, 23},
		{"23\u00a0C", QuantityTemperature, metric, 23}, {"23\u202f°C", QuantityTemperature, metric, 23}, {"  23   C ", QuantityTemperature, metric, 23},
		{"+23 c", QuantityTemperature, metric, 23}, {"023.40", QuantityTemperature, metric, 23.4}, {".5 C", QuantityTemperature, metric, 0.5},
		{"32 F", QuantityTemperature, metric, 0}, {"50 F", QuantityTemperature, metric, 10}, {"68 F", QuantityTemperature, metric, 20}, {"75.2 F", QuantityTemperature, metric, 24},
		{"82.4 F", QuantityTemperature, metric, 28}, {"86 F", QuantityTemperature, metric, 30}, {"212 F", QuantityTemperature, metric, 100},
		{"9 F", QuantitySpan, metric, 5}, {"1 K", QuantitySpan, metric, 1}, {"9", QuantitySpan, imperial, 5},
		{"239", QuantityDegreeDays, metric, 239}, {"239 C·d", QuantityDegreeDays, imperial, 239}, {"430.2", QuantityDegreeDays, imperial, 239}, {"239 degree-days", QuantityDegreeDays, metric, 239},
		{"38 L", QuantityVolume, metric, 38}, {"38 litres", QuantityVolume, metric, 38}, {"10 gal", QuantityVolume, metric, 37.85411784}, {"10", QuantityVolume, imperial, 37.85411784},
		{"10 gal (US)", QuantityVolume, metric, 37.85411784}, {"10 UK gal", QuantityVolume, metric, 45.4609}, {"500 mL", QuantityVolume, metric, 0.5},
		{"18 mm", QuantityLength, metric, 18}, {"1.8 cm", QuantityLength, metric, 18}, {"0.9 in", QuantityLength, metric, 22.86}, {"0.9", QuantityLength, imperial, 22.86}, {`0.9"`, QuantityLength, metric, 22.86},
		{"3 months", QuantityAge, metric, 91.3125}, {"10 weeks", QuantityAge, metric, 70}, {"1 year", QuantityAge, metric, 365.25}, {"45d", QuantityAge, metric, 45}, {"14", QuantityDays, metric, 14},
		{"8", QuantityGH, metric, 8}, {"8 dGH", QuantityGH, imperial, 8}, {"8 °dH", QuantityGH, metric, 8}, {"178.48 ppm", QuantityGH, metric, 10}, {"178.48", QuantityGH, imperial, 10},
		{"4 dKH", QuantityKH, metric, 4}, {"71.392 mg/L", QuantityKH, metric, 4},
		{"0.25 mg/L", QuantityMass, metric, 0.25}, {"0.25 ppm", QuantityMass, metric, 0.25}, {"30 µg/L", QuantityMass, metric, 0.03}, {"30 ppb", QuantityMass, metric, 0.03},
		{"210", QuantityTDS, imperial, 210}, {"420 µS/cm", QuantityConductivity, metric, 420}, {"0.42 mS/cm", QuantityConductivity, metric, 420}, {"420 μS", QuantityConductivity, metric, 420},
		{"50 %", QuantityShare, metric, 0.5}, {"0.5", QuantityShare, metric, 0.5}, {"0.99 /d", QuantityDaily, metric, 0.99}, {"3 per litre", QuantityDensity, metric, 3},
	} {
		written, ok := splitAmount(test.written)
		if !ok {
			t.Errorf("%q is no amount", test.written)
			continue
		}
		got, problem := test.units.convert(written, test.quantity)
		if problem.code != "" || math.Abs(got-test.want) > 1e-6 {
			t.Errorf("%q as %s is %v (%s), want %v", test.written, test.quantity, got, problem.message, test.want)
		}
	}
}

func TestNoAmounts(t *testing.T) {
	for _, written := range []string{"", "C", "23,4", "23,4 C", "1,000 L", "1e3", "0x17", "1_000", "2-3", "2 - 3", "2–3", "--2", "2.3.4", ".nan", ".inf", "NaN", "２３", "1234567890123", "23.4.5 C", "- 2"} {
		if amount, ok := splitAmount(written); ok {
			if _, problem := MetricUnits().convert(amount, QuantityTemperature); problem.code == "" {
				t.Errorf("%q is taken for %v", written, amount)
			}
		}
	}
}

// TestUnitsConvertBothWays holds for every unit of every quantity: a number turned into the unit, written, and read
// again is the same number.
func TestUnitsConvertBothWays(t *testing.T) {
	for _, m := range measures {
		for _, u := range m.units {
			for _, value := range []float64{0, 0.25, 7.4, 23.4, 180} {
				written := fmt.Sprintf("%v %s", value/u.scale-u.shift, u.symbol)
				amount, ok := splitAmount(written)
				if !ok {
					continue // a negative temperature in another unit, or an exponent
				}
				got, problem := MetricUnits().convert(amount, m.quantity)
				if problem.code != "" || math.Abs(got-value) > 1e-6*max(1, value) {
					t.Errorf("%q as %s is %v (%s), want %v", written, m.quantity, got, problem.message, value)
				}
			}
		}
	}
}

func TestNearest(t *testing.T) {
	kinds := names(kindWords())
	for _, test := range []struct {
		written string
		known   []string
		want    string
	}{
		{"bered", kinds, "berried"}, {"berreid", kinds, "berried"}, {"Berried", kinds, "berried"}, {"hatch", kinds, "hatched"}, {"molted", kinds, "moulted"},
		{"water_change", kinds, "water-change"}, {"waterchange", kinds, "water-change"}, {"stock", kinds, "stocked"}, {"died ", kinds, "died"}, {"xyz", kinds, ""}, {"", kinds, ""}, {"a", kinds, ""},
		{"north-shelv", []string{"window", "north-shelf"}, "north-shelf"}, {"nort", []string{"north-shelf", "northern"}, ""}, {"north-s", []string{"north-shelf", "northern"}, "north-shelf"},
		{"ambre", []string{"umber", "amber"}, "amber"}, {"ab", []string{"ac", "ad"}, "ac"},
	} {
		if got := Nearest(test.written, test.known); got != test.want {
			t.Errorf("Nearest(%q) = %q, want %q", test.written, got, test.want)
		}
	}
	for written, want := range map[string]string{"pregnant": "berried", "dead": "died", "sold": "removed", "wc": "water-change", "molt": "moulted", "dyed": "eyed died", "lost": "dropped died"} {
		if got := strings.Join(suggest(kindWords(), written), " "); got != want {
			t.Errorf("suggest(%q) = %q, want %q", written, got, want)
		}
	}
}
