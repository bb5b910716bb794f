package gather

import "testing"

// TestDates reads dates in the forms that loggers and spreadsheets give. The values follow from the calendar;
// 46095 is the day number that spreadsheets give to 2026-03-14 (45658 is 2025-01-01, and 437 days follow).
func TestDates(t *testing.T) {
	for _, test := range []struct {
		text  string
		order Order
		want  string // "" when it is no date
	}{
		{"2026-03-14", YearFirst, "2026-03-14"}, {"2026/3/4", YearFirst, "2026-03-04"}, {"2026.03.14.", YearFirst, "2026-03-14"},
		{"2026-03-14T08:00:30Z", YearFirst, "2026-03-14 08:00:30"}, {"2026-03-14 8:05", YearFirst, "2026-03-14 08:05"},
		{"14.3.2026", DayFirst, "2026-03-14"}, {"14. 3. 2026", DayFirst, "2026-03-14"}, {"14/03/26 20:15", DayFirst, "2026-03-14 20:15"}, {"3/14/2026", MonthFirst, "2026-03-14"}, {"26-03-14", YearFirst, "2026-03-14"},
		{"03/14/26 12:00 AM", MonthFirst, "2026-03-14 00:00"}, {"03/14/26 12:30:00 PM", MonthFirst, "2026-03-14 12:30"}, {"03/14/26 1:05 p.m.", MonthFirst, "2026-03-14 13:05"},
		{"Sat, 14 Mar 2026", "", "2026-03-14"}, {"14 März 2026", "", "2026-03-14"}, {"14 août 2026", "", "2026-08-14"}, {"1 juil. 2026", "", "2026-07-01"}, {"14 de mayo de 2026", "", "2026-05-14"},
		{"March 14th, 2026", "", "2026-03-14"}, {"2026年3月14日 08:00", "", "2026-03-14 08:00"},
		{"45658", "", "2025-01-01"}, {"46095", "", "2026-03-14"}, {"46095.75", "", "2026-03-14 18:00"}, {"46095,5", "", "2026-03-14 12:00"},
		{"2026-02-30", YearFirst, ""}, {"31/04/2026", DayFirst, ""}, {"14/03/2026", MonthFirst, ""}, {"12345", "", ""}, {"99999", "", ""}, {"14 Foo 2026", "", ""}, {"03/14/26 13:00 PM", MonthFirst, ""},
		{"2026-03-14 25:00", YearFirst, ""}, {"14/03/026", DayFirst, ""}, {"", DayFirst, ""}, {"yesterday", DayFirst, ""}, {"03/04/2026", "", ""},
	} {
		got, ok := readDate(test.text, test.order)
		if ok != (test.want != "") || (ok && got.String() != test.want) {
			t.Errorf("%q in the order %q is %v, %v, want %q", test.text, test.order, got, ok, test.want)
		}
	}
}

func TestNumbers(t *testing.T) {
	for _, test := range []struct {
		text    string
		decimal Mark
		want    string // with < before and the unit behind; "" when it is no number
	}{
		{"23.4", Point, "23.4 "}, {"23,4", Point, "23.4 "}, {"23.4", Comma, "23.4 "}, {"1.234", Comma, "1234 "}, {"1.234", Point, "1.234 "}, {"1,234", Point, "1234 "}, {"1,234", Comma, "1.234 "},
		{"1.234,5", Point, "1234.5 "}, {"1,234.5", Comma, "1234.5 "}, {"1,234,567", Comma, "1234567 "}, {"1'234.5", Point, "1234.5 "}, {"1 234,5", Comma, "1234.5 "}, {"0,250", Point, "0.250 "},
		{"<0,25", Comma, "<0.25 "}, {"< 0.25", Point, "<0.25 "}, {".5", Point, "0.5 "}, {"-3", Point, "-3 "}, {"+3", Point, "3 "}, {"23,4 °C", Comma, "23.4 °C"}, {"23.4C", Point, "23.4 C"}, {"140 ppm", Point, "140 ppm"},
		{"0-0.25", Point, ""}, {"1.2.3", Point, ""}, {"12,34,56", Point, ""}, {"about 3", Point, ""}, {"trace", Point, ""}, {"--", Point, ""}, {"3 4", Point, ""},
	} {
		got, ok := readNumber(test.text, test.decimal)
		text := map[bool]string{true: "<"}[got.below] + got.text + " " + got.unit
		if ok != (test.want != "") || (ok && text != test.want) {
			t.Errorf("%q with a decimal %s is %q, %v, want %q", test.text, test.decimal, text, ok, test.want)
		}
	}
}

func TestHeadings(t *testing.T) {
	for _, test := range []struct{ written, role, unit string }{
		{"Temp (°C)", "temperature", "C"}, {"Temperatur in °F", "temperature", "F"}, {"Température de l’eau", "temperature", ""}, {"Temp, °C (S/N: 12)", "temperature", "C"}, {"NO₃ [mg/l]", "nitrate", "mg/L"},
		{"Gesamthärte (°dH)", "gh", "dGH"}, {"KH dKH", "kh", "dKH"}, {"Leitfähigkeit µS/cm", "conductivity", "µS/cm"}, {"pH-Wert", "ph", ""}, {"Weibchen", "females", ""}, {"# of shrimp", "", ""}, {"Battery (V)", "", ""}, {"", "", ""},
		{"DATE/TIME", "date", ""}, {"水温", "temperature", ""}, {"Anzahl", "count", ""},
	} {
		if got := understand(test.written); string(got.role) != test.role || got.unit != test.unit || got.why != "" {
			t.Errorf("%q is %q in %q (%s), want %q in %q", test.written, got.role, got.unit, got.why, test.role,
				test.unit)
		}
	}
	for _, written := range []string{"NO3-N (mg/L)", "Nitrite nitrogen", "GH (°fH)", "TDS (g/L)"} {
		if understand(written).why == "" {
			t.Errorf("%q is used, and its number means something else", written)
		}
	}
}
