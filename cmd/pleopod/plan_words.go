package main

import (
	"fmt"
	"math"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/population"
	"pleopod/journal/wording"
)

// daysPerMonth is the length of a plan's months.
const daysPerMonth = 30

// celsius writes a temperature.
func celsius(c float64) string { return wording.Units{}.Amount(journal.Temperature, c) }

// tankOf writes the tank of a plan.
func tankOf(p *forecast.Planned) string {
	if p.Litres == 0 {
		return "a tank of unknown volume"
	}
	return fmt.Sprintf("%.0f L", p.Litres)
}

// whoCounts says who is among the numbers of a plan, and how old its founders are taken to be.
func whoCounts(p *forecast.Planned) string {
	months := func(days float64) float64 { return math.Round(days / daysPerMonth) }
	youngest, oldest := p.FoundersAge()
	return fmt.Sprintf("Every living shrimp out of the egg counts, the youngest too. The founders are taken to be %.0f to %.0f months old and may breed at once.",
		months(youngest), months(oldest))
}

// foundersNeeded says how many founders hold both sexes.
func foundersNeeded(p *forecast.Planned) string {
	for90, for95, for99 := forecast.SmallestFoundings(p.Profile)
	return fmt.Sprintf("For both sexes it takes %d founders for 90 %%, %d for 95 %%, %d for 99 %%.", for90,
		for95, for99)
}

// bothSexes writes the odds that both sexes are among the founders.
func bothSexes(p *forecast.Planned) string {
	if p.BothSexes == 0 {
		return "never"
	}
	return wording.Odds(p.BothSexes)
}

// passes says when something comes true, as a sentence.
func passes(p population.Passing, months int) string {
	words := fmt.Sprintf("%s within %s", wording.Odds(p.Probability), wording.Count(months, "month", "months"))
	if len(p.Days) == 0 {
		return words + "."
	}
	return fmt.Sprintf("%s; if so, about day %d (8 in 10 times: day %d to %d).", words, p.Days[3], p.Days[1], p.Days[5])
}

// passesShort says the same in a table.
func passesShort(p population.Passing) string {
	if len(p.Days) == 0 {
		return wording.Odds(p.Probability)
	}
	return fmt.Sprintf("%s, day %d", wording.Odds(p.Probability), p.Days[3])
}

// leaving says how many may leave.
func leaving(p *forecast.Planned) string {
	if p.MayLeave == 0 {
		return fmt.Sprintf("May leave a month, from month %d on: none.", p.Months)
	}
	return fmt.Sprintf("May leave a month, from month %d on: %d, with at most 5 %% chance that the colony shrinks for it within a year.", p.Months, p.MayLeave)
}

// tableMonths are the months that a table of several plans shows.
func tableMonths(last int) []int {
	var months []int
	for _, m := range []int{3, 6, last} {
		if m <= last && (len(months) == 0 || months[len(months)-1] < m) {
			months = append(months, m)
		}
	}
	return months
}

// lineName is the letter of a line in a chart.
func lineName(i int) byte { return byte('a' + i) }
