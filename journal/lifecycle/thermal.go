package lifecycle

import "math"

// Rate returns the share of a stage that is completed in a day at a constant temperature, per day.
//
//	r(T) = max(0, T − T0)/K      with T0 = Base, K = DegreeDays
//
// celsius is the water temperature in °C; any value is taken, and at or below Base the rate is 0.
// Source: the linear heat-sum law, as in A. Honěk, V. Jarošík and Z. Martinková, Eur. J. Entomol. 100 (2003)
// (Gastrophysa viridula). It says nothing of temperatures that harm the animal.
func (t Thermal) Rate(celsius float64) float64 { return math.Max(0, celsius-t.Base) / t.DegreeDays }

// Days returns how many days a stage takes at a constant temperature in °C: 1/Rate, and +Inf at or below Base.
func (t Thermal) Days(celsius float64) float64 { return 1 / t.Rate(celsius) }

// MeanRate returns the expected rate, per day, where the temperature is uncertain: normal with the given mean and sd.
//
//	E r(T) = σ·[z·Φ(z) + φ(z)]/K      with z = (μ − T0)/σ
//
// mean is in °C, sd in °C and at least 0; with sd 0 it is Rate(mean). It is smooth in both. Source: expectation of a
// normal variable cut off at 0, closed form (integrate by parts).
func (t Thermal) MeanRate(mean, sd float64) float64 {
	return meanAbove(mean, sd, t.Base) / t.DegreeDays
}

// meanAbove returns E max(0, T − threshold) in °C for T normal with mean and sd in °C.
func meanAbove(mean, sd, threshold float64) float64 {
	if sd <= 0 {
		return math.Max(0, mean-threshold)
	}
	z := (mean - threshold) / sd
	return sd * (z*normalCDF(z) + normalDensity(z))
}

// normalCDF is the standard normal distribution function.
func normalCDF(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }

// normalDensity is the standard normal density.
func normalDensity(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }
