package lifecycle

import "math"

// EffectiveSize returns the effective size of a colony with so many breeding males and females, both at least 0.
//
//	Ne = 4·Nm·Nf/(Nm + Nf)
//
// Source: S. Wright 1931, as in the US Fish & Wildlife Service Inland Salmonid Broodstock Handbook, p. 1-8. It takes
// all animals of a sex to breed alike, which flatters a tank where one male sires most broods.
func EffectiveSize(males, females float64) float64 {
	if males <= 0 || females <= 0 {
		return 0
	}
	return 4 * males * females / (males + females)
}

// InbreedingRate returns the inbreeding that one generation adds, 0 to 1, at an effective size of at least one half.
//
//	ΔF = 1/(2·Ne)
//
// At smaller sizes it is 1. Source: S. Wright 1931; FAO advice keeps it at 0.5-1 % per generation.
func InbreedingRate(effective float64) float64 {
	if effective <= 0.5 {
		return 1
	}
	return 1 / (2 * effective)
}

// InbreedingAfter returns the inbreeding coefficient, 0 to 1, after one generation at each of the effective sizes.
//
//	F = 1 − Π (1 − 1/(2·Ne))
//
// Source: D. S. Falconer and T. F. C. Mackay, Introduction to Quantitative Genetics, ch. 4 (from memory).
func InbreedingAfter(effective ...float64) float64 {
	kept := 1.0
	for _, size := range effective {
		kept *= 1 - InbreedingRate(size)
	}
	return 1 - kept
}

// HarmonicMean returns the effective size over several generations of unequal effective size: their harmonic mean,
// which the smallest rules. It is 0 when one of them is 0, and NaN for none. Source: R. Frankham, J. D. Ballou and D.
// A. Briscoe, Introduction to Conservation Genetics (from memory).
func HarmonicMean(effective ...float64) float64 {
	sum := 0.0
	for _, size := range effective {
		if size <= 0 {
			return 0
		}
		sum += 1 / size
	}
	return float64(len(effective)) / sum
}

// EffectiveSizeOfFamilies returns the effective size of n breeders whose families differ in size.
//
//	Ne = (4·N − 2)/(Vk + 2)      with Vk the variance of the number of grown young per breeder
//
// n is at least 1, variance at least 0; Vk = 2 is chance alone and gives about n. Source: S. Wright; M. Kimura and
// J. F. Crow 1963 (from memory).
func EffectiveSizeOfFamilies(n, variance float64) float64 { return (4*n - 2) / (variance + 2) }

// EffectiveSizeInbred returns the effective size of a colony with an inbreeding coefficient f, 0 to 1: Ne/(1 + F).
func EffectiveSizeInbred(effective, f float64) float64 { return effective / (1 + f) }

// AlleleCaught returns the probability, 0 to 1, that n unrelated founders carry at least one copy of an allele of a
// frequency, 0 to 1, in the stock they come from.
//
//	1 − (1 − p)^(2n)
//
// Source: D. Tave, FAO Fisheries Technical Paper 392 (formula from memory).
func AlleleCaught(frequency float64, founders int) float64 {
	return 1 - math.Pow(1-frequency, 2*float64(founders))
}

// HeterozygosityKept returns the share of the source's heterozygosity that n unrelated founders keep: 1 − 1/(2n), and
// 0 for none.
func HeterozygosityKept(founders int) float64 {
	if founders < 1 {
		return 0
	}
	return 1 - 1/(2*float64(founders))
}
