package lifecycle

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
)

// ErrNotEstimable is wrapped by every fit that the data do not determine.
var ErrNotEstimable = errors.New("not estimable")

// FitThermal returns the degree-day law behind development times at constant temperatures: the straight line of 1/D on
// T by ordinary least squares.
//
//	1/D = −T0/K + T/K
//
// celsius are temperatures in °C and days the times in days, above 0, as many. Two different temperatures are needed,
// and a rate that rises with warmth. Source: the usual fit, as in A. Honěk, V. Jarošík and Z. Martinková, Eur. J.
// Entomol. 100 (2003). It weighs short times more than a fit of the days would.
func FitThermal(celsius, days []float64) (Thermal, error) {
	if err := checkTimes(celsius, days, 2); err != nil {
		return Thermal{}, err
	}
	rates := make([]float64, len(days))
	for i, d := range days {
		rates[i] = 1 / d
	}
	intercept, slope := stat.LinearRegression(celsius, rates, nil, false)
	if !(slope > 0) {
		return Thermal{}, fmt.Errorf("%w: the times do not shorten with warmth", ErrNotEstimable)
	}
	return Thermal{Base: -intercept / slope, DegreeDays: 1 / slope}, nil
}

// checkTimes reports development times that no law can be fitted to.
func checkTimes(celsius, days []float64, least int) error {
	if len(celsius) != len(days) {
		return fmt.Errorf("%d temperatures for %d times", len(celsius), len(days))
	}
	different := map[float64]bool{}
	for i, d := range days {
		if !(d > 0) || math.IsInf(d, 0) || math.IsNaN(celsius[i]) || math.IsInf(celsius[i], 0) {
			return fmt.Errorf("%v d at %v °C is no development time", d, celsius[i])
		}
		different[celsius[i]] = true
	}
	if len(different) < least {
		return fmt.Errorf("%w: %d different temperatures, at least %d are needed", ErrNotEstimable, len(different), least)
	}
	return nil
}

// Belehradek is the law D = Scale·(T − Zero)^(−Power): days at a constant temperature in °C.
type Belehradek struct {
	Scale float64 // days at one degree above Zero
	Zero  float64 // °C; a constant of the curve, not a limit of survival
	Power float64 // above 0
}

// Days returns the days at a constant temperature in °C, and +Inf at or below Zero.
func (b Belehradek) Days(celsius float64) float64 {
	return b.Scale / math.Pow(math.Max(0, celsius-b.Zero), b.Power)
}

// FitBelehradek returns Bělehrádek's law for development times at constant temperatures, by least squares of the days.
//
// celsius are temperatures in °C and days the times in days, above 0, as many, at three different temperatures or more.
// No starting values are needed. The three numbers are strongly tied to each other: compare predictions, not numbers,
// and never Zero with the base of a degree-day law. Source: as Incubation.AltRate; the fit is ours.
func FitBelehradek(celsius, days []float64) (Belehradek, error) {
	if err := checkTimes(celsius, days, 3); err != nil {
		return Belehradek{}, err
	}
	coldest := math.Inf(1)
	for _, t := range celsius {
		coldest = math.Min(coldest, t)
	}
	logs, logDays := make([]float64, len(days)), make([]float64, len(days))
	line := func(below float64) (intercept, slope float64) {
		for i, d := range days {
			logs[i], logDays[i] = math.Log(celsius[i]-coldest+below), math.Log(d)
		}
		return stat.LinearRegression(logs, logDays, nil, false)
	}
	// In logarithms the law is a straight line for any given zero, so that only the zero has to be searched.
	logBelow, inside := lowest(math.Log(0.01), math.Log(200), 200, func(logBelow float64) float64 {
		intercept, slope := line(math.Exp(logBelow))
		sum := 0.0
		for i := range logs {
			rest := logDays[i] - intercept - slope*logs[i]
			sum += rest * rest
		}
		return sum
	})
	intercept, slope := line(math.Exp(logBelow))
	if !inside || slope >= 0 {
		return Belehradek{}, fmt.Errorf("%w: the times do not bend as the law does", ErrNotEstimable)
	}
	x := []float64{intercept, coldest - math.Exp(logBelow), -slope}
	if _, inverse := polish(x, len(days), belehradekResiduals(celsius, days)); inverse == nil {
		return Belehradek{}, fmt.Errorf("%w: the times do not determine all three numbers", ErrNotEstimable)
	}
	return Belehradek{Scale: math.Exp(x[0]), Zero: x[1], Power: x[2]}, nil
}

// belehradekResiduals is the law in the parameters ln Scale, Zero and Power.
func belehradekResiduals(celsius, days []float64) model {
	return func(x, residuals []float64, jacobian *mat.Dense) {
		for i, t := range celsius {
			above := t - x[1]
			law := math.Exp(x[0] - x[2]*math.Log(above)) // NaN at or below Zero: no step goes there
			residuals[i] = law - days[i]
			jacobian.SetRow(i, []float64{law, law * x[2] / above, -law * math.Log(above)})
		}
	}
}
