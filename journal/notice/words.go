package notice

import (
	"fmt"
	"math"
	"strconv"

	"pleopod/journal"
	"pleopod/journal/wording"
)

// leastChance is the smallest probability that is written as a number. Models of this kind are fitted to a few
// broods and readings, and cannot tell how rare anything rarer is; the data keep the number as it was computed.
const leastChance = 1e-3

// chance writes a probability as a beginner reads it: a percentage, or one in so many when it is small.
func chance(p float64) string {
	switch {
	case p >= 0.995:
		return "almost 100" + wording.Joined + "%"
	case p >= 0.095:
		return wording.Number(100*p, 0) + wording.Joined + "%"
	case p >= leastChance:
		return "about 1 in " + thousands(int(roundTo(1/p)))
	}
	return "less than 1 in 1,000"
}

// thousands writes a whole number with a comma before its last three digits where it has more.
func thousands(n int) string {
	if n < 1000 {
		return strconv.Itoa(n)
	}
	return fmt.Sprintf("%d,%03d", n/1000, n%1000)
}

// roundTo rounds a number to two digits that count.
func roundTo(x float64) float64 {
	scale := math.Pow10(max(0, int(math.Floor(math.Log10(x)))-1))
	return math.Round(x/scale) * scale
}

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
