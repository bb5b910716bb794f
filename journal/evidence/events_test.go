package evidence

import (
	"math"
	"testing"
)

func TestPoissonTailsAreTheClosedForm(t *testing.T) {
	for _, row := range []struct {
		hits   int
		mean   float64
		want   float64
		source string
	}{
		{0, 3, 1, "certain"},
		{1, 3, 1 - math.Exp(-3), "closed form"},
		{3, 2, 1 - math.Exp(-2)*(1+2+2), "closed form"},
		{2, 0, 0, "limit"},
	} {
		if got := AtLeastPoisson(row.hits, row.mean); math.Abs(got-row.want) > 1e-12 {
			t.Errorf("%d of %g: %v, want %v (%s)", row.hits, row.mean, got, row.want, row.source)
		}
	}
}

func TestClumpedEventsMakeManyLikelier(t *testing.T) {
	for _, row := range []struct {
		hits        int
		mean, shape float64
		want        float64
		source      string
	}{
		{0, 3, 2, 1, "certain"},
		{1, 3, 1, 0.75, "geometric: 1 - 1/(1 + m)"},
		{2, 3, 1, 0.5625, "geometric: (m/(1 + m))²"},
		{1, 0.17, 2, 1 - math.Pow(1+0.17/2, -2), "closed form"},
		{3, 2, 1e9, 1 - math.Exp(-2)*5, "Poisson in the limit"},
	} {
		if got := AtLeastClumped(row.hits, row.mean, row.shape); math.Abs(got-row.want) > 1e-6 {
			t.Errorf("%d of %g, shape %g: %v, want %v (%s)", row.hits, row.mean, row.shape, got, row.want, row.source)
		}
	}
	// Law: clumping makes many hits likelier.
	if AtLeastClumped(6, 1, 1) <= AtLeastPoisson(6, 1) {
		t.Error("six hits are not likelier where they come together")
	}
}

func TestNoneSinceIsTheClosedForm(t *testing.T) {
	if got := NoneSince(4, 6, 6); math.Abs(got-0.0625) > 1e-12 { // (1/2)⁴
		t.Errorf("as long again without: %v", got)
	}
	if got := NoneSince(4e6, 4e6, 2); math.Abs(got-math.Exp(-2)) > 1e-5 { // a known rate of 1
		t.Errorf("a known rate: %v", got)
	}
}

func TestTwoSidedTailsAreThoseOfTheNormal(t *testing.T) {
	for z, want := range map[float64]float64{1: 0.3173105, 1.959964: 0.05, -1.959964: 0.05, 0: 1} { // tables
		if got := TwoSided(z); math.Abs(got-want) > 1e-6 {
			t.Errorf("%g: %v, want %v", z, got, want)
		}
	}
}
