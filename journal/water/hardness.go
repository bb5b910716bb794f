package water

import "math"

// PPMPerDegree is one German degree in mg/L of calcium carbonate, as tables of hardness print it: DIN 38409-6, 10 mg/L of
// calcium oxide. From atomic weights it is 17.84813.
const PPMPerDegree = 17.848 // mg/L of CaCO3

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
