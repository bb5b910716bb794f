package forecast

import (
	"pleopod/journal/colony"
)

// waterDays returns a tank's water tests, one for each.
func (v view) waterDays(tank *colony.Tank, course []Daily) []WaterDay {
	var days []WaterDay
	for _, test := range tank.Tests {
		days = append(days, WaterDay{Day: test.Day, Readings: test.Readings, Event: test.Event})
	}
	return days
}
