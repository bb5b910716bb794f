package water

import "math"

// The state of a tank's water is [departure, mean, cosine, sine]; a law without a yearly course uses the first two.
const (
	level  = 2
	yearly = 4
)

type vector [yearly]float64
type matrix [yearly]vector

// state is what is known of a day before its own observation is used.
type state struct {
	mean vector
	cov  matrix
}

// law is a Climate with its numbers settled.
type law struct {
	n        int // components of the state in use
	mean     float64
	meanVar  float64
	yearVar  float64
	variance float64 // of the departure, °C²
	tau      float64 // days
	phi      float64 // exp(−1/tau)
}

func (l law) start() state {
	s := state{mean: vector{0, l.mean}}
	s.cov[0][0], s.cov[1][1], s.cov[2][2], s.cov[3][3] = l.variance, l.meanVar, l.yearVar, l.yearVar
	return s
}

// design returns how the state adds up to the temperature of a day.
func design(day int) vector {
	sin, cos := math.Sincos(2 * math.Pi * math.Mod(float64(day), yearLength) / yearLength)
	return vector{1, 1, cos, sin}
}

func dot(a, b vector, n int) (sum float64) {
	for i := 0; i < n; i++ {
		sum += a[i] * b[i]
	}
	return sum
}

// times returns m·v for a symmetric m.
func times(m *matrix, v vector, n int) (out vector) {
	for i := 0; i < n; i++ {
		for j := 0; j < n; j++ {
			out[i] += m[i][j] * v[j]
		}
	}
	return out
}

// wait lets days pass without an observation.
func (l law) wait(s *state, days int) {
	phi := l.phi
	if days != 1 {
		phi = math.Exp(-float64(days) / l.tau)
	}
	s.mean[0] *= phi
	s.cov[0][0] = phi*phi*s.cov[0][0] + (1-phi*phi)*l.variance
	for i := 1; i < l.n; i++ {
		s.cov[0][i] *= phi
		s.cov[i][0] = s.cov[0][i]
	}
}

// see uses an observation and returns its innovation, the variance of that, and cov·h before it was used.
func (l law) see(s *state, m *measured) (innovation, variance float64, ph vector) {
	ph = times(&s.cov, m.h, l.n)
	innovation = m.celsius - dot(m.h, s.mean, l.n)
	variance = dot(m.h, ph, l.n) + m.variance
	for i := 0; i < l.n; i++ {
		gain := ph[i] / variance
		s.mean[i] += gain * innovation
		for j := 0; j < l.n; j++ {
			s.cov[i][j] -= gain * ph[j]
		}
	}
	return innovation, variance, ph
}

// run is the forward pass of one law over a record. It keeps the state before every keepEvery-th day and finds the
// others again from there: that bounds the memory of a record with many estimates.
type run struct {
	law  law
	kept []state
}

const keepEvery = 16

func newRun(l law, days []measured) *run {
	r := &run{law: l}
	s := l.start()
	for i := range days {
		if i%keepEvery == 0 {
			r.kept = append(r.kept, s)
		}
		l.see(&s, &days[i])
		if i+1 < len(days) {
			l.wait(&s, days[i+1].day-days[i].day)
		}
	}
	return r
}

// at returns the state on the last of the first n observed days, with that day's observation used; n is 1 or more.
func (r *run) at(days []measured, n int) state {
	i := (n - 1) / keepEvery * keepEvery
	s := r.kept[i/keepEvery]
	for ; ; i++ {
		r.law.see(&s, &days[i])
		if i == n-1 {
			return s
		}
		r.law.wait(&s, days[i+1].day-days[i].day)
	}
}
