package population

import (
	"math"
	"testing"
)

func TestTailsOfABetaBinomialAddUp(t *testing.T) {
	// With mean 1/2 and concentration 2 the share is uniform, so that 0 to n are equally likely. Source: closed form.
	for _, y := range []int{0, 1, 7, 20} {
		atMost, atLeast := betaBinomialTails(y, 20, 0.5, 2)
		if math.Abs(atMost-float64(y+1)/21) > 1e-9 || math.Abs(atLeast-float64(21-y)/21) > 1e-9 {
			t.Errorf("%d of 20: %v and %v", y, atMost, atLeast)
		}
	}
	// Law: the two tails share the term in the middle, whatever the numbers.
	for _, n := range []int{1, 5, 60, 400} {
		for y := range n + 1 {
			atMost, atLeast := betaBinomialTails(y, n, 0.3, 12)
			term := math.Exp(betaBinomial(y, n, 0.3, 12))
			if math.Abs(atMost+atLeast-1-term) > 1e-9 {
				t.Fatalf("%d of %d: %v + %v - 1 is not %v", y, n, atMost, atLeast, term)
			}
		}
	}
	if atMost, atLeast := betaBinomialTails(3, 2, 0.5, 2); atMost != 1 || atLeast != 0 {
		t.Errorf("more than there are: %v and %v", atMost, atLeast)
	}
}

// A count that fits is no surprise, one far off is, in its own direction, and an emptied tank has no excuse.
func TestACountFarOffIsASurprise(t *testing.T) {
	finding := func(method Method, n int) Finding {
		tank := after(t, 9, tankOf(t, 24, founders(100), Fact{start + 5, 2, Counted{Group{Unsexed: n}, Unsexed, method}}))
		return tank.findings[0]
	}
	for _, row := range []struct {
		method           Method
		n                int
		below, above     float64 // at most
		belowAt, aboveAt float64 // at least
	}{
		{Glance, 40, 1, 1, 0.2, 0.2},
		{Glance, 4, 0.02, 1, 0, 0.97},
		{Careful, 99, 1, 0.1, 0.9, 0},
		{Emptied, 40, 0.001, 1, 0, 0.99},
	} {
		f := finding(row.method, row.n)
		if f.Below > row.below || f.Below < row.belowAt || f.Above > row.above || f.Above < row.aboveAt {
			t.Errorf("%d by %s: below %.4f, above %.4f", row.n, []string{"glance", "careful", "emptied"}[row.method], f.Below, f.Above)
		}
	}
}

// The sums of each evening are those of its particles: the last is the present.
func TestEveningsEndInThePresent(t *testing.T) {
	f := New([]Record{tankOf(t, 24, founders(60))}, 200)
	f.Advance(start + 200)
	o := f.Outlooks()[0]
	last := o.Evenings[len(o.Evenings)-1]
	if len(o.Evenings) != len(o.Past) || last.Day != o.Day {
		t.Fatalf("%d evenings beside %d, the last on day %d of %d", len(o.Evenings), len(o.Past), last.Day, o.Day)
	}
	if last.Females < o.AdultFemales.P05 || last.Females > o.AdultFemales.P95 || last.Adults < last.Females {
		t.Errorf("%+v beside females %+v", last, o.AdultFemales)
	}
	// One female begins a clutch every 1.5 incubations of 239/13 days at 24 °C, give or take her age. Source: the profile's numbers.
	if per := last.Clutches / last.Females * 1.5 * 239 / 13; per < 0.5 || per > 1.3 {
		t.Errorf("a female begins %.2f times the usual clutches", per)
	}
	// Adults die at 0.0024 a day by accident alone, more when old.
	if per := o.Evenings[4].Dying / 60; per < 0.001 || per > 0.006 {
		t.Errorf("of 60 founders %.4f a day die", per)
	}
}
