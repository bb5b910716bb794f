package population

import (
	"math/rand/v2"

	"gonum.org/v1/gonum/stat/distuv"
)

// stream is the source of random numbers of one particle's place in the cloud: SplitMix64, 64 bits of state. Streams stay
// in their place when particles are resampled, so that neither the number of cores nor the way the days are cut into
// runs changes a draw. Source: G. L. Steele, D. Lea and C. H. Flood 2014, "Fast splittable pseudorandom number
// generators" (from memory). All streams walk the same circle of 2^64 numbers, from places that a hash has scattered.
type stream struct{ state uint64 }

// golden is the step of the walk.
const golden = 0x9e3779b97f4a7c15

// newStream returns the stream of a place.
func newStream(seed, place uint64) stream { return stream{mix(seed + mix(place))} }

// mix is the finaliser of SplitMix64, after one step.
func mix(x uint64) uint64 {
	x += golden
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

// Uint64 returns 64 random bits.
func (s *stream) Uint64() uint64 {
	x := s.state
	s.state = x + golden
	return mix(x)
}

// uniform returns a number above 0 and below 1.
func (s *stream) uniform() float64 { return (float64(s.Uint64()>>11) + 0.5) * 0x1p-53 }

// below returns a whole number from 0 to n-1. The bias is below n/2^32.
func (s *stream) below(n int) int { return int((s.Uint64() >> 32) * uint64(n) >> 32) }

// exponential returns a waiting time with mean 1.
func (s *stream) exponential() float64 { return rand.New(s).ExpFloat64() }

// normal returns a standard normal number.
func (s *stream) normal() float64 { return rand.New(s).NormFloat64() }

// round returns one of the two whole numbers beside x, such that the mean is x.
func (s *stream) round(x float64) int { return int(x + s.uniform()) }

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
	case float64(n)*p > farMean:
		return int(distuv.Binomial{N: float64(n), P: p, Src: s}.Rand())
	}
	u, mass := s.uniform(), power(1-p, n)
	if u <= mass {
		return 0
	}
	odds := p / (1 - p)
	k := 0
	for u > mass && k < n {
		u -= mass
		mass *= odds * float64(n-k) / float64(k+1)
		k++
	}
	return k
}

// power returns x to a whole power of at least 0, faster than math.Pow for the powers that occur here.
func power(x float64, n int) float64 {
	result := 1.0
	for ; n > 0; n >>= 1 {
		if n&1 == 1 {
			result *= x
		}
		x *= x
	}
	return result
}
