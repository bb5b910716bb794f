package notice

import (
	"math"

	"pleopod/journal"
	"pleopod/journal/wording"
)

// days writes a number of days as people say it.
func days(n journal.Day) string {
	if n >= 21 {
		return wording.Count(int(math.Round(float64(n)/7)), "week", "weeks")
	}
	return wording.Count(int(n), "day", "days")
}

// amount writes a reading's value with its unit in the keeper's units, and pH with its name.
func (h *history) amount(kind journal.ReadingKind, value float64) string {
	if kind == journal.PH {
		return "pH" + wording.Joined + h.units.Amount(kind, value)
	}
	return h.units.Amount(kind, value)
}

func (h *history) temperature(celsius float64) string { return h.amount(journal.Temperature, celsius) }
