package evidence

import (
	"fmt"
	"math"
	"testing"
)

// nile is the annual flow at Aswan, 1871-1970, in 10^8 m³. Source: R package datasets; J. Durbin and S. J. Koopman,
// Time Series Analysis by State Space Methods (2001).
var nile = []float64{
	1120, 1160, 963, 1210, 1160, 1160, 813, 1230, 1370, 1140, 995, 935, 1110, 994, 1020, 960, 1180, 799, 958, 1140,
	1100, 1210, 1150, 1250, 1260, 1220, 1030, 1100, 774, 840, 874, 694, 940, 833, 701, 916, 692, 1020, 1050, 969,
	831, 726, 456, 824, 702, 1120, 1100, 832, 764, 821, 768, 845, 864, 862, 698, 845, 744, 796, 1040, 759,
	781, 865, 845, 944, 984, 897, 822, 1010, 771, 676, 649, 846, 812, 742, 801, 1040, 860, 874, 848, 890,
	744, 749, 838, 1050, 918, 986, 797, 923, 975, 815, 1020, 906, 901, 1170, 912, 746, 919, 718, 714, 740,
}

func TestNile(t *testing.T) {
	// Variances by maximum likelihood 15099 and 1469.1: Durbin & Koopman; R StructTS 15098.577 and 1469.147.
	model := LocalLevel{First: Normal{Mean: 1000, SD: 500}, Step: math.Sqrt(1469.1), Noise: math.Sqrt(15099)}
	levels, logLikelihood := model.Filter(nile)
	near(t, "log-likelihood with the proper prior", logLikelihood, -639.711715, 1e-3)
	for _, row := range []struct {
		year int
		want float64
	}{{1871, 1113.1653}, {1872, 1137.0456}, {1890, 1026.1332}, {1970, 798.3703}} {
		near(t, fmt.Sprintf("level of %d", row.year), levels[row.year-1871].Mean, row.want, 1e-3)
	}
	near(t, "variance of 1871", levels[0].SD*levels[0].SD, 14239.02, 1e-2)
	near(t, "steady variance: P·Noise²/(P + Noise²), P = 5501.2579", levels[99].SD*levels[99].SD, 4032.158, 1e-2)
	next := model.Ahead(levels[99], 1)
	near(t, "1971 mean", next.Mean, 798.3703, 1e-3)
	near(t, "1971 sd", next.SD, 143.5279, 1e-3)
	near(t, "1980 sd", model.Ahead(levels[99], 10).SD, 183.9080, 1e-3)
}

func TestNileDiffuse(t *testing.T) {
	// A prior of almost no weight stands for the diffuse start of Durbin & Koopman: the first term carries the prior
	// alone.
	prior := Normal{Mean: 0, SD: 1e7}
	model := LocalLevel{First: prior, Step: math.Sqrt(1469.1), Noise: math.Sqrt(15099)}
	levels, logLikelihood := model.Filter(nile)
	first := prior.Predict(model.Noise).LogDensity(nile[0])
	near(t, "log-likelihood of the other 99", logLikelihood-first, -632.5456, 1e-3)
	for i, want := range map[int]float64{1: 7899.736, 2: 5781.470, 9: 4051.284} {
		near(t, fmt.Sprintf("variance of %d", 1871+i), levels[i].SD*levels[i].SD, want, 1e-2)
	}
}

func TestFilterWithoutObservation(t *testing.T) {
	model := LocalLevel{First: Normal{Mean: 5, SD: 3}, Step: 2, Noise: 1}
	levels, logLikelihood := model.Filter([]float64{math.NaN(), math.NaN(), math.NaN()})
	near(t, "no likelihood", logLikelihood, 0, 0)
	near(t, "mean stays", levels[2].Mean, 5, 0)
	near(t, "variance grows by two steps", levels[2].SD*levels[2].SD, 17, 1e-12)
}
