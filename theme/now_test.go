package theme

import (
	"testing"

	"pleopod/journal/forecast"
)

// Where most are young, a tank says how many are grown: a keeper who counts twenty and reads of a hundred sees why.
func TestGrownAmong(t *testing.T) {
	middle := func(n float64) forecast.Quantiles { return forecast.Quantiles{P50: n} }
	for _, c := range []struct {
		females, males, all float64
		want                string
	}{
		{5, 4, 133, ", about 9 of them grown,"},
		{0, 0, 40, ", none of them grown,"},
		{4, 3, 10, ""},
		{0, 0, 0, ""},
	} {
		n := forecast.Population{Now: middle(c.all), AdultFemales: middle(c.females), AdultMales: middle(c.males)}
		if got := grownAmong(&n); got != c.want {
			t.Errorf("%v: %q, want %q", c, got, c.want)
		}
	}
}
