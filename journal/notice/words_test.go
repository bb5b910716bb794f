package notice

import "testing"

// TestChance: a chance is said as a percentage or as one in so many, and never as rarer than the models can know.
func TestChance(t *testing.T) {
	for _, c := range []struct {
		p      float64
		want   string
		source string
	}{
		{1, "almost 100\u00a0%", "nothing is said to be certain"},
		{0.5, "50\u00a0%", "by hand"},
		{0.05, "about 1 in 20", "by hand: 1/0.05"},
		{0.0043, "about 1 in 230", "by hand: 1/0.0043 = 232.6, two digits"},
		{0.001, "about 1 in 1,000", "the bound itself"},
		{0.00099, "less than 1 in 1,000", "below the bound"},
		{1e-9, "less than 1 in 1,000", "far below the bound"},
		{0, "less than 1 in 1,000", "a sum that ran out of digits"},
	} {
		if got := chance(c.p); got != c.want {
			t.Errorf("chance(%g) = %q, want %q (%s)", c.p, got, c.want, c.source)
		}
	}
}
