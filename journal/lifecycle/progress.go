package lifecycle

import "math"

// Warmth is the joint distribution of the mean temperature of consecutive days, counted from 0.
type Warmth interface {
	// Days returns how many days there are.
	Days() int
	// Day returns the mean and sd of a day, °C.
	Day(i int) (mean, sd float64)
	// SumVariance fills out[i] with the variance of Σ weights[j]·T(j) over j from 0 to i.
	SumVariance(weights, out []float64)
	// SumCovariance fills out[i], for i from at on, with the covariance of that sum up to at and up to i.
	SumCovariance(weights []float64, at int, out []float64)
}

// Progress is development added up over days: its expectation, and how unsure the temperature makes it.
// A moment is a number in which day i is the span from i−½ to i+½ and the keeper looks at its middle, i.
// The zero Progress is ready for Count, and can be used for one count after another.
type Progress struct {
	warmth  Warmth
	rates   []float64 // of each day
	slopes  []float64
	done    []float64 // done[i] at the moment i−½, from 0 at the first
	doubt   []float64 // relative variance of done, likewise
	scratch []float64
}

// Count adds up a response over days. The relative variance of the sum takes the rate as linear around each day's own
// distribution, with the slope averaged over it.
func (p *Progress) Count(warmth Warmth, response Response) {
	n := warmth.Days()
	p.warmth = warmth
	p.rates, p.slopes, p.scratch = sized(p.rates, n), sized(p.slopes, n), sized(p.scratch, n)
	p.done, p.doubt = sized(p.done, n+1), sized(p.doubt, n+1)
	p.done[0] = 0
	for i := range n {
		p.rates[i], p.slopes[i] = response.Over(warmth.Day(i))
		p.done[i+1] = p.done[i] + p.rates[i]
	}
	warmth.SumVariance(p.slopes, p.doubt[1:])
	for i := n; i > 0; i-- {
		p.doubt[i] = relative(p.doubt[i], p.done[i]*p.done[i])
	}
	p.doubt[0] = p.doubt[min(1, n)]
}

// relative returns part/whole, and 0 for an empty whole: nothing has developed, so that nothing is unsure about it.
func relative(part, whole float64) float64 {
	if whole <= 0 {
		return 0
	}
	return math.Max(0, part) / whole
}

func sized(s []float64, n int) []float64 {
	if cap(s) < n {
		return make([]float64, n)
	}
	return s[:n]
}

// Days returns how many days were counted.
func (p *Progress) Days() int { return len(p.rates) }

// Between returns the expected development between two moments, as a share of the whole, with the relative variance that
// the temperature gives it. Moments outside the days that were counted stand for the nearest end.
func (p *Progress) Between(from, to float64) (share, doubt float64) {
	return at(p.done, to) - at(p.done, from), at(p.doubt, to)
}

// at interpolates a list whose index i stands for the moment i−½.
func at(list []float64, moment float64) float64 {
	x := math.Max(0, math.Min(moment+0.5, float64(len(list)-1)))
	i := min(int(x), len(list)-2)
	if i < 0 {
		return list[0]
	}
	return list[i] + (x-float64(i))*(list[i+1]-list[i])
}

// covariances returns, for the moments i−½ after a day, the relative covariance of the development up to the middle of
// that day with the development up to then. The list is the scratch memory of p.
func (p *Progress) covariances(day int) []float64 {
	p.warmth.SumCovariance(p.slopes, day, p.scratch)
	for i := day; i < len(p.scratch); i++ {
		p.scratch[i] = relative(p.scratch[i], p.done[day+1]*p.done[i+1])
	}
	return p.scratch
}
