package lifecycle

import "math"

// NewCurve returns the curve with the given length at hatching in mm, greatest length in mm, and kappa per unit of phi.
// It is Curve.Kappa turned round: Mature = Max − (Max − Hatch)·exp(−kappa).
func NewCurve(hatch, greatest, kappa float64) Curve {
	return Curve{Hatch: hatch, Mature: greatest - (greatest-hatch)*math.Exp(-kappa), Max: greatest}
}

// Kappa returns the speed of growth per unit of phi, the share of the way to maturity.
//
//	kappa = ln[(Max − Hatch)/(Max − Mature)]
//
// It is above 0 when Hatch < Mature < Max.
func (c Curve) Kappa() float64 { return math.Log((c.Max - c.Hatch) / (c.Max - c.Mature)) }

// Length returns the expected body length in mm at phi, the share of the way to maturity (0 at hatching, 1 at
// maturity, more afterwards; thermal time since hatching over the thermal time to maturity).
//
//	L(phi) = Max − (Max − Hatch)·exp(−kappa·phi)
//
// At or before hatching it returns Hatch. Source: L. von Bertalanffy, "A quantitative theory of organic growth", Human
// Biology 10 (1938) 181-213 (from memory), with thermal time in place of time, so that the length at maturity does not
// depend on temperature (an assumption). It says nothing of animals that shrink at a moult.
func (c Curve) Length(phi float64) float64 {
	return c.Max - (c.Max-c.Hatch)*math.Exp(-c.Kappa()*math.Max(0, phi))
}

// Phi returns the share of the way to maturity at which the mean length is mm: Length turned round. It is 0 at or
// below Hatch and +Inf at or above Max.
func (c Curve) Phi(mm float64) float64 {
	if mm <= c.Hatch {
		return 0
	}
	if mm >= c.Max {
		return math.Inf(1)
	}
	return math.Log((c.Max-c.Hatch)/(c.Max-mm)) / c.Kappa()
}

// Mean returns the curve half-way between two, such as females and males when the sex is unknown.
func (c Curve) Mean(other Curve) Curve {
	return Curve{
		Hatch:  (c.Hatch + other.Hatch) / 2,
		Mature: (c.Mature + other.Mature) / 2,
		Max:    (c.Max + other.Max) / 2,
	}
}
