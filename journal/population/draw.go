package population

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/stat/distuv"
)

// stream is the source of random numbers of one particle's place in the cloud. Streams stay in their place when
// particles are resampled, so that neither the number of cores nor the way the days are cut into runs changes a draw.
type stream struct{ pcg rand.PCG }

// newStream returns the stream of a place. Seed and place are mixed first: PCG states that differ in a few bits start out
// alike.
func newStream(seed, place uint64) stream {
	var s stream
	s.pcg.Seed(mix(seed+mix(2*place)), mix(seed^mix(2*place+1)))
	return s
}

// mix is the finaliser of SplitMix64. Source: G. L. Steele, D. Lea and C. H. Flood 2014, "Fast splittable pseudorandom
// number generators" (from memory).
func mix(x uint64) uint64 {
	x += 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

// uniform returns a number above 0 and below 1.
func (s *stream) uniform() float64 { return (float64(s.pcg.Uint64()>>11) + 0.5) * 0x1p-53 }

// below returns a whole number from 0 to n-1. The bias is below n/2^32.
func (s *stream) below(n int) int { return int((s.pcg.Uint64() >> 32) * uint64(n) >> 32) }

// exponential returns a waiting time with mean 1.
func (s *stream) exponential() float64 { return rand.New(&s.pcg).ExpFloat64() }

// normal returns a standard normal number.
func (s *stream) normal() float64 { return rand.New(&s.pcg).NormFloat64() }

// round returns one of the two whole numbers beside x, such that the mean is x.
func (s *stream) round(x float64) int { return int(x + s.uniform()) }

// fewTrials is the number of trials up to which drawing each is the faster way.
const fewTrials = 5

// farMean is the mean up to which inverting the distribution function one step at a time is the faster way.
const farMean = 100

// binomial returns how many of n trials succeed, each with probability p.
func (s *stream) binomial(n int, p float64) int {
	switch {
	case n <= 0 || p <= 0:
		return 0
	case p >= 1:
		return n
	case p > 0.5:
		return n - s.binomial(n, 1-p)
	case n <= fewTrials:
		return s.trials(n, p)
	case float64(n)*p > farMean:
		return int(distuv.Binomial{N: float64(n), P: p, Src: &s.pcg}.Rand())
	}
	u, odds := s.uniform(), p/(1-p)
	mass := math.Exp(float64(n) * math.Log1p(-p))
	k := 0
	for u > mass && k < n {
		u -= mass
		mass *= odds * float64(n-k) / float64(k+1)
		k++
	}
	return k
}

// trials draws n trials one by one.
func (s *stream) trials(n int, p float64) int {
	hits := 0
	for range n {
		if s.uniform() < p {
			hits++
		}
	}
	return hits
}
