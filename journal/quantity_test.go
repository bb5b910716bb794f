package journal

import (
	"math"
	"testing"
)

func TestParseQuantity(t *testing.T) {
	for _, c := range []struct {
		text     string
		quantity Quantity
		want     float64
		err      string
		source   string
	}{
		{"22C", QuantityTemperature, 22, "", "as written"},
		{"22.5 °C", QuantityTemperature, 22.5, "", "as written"},
		{"77F", QuantityTemperature, 25, "", "NIST SP 811, appendix B"},
		{"22", QuantityTemperature, 22, "", "the unit of the journal"},
		{"10 gal", QuantityVolume, 37.85411784, "", "NIST SP 811, appendix B"},
		{"40L", QuantityVolume, 40, "", "as written"},
		{"40 litre", QuantityVolume, 40, "", "as written"},
		{"22X", QuantityTemperature, 0, `"22X": unknown unit "X"; allowed: "C" or "F"`, ""},
		{"40 liters", QuantityVolume, 40, "", "as written"},
		{"40 litrs", QuantityVolume, 0, `"40 litrs": unknown unit "litrs"; did you mean "L"?`, ""},
		{"70C", QuantityTemperature, 0, `"70C": it can be 0 to 45 C`, ""},
		{"74", QuantityTemperature, 0, `"74": it can be 0 to 45 C; if it is Fahrenheit, write 74 F`, ""},
		{"22,5C", QuantityTemperature, 0, `"22,5C" is no amount of temperature; write 22.5C`, ""},
		{"warm", QuantityTemperature, 0, `"warm" is no amount of temperature`, ""},
		{"-3 L", QuantityVolume, 0, `"-3 L": it cannot be below zero`, ""},
	} {
		got, err := ParseQuantity(c.text, c.quantity, MetricUnits())
		message := ""
		if err != nil {
			message = err.Error()
		}
		if math.Abs(got-c.want) > 1e-9 || message != c.err {
			t.Errorf("ParseQuantity(%q) = %v, %q; want %v, %q (%s)", c.text, got, message, c.want, c.err, c.source)
		}
	}
}
