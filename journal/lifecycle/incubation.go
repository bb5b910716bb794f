package lifecycle

import (
	"fmt"
	"math"
)

// Rate returns the share of development that eggs complete in a day at a constant temperature, per day.
//
//	r(T) = 0                              T ≤ T0
//	     = (T − T0)/K                     T0 < T ≤ Tb
//	     = [(Tb − T0) + s·(T − Tb)]/K     Tb < T          with T0 = Base, K = DegreeDays, Tb = Break, s = SlopeAbove
//
// celsius is the water temperature in °C; any value is taken, and Validity says which to trust. The rate has no jump
// and never falls with warmth. Source: the heat-sum law of Thermal.Rate with the parameters' own sources; the bend is
// an assumption. Against the published 15 d at 27 °C it gives 14.9 d, against 40 d at 20 °C and 25 d at 25.5 °C of the
// larger Caridina multidentata a ratio of 1.61 instead of 1.6.
func (i Incubation) Rate(celsius float64) float64 {
	above := math.Max(0, celsius-math.Max(i.Break, i.Base))
	return math.Max(0, i.Thermal.Rate(celsius)-(1-i.SlopeAbove)*above/i.DegreeDays)
}

// Days returns the days from berried to hatched at a constant temperature in °C: 1/Rate, and +Inf at or below Base.
func (i Incubation) Days(celsius float64) float64 { return 1 / i.Rate(celsius) }

// MeanRate returns the expected rate, per day, where the temperature is uncertain: normal with the given mean in °C
// and sd in °C, at least 0. It is smooth in both, and with sd 0 it is Rate(mean). See Thermal.MeanRate.
func (i Incubation) MeanRate(mean, sd float64) float64 {
	above := meanAbove(mean, sd, math.Max(i.Break, i.Base))
	return math.Max(0, i.Thermal.MeanRate(mean, sd)-(1-i.SlopeAbove)*above/i.DegreeDays)
}

// AltRate returns the rate of the alternative law, per day: after Bělehrádek, a power of the distance from a zero.
//
//	r(T) = (T − α)^b / a      with a = AltScale, α = AltZero, b = AltPower
//
// celsius is in °C; at or below α the rate is 0. Source: J. Bělehrádek 1935 (from memory), in the form of Corkett,
// McLaren & Sevigny 1986 for copepod eggs, whose b = 2.05 is taken over (from memory); α = −1.34 °C follows from the
// published ratio of 40 d at 20 °C to 25 d at 25.5 °C in Caridina multidentata, and a from 15 d at 27 °C in Neocaridina
// davidi. It differs from Rate by under 4 % at 20-28 °C (26.8 against 26.6 d at 20 °C), is 14 % faster at 16 °C and 9 %
// faster at 30 °C. α is a constant of the curve, not a temperature that eggs survive.
func (i Incubation) AltRate(celsius float64) float64 {
	return math.Pow(math.Max(0, celsius-i.AltZero), i.AltPower) / i.AltScale
}

// Validity says how far a law may be trusted.
type Validity string

// The degrees of trust.
const (
	Fine    Validity = "fine"
	Flagged Validity = "flagged" // give the date, and the doubt beside it
	NoDate  Validity = "none"    // give no date, and say why
)

// Validity returns how far the incubation law may be trusted at a mean temperature in °C, and the reason as a
// sentence when it is not fine. An unknown temperature (NaN) gives no date.
func (i Incubation) Validity(celsius float64) (Validity, string) {
	switch {
	case math.IsNaN(celsius):
		return NoDate, "The water temperature is not known."
	case celsius < i.LimitLow:
		return NoDate, fmt.Sprintf("Below %s °C eggs hardly develop, and no published brood tells how long they take.", number(i.LimitLow))
	case celsius > i.LimitHigh:
		return NoDate, fmt.Sprintf("Above %s °C eggs are usually lost, so there is no date to give.", number(i.LimitHigh))
	case celsius < i.ValidLow:
		return Flagged, fmt.Sprintf("Below %s °C the time to hatch rests on no published brood.", number(i.ValidLow))
	case celsius > i.ValidHigh:
		return Flagged, fmt.Sprintf("Above %s °C many eggs are lost, and development may be slower than reckoned.", number(i.ValidHigh))
	}
	return Fine, ""
}
