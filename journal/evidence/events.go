package evidence

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// AtLeastPoisson returns the probability of hits or more where mean are expected and each comes by itself.
//
//	P(X ≥ x) = γ(x, m)/Γ(x)
//
// mean is at least 0. Source: closed form, the regularised incomplete gamma function.
func AtLeastPoisson(hits int, mean float64) float64 {
	switch {
	case hits <= 0:
		return 1
	case mean <= 0:
		return 0
	}
	return mathext.GammaIncReg(float64(hits), mean)
}

// AtLeastClumped returns the probability of hits or more where mean are expected and the rate itself varies: a
// Poisson number whose mean is gamma distributed with the shape, above 0. The smaller the shape, the more the
// hits come together.
//
//	P(X ≥ x) = I_q(x, k)      q = m/(m + k)
//
// mean is at least 0. Source: the negative binomial distribution (Greenwood and Yule 1920, J. R. Stat. Soc. 83:255-279,
// from memory); a large shape gives AtLeastPoisson.
func AtLeastClumped(hits int, mean, shape float64) float64 {
	switch {
	case hits <= 0:
		return 1
	case mean <= 0:
		return 0
	}
	return mathext.RegIncBeta(float64(hits), shape, mean/(mean+shape))
}

// NoneSince returns the probability of no hit in an exposure, where hits were seen in an exposure before: the rate is
// gamma distributed with the parameters of the hits and that exposure, prior included, both above 0.
//
//	P = (b/(b + e))^a
//
// Source: the gamma-Poisson model of Gelman et al., Bayesian Data Analysis, section 2.6 (from memory).
func NoneSince(hits, before, exposure float64) float64 {
	return math.Pow(before/(before+exposure), hits)
}

// TwoSided returns the probability that a normal number departs from its mean by at least so many standard deviations,
// in either direction.
func TwoSided(z float64) float64 { return math.Erfc(math.Abs(z) / math.Sqrt2) }
