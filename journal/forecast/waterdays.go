package forecast

import (
	"pleopod/journal"
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

// onDay returns the course's entry for a day, and false outside it.
func onDay(course []Daily, day journal.Day) (Daily, bool) {
	if len(course) == 0 || day < course[0].Day || day > course[len(course)-1].Day {
		return Daily{}, false
	}
	return course[day-course[0].Day], true
}
