package notice

import (
	"fmt"
	"strings"
	"testing"

	"pleopod/journal"
	"pleopod/journal/forecast"
)

func TestDeathsAreHeldAgainstWhatTheModelLetsDie(t *testing.T) {
	if testing.Short() {
		t.Skip("simulates colonies")
	}
	start := "2026-03-01 {stocked: 20, age: 4 months}\n2026-03-01+7x10 {water: {temperature: 23 C}}\n"
	tellWith(t, forecast.Past, "deaths-above-expected", []story{
		// 18 · 0.0015 · 7 = 0.19 in a week: q = 0.19/2.19 = 0.087; I_q(3, 2) = 4q³ − 3q⁴ = 0.0025, I_q(4, 2) = 5q⁴ − 4q⁵ = 0.00027
		{name: "four in a week", lines: start + "2026-05-10 {died: 3}\n2026-05-12 {died: 1}", asOf: "2026-05-13", want: "2026-05-10.. soon", p: 0.00054, tol: 0.0003, source: "5q⁴ − 4q⁵, twice"},
		{name: "two in a week", lines: start + "2026-05-10 {died: 1}\n2026-05-12 {died: 1}", asOf: "2026-05-13"},
		{name: "many at once", lines: start + "2026-05-10 {died: 12}", asOf: "2026-05-13", want: "2026-05-10.. now", p: 0, tol: 1e-6, source: "13q¹² is 1e-12"},
		{name: "over", lines: start + "2026-05-10 {died: 5}", asOf: "2026-06-13", want: "2026-05-10..2026-05-24 soon", p: 0.00006, tol: 0.00006, source: "6q⁵ − 5q⁶, twice"},
		{name: "removed alive", lines: start + "2026-05-10 {removed: 8, reason: given}", asOf: "2026-05-13"},
		{name: "a large old colony", lines: "2026-03-01 {stocked: 300, age: 13 months}\n2026-03-01+7x10 {water: {temperature: 23 C}}\n2026-05-10 {died: 6}", asOf: "2026-05-13"},
	})
}

func TestFailedMoultsAreHeldAgainstTheNumberOfShrimp(t *testing.T) {
	start := "2026-03-01 {stocked: 10, age: 4 months}\n2026-03-20 {water: {gh: 3}}\n2026-03-25 {water-change: 50 %}\n"
	tellWith(t, forecast.Past, "failed-moults", []story{
		{name: "one among ten", lines: start + "2026-03-28 {moulted: 1, failed: true}", asOf: "2026-03-30", want: "2026-03-28.. look", p: 0.036, tol: 0.009, source: "1 − e^(−0.005·7.5): most are grown"},
		{name: "two", lines: start + "2026-03-28 {moulted: 1, failed: true}\n2026-03-30 {died: 1, cause: stuck in a moult}", asOf: "2026-03-31", want: "2026-03-28.. soon", p: 0.001, tol: 0.0005, source: "1 − e^(−m)(1 + m), m = 0.045"},
		{name: "a moult and its death are one", lines: start + "2026-03-28 {moulted: 1, failed: true} {died: 1, cause: failed moult}", asOf: "2026-03-30", want: "2026-03-28.. look", p: 0.036, tol: 0.009, source: "as above"},
		{name: "a good moult", lines: start + "2026-03-28 {moulted: 3}", asOf: "2026-03-30"},
		{name: "one among a hundred", lines: "2026-03-01 {stocked: 100, age: 4 months}\n2026-03-28 {moulted: 1, failed: true}", asOf: "2026-03-30"},
		{name: "over", lines: start + "2026-03-28 {moulted: 1, failed: true}", asOf: "2026-06-01", want: "2026-03-28..2026-04-27 look", p: 0.036, tol: 0.009, source: "as above"},
	})
}

func TestCountsAreHeldAgainstTheEstimateBeforeThem(t *testing.T) {
	start := "2026-03-01 {stocked: 60, age: 4 months}\n2026-03-02 {counted: 24}\n2026-03-05 {counted: 26}\n"
	tellWith(t, forecast.Past, "count-below-estimate", []story{
		{name: "hardly any", lines: start + "2026-03-09 {counted: 3}", asOf: "2026-03-10", want: "2026-03-09.. look", p: 0.0172, tol: 0.0068, source: "four times 0.0026 to 0.006, the beta-binomial of 58 with mean 0.40 to 0.36 and concentration 12"},
		{name: "a bad day", lines: start + "2026-03-09 {counted: 17}", asOf: "2026-03-10"},
		{name: "emptied, and half are gone", lines: start + "2026-03-09 {counted: 30, method: emptied}", asOf: "2026-03-10", want: "2026-03-09.. soon", p: 0, tol: 0.001, source: "no particle has lost half in four days"},
		{name: "as many as before", lines: start + "2026-03-09 {counted: 3}\n2026-03-12 {counted: 27}", asOf: "2026-03-20", want: "2026-03-09..2026-03-12 look", p: 0.0172, tol: 0.0068, source: "as above"},
	})
	tellWith(t, forecast.Past, "count-above-estimate", []story{
		{name: "more than can be", lines: start + "2026-03-09 {counted: 90}", asOf: "2026-03-10", want: "2026-03-09.. look", p: 0, tol: 0.001, source: "60 came"},
		{name: "a good day", lines: start + "2026-03-09 {counted: 35}", asOf: "2026-03-10"},
	})
}

func TestFullTanksAndEarlySelectionAreTold(t *testing.T) {
	settings := "title: A\ngrades: [pale, deep]\ntanks:\n  shelf: {volume: 40 L, capacity: 50}\n"
	tellWith(t, forecast.Past, "above-capacity", []story{
		{name: "twice as many", settings: settings, lines: "2026-03-01 {stocked: 100, age: 5 months}", asOf: "2026-04-01", want: "2026-03-07.. soon", p: 1, tol: 0.03, source: "100 of 50"},
		{name: "half as many", settings: settings, lines: "2026-03-01 {stocked: 25, age: 5 months}", asOf: "2026-04-01"},
		{name: "given away", settings: settings, lines: "2026-03-01 {stocked: 100, age: 5 months}\n2026-03-20 {removed: 70, reason: given}", asOf: "2026-04-20", want: "2026-03-07..2026-03-21 soon", p: 1, tol: 0.05, source: "100 of 50"},
	})
	tellWith(t, forecast.Past, "too-few-to-select", []story{
		{name: "a dozen", settings: settings, lines: "2026-03-01 {stocked: 12, age: 5 months}\n2026-03-10 {graded: {pale: 3, deep: 9}}", asOf: "2026-04-01", want: "2026-03-10.. look", p: 0, source: "Ne of 12 is at most 12, of 50"},
		{name: "a hundred", settings: settings, lines: "2026-03-01 {stocked: 100, age: 5 months}\n2026-03-10 {graded: {pale: 30, deep: 60}}", asOf: "2026-04-01"},
		{name: "nobody selects", settings: settings, lines: "2026-03-01 {stocked: 12, age: 5 months}\n2026-03-10 {removed: 2, reason: sold}", asOf: "2026-04-01"},
		{name: "culled", settings: settings, lines: "2026-03-01 {stocked: 12, age: 5 months}\n2026-03-10 {removed: 2, reason: culled}", asOf: "2026-06-01", want: "2026-03-10..2026-05-09 look", p: 0, source: "as above"},
	})
}

func TestSilentFemalesOneSexAndOldFoundersAreTold(t *testing.T) {
	females := "2026-03-01 {stocked: {females: 8, males: 4}, age: 5 months}\n"
	weekly := func(weeks string) string {
		return "2026-03-08+7x" + weeks + " {fed: nettle} {water: {temperature: 24 C}}\n"
	}
	tellWith(t, forecast.Past, "no-berried-female", []story{
		// about 7.5 females with a clutch each 1.5 · 18.4 d: 0.27 a day, so that a week has one with 1 − e^(−1.9) = 0.85;
		// (10/(10 + 0.85·n))⁸ = 0.052 at n = 5 and 0.035 at n = 6
		{name: "six weeks", lines: females + weekly("6"), asOf: "2026-04-13", want: "2026-04-12.. look", p: 0.038, tol: 0.006, source: "by hand"},
		{name: "five weeks", lines: females + weekly("5"), asOf: "2026-04-06"},
		{name: "nobody looked", lines: females + "2026-05-30 {fed: nettle}", asOf: "2026-06-01"},
		{name: "eggs after six weeks", lines: females + weekly("6") + "2026-04-15 {berried: 1}", asOf: "2026-04-20", want: "2026-04-12..2026-04-15 look", p: 0.038, tol: 0.006, source: "by hand"},
		{name: "cold water", lines: females + "2026-03-01+7x14 {fed: nettle} {water: {temperature: 17 C}}\n", asOf: "2026-06-02", settings: "title: A\ntanks:\n  shelf: {volume: 40 L, heater: 17 C}\n"},
		{name: "a brood is carried", lines: females + "2026-03-08 {berried: 1, brood: amber}\n" + weekly("5"), asOf: "2026-04-06"},
	})
	tellWith(t, forecast.Past, "one-sex", []story{
		// Beta(5 + 6, 5): the last two female with 11/16 · 12/17
		{name: "six females told apart of eight", lines: "2026-03-01 {stocked: 8, age: 4 months}\n2026-03-10 {counted: {females: 6, males: 0}, method: careful}", asOf: "2026-03-11", want: "2026-03-10.. look", p: 0.592, tol: 0.02, source: "prior 11/16 · 12/17 = 0.485; a visit without eggs (10/10.57)⁸ = 0.64"},
		{name: "a male too", lines: "2026-03-01 {stocked: 8, age: 4 months}\n2026-03-10 {counted: {females: 6, males: 1}, method: careful}", asOf: "2026-03-11"},
		{name: "nobody told them apart", lines: "2026-03-01 {stocked: 8, age: 4 months}\n2026-03-10 {counted: 6}", asOf: "2026-03-11"},
		{name: "the other sex joins", lines: "2026-03-01 {stocked: {females: 5}, age: 4 months}\n2026-03-10 {stocked: {males: 3}}", asOf: "2026-03-20", want: "2026-03-01..2026-03-10 soon", p: 1, tol: 0.01, source: "five of five"},
		{name: "a mating after they came", lines: "2026-03-01 {stocked: {females: 5}, age: 4 months}\n2026-03-10 {berried: 1}", asOf: "2026-03-20", want: "2026-03-01..2026-03-10 soon", p: 1, tol: 0.01, source: "five of five"},
		{name: "eggs that came with them", lines: "2026-03-01 {stocked: {females: 5}, age: 4 months}\n2026-03-03 {berried: 5}", asOf: "2026-03-20", want: "2026-03-01.. soon", p: 1, tol: 0.01, source: "five of five"},
		{name: "they are gone", lines: "2026-03-01 {stocked: {females: 2}, age: 4 months}\n2026-03-10 {died: 1}", asOf: "2026-03-20", want: "2026-03-01..2026-03-10 soon", p: 1, tol: 0.01, source: "two of two"},
	})
	tellWith(t, forecast.Past, "founders-old", []story{
		// 365 − 8 · 30.44 = 121.5 days after they came
		{name: "eight months when they came", lines: "2026-03-01 {stocked: 10, age: 8 months}", asOf: "2026-07-05", want: "2026-07-01.. look", p: 0.54, tol: 0.06, source: "(365 − 0.9·243.5 …)/(0.2·243.5): half on the day itself"},
		{name: "not yet", lines: "2026-03-01 {stocked: 10, age: 8 months}", asOf: "2026-06-30"},
		{name: "young have grown up", lines: "2026-03-01 {stocked: 10, age: 5 months}\n2026-03-10 {berried: 1, brood: amber}\n2026-03-31 {hatched: amber}", asOf: "2026-12-01"},
		{name: "younger ones join", lines: "2026-03-01 {stocked: 10, age: 8 months}\n2026-08-01 {stocked: 5, age: 3 months}", asOf: "2026-09-01", want: "2026-07-01..2026-08-01 look", p: 1, tol: 0.01, source: "31 days after the middle of 49"},
		{name: "long past", lines: "2026-03-01 {stocked: 10, age: 8 months}", asOf: "2026-09-15", want: "2026-07-01.. soon", p: 1, source: "76 days after the middle"},
		{name: "taken down before", lines: "2026-03-01 {stocked: 10, age: 8 months}\n2026-03-20 {counted: 0, method: emptied}", asOf: "2026-09-15"},
		{name: "taken down", lines: "2026-03-01 {stocked: 10, age: 8 months}\n2026-07-20 {counted: 0, method: emptied}", asOf: "2026-09-15", want: "2026-07-01..2026-07-20 look", p: 0.88, tol: 0.03, source: "half, and 18 of 49 days"},
		{name: "set up again", lines: "2025-03-01 {stocked: 10, age: 8 months}\n2025-03-20 {counted: 0, method: emptied}\n2026-03-01 {stocked: 10, age: 8 months}", asOf: "2026-07-05", want: "2026-07-01.. look", p: 0.54, tol: 0.06, source: "as above"},
		{name: "set up again since", lines: "2025-03-01 {stocked: 10, age: 8 months}\n2025-07-20 {counted: 0, method: emptied}\n2026-03-01 {stocked: 10, age: 4 months}", asOf: "2026-07-05", want: "2025-07-01..2025-07-20 look", p: 0.88, tol: 0.03, source: "as above"},
	})
}

// Eggs that were seen are not told as if they had not been.
func TestEggsThatCameWithFemalesAreNoWait(t *testing.T) {
	j := told(t, oneTank, "2026-03-01 {stocked: {females: 5}, age: 4 months}\n2026-03-03 {berried: 5}")
	standing, _ := weighed(t, j, journal.NewDay(2026, 3, 5), forecast.Past)
	for _, n := range standing {
		if n.Kind == "one-sex" && !strings.Contains(fmt.Sprint(n.Expected, n.Other), "have been seen") && !strings.Contains(fmt.Sprint(n.Other), "nobody wrote") {
			return
		}
	}
	t.Errorf("told: %+v", standing)
}
