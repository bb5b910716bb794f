package wording

import (
	"math"
	"strings"
	"testing"
)

// A probability is a percentage or one in so many, and never surer or rarer than the models can know.
func TestProbabilitiesClaimNoMoreThanIsKnown(t *testing.T) {
	for _, row := range []struct {
		p                     float64
		percent, odds, chance string
	}{
		{1, "over 99 %", "over 99.9 %", "almost 100 %"},
		{0.9996, "over 99 %", "over 99.9 %", "almost 100 %"},
		{0.9979, "over 99 %", "99.7 %", "almost 100 %"},
		{0.991, "over 99 %", "99.1 %", "99 %"},
		{0.99, "99 %", "99 %", "99 %"},
		{0.5, "50 %", "50 %", "50 %"},
		{0.095, "10 %", "10 %", "10 %"},
		{0.05, "5 %", "5 %", "about 1 in 20"},
		{0.01, "1 %", "1 %", "about 1 in 100"},
		{0.0099, "under 1 %", "under 1 %", "about 1 in 100"},
		{0.0043, "under 1 %", "under 1 %", "about 1 in 230"}, // 1/0.0043 = 232.6, two digits
		{0.001, "under 1 %", "under 1 %", "about 1 in 1,000"},
		{0.00099, "under 1 %", "under 1 %", "less than 1 in 1,000"},
		{0, "under 1 %", "under 1 %", "less than 1 in 1,000"},
		{math.NaN(), "unknown", "unknown", "less than 1 in 1,000"},
	} {
		for _, c := range []struct{ name, got, want string }{
			{"Percent", Percent(row.p), row.percent}, {"Odds", Odds(row.p), row.odds}, {"Chance", Chance(row.p), row.chance},
		} {
			if strings.ReplaceAll(c.got, Joined, " ") != c.want {
				t.Errorf("%s(%v) = %q, want %q", c.name, row.p, c.got, c.want)
			}
		}
	}
}

func TestMonthsAreThoseOfTheFormat(t *testing.T) {
	for days, want := range map[int]int{0: 0, 15: 0, 16: 1, 91: 3, 365: 12, 730: 24} {
		if got := Months(days); got != want {
			t.Errorf("%v days are %d months, want %d", days, got, want)
		}
	}
}
