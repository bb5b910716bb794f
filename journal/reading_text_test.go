package journal

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestParseReadings(t *testing.T) {
	imperial := Units{Temperature: "F", Volume: "gal", Length: "in", Hardness: "ppm"}
	for _, c := range []struct {
		text  string
		units Units
		want  []TypedReading
	}{
		{"gh 12, nitrate <5, temperature 77 F", MetricUnits(), []TypedReading{
			{Reading{Kind: GH, Value: 12}, "dGH"}, {Reading{Kind: Nitrate, Value: 5, Below: true}, "mg/L"}, {Reading{Kind: Temperature, Value: 25}, "F"}}},
		{"GH: 178.48 mg/L CaCO3, kh=4dKH", MetricUnits(), []TypedReading{{Reading{Kind: GH, Value: 10}, "ppm"}, {Reading{Kind: KH, Value: 4}, "dKH"}}},
		{"gh8,conductivity 0.4 mS/cm", MetricUnits(), []TypedReading{{Reading{Kind: GH, Value: 8}, "dGH"}, {Reading{Kind: Conductivity, Value: 400}, "mS/cm"}}},
		{"temperature 77, gh 178.48, ph 7.2", imperial, []TypedReading{{Reading{Kind: Temperature, Value: 25}, "F"}, {Reading{Kind: GH, Value: 10}, "ppm"}, {Reading{Kind: PH, Value: 7.2}, ""}}},
	} {
		got, err := ParseReadings(c.text, c.units)
		round := cmp.Comparer(func(a, b float64) bool { return math.Abs(a-b) < 1e-9 })
		if diff := cmp.Diff(c.want, got, round); err != nil || diff != "" {
			t.Errorf("ParseReadings(%q): %v\n%s", c.text, err, diff)
		}
	}
}

func TestParseReadingsRefuses(t *testing.T) {
	for text, want := range map[string]string{
		"":                 `"" is no reading; write a name and a number, such as "gh 8"`,
		"12":               `"12" is no reading; write a name and a number, such as "gh 8"`,
		"gh":               `"gh" is ""; it takes a number, or < and a number; for a trace too small to read, write < and the smallest step of the test, such as <0.25`,
		"gh 3,5":           `"gh 3,5" has a comma before "5"; a decimal number has a point`,
		"gh 3, gh 4":       `"gh" is given twice`,
		"no3 40":           `unknown reading "no3"; did you mean "nitrate"?`,
		"temp 24":          `unknown reading "temp"; did you mean "temperature"?`,
		"gh 3 dHG":         `"gh" is "3 dHG"; unknown unit "dHG"; did you mean "dGH"?`,
		"ammonia trace":    `"ammonia" is "trace"; it takes a number, or < and a number; for a trace too small to read, write < and the smallest step of the test, such as <0.25`,
		"ammonia 0-0.25":   `"ammonia" is "0-0.25"; it takes a number, or < and a number; a reading is one number: 0, 0.25, or <0.25 for less than that`,
		"ph 15":            `"ph" is "15"; pH runs from 0 to 14`,
		"temperature 77":   `"temperature" is "77"; it can be 0 to 45 C; if it is Fahrenheit, write 77 F`,
		"nitrate -3":       `"nitrate" is "-3"; it cannot be below zero`,
		"gh 3 nitrate 4":   `"gh" is "3 nitrate 4"; a comma is missing before "nitrate"; put a comma after each value`,
		"gh 1, , nitrate4": `"" is no reading; write a name and a number, such as "gh 8"`,
	} {
		if _, err := ParseReadings(text, MetricUnits()); err == nil || err.Error() != want {
			t.Errorf("ParseReadings(%q): %v\nwant %s", text, err, want)
		}
	}
}

func TestParseChange(t *testing.T) {
	for text, want := range map[string][2]Maybe[float64]{
		"25 %": {Known(0.25), {}}, "25%": {Known(0.25), {}}, "10 L": {{}, Known(10.0)}, "10 gal": {{}, Known(37.85411784)}, "10 UK gal": {{}, Known(45.4609)},
	} {
		share, volume, err := ParseChange(text, MetricUnits())
		if err != nil || share != want[0] || volume.Known != want[1].Known || math.Abs(volume.Value-want[1].Value) > 1e-9 {
			t.Errorf("ParseChange(%q) = %v, %v, %v", text, share, volume, err)
		}
	}
	for text, want := range map[string]string{
		"":      "a water change needs its size, such as 25 % or 10 L",
		"25":    `"25": it needs a unit: "%", "L" or "gal"; write 25 % or 25 L`,
		"120 %": `"120 %": a share is 0 to 100 %`,
		"half":  `"half" is no size of a water change`,
		"2,5 L": `"2,5 L" is no size of a water change; write 2.5 L`,
	} {
		if _, _, err := ParseChange(text, MetricUnits()); err == nil || err.Error() != want {
			t.Errorf("ParseChange(%q): %v\nwant %s", text, err, want)
		}
	}
}

// TestInUnitTurnsAround takes every unit of every reading there and back.
func TestInUnitTurnsAround(t *testing.T) {
	for _, kind := range ReadingKinds() {
		for _, unit := range measureOf(kind.Quantity()).symbols() {
			shown := kind.Quantity().InUnit(12.5, unit)
			back, err := ParseAmount(decimal(round(shown, 9))+" "+unit, kind.Quantity(), MetricUnits())
			if err != nil || math.Abs(back.Value-12.5) > 1e-6 || back.Unit != unit {
				t.Errorf("12.5 of %s is %v %s, read back as %+v (%v)", kind, shown, unit, back, err)
			}
		}
	}
}

func TestALimitIsNoMeasurement(t *testing.T) {
	readings := []Reading{{Kind: Ammonia, Value: 0.25, Below: true}, {Kind: PH, Value: 7.2}}
	if r, ok := ReadingOf(readings, Ammonia); !ok || !r.Below {
		t.Errorf("ReadingOf ammonia: %v, %v; want the limit", r, ok)
	}
	if value, ok := MeasuredOf(readings, Ammonia); ok {
		t.Errorf("MeasuredOf ammonia: %v; want nothing, because <0.25 is a limit", value)
	}
	if value, ok := MeasuredOf(readings, PH); !ok || value != 7.2 {
		t.Errorf("MeasuredOf ph: %v, %v; want 7.2", value, ok)
	}
	if _, ok := MeasuredOf(readings, GH); ok {
		t.Error("MeasuredOf gh: found, and there is none")
	}
}
