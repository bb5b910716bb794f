package population

import (
	"math"
	"testing"

	"pleopod/journal/lifecycle"
)

// TestLuckComesAndGoes holds the luck of the young to what is said of it: a first-order autoregression whose spread stays
// luckSD, so that good and bad weeks are 1 on average, and which forgets by e in luckDays. Source: closed form; bounds of five
// standard errors.
func TestLuckComesAndGoes(t *testing.T) {
	profile, _ := lifecycle.Default("neocaridina-davidi")
	l := newLaw(&Record{Profile: profile, Capacity: -1})
	s := newStream(1, 2)
	const draws = 100000
	var mean, square, product float64
	var p particle
	for range draws {
		before := float64(p.luck)
		p.wander(l, &s)
		mean += p.spared() / draws
		square += float64(p.luck) * float64(p.luck) / draws
		product += before * float64(p.luck) / draws
	}
	keep := math.Exp(-float64(l.width) / luckDays)
	effective := draws * (1 - keep) / (1 + keep)
	if bound := 5 * math.Sqrt(math.Expm1(luckSD*luckSD)/effective); math.Abs(mean-1) > bound {
		t.Errorf("the factor is %g on average, want 1 ± %g", mean, bound)
	}
	if bound := 5 * luckSD * luckSD * math.Sqrt(2/effective); math.Abs(square-luckSD*luckSD) > bound {
		t.Errorf("the variance is %g, want %g ± %g", square, luckSD*luckSD, bound)
	}
	if bound := 5 / math.Sqrt(draws); math.Abs(product/square-keep) > bound {
		t.Errorf("the correlation over %d days is %g, want %g ± %g", l.width, product/square, keep, bound)
	}
}
