package lifecycle

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
)

// The laws that the program takes for given, against published times, and the least squares behind the growth fits with
// two more models whose answers are known.

func TestHeatSumOfPublishedTimes(t *testing.T) {
	// Gastrophysa viridula, egg to adult: 7.1 °C and 304.6 degree-days are the straight line of 1/D on T. Source: Honěk, Jarošík
	// & Martinková 2003, Eur. J. Entomol. 100.
	published := Thermal{Base: 7.1, DegreeDays: 304.6}
	celsius, rates := []float64{18, 21.5, 25, 28}, []float64{1 / 28.2, 1 / 21.6, 1 / 16.1, 1 / 15.0}
	intercept, slope := stat.LinearRegression(celsius, rates, nil, false)
	near(t, "threshold", -intercept/slope, published.Base, 0.05)
	near(t, "degree-days", 1/slope, published.DegreeDays, 0.1)
	for _, c := range celsius {
		near(t, "rate by the law", published.Rate(c), intercept+slope*c, 3e-5)
	}
}

// norris is a straight line with certified answers. Source: NIST StRD, Norris.
var norris = [][2]float64{
	{0.2, 0.1}, {337.4, 338.8}, {118.2, 118.1}, {884.6, 888.0}, {10.1, 9.2}, {226.5, 228.1}, {666.3, 668.5}, {996.3, 998.5}, {448.6, 449.1},
	{777.0, 778.9}, {558.2, 559.2}, {0.4, 0.3}, {0.6, 0.1}, {775.5, 778.1}, {666.9, 668.8}, {338.0, 339.3}, {447.5, 448.9}, {11.6, 10.8},
	{556.0, 557.7}, {228.1, 228.3}, {995.8, 998.0}, {887.6, 888.8}, {120.2, 119.6}, {0.3, 0.3}, {0.3, 0.6}, {556.8, 557.6}, {339.1, 339.3},
	{887.2, 888.0}, {999.0, 998.5}, {779.0, 778.9}, {11.1, 10.2}, {118.3, 117.6}, {229.2, 228.9}, {669.1, 668.4}, {448.9, 449.2}, {0.5, 0.2},
}

func TestLeastSquaresFindTheCertifiedLine(t *testing.T) {
	b := []float64{1, 2}
	squares, inverse := polish(b, len(norris), func(b, residuals []float64, jacobian *mat.Dense) {
		for i, point := range norris {
			residuals[i] = b[0] + b[1]*point[0] - point[1]
			jacobian.SetRow(i, []float64{1, point[0]})
		}
	})
	if inverse == nil {
		t.Fatal("no covariance")
	}
	near(t, "intercept", b[0]/-0.262323073774029, 1, 1e-9)
	near(t, "slope", b[1]/1.00211681802045, 1, 1e-10)
	near(t, "residual sum of squares", squares/26.6173985294224, 1, 1e-10)
	near(t, "standard error of the slope", math.Sqrt(inverse.At(1, 1)*squares/34)/0.429796848199937e-3, 1, 1e-8)
}

// power is Bělehrádek's law D = e^b0·(T − b1)^(−b2) for times at constant temperatures.
func power(celsius, days []float64) model {
	return func(b, residuals []float64, jacobian *mat.Dense) {
		for i, t := range celsius {
			above := t - b[1]
			law := math.Exp(b[0] - b[2]*math.Log(above)) // NaN at or below the zero: no step goes there
			residuals[i] = law - days[i]
			jacobian.SetRow(i, []float64{law, law * b[2] / above, -law * math.Log(above)})
		}
	}
}

func TestLeastSquaresFindAPowerLaw(t *testing.T) {
	// Sea lice, D = 17840 (T + 7.439)^-2.128. Source: J. Fish Dis. 41 (2018) 973-993. Exact times give the law back; times with two
	// decimals give numbers that moved together (expected 17757 and 2.1268) and the same times.
	lice := Incubation{AltScale: 17840, AltZero: -7.439, AltPower: 2.128}
	celsius := []float64{6, 9, 12, 15, 18, 21}
	exact, rounded := make([]float64, len(celsius)), make([]float64, len(celsius))
	for i, c := range celsius {
		exact[i] = 1 / lice.AltRate(c)
		rounded[i] = math.Round(exact[i]*100) / 100
	}
	for _, row := range []struct {
		days                      []float64
		scale, zero, power        float64
		scaleTol, zeroTol, powTol float64
	}{
		{exact, 17840, -7.439, 2.128, 1e-8, 1e-8, 1e-8},
		{rounded, 17757, -7.429, 2.1268, 0.01, 0.01, 0.002},
	} {
		b := []float64{8, -4, 1.5}
		if _, inverse := polish(b, len(celsius), power(celsius, row.days)); inverse == nil {
			t.Fatal("no covariance")
		}
		near(t, "scale", math.Exp(b[0])/row.scale, 1, row.scaleTol)
		near(t, "zero", b[1], row.zero, row.zeroTol)
		near(t, "power", b[2], row.power, row.powTol)
		fitted := Incubation{AltScale: math.Exp(b[0]), AltZero: b[1], AltPower: b[2]}
		for i, c := range celsius {
			near(t, "predicted time", 1/fitted.AltRate(c)/exact[i], 1, 1e-3)
		}
	}
	checkJacobian(t, "Bělehrádek", []float64{9, -1, 2}, len(celsius), power(celsius, exact))
}

func TestLeastSquaresSayThatAPowerLawHasNoZero(t *testing.T) {
	// D = 163.1 e^(−0.1 T) has no zero: the best one runs away to −∞, and the numbers are not determined.
	celsius, days := []float64{10, 15, 20, 25}, []float64{60, 36.39184, 22.07277, 13.38781}
	b := []float64{8, -4, 1.5}
	if _, inverse := polish(b, len(celsius), power(celsius, days)); inverse != nil && b[1] > -50 {
		t.Errorf("an exponential law gives the zero %v", b[1])
	}
}
