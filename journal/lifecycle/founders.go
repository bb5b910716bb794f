package lifecycle

import "math"

// BothSexes returns the probability, 0 to 1, that n shrimp hold at least one of each sex.
//
//	1 − p^n − (1 − p)^n
//
// n is at least 0, p is the share of females, 0 to 1. With fewer than two shrimp it is 0. Source: closed form; ten
// shrimp at even odds give 99.8 %.
func BothSexes(n int, p float64) float64 {
	if n < 2 {
		return 0
	}
	return 1 - math.Pow(p, float64(n)) - math.Pow(1-p, float64(n))
}

// BothSexesBeta returns the probability, 0 to 1, that n shrimp hold at least one of each sex when the share of females
// is uncertain: Beta distributed with parameters a (females) and b (males), both above 0.
//
//	1 − B(a + n, b)/B(a, b) − B(a, b + n)/B(a, b)
//
// With fewer than two shrimp it is 0. It is never above BothSexes at the mean share. Source: moments of the Beta
// distribution.
func BothSexesBeta(n int, a, b float64) float64 {
	if n < 2 {
		return 0
	}
	return 1 - allOf(n, a, a+b) - allOf(n, b, a+b)
}

// allOf returns the probability that n draws are all of one kind, whose share is Beta distributed with parameter a of
// a total of a and b.
func allOf(n int, a, total float64) float64 {
	product := 1.0
	for i := range n {
		product *= (a + float64(i)) / (total + float64(i))
	}
	return product
}

// BothSexesCounted returns the probability, 0 to 1, that a group holds both sexes when some of it were told apart:
// females and males seen for certain, and unsexed shrimp beside them.
//
// a and b are the Beta parameters of the share of females before anybody was counted, both above 0; those told apart
// update them, as if they had been picked without regard to sex. Both sexes seen gives 1.
func BothSexesCounted(females, males, unsexed int, a, b float64) float64 {
	a, b = a+float64(females), b+float64(males)
	switch {
	case females > 0 && males > 0:
		return 1
	case females > 0:
		return 1 - allOf(unsexed, a, a+b)
	case males > 0:
		return 1 - allOf(unsexed, b, a+b)
	}
	return BothSexesBeta(unsexed, a, b)
}

// mostFounders is where SmallestFounding gives up.
const mostFounders = 100000

// SmallestFounding returns the smallest number of shrimp that hold both sexes with at least the target probability, for
// a share of females p. It returns 0 when no number up to 100,000 does, as with p 0 or 1.
func SmallestFounding(p, target float64) int {
	if !(p > 0 && p < 1 && target < 1) {
		return 0
	}
	for n := 2; n <= mostFounders; n++ {
		if BothSexes(n, p) >= target {
			return n
		}
	}
	return 0
}
