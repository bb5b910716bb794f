package population_test

import (
	"fmt"

	"pleopod/journal/lifecycle"
	"pleopod/journal/population"
)

// What would become of ten shrimp in 40 L at 23 °C within four months.
func ExamplePlan_Prospect() {
	davidi, _ := lifecycle.Default("neocaridina-davidi")
	plan := population.Plan{Profile: davidi, Founders: population.Group{Unsexed: 10}, Celsius: 23, Litres: 40, Capacity: -1, Months: 4}
	prospect := plan.Prospect(300)
	fmt.Printf("both sexes: %.1f %%\n", 100*prospect.BothSexes)
	last := prospect.Ahead[len(prospect.Ahead)-1]
	fmt.Println("more than founders:", last.P05 > 10)
	fmt.Println("the band is wide:", last.P95 > 2*last.P05)
	// Output:
	// both sexes: 99.8 %
	// more than founders: true
	// the band is wide: true
}

// Ten shrimp are bought, and a careful count after five months narrows what is known of their number.
func ExampleFilter() {
	davidi, _ := lifecycle.Default("neocaridina-davidi")
	const bought, counted = population.Day(738000), population.Day(738150)
	record := population.Record{
		Tank: "shelf", Profile: davidi, Litres: 40, Capacity: -1, From: bought,
		Water: []population.Temperature{{Mean: 23, SD: 0.5}},
	}
	bag := population.Fact{Day: bought, Order: 1, What: population.Stocked{Group: population.Group{Unsexed: 10}, Youngest: 90, Oldest: 210}}
	look := population.Fact{Day: counted, Order: 2, What: population.Counted{Group: population.Group{Unsexed: 120}, Known: population.Unsexed, Method: population.Careful}}
	width := func(facts ...population.Fact) float64 {
		record.Facts = facts
		filter := population.New([]population.Record{record}, 500)
		filter.Advance(counted)
		now := filter.Hindsights()[0].Now
		return now.P95 - now.P05
	}
	fmt.Println("narrower:", width(bag, look) < 0.8*width(bag))
	// Output: narrower: true
}
