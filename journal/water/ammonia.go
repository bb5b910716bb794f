package water

import (
	"fmt"
	"math"
)

// PKa returns the negative logarithm of the acid constant of ammonium in fresh water.
//
//	pKa = 0.09018 + 2729.92/(t + 273.15)
//
// celsius is t, 0 to 45 °C (fitted at 0-30 °C). Source: K. Emerson, R. C. Russo, R. E. Lund and R. V. Thurston 1975,
// "Aqueous ammonia equilibrium calculations", J. Fish. Res. Board Can. 32:2379-2383. A reprint with 2727.92 is a
// misprint.
func PKa(celsius float64) float64 { return 0.09018 + 2729.92/(celsius+273.15) }

// UnionisedFraction returns the share of total ammonia that is un-ionised, the toxic form, 0 to 1.
//
//	f = 1/(1 + 10^(pKa − pH))
//
// ph is 0 to 14 and celsius 0 to 45 °C; anything else is an error. The share is of molecules, and so of nitrogen.
// Source: as PKa; the published table (University of Florida, IFAS EDIS FA031) is met to its last digit. Salt lowers it
// slightly.
func UnionisedFraction(ph, celsius float64) (float64, error) {
	if err := within("pH", ph, 0, 14, ""); err != nil {
		return 0, err
	}
	if err := within("temperature", celsius, 0, 45, " °C"); err != nil {
		return 0, err
	}
	return 1 / (1 + math.Pow(10, PKa(celsius)-ph)), nil
}

// Unionised returns the un-ionised part of a total ammonia, in mg/L and on the total's own basis: a total given as N
// gives nitrogen, a total given as NH4 gives the part as if it still weighed as NH4. AmmoniaBasis.Convert changes that.
//
// total is at least 0; ph and celsius are as in UnionisedFraction.
func Unionised(total, ph, celsius float64) (float64, error) {
	if err := within("total ammonia", total, 0, math.Inf(1), " mg/L"); err != nil {
		return 0, err
	}
	fraction, err := UnionisedFraction(ph, celsius)
	return total * fraction, err
}

// within reports a number outside its possible range.
func within(what string, value, low, high float64, unit string) error {
	switch {
	case value >= low && value <= high && !math.IsInf(value, 0):
		return nil
	case math.IsInf(high, 1):
		return fmt.Errorf("%s is %v%s; it must be at least %v%s", what, value, unit, low, unit)
	}
	return fmt.Errorf("%s is %v%s; it must lie between %v and %v%s", what, value, unit, low, high, unit)
}

// AmmoniaBasis says what a mass of ammonia counts: the nitrogen in it, or the whole molecule or ion.
type AmmoniaBasis string

// The bases of ammonia tests.
const (
	AsN   AmmoniaBasis = "N"
	AsNH3 AmmoniaBasis = "NH3"
	AsNH4 AmmoniaBasis = "NH4"
)

// The masses of one mole: IUPAC standard atomic weights.
const (
	molarN   = 14.007 // g/mol
	molarNH3 = 17.031 // g/mol
	molarNH4 = 18.039 // g/mol
	molarNO2 = 46.005 // g/mol
	molarNO3 = 62.004 // g/mol
)

// molar returns the mass of one mole in g, and false for an unknown basis.
func (b AmmoniaBasis) molar() (float64, bool) {
	switch b {
	case AsN:
		return molarN, true
	case AsNH3:
		return molarNH3, true
	case AsNH4:
		return molarNH4, true
	}
	return 0, false
}

// Convert returns a mass of ammonia on this basis, in mg/L, on another basis. An unknown basis is an error.
//
//	1 mg/L as N = 1.2159 mg/L as NH3 = 1.2879 mg/L as NH4
//
// Source: IUPAC standard atomic weights.
func (b AmmoniaBasis) Convert(mass float64, to AmmoniaBasis) (float64, error) {
	from, known := b.molar()
	target, also := to.molar()
	if !known || !also {
		return 0, fmt.Errorf("ammonia is counted as N, NH3 or NH4, not from %q to %q", b, to)
	}
	return mass * target / from, nil
}

// The mass of the whole ion for one of the nitrogen in it: IUPAC standard atomic weights.
const (
	NitritePerNitrogen = molarNO2 / molarN // 3.2844
	NitratePerNitrogen = molarNO3 / molarN // 4.4266
)
