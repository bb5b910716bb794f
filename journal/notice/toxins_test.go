package notice

import "testing"

func TestAmmoniaIsJudgedByItsUnionisedPart(t *testing.T) {
	start := "2026-03-01 {stocked: 10, age: 4 months}\n2026-03-01+7x4 {water: {ph: 7.4, temperature: 23 C, ammonia: 0}}\n"
	const source = "(0 + 0.05·10)/(4 + 10)"
	// 1.9 and 17 mg/L total at pH 7 and 20 °C are the criteria of US EPA 2013, as nitrogen; 2.44 mg/L of ammonium are 1.9 of nitrogen.
	const asN, asNH4 = "title: A\nammonia-as: N\ntanks: {shelf: {heater: 20 C}}\n", "title: A\nammonia-as: NH4\ntanks: {shelf: {heater: 20 C}}\n"
	at := func(total string) string {
		return "2026-03-29 {stocked: 3} {water: {temperature: 20 C, ph: 7.0, ammonia: " + total + "}}"
	}
	tell(t, "ammonia", []story{
		{name: "below the criterion of 30 days", settings: asN, lines: at("1.8"), asOf: "2026-04-01", want: "2026-03-29.. look", p: 0.05, source: "0.05·10/10"},
		{name: "above it", settings: asN, lines: at("2.0"), asOf: "2026-04-01", want: "2026-03-29.. soon", p: 0.05, source: "0.05·10/10"},
		{name: "below the criterion of one hour", settings: asN, lines: at("16"), asOf: "2026-04-01", want: "2026-03-29.. soon", p: 0.05, source: "0.05·10/10"},
		{name: "above that", settings: asN, lines: at("18"), asOf: "2026-04-01", want: "2026-03-29.. now", p: 0.05, source: "0.05·10/10"},
		{name: "ammonium is mostly nitrogen", settings: asNH4, lines: at("2.3"), asOf: "2026-04-01", want: "2026-03-29.. look", p: 0.05, source: "0.05·10/10"},
		{name: "a trace", lines: start + "2026-03-29 {water: {ph: 7.0, temperature: 23 C, ammonia: 0.25}}", asOf: "2026-04-01", want: "2026-03-29.. look", p: 0.0357, source: source},
		// Emerson et al. 1975: at pH 8.2 and 23 °C 7.3 % of it is un-ionised
		{name: "the same at a high pH", lines: start + "2026-03-29 {water: {ph: 8.2, temperature: 23 C, ammonia: 0.25}}", asOf: "2026-04-01", want: "2026-03-29.. soon", p: 0.0357, source: source},
		{name: "much at a high pH", lines: start + "2026-03-29 {water: {ph: 8.2, temperature: 23 C, ammonia: 1}}", asOf: "2026-04-01", want: "2026-03-29.. now", p: 0.0357, source: source},
		{name: "below what the test sees", lines: start + "2026-03-29 {water: {ph: 8.2, ammonia: <0.25}}", asOf: "2026-04-01"},
		{name: "gone two days later", lines: start + "2026-03-29 {water: {ph: 7.0, ammonia: 0.25}}\n2026-03-31 {water: {ammonia: 0}}", asOf: "2026-04-10", want: "2026-03-29..2026-03-31 look", p: 0.0357, source: source},
		{name: "never tested again", lines: start + "2026-03-29 {water: {ph: 7.0, ammonia: 0.25}}", asOf: "2026-05-10", want: "2026-03-29..2026-04-19 look", p: 0.0357, source: source},
		{name: "nobody measured pH", lines: "2026-03-29 {stocked: 3} {water: {ammonia: 0.25}}", asOf: "2026-04-01", want: "2026-03-29.. soon", p: 0.05, source: "0.05·10/10; at pH 8.6 and 23 °C 16 % of it is un-ionised"},
		{name: "nobody measured pH, and it is much", lines: "2026-03-29 {stocked: 3} {water: {ammonia: 2}}", asOf: "2026-04-01", want: "2026-03-29.. now", p: 0.05, source: "as above: 0.33 mg/L"},
		{name: "nobody measured pH, and the keeper keeps it low", settings: "title: A\ntanks:\n  shelf: {volume: 40 L, heater: 23 C, water-range: {ph: 6-7}}\n",
			lines: "2026-03-29 {stocked: 3} {water: {ammonia: 0.5}}", asOf: "2026-04-01", want: "2026-03-29.. look", p: 0.05, source: "at pH 7 and 23 °C 0.5 % of it, 0.0024 mg/L"},
	})
}

func TestNitriteIsToldUntilATestFindsNone(t *testing.T) {
	start := "2026-03-01 {stocked: 10, age: 4 months}\n2026-03-01+7x4 {water: {nitrite: 0}}\n"
	const source = "(0 + 0.05·10)/(4 + 10)"
	tell(t, "nitrite", []story{
		{name: "a little", lines: start + "2026-03-29 {water: {nitrite: 0.1}}", asOf: "2026-04-01", want: "2026-03-29.. look", p: 0.0357, source: source},
		{name: "more, then less, then none", lines: start + "2026-03-29 {water: {nitrite: 0.5}}\n2026-03-30 {water: {nitrite: 0.25}}\n2026-04-02 {water: {nitrite: 0}}", asOf: "2026-05-01", want: "2026-03-29..2026-04-02 soon", p: 0.0357, source: source},
		{name: "a little, then more", lines: start + "2026-03-29 {water: {nitrite: 0.1}}\n2026-03-30 {water: {nitrite: 4.9}}", asOf: "2026-04-01", want: "2026-03-29.. soon", p: 0.0357, source: source + ": that of the first, for the second is no news"},
		{name: "very much", lines: start + "2026-03-29 {water: {nitrite: 5}}", asOf: "2026-04-01", want: "2026-03-29.. now", p: 0.0357, source: source},
		{name: "none", lines: start, asOf: "2026-04-01"},
		{name: "nitrate is no nitrite", lines: start + "2026-03-29 {water: {nitrate: 20}}", asOf: "2026-04-01"},
	})
}

func TestCopperIsToldOfTestsAndDoses(t *testing.T) {
	start := "2026-03-01 {stocked: 10, age: 4 months}\n"
	const source = "0.02·10/10"
	tell(t, "copper", []story{
		{name: "at a third of the LC50", lines: start + "2026-03-29 {water: {copper: 0.01}}", asOf: "2026-04-01", want: "2026-03-29.. soon", p: 0.02, source: source},
		{name: "just below", lines: start + "2026-03-29 {water: {copper: 0.009}}", asOf: "2026-04-01"},
		{name: "at the LC50", lines: start + "2026-03-29 {water: {copper: 0.03}}", asOf: "2026-04-01", want: "2026-03-29.. now", p: 0.02, source: source},
		{name: "below what the test sees", lines: start + "2026-03-29 {water: {copper: <0.05}}", asOf: "2026-04-01"},
		{name: "a medicine", lines: start + "2026-03-29 {dosed: 5 mL, substance: copper sulphate}", asOf: "2026-04-01", want: "2026-03-29.. soon", p: 0.02, source: source},
		{name: "a medicine, then deaths", lines: start + "2026-03-29 {dosed: 5 mL, substance: ich remedy with copper}\n2026-03-31 {died: 2}", asOf: "2026-04-01", want: "2026-03-29.. now", p: 0.02, source: source},
		{name: "a death a week after it", lines: start + "2026-03-29 {dosed: copper}\n2026-04-05 {died: 2}", asOf: "2026-04-06", want: "2026-03-29.. now", p: 0.02, source: source},
		{name: "a death later", lines: start + "2026-03-29 {dosed: copper}\n2026-04-06 {died: 2}", asOf: "2026-04-06", want: "2026-03-29.. soon", p: 0.02, source: source},
		{name: "a fertiliser without", lines: start + "2026-03-29 {dosed: 5 mL, substance: copper-free plant food}\n2026-03-30 {dosed: 1 mL, substance: iron (no copper)}", asOf: "2026-04-01"},
		{name: "washed out", lines: start + "2026-03-29 {water: {copper: 0.02}}\n2026-04-05 {water: {copper: 0}}", asOf: "2026-05-01", want: "2026-03-29..2026-04-05 soon", p: 0.02, source: source},
	})
}
