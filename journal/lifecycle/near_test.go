package lifecycle

import (
	"math"
	"testing"
)

// near fails the test unless got is within tol of want; infinities must be equal.
func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if got == want {
		return
	}
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.10g, want %.10g ± %g", what, got, want, tol)
	}
}

// davidi returns the default profile.
func davidi(t *testing.T) Profile {
	t.Helper()
	p, ok := Default("neocaridina-davidi")
	if !ok {
		t.Fatal("no profile of neocaridina-davidi")
	}
	return p
}
