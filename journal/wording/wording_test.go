package wording

import (
	"math"
	"strings"
	"testing"

	"pleopod/journal"
)

func TestNumber(t *testing.T) {
	for _, c := range []struct {
		value  float64
		digits int
		want   string
	}{{1.50, 2, "1.5"}, {2, 1, "2"}, {100, 0, "100"}, {-0.001, 2, "0"}, {-1.25, 1, "−1.2"}, {0.0048, 4, "0.0048"}, {math.NaN(), 1, "unknown"}, {math.Inf(1), 1, "unknown"}} {
		if got := Number(c.value, c.digits); got != c.want {
			t.Errorf("Number(%v, %d) = %q, want %q", c.value, c.digits, got, c.want)
		}
	}
}

func TestPhrases(t *testing.T) {
	for want, words := range map[string][]string{"": nil, "a": {"a"}, "a and b": {"a", "b"}, "a, b and c": {"a", "b", "c"}} {
		if got := List(words); got != want {
			t.Errorf("List(%q) = %q, want %q", words, got, want)
		}
	}
	for want, got := range map[string]string{
		"0 shrimp": Count(0, "a", "shrimp"), "1 day": Count(1, "day", "days"), "13 days": Count(13, "day", "days"),
		"Ångström": Sentence("ångström"), "pH falls": Sentence("pH falls"), "": Sentence("") + Date(0),
		"4 March 2026": Date(journal.NewDay(2026, 3, 4)),
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// Every reading of the format is written in the journal's unit and read back as what it was.
func TestAmountsReadBack(t *testing.T) {
	for _, units := range []Units{{}, {journal.MetricUnits()}, {journal.Units{Temperature: "F", Volume: "gal", Length: "in", Hardness: "ppm"}}} {
		for _, kind := range journal.ReadingKinds() {
			const value = 7.0
			text := string(kind) + " " + strings.ReplaceAll(units.Amount(kind, value), Joined, " ")
			read, err := journal.ParseReadings(text, units.Units)
			if err != nil || len(read) != 1 {
				t.Errorf("%q: %v", text, err)
				continue
			}
			if off := math.Abs(read[0].Value - value); read[0].Kind != kind || off > 0.06 {
				t.Errorf("%q is read as %v %v", text, read[0].Kind, read[0].Value)
			}
		}
	}
}

func TestReadingNamesAreWords(t *testing.T) {
	for _, kind := range journal.ReadingKinds() {
		if name := ReadingName(kind); name == "" || name == "gh" || name == "kh" || name == "tds" || name == "ph" {
			t.Errorf("%s is called %q", kind, name)
		}
	}
}

// The digits of a reading follow from its unit, and the sign of a degree stands before C and F alone.
func TestDigits(t *testing.T) {
	for _, row := range []struct {
		kind journal.ReadingKind
		unit string
		want int
	}{
		{journal.Temperature, "C", 1}, {journal.Temperature, "F", 1}, {journal.PH, "", 1}, {journal.GH, "dGH", 1},
		{journal.GH, "ppm", 0}, {journal.KH, "ppm", 0}, {journal.TDS, "ppm", 0}, {journal.Conductivity, "µS/cm", 0},
		{journal.Conductivity, "mS/cm", 3}, {journal.Ammonia, "mg/L", 3}, {journal.Copper, "µg/L", 0},
	} {
		if got := Digits(row.kind, row.unit); got != row.want {
			t.Errorf("%s in %q has %d digits, want %d", row.kind, row.unit, got, row.want)
		}
	}
	for unit, want := range map[string]string{"C": "°C", "F": "°F", "dGH": "dGH", "": ""} {
		if got := Sign(unit); got != want {
			t.Errorf("%q is written %q, want %q", unit, got, want)
		}
	}
}
