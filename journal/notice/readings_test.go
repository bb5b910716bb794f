package notice

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pleopod/journal"
	"pleopod/journal/forecast"
)

func TestAFastChangeOfTemperatureIsTold(t *testing.T) {
	start := "2026-03-01 {stocked: 10, age: 4 months}\n2026-03-01+7x5 {water: {temperature: 23 C}}\n"
	const week = "erfc(5/(1.2046·√2)), sd² = 2·1²·(1 − e^(−7/7)) + 2·0.3²" // of the profile's heated tank
	tell(t, "temperature-change", []story{
		{name: "a heater fails", lines: start + "2026-04-05 {water: {temperature: 18 C}}", asOf: "2026-04-06", want: "2026-04-05.. soon", p: 3.3e-5, tol: 1e-5, source: week},
		{name: "three degrees", lines: start + "2026-04-05 {water: {temperature: 26.2 C}}", asOf: "2026-04-06", want: "2026-04-05.. look", p: 0.0079, tol: 0.0005, source: "erfc(3.2/(1.2046·√2))"},
		{name: "two and a half degrees", lines: start + "2026-04-05 {water: {temperature: 20.5 C}}", asOf: "2026-04-06"},
		{name: "a season", settings: "title: A\ntanks:\n  shelf: {volume: 40 L}\n", lines: "2026-03-01 {stocked: 10}\n2026-03-01 {water: {temperature: 18 C}}\n2026-03-15 {water: {temperature: 21 C}}", asOf: "2026-04-06"},
		{name: "readings far apart", lines: start + "2026-05-10 {water: {temperature: 18 C}}", asOf: "2026-05-12"},
		{name: "and back again", lines: start + "2026-04-05 {water: {temperature: 18 C}}\n2026-04-07 {water: {temperature: 23 C}}", asOf: "2026-05-06", want: "2026-04-05..2026-04-17 soon", p: 0, tol: 1e-6, source: "erfc(5/(0.819·√2)) = 1e-9 for the way back within two days"},
		{name: "stuck on", lines: start + "2026-04-05 {water: {temperature: 34 C}}", asOf: "2026-04-06", want: "2026-04-05.. now", p: 0, tol: 1e-6, source: "erfc(11/(1.2046·√2))"},
		{name: "written down later", lines: start + "2026-04-08 {water: {temperature: 18 C}, date: 2026-04-05}", asOf: "2026-04-10", want: "2026-04-08.. soon", p: 3.3e-5, tol: 1e-5, source: week},
	})
}

func TestAFastChangeOfHardnessOrPHIsTold(t *testing.T) {
	start := "2026-03-01 {stocked: 10, age: 4 months}\n2026-03-01+7x4 {water: {gh: 7, kh: 3, ph: 7.2, tds: 200}}\n"
	tell(t, "hardness-change", []story{
		{name: "three degrees", lines: start + "2026-03-30 {water: {gh: 4}}", asOf: "2026-04-01", want: "2026-03-30.. look", p: 0.00244, tol: 1e-4, source: "erfc(3/(0.99·√2)), sd 0.7·√2"},
		{name: "two degrees", lines: start + "2026-03-30 {water: {gh: 5}}", asOf: "2026-04-01"},
		{name: "five degrees", lines: start + "2026-03-30 {water: {gh: 2}}", asOf: "2026-04-20", want: "2026-03-30..2026-04-09 soon", p: 4.4e-7, tol: 1e-6, source: "erfc(5/(0.99·√2))"},
		{name: "solids alone", lines: start + "2026-03-30 {water: {tds: 120}}", asOf: "2026-04-01", want: "2026-03-30.. look", p: 0.00041, tol: 5e-5, source: "erfc(80/(22.63·√2)), sd 0.08·200·√2"},
		{name: "solids with hardness are one notice", lines: start + "2026-03-30 {water: {gh: 3, tds: 110}}", asOf: "2026-04-01", want: "2026-03-30.. soon", p: 5.3e-5, tol: 1e-5, source: "erfc(4/(0.99·√2))"},
		{name: "ppm are the same", lines: start + "2026-03-30 {water: {gh: 71.3 ppm}}", asOf: "2026-04-01", want: "2026-03-30.. look", p: 0.00244, tol: 1e-4, source: "71.3/17.848 = 3.995 dGH"},
	})
	tell(t, "ph-change", []story{
		{name: "a jump", lines: start + "2026-03-30 {water: {ph: 6.3}}", asOf: "2026-04-01", want: "2026-03-30.. look", p: 0.00146, tol: 1e-4, source: "erfc(0.9/(0.2828·√2))"},
		{name: "noise", lines: start + "2026-03-30 {water: {ph: 6.6}}", asOf: "2026-04-01"},
		{name: "unlikely, and small", lines: start + "2026-03-30 {water: {ph: 6.45}}", asOf: "2026-04-01"},
	})
}

func TestReadingsOutOfRangeForDaysAreTold(t *testing.T) {
	mine := "title: A\ntanks:\n  shelf: {volume: 40 L, heater: 23 C, water-range: {gh: 6-10, nitrate: 0-20}}\n"
	start := "2026-03-01 {stocked: 10}\n2026-03-01+7x4 {water: {gh: 7, nitrate: 10, temperature: 23 C}}\n"
	const source = "(0 + 0.05·10)/(4 + 10)"
	tell(t, "out-of-range", []story{
		{name: "two in a row", settings: mine, lines: start + "2026-03-29 {water: {gh: 5}}\n2026-04-02 {water: {gh: 5}}", asOf: "2026-04-03", want: "2026-04-02.. look", p: 0.0357, source: source},
		{name: "one", settings: mine, lines: start + "2026-03-29 {water: {gh: 5}}", asOf: "2026-04-03"},
		{name: "two of one day", settings: mine, lines: start + "2026-03-29 {water: {gh: 5}} {water: {gh: 5}}", asOf: "2026-04-03"},
		{name: "one inside between", settings: mine, lines: start + "2026-03-29 {water: {gh: 5}}\n2026-03-31 {water: {gh: 6}}\n2026-04-02 {water: {gh: 5}}", asOf: "2026-04-03"},
		{name: "back inside", settings: mine, lines: start + "2026-03-29 {water: {nitrate: 25}}\n2026-04-02 {water: {nitrate: 25}}\n2026-04-09 {water: {nitrate: 15}}", asOf: "2026-05-01", want: "2026-04-02..2026-04-09 look", p: 0.0357, source: source},
		{name: "far outside", settings: mine, lines: start + "2026-03-29 {water: {gh: 3}}\n2026-04-02 {water: {gh: 3}}", asOf: "2026-04-03", want: "2026-04-02.. soon", p: 0.0357, source: source},
		{name: "a heater that cannot hold", lines: start + "2026-03-29 {water: {temperature: 20.4 C}}\n2026-04-02 {water: {temperature: 20.2 C}}", asOf: "2026-04-03", want: "2026-04-02.. look", p: 0.0357, source: source},
		{name: "warm in summer", lines: start + "2026-03-29 {water: {temperature: 28 C}}\n2026-04-02 {water: {temperature: 28 C}}", asOf: "2026-04-03"},
	})
}

func TestASlipOfThePenIsToldAndLeftOutOfTheRest(t *testing.T) {
	start := "2026-03-01 {stocked: 10}\n2026-03-01+7x4 {water: {gh: 7, tds: 200, temperature: 23 C}}\n"
	tell(t, "typing-slip", []story{
		{name: "a lost point", lines: start + "2026-03-29 {water: {tds: 2010}}", asOf: "2026-04-01", want: "2026-03-29.. look", p: 0, source: "90 sd"},
		{name: "a point too many", lines: start + "2026-03-29 {water: {temperature: 2.34 C}}", asOf: "2026-04-01", want: "2026-03-29.. look", p: 0, source: "9 sd"},
		{name: "ppm as degrees", lines: start + "2026-03-29 {water: {gh: 125}}", asOf: "2026-04-01", want: "2026-03-29.. look", p: 0, source: "125/17.848 = 7.0"},
		{name: "digits swapped", lines: start + "2026-03-29 {water: {temperature: 32 C}}", asOf: "2026-05-01", want: "2026-03-29..2026-04-28 look", p: 0, source: "9 sd"},
		{name: "a hot day", lines: start + "2026-03-29 {water: {temperature: 29 C}}", asOf: "2026-04-01"},
		{name: "three readings are too few", lines: "2026-03-01 {stocked: 10}\n2026-03-01+7x2 {water: {tds: 200}}\n2026-03-29 {water: {tds: 2010}}", asOf: "2026-04-01"},
	})
	// What looks like a slip calls for no other notice.
	tell(t, "temperature-change", []story{{name: "no change", lines: start + "2026-03-29 {water: {temperature: 2.34 C}}", asOf: "2026-04-01"}})
	// Swapped digits can also be the truth: the change is told too.
	tell(t, "temperature-change", []story{{name: "told too", lines: start + "2026-03-29 {water: {temperature: 32 C}}", asOf: "2026-04-01", want: "2026-03-29.. soon", p: 0, source: "9/1.2 sd"}})
	tell(t, "out-of-range", []story{{name: "no range", lines: start + "2026-03-29 {water: {temperature: 2.34 C}}\n2026-04-02 {water: {temperature: 2.3 C}}", asOf: "2026-04-05"}})
}

func TestASilenceLongForThisKeeperIsTold(t *testing.T) {
	start := "2026-03-01 {stocked: 10}\n2026-03-01+7x8 {fed: nettle}\n"
	tell(t, "no-record", []story{
		// seven gaps of a week: A = 9, B = 63; P(gap > g) = (63/(63 + g))⁹ = 0.02 at g = 34.3
		{name: "five weeks and a day", lines: start, asOf: "2026-05-25", want: "2026-05-24.. look", p: 0.0171, tol: 0.0002, source: "(63/99)⁹"},
		{name: "five weeks", lines: start, asOf: "2026-05-23"},
		{name: "written again", lines: start + "2026-06-20 {fed: nettle}", asOf: "2026-06-25", want: "2026-05-24..2026-06-20 look", p: 0.00226, tol: 0.00005, source: "62 days, more than 61: (63/(63 + 61))⁹"},
		{name: "a keeper who writes once a month", lines: "2026-01-01 {stocked: 10}\n2026-01-01+30x6 {fed: nettle}", asOf: "2026-07-10"},
		{name: "a keeper who writes every day, three weeks", lines: "2026-03-01 {stocked: 10}\n2026-03-01+1x20 {fed: nettle}", asOf: "2026-04-09"},
		{name: "and a day", lines: "2026-03-01 {stocked: 10}\n2026-03-01+1x20 {fed: nettle}", asOf: "2026-04-10", want: "2026-04-10.. look", p: 0, source: "(33/54)²¹"},
		{name: "every day of late, and once a month before", lines: "2026-01-01 {stocked: 10}\n2026-01-01+30x10 {fed: nettle}\n2026-09-28+1x21 {fed: nettle}", asOf: "2026-11-08", want: "2026-11-08.. look", p: 0, source: "twenty gaps of a day: (34/55)²²"},
		{name: "a tank taken down", lines: "2026-03-01 {stocked: 10}\n2026-03-08 {removed: 10} {counted: 0, method: emptied}", asOf: "2026-08-01"},
		{name: "young found after that", lines: "2026-03-01 {stocked: 10}\n2026-03-08 {removed: 10} {counted: 0, method: emptied}\n2026-03-15 {sighted: 3}", asOf: "2026-05-05", want: "2026-05-01.. look", p: 0.015, tol: 0.006, source: "as five weeks, with two gaps of a week"},
		{name: "an empty tank", lines: "2026-03-01+7x8 {fed: nettle}", asOf: "2026-06-20"},
	})
}

func TestAKeeperOfTwoEntriesHasNoRhythmYet(t *testing.T) {
	for times, want := range map[int]string{1: "is taken as usual", 8: "This keeper writes"} {
		j := told(t, oneTank, fmt.Sprintf("2026-03-01 {stocked: 10}\n2026-03-01+7x%d {fed: nettle}", times))
		standing, _ := weighed(t, j, journal.NewDay(2026, 8, 1), forecast.Days)
		if i := slices.IndexFunc(standing, func(n forecast.Notice) bool { return n.Kind == "no-record" }); i < 0 || !strings.Contains(standing[i].Expected, want) {
			t.Errorf("%d entries: %v, want %q", times, standing, want)
		}
	}
}
