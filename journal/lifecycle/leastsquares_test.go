package lifecycle

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// misra is Misra1a with its certified answers. Source: NIST StRD.
func misra() growthProblem {
	return plain(0,
		[]float64{77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0},
		[]float64{10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78})
}

func TestLeastSquaresFindTheCertifiedMisraData(t *testing.T) {
	problem := misra()
	x := []float64{250, math.Log(5e-4)} // the second start of NIST
	squares, inverse := polish(x, len(problem.segments)+2, problem.residuals)
	near(t, "b1", x[0]/238.94212918, 1, 1e-7)
	near(t, "b2", math.Exp(x[1])/5.5015643181e-4, 1, 1e-7)
	near(t, "residual sum of squares", squares/0.12455138894, 1, 1e-7)
	if inverse == nil {
		t.Fatal("no covariance")
	}
	// The standard error of b2 is certified too; the parameter here is its logarithm.
	near(t, "standard error of b2", math.Sqrt(inverse.At(1, 1)*squares/12)*math.Exp(x[1])/7.2668688436e-6, 1, 1e-4)
}

func TestLeastSquaresFindTheCertifiedLogistic(t *testing.T) {
	// y = b1/(1 + e^(b2 − b3 x)). Source: NIST StRD, Ratkowsky2, certified; started from its second start.
	x := []float64{9, 14, 21, 28, 42, 57, 63, 70, 79}
	y := []float64{8.93, 10.80, 18.59, 22.33, 39.35, 56.11, 61.73, 64.62, 67.08}
	logistic := func(b, residuals []float64, jacobian *mat.Dense) {
		for i := range x {
			e := math.Exp(b[1] - b[2]*x[i])
			residuals[i] = b[0]/(1+e) - y[i]
			slope := b[0] * e / ((1 + e) * (1 + e))
			jacobian.SetRow(i, []float64{1 / (1 + e), -slope, slope * x[i]})
		}
	}
	checkJacobian(t, "logistic", []float64{72, 2.5, 0.065}, len(x), logistic)
	b := []float64{75, 2.5, 0.07}
	squares, inverse := polish(b, len(x), logistic)
	if inverse == nil {
		t.Fatal("no covariance")
	}
	for i, want := range []struct{ value, sd float64 }{{72.462237576, 1.7340283401}, {2.6180768402, 0.088295217536}, {0.067359200066, 0.0034465663377}} {
		near(t, fmt.Sprintf("b%d", i+1), b[i]/want.value, 1, 1e-7)
		near(t, fmt.Sprintf("standard error of b%d", i+1), math.Sqrt(inverse.At(i, i)*squares/6)/want.sd, 1, 1e-6)
	}
	near(t, "residual sum of squares", squares/8.0565229338, 1, 1e-7)
}

func TestLeastSquaresFindThePublishedCurveOfHake(t *testing.T) {
	// All three numbers of the curve at once. Source: Kimura 1980, US Fishery Bulletin 77:765-776, females of Pacific hake;
	// recomputed without rounding, with standard errors and predictions.
	ages := []float64{1.0, 2.0, 3.3, 4.3, 5.3, 6.3, 7.3, 8.3, 9.3, 10.3, 11.3, 12.3, 13.3}
	lengths := []float64{15.40, 28.03, 41.18, 46.20, 48.23, 50.26, 51.82, 54.27, 56.98, 58.93, 59.00, 60.91, 61.83}
	length := func(b []float64, age float64) float64 { return b[0] * (1 - math.Exp(-b[1]*(age-b[2]))) }
	b := []float64{60, 0.3, 0}
	squares, inverse := polish(b, len(ages), func(b, residuals []float64, jacobian *mat.Dense) {
		for i, age := range ages {
			left := math.Exp(-b[1] * (age - b[2]))
			residuals[i] = length(b, age) - lengths[i]
			jacobian.SetRow(i, []float64{1 - left, b[0] * (age - b[2]) * left, -b[0] * b[1] * left})
		}
	})
	if inverse == nil {
		t.Fatal("no covariance")
	}
	for i, want := range []struct{ value, sd float64 }{{61.2332996, 1.2141}, {0.296253, 0.02874}, {-0.0572644, 0.1753}} {
		near(t, fmt.Sprintf("number %d", i+1), b[i]/want.value, 1, 1e-4)
		near(t, fmt.Sprintf("standard error %d", i+1), math.Sqrt(inverse.At(i, i)*squares/10)/want.sd, 1, 1e-3)
	}
	near(t, "residual sum of squares", squares/28.80038, 1, 1e-4)
	for age, want := range map[float64]float64{1: 16.466, 2: 27.945, 5.3: 48.710, 10.3: 58.386} {
		near(t, fmt.Sprintf("length at %g", age), length(b, age), want, 1e-3)
	}
}

func TestLeastSquaresSayWhatIsNotDetermined(t *testing.T) {
	same := plain(0, []float64{1, 1, 1}, []float64{5, 6, 7})
	x := []float64{20, 0}
	if _, inverse := polish(x, len(same.segments)+2, same.residuals); inverse != nil {
		t.Error("three lengths at one age determine two numbers")
	}
}

// checkJacobian compares the derivatives of a model with finite differences.
func checkJacobian(t *testing.T, name string, x []float64, rows int, residuals model) {
	t.Helper()
	const step = 1e-6
	jacobian, other := mat.NewDense(rows, len(x), nil), mat.NewDense(rows, len(x), nil)
	above, below := make([]float64, rows), make([]float64, rows)
	residuals(x, above, jacobian)
	for j := range x {
		at := x[j]
		x[j] = at + step
		residuals(x, above, other)
		x[j] = at - step
		residuals(x, below, other)
		x[j] = at
		for i := range rows {
			slope := (above[i] - below[i]) / (2 * step)
			near(t, fmt.Sprintf("%s: derivative %d, %d", name, i, j), jacobian.At(i, j), slope, 1e-5*(1+math.Abs(slope)))
		}
	}
}

func TestJacobiansAreDerivatives(t *testing.T) {
	growth := davidi(t).Growth
	problem := growth.problem(growth.Female)
	problem.add(2.3, 15, 0.5, 1.3)
	problem.add(12, 17, 0.3, 0.7)
	checkJacobian(t, "growth", []float64{27, 0.5}, 4, problem.residuals)
}

func TestTheBestGreatestLengthMakesTheSquaresFlat(t *testing.T) {
	// At the best greatest length for a given kappa the sum of squares is flat.
	growth := davidi(t).Growth
	problem := growth.problem(growth.Male)
	problem.add(2.3, 15, 0.5, 1.3)
	problem.add(12, 17, 0.3, 0.7)
	problem.add(10, 14, 0.4, 0.9)
	rest, jacobian := make([]float64, 5), mat.NewDense(5, 2, nil)
	for _, kappa := range []float64{0.3, 1, 2, 5} {
		problem.residuals([]float64{problem.bestMax(kappa), math.Log(kappa)}, rest, jacobian)
		slope := 0.0
		for i, r := range rest {
			slope += 2 * r * jacobian.At(i, 0)
		}
		near(t, fmt.Sprintf("slope at kappa %v", kappa), slope, 0, 1e-9)
	}
}

func TestTheLowestPlaceIsFoundWithinOrAtAnEnd(t *testing.T) {
	at, inside := lowest(-3, 7, 20, func(x float64) float64 { return math.Cosh(x - 1.234) })
	near(t, "lowest of a catenary", at, 1.234, 1e-6)
	if !inside {
		t.Error("a low place within is called an end")
	}
	for _, slope := range []float64{1, -1} {
		at, inside := lowest(-3, 7, 20, func(x float64) float64 { return slope * x })
		near(t, fmt.Sprintf("lowest of a slope of %v", slope), at, 2-5*slope, 1e-12)
		if inside {
			t.Errorf("the end of a slope of %v is called within", slope)
		}
	}
}

func TestLengthsScatterByShareAndByRuler(t *testing.T) {
	growth := Growth{CV: 0.1, MeasureSD: 0.5}
	usual := NewCurve(2, 22, math.Ln2) // half-way to its greatest length at phi 1
	near(t, "length of 12 mm [by hand]", growth.lengthSD(usual, Measured{Phi: 1, MM: 99}), 1.3, 1e-12)
	near(t, "10 mm that grow by 9 [by hand]", growth.recaptureSD(usual, Recapture{First: 10, Second: 99, Phi: 2}), math.Sqrt(0.81+0.5), 1e-12)
}

func TestScatterMakesAFitLessSureAndNoOther(t *testing.T) {
	// The same lengths scattered four times as far around one curve: still that curve, and less sure.
	growth := davidi(t).Growth
	fits := map[float64]CurveFit{}
	for _, by := range []float64{1, 8} {
		var lengths []Measured
		for i := range 30 {
			phi := 0.3 + 0.05*float64(i)
			lengths = append(lengths, Measured{phi, growth.Female.Length(phi) + by*0.7*float64(i%3-1)})
		}
		fits[by] = growth.Fit(growth.Female, lengths, nil)
	}
	if !fits[8].Estimable || fits[8].MeanSD(1) < 2*fits[1].MeanSD(1) {
		t.Errorf("scattered: estimable %v, error %v; close: %v", fits[8].Estimable, fits[8].MeanSD(1), fits[1].MeanSD(1))
	}
	// Lengths of another animal are refused although they scatter.
	var lengths []Measured
	for i := range 30 {
		phi := 0.3 + 0.05*float64(i)
		lengths = append(lengths, Measured{phi, 3.5*growth.Female.Length(phi) + 8*float64(i%3-1)})
	}
	if fit := growth.Fit(growth.Female, lengths, nil); fit.Estimable || fit.Reason == "" {
		t.Errorf("animals of 80 mm give %+v", fit)
	}
}

func TestWithNothingMeasuredTheErrorIsThatOfTheUsualCurve(t *testing.T) {
	// With nothing measured it is the uncertainty of the usual curve: both numbers moved by their own sd.
	growth := davidi(t).Growth
	fit := growth.Fit(growth.Female, nil, nil)
	curve := growth.Female
	for _, phi := range []float64{0, 0.3, 1, 2} {
		const step = 1e-5
		byMax := (NewCurve(curve.Hatch, curve.Max+step, curve.Kappa()).Length(phi) - curve.Length(phi)) / step
		byKappa := (NewCurve(curve.Hatch, curve.Max, curve.Kappa()*(1+step)).Length(phi) - curve.Length(phi)) / step
		want := math.Hypot(byMax*growth.MaxPriorSD*curve.Max, byKappa*growth.KappaPriorSD)
		near(t, fmt.Sprintf("MeanSD(%v)", phi), fit.MeanSD(phi), want, 1e-4)
	}
	near(t, "before hatching", fit.MeanSD(-1), 0, 0)
	// The two errors of a fit go together: left out, the error at maturity would be far too wide or narrow.
	together := CurveFit{Curve: NewCurve(2, 22, math.Ln2), covariance: covariance{max: 4, both: -0.1, logKappa: 0.01}}
	slope := 20 * math.Ln2 / 2
	near(t, "by hand", together.MeanSD(1), math.Sqrt(1-0.1*slope+slope*slope*0.01), 1e-12)
}
