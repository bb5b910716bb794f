package forecast_test

import (
	"fmt"
	"testing/fstest"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
	"pleopod/journal/lifecycle"
)

// Two entries in a folder, and the days between which the eggs hatch as known a week after they were seen.
func ExampleMake() {
	folder := fstest.MapFS{
		"journal.yaml": {Data: []byte(`
title: The dye works
address: https://example.org/dye-works/
as-of: 2031-03-12
tanks: {vat: {volume: 30 L, heater: 24 C}}
`)},
		"entries/first-eggs.md": {Data: []byte(`---
date: 2031-03-05
events:
  - water: {temperature: 24.2}
  - berried: 1
    brood: madder
---
Eggs under the big one at last.
`)},
	}
	j := journal.Read(folder)
	for _, problem := range j.Problems {
		fmt.Println(problem)
	}
	f := forecast.Make(colony.Replay(j, j.Settings.AsOf))
	for _, b := range f.Broods {
		fmt.Printf("%s, %.0f %% developed: likely on %s, 8 in 10 from %s to %s\n", b.ID, 100*b.Progress, b.Hatch.P50, b.Hatch.P10, b.Hatch.P90)
	}
	// Output: madder, 45 % developed: likely on 2031-03-24, 8 in 10 from 2031-03-20 to 2031-03-29
}

// How likely the eggs have hatched by the end of a day, read between the quantiles of their window.
func ExampleWindow_By() {
	hatch := forecast.Window{P05: 100, P10: 101, P25: 103, P50: 105, P75: 107, P90: 110, P95: 112}
	for _, day := range []journal.Day{90, 104, 105, 108, 120} {
		fmt.Printf("day %d: %.0f %%\n", day, 100*hatch.By(day))
	}
	// Output:
	// day 90: 5 %
	// day 104: 38 %
	// day 105: 50 %
	// day 108: 80 %
	// day 120: 95 %
}

func ExampleWaterRate_PerWeek() {
	gh := forecast.WaterRate{Kind: journal.GH, From: 10, To: 24, Before: 7, After: 8}
	fmt.Printf("%+.1f dGH a week\n", gh.PerWeek())
	// Output: +0.5 dGH a week
}

func ExampleSmallestFoundings() {
	usual, _ := lifecycle.Default("neocaridina-davidi")
	for90, for95, for99 := forecast.SmallestFoundings(usual)
	fmt.Printf("both sexes: %d shrimp for 90 %%, %d for 95 %%, %d for 99 %%\n", for90, for95, for99)
	// Output: both sexes: 5 shrimp for 90 %, 6 for 95 %, 8 for 99 %
}
