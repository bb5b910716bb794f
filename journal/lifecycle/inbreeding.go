package lifecycle

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
