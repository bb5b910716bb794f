package water

import (
	"fmt"
	"math"
)

// HardnessUnit is a unit of general or carbonate hardness, named as test kits and tables print it.
type HardnessUnit string

// The units of hardness.
const (
	GermanDegree     HardnessUnit = "dGH"  // 10 mg/L of CaO; also dKH for carbonate hardness
	PartsPerMillion  HardnessUnit = "ppm"  // mg/L of CaCO3
	FrenchDegree     HardnessUnit = "fH"   // 10 mg/L of CaCO3
	EnglishDegree    HardnessUnit = "e"    // one grain of CaCO3 in a UK gallon
	GrainsPerGallon  HardnessUnit = "gpg"  // one grain of CaCO3 in a US gallon
	Millimoles       HardnessUnit = "mmol" // per litre, of calcium and magnesium together
	Milliequivalents HardnessUnit = "meq"  // per litre; two to the millimole
)

// PPMPerDegree is one German degree in mg/L of calcium carbonate, as tables of hardness print it: DIN 38409-6, 10 mg/L of
// calcium oxide. From atomic weights it is 17.84813.
const PPMPerDegree = 17.848 // mg/L of CaCO3

const (
	milligramsGrain = 64.79891 // mg in a grain, exactly: NIST SP 811
	molarCaCO3      = 100.087  // g/mol, IUPAC standard atomic weights
)

// HardnessUnits lists the units of hardness.
func HardnessUnits() []HardnessUnit {
	return []HardnessUnit{GermanDegree, PartsPerMillion, FrenchDegree, EnglishDegree, GrainsPerGallon, Millimoles, Milliequivalents}
}

// ppm returns how many mg/L of CaCO3 one unit is, and false for an unknown unit.
func (u HardnessUnit) ppm() (float64, bool) {
	switch u {
	case GermanDegree:
		return PPMPerDegree, true
	case PartsPerMillion:
		return 1, true
	case FrenchDegree:
		return 10, true
	case EnglishDegree:
		return milligramsGrain / LitresPerUKGallon, true // 14.254 mg/L
	case GrainsPerGallon:
		return milligramsGrain / LitresPerUSGallon, true // 17.118 mg/L
	case Millimoles:
		return molarCaCO3, true
	case Milliequivalents:
		return molarCaCO3 / 2, true
	}
	return 0, false
}

// Convert returns a hardness in this unit, in another unit. A hardness below 0 and an unknown unit are errors.
//
//	1 dGH = 17.848 ppm = 1.7848 fH = 1.2521 e = 1.0426 gpg = 0.17833 mmol/L = 0.35665 meq/L
//
// Source: DIN 38409-6 (one degree is 10 mg/L of CaO); IUPAC standard atomic weights; NIST SP 811. General and carbonate
// hardness share the units and are not the same thing.
func (u HardnessUnit) Convert(hardness float64, to HardnessUnit) (float64, error) {
	from, known := u.ppm()
	target, also := to.ppm()
	if !known || !also {
		return 0, fmt.Errorf("hardness is measured in %v, not from %q to %q", HardnessUnits(), u, to)
	}
	if err := within("hardness", hardness, 0, math.Inf(1), " "+string(u)); err != nil {
		return 0, err
	}
	return hardness * from / target, nil
}

// HardnessOfIons returns the general hardness in mg/L of CaCO3 of water with so many mg/L of calcium and of magnesium,
// both at least 0.
//
//	2.497·Ca + 4.118·Mg
//
// Source: Standard Methods for the Examination of Water and Wastewater, 2340 B (factors from memory).
func HardnessOfIons(calcium, magnesium float64) float64 { return 2.497*calcium + 4.118*magnesium }

// BicarbonatePerDegree is the bicarbonate of one degree of carbonate hardness.
const BicarbonatePerDegree = 21.76 // mg/L of HCO3 per dKH: 0.35665 meq/L of 61.017 g/mol (IUPAC)

// TDS returns dissolved solids in ppm from a conductivity at 25 °C in µS/cm, at least 0.
//
//	TDS = factor·EC
//
// factor is a convention of the meter and must be shown beside the result: 0.5 on the NaCl scale, about 0.7 on the
// "442" scale; 0.55-0.75 in natural waters (J. D. Hem 1985, US Geological Survey Water-Supply Paper 2254, from memory).
// Outside 0.4 to 0.9 it is an error. The result is no weighed residue.
func TDS(conductivity, factor float64) (float64, error) {
	if err := within("conductivity", conductivity, 0, math.Inf(1), " µS/cm"); err != nil {
		return 0, err
	}
	if err := within("the TDS factor", factor, 0.4, 0.9, ""); err != nil {
		return 0, err
	}
	return factor * conductivity, nil
}

// Conductivity returns the conductivity at 25 °C in µS/cm that a TDS in ppm was made from: TDS turned round.
func Conductivity(tds, factor float64) (float64, error) {
	if err := within("TDS", tds, 0, math.Inf(1), " ppm"); err != nil {
		return 0, err
	}
	if err := within("the TDS factor", factor, 0.4, 0.9, ""); err != nil {
		return 0, err
	}
	return tds / factor, nil
}
