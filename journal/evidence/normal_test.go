package evidence

import (
	"fmt"
	"math"
	"testing"
)

func TestQuantilesOfTheNormalAreThoseOfTheTables(t *testing.T) {
	standard := Normal{SD: 1}
	// Tables of the normal distribution.
	for p, want := range map[float64]float64{0.75: .6744898, 0.9: 1.2815516, 0.95: 1.6448536, 0.975: 1.9599640, 0.5: 0} {
		near(t, fmt.Sprintf("Quantile(%v)", p), standard.Quantile(p), want, 5e-8)
		near(t, fmt.Sprintf("CDF of Quantile(%v)", p), standard.CDF(standard.Quantile(p)), p, 1e-12)
		near(t, fmt.Sprintf("Quantile(1 − %v)", p), standard.Quantile(1-p), -want, 5e-8)
	}
	near(t, "within one sd", standard.CDF(1)-standard.CDF(-1), .6826895, 5e-8)
	near(t, "Quantile(0)", standard.Quantile(0), math.Inf(-1), 0)
	sure := Normal{Mean: 5}
	near(t, "sure quantile", sure.Quantile(0.1), 5, 0)
	near(t, "sure CDF below", sure.CDF(4.9), 0, 0)
	near(t, "sure CDF at", sure.CDF(5), 1, 0)
}
