package lifecycle

import "math"

// Capacity returns how many adults a tank of a volume in litres can carry when the keeper names no capacity.
func (d Density) Capacity(litres float64) float64 { return d.AdultsPerLitre * litres }

// YoungFactor returns the share of the young, 0 to 1, that crowding lets grow up, of those that would grow up in an
// empty tank.
//
//	f(N) = 1/(1 + (R0 − 1)·x)      x = max(0, N − F)/(C − F)
//
// adults is N, at least 0. capacity is C: where the colony stops growing, because f(C) = 1/R0. perFemale is R0, the
// daughters that reach maturity per female in an empty tank; up to 1 there is no effect. F, below which crowding does
// nothing, is the same share of the capacity as Free is of AdultsPerLitre. With no capacity nothing grows up above 0
// adults. Source: R. J. H. Beverton and S. J. Holt, "On the Dynamics of Exploited Fish Populations" (1957) (from
// memory); no effect up to 2.5 adults per litre (Vazquez et al. 2017, doi 10.1093/jcbiol/rux051); the capacity is an
// assumption. Spread over the days to maturity it is a daily factor f^(1/days).
func (d Density) YoungFactor(adults, capacity, perFemale float64) float64 {
	if perFemale <= 1 || adults <= 0 {
		return 1
	}
	if capacity <= 0 {
		return 0
	}
	free := capacity * math.Min(0.99, d.Free/d.AdultsPerLitre)
	return 1 / (1 + (perFemale-1)*math.Max(0, adults-free)/(capacity-free))
}
