package water

import "math"

// Span is the joint distribution of the mean temperature of consecutive days.
type Span struct {
	First int // the day of index 0

	n     int
	steps []step
}

// step is one day of a span: what was predicted before its own observation, and what all observations add to it.
type step struct {
	before   state
	h        vector
	ph       vector // before.cov·h
	seen     bool
	ratio    float64 // innovation / variance
	variance float64 // of the innovation
	gain     float64 // 1/variance where seen, else 0
	phi      float64 // correlation with the next day

	// back and info carry what this and later days say about this one, after J. Durbin & S. J. Koopman, "Time Series
	// Analysis by State Space Methods", Oxford 2001, section 4.3 (from memory); hInfo is h − info·ph.
	back  vector
	hInfo vector

	mean, spread float64 // of the day, °C, from everything known
}

// Span returns the days from first to last. It is exact: the Kalman filter forward in daily steps, then the fixed-interval
// smoother backward, which between two readings gives the bridge of the process in closed form. reuse may hold a span
// that is no longer needed, whose memory is taken.
func (c *Course) Span(first, last int, reuse *Span) *Span {
	if last < first {
		panic("water: a span ends before it starts")
	}
	if reuse == nil {
		reuse = &Span{}
	}
	s := reuse
	s.First, s.n = first, c.law.n
	end := last
	if c.Readings > 0 {
		end = max(last, c.Last)
	}
	if need := end - first + 1; cap(s.steps) < need {
		s.steps = make([]step, need)
	}
	s.steps = s.steps[:end-first+1]
	s.forward(c)
	s.backward(c)
	s.steps = s.steps[:last-first+1]
	return s
}

// forward fills what is known of each day from the days before it.
func (s *Span) forward(c *Course) {
	next, now := 0, c.law.start()
	for next < len(c.days) && c.days[next].day < s.First {
		next++
	}
	if next > 0 {
		now = c.run.at(c.days, next)
		c.law.wait(&now, s.First-c.days[next-1].day)
	}
	for i := range s.steps {
		st := &s.steps[i]
		st.before, st.seen, st.gain, st.phi = now, false, 0, c.law.phi
		if next < len(c.days) && c.days[next].day == s.First+i {
			m := &c.days[next]
			st.seen, st.h = true, m.h
			var innovation float64
			innovation, st.variance, st.ph = c.law.see(&now, m)
			st.gain = 1 / st.variance
			st.ratio = innovation * st.gain
			next++
		} else {
			st.h = vector{1, 1}
			if s.n > level {
				st.h = design(s.First + i)
			}
			st.ph = times(&st.before.cov, st.h, s.n)
		}
		c.law.wait(&now, 1)
	}
}

// backward adds what the days after each day say about it.
func (s *Span) backward(c *Course) {
	var r vector
	var info matrix
	blind := true // nothing was observed from here on
	for i := len(s.steps) - 1; i >= 0; i-- {
		st := &s.steps[i]
		if !blind {
			s.stepBack(&r, &info, st.phi)
		}
		if st.seen {
			s.observe(st, &r, &info)
			blind = false
		}
		st.back, st.hInfo = r, st.h
		st.mean = dot(st.h, st.before.mean, s.n)
		st.spread = dot(st.h, st.ph, s.n)
		if !blind {
			u := times(&info, st.ph, s.n)
			for k := 0; k < s.n; k++ {
				st.hInfo[k] -= u[k]
			}
			st.mean += dot(st.ph, r, s.n)
			st.spread -= dot(st.ph, u, s.n)
		}
		st.spread = math.Sqrt(math.Max(0, st.spread))
	}
}

// stepBack carries r and info one day back: Φ'r and Φ'·info·Φ, where Φ = diag(phi, 1, 1, 1).
func (s *Span) stepBack(r *vector, info *matrix, phi float64) {
	r[0] *= phi
	info[0][0] *= phi * phi
	for k := 1; k < s.n; k++ {
		info[0][k] *= phi
		info[k][0] = info[0][k]
	}
}

// observe adds a day's observation: r ← h·ratio + M'r and info ← hh'/F + M'·info·M, where M = I − ph·h'/F.
func (s *Span) observe(st *step, r *vector, info *matrix) {
	rp := dot(st.ph, *r, s.n)
	u := times(info, st.ph, s.n)
	pup := dot(st.ph, u, s.n)
	for i := 0; i < s.n; i++ {
		r[i] += st.h[i] * (st.ratio - rp*st.gain)
		for j := 0; j < s.n; j++ {
			info[i][j] += st.gain*st.h[i]*st.h[j]*(1+pup*st.gain) - st.gain*(u[i]*st.h[j]+st.h[i]*u[j])
		}
	}
}

// Days returns how many days the span has.
func (s *Span) Days() int { return len(s.steps) }

// Day returns the mean and sd, in °C, of the day of an index, 0 to Days()−1.
func (s *Span) Day(i int) (mean, sd float64) { return s.steps[i].mean, s.steps[i].spread }

// Slice returns the days of indices from to to−1 as a span of their own, which shares memory.
func (s *Span) Slice(from, to int) *Span {
	return &Span{First: s.First + from, n: s.n, steps: s.steps[from:to]}
}

// SumVariance fills out[i] with the variance of Σ weights[j]·T(j) over j from 0 to i, in units of weight²·°C².
// All three have Days() elements.
func (s *Span) SumVariance(weights, out []float64) {
	var z vector
	var sum float64
	for i := range s.steps {
		st, w := &s.steps[i], weights[i]
		sum += 2*w*dot(z, st.hInfo, s.n) + w*w*st.spread*st.spread
		out[i] = sum
		for k := 0; k < s.n; k++ {
			z[k] += w * st.ph[k]
		}
		s.pass(&z, st)
	}
}

// SumCovariance fills out[i], for i from at on, with the covariance of Σ weights[j]·T(j) over j from 0 to at with the
// same sum over j from 0 to i. The elements before at are left as they are.
func (s *Span) SumCovariance(weights []float64, at int, out []float64) {
	var z vector
	var sum float64
	for i := range s.steps {
		st, w := &s.steps[i], weights[i]
		c := dot(z, st.hInfo, s.n)
		if i <= at {
			sum += 2*w*c + w*w*st.spread*st.spread
			for k := 0; k < s.n; k++ {
				z[k] += w * st.ph[k]
			}
		} else {
			sum += w * c
		}
		if i >= at {
			out[i] = sum
		}
		s.pass(&z, st)
	}
}

// pass carries the covariance of a sum with the state from one day to the next: z ← Φ(I − ph·h'/F)z.
func (s *Span) pass(z *vector, st *step) {
	if st.seen {
		hz := dot(st.h, *z, s.n) * st.gain
		for k := 0; k < s.n; k++ {
			z[k] -= st.ph[k] * hz
		}
	}
	z[0] *= st.phi
}
