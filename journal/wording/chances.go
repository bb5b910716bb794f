package wording

import (
	"fmt"
	"math"
	"strconv"
)

// Percent writes a share of 1 as a whole percentage. It never claims a certainty that a model cannot have: there are no 0 %
// and no 100 %.
func Percent(share float64) string {
	switch {
	case math.IsNaN(share):
		return "unknown"
	case share < 0.01:
		return "under 1" + Joined + "%"
	case share > 0.99:
		return "over 99" + Joined + "%"
	}
	return Number(math.Round(100*share), 0) + Joined + "%"
}

// Odds writes a probability as Percent does, and one near 1 with the digit that matters there: "99.7 %". It claims no more
// than a thousand simulated histories can show.
func Odds(p float64) string {
	switch {
	case p > 0.9995:
		return "over 99.9" + Joined + "%"
	case p > 0.99:
		return Number(math.Floor(1000*p)/10, 1) + Joined + "%"
	}
	return Percent(p)
}

// leastChance is the smallest probability that is written as a number. Models of this kind are fitted to a few broods and
// readings, and cannot tell how rare anything rarer is.
const leastChance = 1e-3

// Chance writes how likely something unusual is: a percentage, or one in so many when it is small.
func Chance(p float64) string {
	switch {
	case p >= 0.995:
		return "almost 100" + Joined + "%"
	case p >= 0.095:
		return Number(100*p, 0) + Joined + "%"
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

// daysPerMonth is the length of a month of the format, a twelfth of the Julian year.
const daysPerMonth = 365.25 / 12

// Months returns how many whole months a number of days is nearest to.
func Months(days int) int { return int(math.Round(float64(days) / daysPerMonth)) }
