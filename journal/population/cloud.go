package population

import (
	"math"

	"pleopod/journal/evidence"
)

// cloud is the weights of a particle filter. It knows nothing of what the particles are: whoever owns them moves them,
// says how well each explains an observation, and copies them when the cloud is resampled.
//
// Source: the bootstrap filter of N. J. Gordon, D. J. Salmond and A. F. M. Smith 1993, IEE Proc. F 140:107-113; systematic
// resampling after G. Kitagawa 1996, J. Comput. Graph. Stat. 5:1-25 (both from memory).
type cloud struct {
	weights       []float64 // add up to 1
	logLikelihood float64   // of all observations so far
}

// newCloud returns n particles of equal weight.
func newCloud(n int) cloud {
	c := cloud{weights: make([]float64, n)}
	c.level()
	return c
}

// level makes all weights equal.
func (c *cloud) level() {
	for i := range c.weights {
		c.weights[i] = 1 / float64(len(c.weights))
	}
}

// effective returns the effective sample size, from 1 to the number of particles.
func (c *cloud) effective() float64 {
	return evidence.EffectiveSampleSize(c.weights)
}

// weigh multiplies the weights by likelihoods to a power, given as logarithms, and adds what follows to the
// log-likelihood. It reports false, and changes nothing, when no particle can explain the observation at all.
func (c *cloud) weigh(logs []float64, power float64) bool {
	top := math.Inf(-1)
	for i, l := range logs {
		if c.weights[i] > 0 {
			top = math.Max(top, l)
		}
	}
	if math.IsInf(top, -1) || math.IsNaN(top) {
		return false
	}
	sum := 0.0
	for i, l := range logs {
		if c.weights[i] > 0 {
			c.weights[i] *= math.Exp(power * (l - top))
		}
		sum += c.weights[i]
	}
	for i := range c.weights {
		c.weights[i] /= sum
	}
	c.logLikelihood += power*top + math.Log(sum)
	return true
}

// bearable returns the largest power up to limit with which the observation leaves an effective sample size of at
// least least. It is how a surprising count is taken in steps (tempering: R. M. Neal 2001, Stat. Comput. 11:125-139, from memory).
func (c *cloud) bearable(logs []float64, limit, least float64) float64 {
	trial := cloud{weights: make([]float64, len(c.weights))}
	bears := func(power float64) bool {
		copy(trial.weights, c.weights)
		return trial.weigh(logs, power) && trial.effective() >= least
	}
	if bears(limit) {
		return limit
	}
	low, high := 0.0, limit
	for range 20 {
		middle := (low + high) / 2
		if bears(middle) {
			low = middle
			continue
		}
		high = middle
	}
	return low
}

// ancestors draws which particle each place inherits from by systematic resampling, in rising order, with one uniform
// number u for all, and levels the weights.
func (c *cloud) ancestors(u float64) []int {
	from := evidence.Resample(c.weights, u)
	c.level()
	return from
}

// clone returns a copy that shares nothing.
func (c *cloud) clone() cloud {
	return cloud{weights: append([]float64(nil), c.weights...), logLikelihood: c.logLikelihood}
}
