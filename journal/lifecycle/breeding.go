package lifecycle

// IntervalDays returns the days between two broods of a grown female in full condition, for an incubation in days: the
// multiple Interval of it, so that she carries eggs 1/Interval of the time (two thirds by default; 50-80 % of the
// females of Caridina sakishimensis do: Soomro et al. 2011, doi 10.1651/10-3329.1).
func (b Breeding) IntervalDays(incubationDays float64) float64 { return b.Interval * incubationDays }

// ReadinessAt returns the share of the full rate at which new clutches begin at a water temperature in °C, 0 to 1.
//
//	0 up to StopBelow, rising on a straight line to 1 at FullFrom
//
// Source: spawning goes on at 17-20 °C (Onuki 2021, doi 10.18353/crustacea.50.0_33), no clutches of Caridina in the
// cold season (after Dudgeon 1985, doi 10.1007/BF00032135); the straight line is an assumption. It does not fall in hot
// water, where eggs are laid and lost: see Fecundity.HeatFactor.
func (b Breeding) ReadinessAt(celsius float64) float64 { return ramp(celsius, b.StopBelow, b.FullFrom) }

// ReadinessOf returns the share of the full rate at which a female of an age in days begins new clutches, 0 to 1.
//
//	1 up to DeclineFrom, falling on a straight line to DeclineFactor at DeclineTo, and that from then on
//
// That she be mature is for the caller to know. Common practice, no source; the shape is an assumption.
func (b Breeding) ReadinessOf(ageDays float64) float64 {
	return 1 - (1-b.DeclineFactor)*ramp(ageDays, b.DeclineFrom, b.DeclineTo)
}
