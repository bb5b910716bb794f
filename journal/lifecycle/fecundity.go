package lifecycle

import "math"

// Hatchlings returns the expected number of young of one brood, before any loss to heat, for a female of a length in
// mm.
//
//	N(L) = Reference·(L/Length)^Exponent, held between Min and Max
//
// mm is above 0; at or below 0 it returns Min. Source: 21-51 young per brood, more from larger females (Nur &
// Christianus 2013, doi 10.3923/ajava.2013.108.115); exponent 2.86 in Exopalaemon modestus (Chen et al. 2015, doi
// 10.7541/2015.129). Single broods scatter around it with CV.
func (f Fecundity) Hatchlings(mm float64) float64 {
	mean := f.Reference * math.Pow(math.Max(0, mm)/f.Length, f.Exponent)
	return math.Min(f.Max, math.Max(f.Min, mean))
}

// HeatFactor returns the share of the usual hatchlings that warm water leaves, 0 to 1.
//
//	1 up to HeatFrom, then falling on a straight line to 0 at HeatAll
//
// celsius is the mean temperature while the eggs are carried, in °C. Source: all eggs were lost at 32 °C, not at 28 °C
// (Tropea, Stumpf & López Greco 2015, PLoS ONE 10:e0119468); the straight line between is an assumption.
func (f Fecundity) HeatFactor(celsius float64) float64 {
	return 1 - ramp(celsius, f.HeatFrom, f.HeatAll)
}

// EggsToHatchlings returns the expected number of young from a count of eggs carried at a mean temperature in °C.
//
//	eggs·(1 − EggLoss)·HeatFactor(celsius)
//
// eggs is at least 0. The loss is an assumption.
func (f Fecundity) EggsToHatchlings(eggs, celsius float64) float64 {
	return eggs * (1 - f.EggLoss) * f.HeatFactor(celsius)
}

// ramp rises on a straight line from 0 at from to 1 at to, and is flat on both sides.
func ramp(x, from, to float64) float64 {
	if x >= to {
		return 1
	}
	return math.Max(0, (x-from)/(to-from))
}
