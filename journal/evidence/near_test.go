package evidence

import (
	"math"
	"testing"
)

// near fails the test unless got is within tol of want; equal infinities pass.
func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if got == want {
		return
	}
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.10g, want %.10g ± %g", what, got, want, tol)
	}
}
