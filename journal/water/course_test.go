package water

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// heated is a climate whose numbers are known exactly, so that closed forms hold.
var heated = Climate{Mean: 23, SD: 1.2, CorrelationDays: 7, Fixed: true}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > tol {
		t.Errorf("%s = %.12g, want %.12g ± %g", what, got, want, tol)
	}
}

func TestBetweenTwoReadingsTheCourseIsABridge(t *testing.T) {
	// Between two exact readings the Ornstein-Uhlenbeck process is a bridge with closed-form mean and variance:
	//   mean = (x0·sinh((g−t)/τ) + x1·sinh(t/τ)) / sinh(g/τ),  var = 2s²·sinh(t/τ)·sinh((g−t)/τ) / sinh(g/τ)
	// source: conditioning of a Gaussian Markov process, closed form
	for _, gap := range []int{2, 5, 14, 60} {
		course := NewRecord(heated, []Observation{{100, 25, 1e-6}, {100 + gap, 22.5, 1e-6}}).On(1000)
		span := course.Span(100, 100+gap, nil)
		for i := 1; i < gap; i++ {
			tau, g, at := 7.0, float64(gap), float64(i)
			mean, sd := span.Day(i)
			near(t, "mean", mean, 23+(2*math.Sinh((g-at)/tau)-0.5*math.Sinh(at/tau))/math.Sinh(g/tau), 1e-9)
			near(t, "sd", sd, math.Sqrt(2*1.44*math.Sinh(at/tau)*math.Sinh((g-at)/tau)/math.Sinh(g/tau)), 1e-6)
		}
	}
}

// quadratic returns v'·m·v, and 0 where rounding makes it negative.
func quadratic(v vector, m *matrix, n int) float64 {
	return math.Max(0, dot(v, times(m, v, n), n))
}

// baseline returns the expected mean of a day long after the last reading, in °C, with the sd of one daily mean around it.
func (c *Course) baseline(day int) (mean, sd float64) {
	s := c.law.start()
	if n := len(c.days); n > 0 {
		s = c.run.at(c.days, n)
	}
	s.mean[0], s.cov[0] = 0, vector{c.law.variance}
	for i := 1; i < c.law.n; i++ {
		s.cov[i][0] = 0
	}
	h := design(day)
	return dot(h, s.mean, c.law.n), math.Sqrt(quadratic(h, &s.cov, c.law.n))
}

func TestAfterTheLastReadingTheCourseRelaxes(t *testing.T) {
	// After the last exact reading: mean = b + x·exp(−t/τ), var = s²(1 − exp(−2t/τ)); long after it the baseline remains.
	// source: the Ornstein-Uhlenbeck transition, closed form
	course := NewRecord(heated, []Observation{{50, 26, 1e-6}}).On(60)
	span := course.Span(50, 450, nil)
	for _, at := range []int{1, 7, 30, 400} {
		decay := math.Exp(-float64(at) / 7)
		mean, sd := span.Day(at)
		near(t, "mean", mean, 23+3*decay, 1e-9)
		near(t, "sd", sd, 1.2*math.Sqrt(1-decay*decay), 1e-6)
	}
	mean, sd := course.baseline(450)
	near(t, "baseline", mean, 23, 1e-12)
	near(t, "baseline sd", sd, 1.2, 1e-12)
}

func TestWithoutReadingsTheClimateIsAssumed(t *testing.T) {
	climate := Climate{Mean: 22, MeanSD: 2.5, SD: 2, CorrelationDays: 7, YearlySD: 2}
	course := NewRecord(climate, nil).On(10)
	if course.Basis != Assumed || course.Readings != 0 {
		t.Errorf("basis %v with %d readings, want Assumed with none", course.Basis, course.Readings)
	}
	mean, sd := course.Span(5, 30, nil).Day(12)
	near(t, "mean", mean, 22, 1e-12)
	near(t, "sd", sd, math.Hypot(2.5, 2), 1e-12)
}

// problem is a climate with observations, drawn at random.
func problem(t *rapid.T) (Climate, []Observation) {
	climate := Climate{
		Mean: rapid.Float64Range(15, 30).Draw(t, "mean"), MeanSD: rapid.SampledFrom([]float64{0, 0.5, 2.5}).Draw(t, "mean sd"),
		SD: rapid.Float64Range(0.2, 3).Draw(t, "sd"), CorrelationDays: rapid.Float64Range(1, 30).Draw(t, "tau"),
	}
	climate.YearlySD = rapid.SampledFrom([]float64{0, 2}).Draw(t, "yearly")
	n := rapid.IntRange(0, 30).Draw(t, "n")
	var observations []Observation
	for range n {
		observations = append(observations, Observation{
			Day:     rapid.IntRange(0, 300).Draw(t, "day"),
			Celsius: rapid.Float64Range(18, 28).Draw(t, "celsius"),
			SD:      rapid.SampledFrom([]float64{0.1, 0.3}).Draw(t, "reading sd"),
		})
	}
	return climate, observations
}

// dense returns the joint distribution of a span by conditioning one large normal distribution, the long way round.
func dense(c *Course, first, last int) (mean *mat.VecDense, cov *mat.Dense) {
	l, n := c.law, last-first+1
	kernel := func(s, t int) float64 {
		a, b := design(s), design(t)
		return l.variance*math.Exp(-math.Abs(float64(s-t))/l.tau) + l.meanVar + l.yearVar*(a[2]*b[2]+a[3]*b[3])
	}
	mean, cov = mat.NewVecDense(n, nil), mat.NewDense(n, n, nil)
	for i := range n {
		mean.SetVec(i, l.mean)
		for j := range n {
			cov.Set(i, j, kernel(first+i, first+j))
		}
	}
	k := len(c.days)
	if k == 0 {
		return mean, cov
	}
	cross, own, off := mat.NewDense(n, k, nil), mat.NewSymDense(k, nil), mat.NewVecDense(k, nil)
	for j, m := range c.days {
		off.SetVec(j, m.celsius-l.mean)
		for i := range n {
			cross.Set(i, j, kernel(first+i, m.day))
		}
		for i := range j + 1 {
			own.SetSym(i, j, kernel(c.days[i].day, m.day))
		}
		own.SetSym(j, j, own.At(j, j)+m.variance)
	}
	var chol mat.Cholesky
	if !chol.Factorize(own) {
		panic("the observations' covariance is not positive definite")
	}
	var weights mat.VecDense
	var solved, reduced mat.Dense
	_ = chol.SolveVecTo(&weights, off)
	var add mat.VecDense
	add.MulVec(cross, &weights)
	mean.AddVec(mean, &add)
	_ = chol.SolveTo(&solved, cross.T())
	reduced.Mul(cross, &solved)
	cov.Sub(cov, &reduced)
	return mean, cov
}

func TestASpanIsTheConditionedNormal(t *testing.T) {
	// source: conditioning of a joint normal distribution by its covariance matrix, with gonum's Cholesky factors
	rapid.Check(t, func(t *rapid.T) {
		climate, observations := problem(t)
		course := NewRecord(climate, observations).On(rapid.IntRange(0, 320).Draw(t, "as of"))
		first := rapid.IntRange(-20, 320).Draw(t, "first")
		last := first + rapid.IntRange(0, 40).Draw(t, "length")
		span := course.Span(first, last, nil)
		mean, cov := dense(course, first, last)
		weights, sums, crossed := make([]float64, span.Days()), make([]float64, span.Days()), make([]float64, span.Days())
		for i := range weights {
			weights[i] = 0.5 + math.Sin(float64(i))
		}
		at := rapid.IntRange(0, span.Days()-1).Draw(t, "at")
		span.SumVariance(weights, sums)
		span.SumCovariance(weights, at, crossed)
		for i := range weights {
			m, sd := span.Day(i)
			if math.Abs(m-mean.AtVec(i)) > 1e-7 || math.Abs(sd*sd-cov.At(i, i)) > 1e-7 {
				t.Fatalf("day %d: %.9g ± %.9g, want %.9g ± %.9g", i, m, sd, mean.AtVec(i), math.Sqrt(cov.At(i, i)))
			}
			if want := block(cov, weights, i, i); math.Abs(sums[i]-want) > 1e-6*(1+want) {
				t.Fatalf("variance of the sum to day %d = %.9g, want %.9g", i, sums[i], want)
			}
			if want := block(cov, weights, at, i); i >= at && math.Abs(crossed[i]-want) > 1e-6*(1+math.Abs(want)) {
				t.Fatalf("covariance of the sums to %d and %d = %.9g, want %.9g", at, i, crossed[i], want)
			}
		}
	})
}

// block returns the covariance of the weighted sums over the indices up to a and up to b.
func block(cov *mat.Dense, weights []float64, a, b int) (sum float64) {
	for i := 0; i <= a; i++ {
		for j := 0; j <= b; j++ {
			sum += weights[i] * weights[j] * cov.At(i, j)
		}
	}
	return sum
}

func TestARecordReadBackwardGivesTheSpanBackward(t *testing.T) {
	// A stationary process has no direction: the record read backward gives the span backward.
	rapid.Check(t, func(t *rapid.T) {
		climate, observations := problem(t)
		climate.YearlySD, climate.Fixed = 0, true
		var mirrored []Observation
		for _, o := range observations {
			mirrored = append(mirrored, Observation{300 - o.Day, o.Celsius, o.SD})
		}
		a := NewRecord(climate, observations).On(400).Span(0, 300, nil)
		b := NewRecord(climate, mirrored).On(400).Span(0, 300, nil)
		for i := range a.Days() {
			m1, s1 := a.Day(i)
			m2, s2 := b.Day(300 - i)
			if math.Abs(m1-m2) > 1e-8 || math.Abs(s1-s2) > 1e-7 {
				t.Fatalf("day %d: %g ± %g forward, %g ± %g backward", i, m1, s1, m2, s2)
			}
		}
	})
}

func TestNothingLaterIsKnown(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		climate, observations := problem(t)
		asOf := rapid.IntRange(0, 300).Draw(t, "as of")
		var earlier []Observation
		for _, o := range observations {
			if o.Day <= asOf {
				earlier = append(earlier, o)
			}
		}
		a := NewRecord(climate, observations).On(asOf).Span(0, 330, nil)
		b := NewRecord(climate, earlier).On(asOf).Span(0, 330, nil)
		for i := range a.Days() {
			m1, s1 := a.Day(i)
			if m2, s2 := b.Day(i); m1 != m2 || s1 != s2 {
				t.Fatalf("day %d: %g ± %g with later readings, %g ± %g without", i, m1, s1, m2, s2)
			}
		}
	})
}

// walk draws a record of daily means around a baseline.
func walk(seed uint64, days, every int, sd, tau float64, base func(day int) float64) []Observation {
	random := rand.New(rand.NewPCG(seed, 1))
	phi := math.Exp(-1 / tau)
	x := sd * random.NormFloat64()
	var observations []Observation
	for day := range days {
		if day%every == 0 {
			observations = append(observations, Observation{day, base(day) + x + 0.3*random.NormFloat64(), 0.3})
		}
		x = phi*x + sd*math.Sqrt(1-phi*phi)*random.NormFloat64()
	}
	return observations
}

func TestALongRecordTeachesItsOwnClimate(t *testing.T) {
	// The truth is ours; the estimate must come near it from a long record and stay with the climate on a short one.
	climate := Climate{Mean: 24, MeanSD: 0.5, SD: 1, CorrelationDays: 7}
	flat := func(int) float64 { return 24.5 }
	for _, truth := range []struct{ sd, tau float64 }{{0.4, 4}, {1, 7}, {2, 12}} {
		course := NewRecord(climate, walk(7, 1500, 1, truth.sd, truth.tau, flat)).On(1500)
		near(t, "ln sd", math.Log(course.SD/truth.sd), 0, 0.2)
		near(t, "ln correlation", math.Log(course.CorrelationDays/truth.tau), 0, 0.35)
		mean, _ := course.baseline(2000)
		near(t, "baseline", mean, 24.5, 0.45)
	}
	course := NewRecord(climate, walk(7, 7, 1, 3, 1, flat)).On(1500)
	near(t, "sd of a short record", course.SD, 1, 1e-12)
}

func TestReadingsThatDisagreeSayHowUnsureTheyAre(t *testing.T) {
	// Readings of one day that are farther apart than their sd allows: with equal sds the variance of what they say together is the
	// squared standard error of their mean, Σ(x − mean)²/(n(n − 1)). Source: Birge 1932, as at NewRecord.
	m := join([]Observation{{Celsius: 21, SD: 0.2}, {Celsius: 22, SD: 0.2}, {Celsius: 24.5, SD: 0.2}})
	near(t, "mean", m.celsius, 22.5, 1e-12)
	near(t, "variance", m.variance, (2.25+0.25+4)/(3*2), 1e-12)
	// Where they agree, precisions add up.
	m = join([]Observation{{Celsius: 22, SD: 0.3}, {Celsius: 22.1, SD: 0.4}})
	near(t, "variance", 1/m.variance, 1/0.09+1/0.16, 1e-9)
}

func TestNothingSaidLeavesTheClimate(t *testing.T) {
	// Readings years apart have forgotten one another, so they say nothing of how long departures last: that stays as assumed.
	for _, tau := range []float64{3, 7, 14} {
		climate := Climate{Mean: 23, MeanSD: 1, SD: 1.2, CorrelationDays: tau}
		var far []Observation
		for i := range 3 * fitEvery {
			far = append(far, Observation{1000 * i, 23 + float64(i%3-1), 0.2})
		}
		near(t, "correlation time", NewRecord(climate, far).On(1000*len(far)).CorrelationDays, tau, 1e-6*tau)
	}
}

func TestTheSpreadIsDrawnTowardsTheClimate(t *testing.T) {
	// Readings that have forgotten one another, half at +2 and half at −2 sd of the climate. With u = ln of the spread against the
	// climate's, n readings and r = 4, the posterior peaks where −u/PriorLogSD² − n + n·r·exp(−2u) = 0; the parabola finds it to a
	// quarter of a step. Source: the likelihood of a normal spread with a log-normal prior, closed form.
	const n, r = fitEvery, 4.0
	climate := Climate{Mean: 23, MeanSD: 1e-3, SD: 1, CorrelationDays: 7}
	var far []Observation
	for i := range n {
		far = append(far, Observation{1000 * i, 23 + math.Sqrt(r)*float64(1-i%2*2), 1e-3})
	}
	low, high := 0.0, 1.0
	for range 60 {
		if u := (low + high) / 2; -u/(PriorLogSD*PriorLogSD)-n+n*r*math.Exp(-2*u) > 0 {
			low = u
		} else {
			high = u
		}
	}
	near(t, "ln of the spread", math.Log(NewRecord(climate, far).On(1000*n).SD), low, gridStep/4)
}

func TestTheCorrelationTimeIsDrawnTowardsTheClimate(t *testing.T) {
	// Pairs of readings a week apart that have forgotten the other pairs, with the climate's spread and a correlation of r,
	// that of departures that last three times as long as the climate's. Law: with u and v for ln of the spread and of the
	// correlation time against the climate's, the posterior peaks where this is greatest; a prior sd of ½ is the assumption.
	// Source: the likelihood of a bivariate normal distribution with log-normal priors, closed form.
	r := math.Exp(-1.0 / 3)
	posterior := func(n, u, v float64) float64 {
		phi := math.Exp(-math.Exp(-v))
		misfit := (1 - phi*r) / (1 - phi*phi) * math.Exp(-2*u)
		return -n*(2*u+math.Log(1-phi*phi)/2+misfit) - (u*u+v*v)/(2*0.5*0.5)
	}
	for _, n := range []int{4, 8, 16} {
		var pairs []Observation
		for i := range n {
			first := float64(1 - i%2*2)
			second := first * (r + math.Sqrt(1-r*r)*float64(1-i/2%2*2))
			pairs = append(pairs, Observation{1000 * i, 23 + first, 1e-3}, Observation{1000*i + 7, 23 + second, 1e-3})
		}
		best, want := math.Inf(-1), 0.0
		for i := range 200 * 200 {
			u, v := float64(i%200)/100-1, float64(i/200)/100-1
			if p := posterior(float64(n), u, v); p > best {
				best, want = p, v
			}
		}
		got := NewRecord(Climate{Mean: 23, MeanSD: 1e-3, SD: 1, CorrelationDays: 7}, pairs).On(1000 * n).CorrelationDays
		near(t, fmt.Sprintf("ln of the correlation time, %d pairs", n), math.Log(got/7), want, gridStep/10)
	}
}

func TestABaselineIsBelievedNoMoreThanItHolds(t *testing.T) {
	// A heater said to keep 25 ± 0.5 °C, and readings of 20 °C: the set-point is taken to be off by 5 °C, so its variance is 25.
	climate := Climate{Mean: 25, MeanSD: 0.5, SD: 1.2, CorrelationDays: 7}
	var cold, warm []Observation
	for i := range fitEvery {
		cold, warm = append(cold, Observation{5 * i, 20, 0.3}), append(warm, Observation{5 * i, 25.2, 0.3})
	}
	near(t, "variance of a set-point that does not hold", NewRecord(climate, cold).On(100).law.meanVar, 25, 1e-9)
	near(t, "variance of one that does", NewRecord(climate, warm).On(100).law.meanVar, 0.25, 1e-9)
}

func TestAYearOfReadingsTeachesTheSeason(t *testing.T) {
	climate := Climate{Mean: 22, MeanSD: 2.5, YearlySD: 2, SD: 2, CorrelationDays: 7}
	season := func(day int) float64 { return 21.5 + 3*math.Cos(2*math.Pi*(float64(day)-200)/365.25) }
	observations := walk(3, 800, 4, 0.8, 6, season)
	record := NewRecord(climate, observations)
	if basis := record.On(150).Basis; basis != Measured {
		t.Errorf("after 150 days the basis is %v, want Measured", basis)
	}
	course := record.On(800)
	if course.Basis != Yearly {
		t.Fatalf("after 800 days the basis is %v, want Yearly", course.Basis)
	}
	for _, day := range []int{930, 1020, 1110} {
		mean, _ := course.Span(day, day, nil).Day(0)
		near(t, "mean of a later year", mean, season(day), 0.7)
	}
}

func TestReadingsOfOneDayAreOneReading(t *testing.T) {
	climate := Climate{Mean: 22, MeanSD: 2.5, YearlySD: 2, SD: 2, CorrelationDays: 7}
	once := NewRecord(climate, []Observation{{10, 24, 0.1}}).On(99).Span(0, 99, nil)
	twice := NewRecord(climate, []Observation{{10, 24, 0.1}, {10, 24, 0.1}}).On(99).Span(0, 99, nil)
	apart := NewRecord(climate, []Observation{{10, 23, 0.1}, {10, 25, 0.1}}).On(99).Span(0, 99, nil)
	m1, s1 := once.Day(10)
	m2, s2 := twice.Day(10)
	near(t, "mean of a duplicate", m2, m1, 0)
	near(t, "sd of a duplicate", s2, s1, 0)
	if _, s3 := apart.Day(10); s3 < 5*s1 {
		t.Errorf("two loggers 2 °C apart give sd %g, want much more than the %g of one", s3, s1)
	}
	years := NewRecord(climate, []Observation{{10, 24, 0.3}, {2000, 25, 0.3}}).On(2001)
	if years.Basis != Measured {
		t.Errorf("two readings five years apart give basis %v, want Measured", years.Basis)
	}
	if mean, sd := years.Span(1000, 1000, nil).Day(0); mean < 22 || mean > 25 || sd < 1.9 {
		t.Errorf("between readings years apart: %g ± %g, want a wide band between the prior and them", mean, sd)
	}
}

func BenchmarkCourse(b *testing.B) {
	observations := walk(1, 1800, 1, 1, 7, func(int) float64 { return 23 })
	climate := Climate{Mean: 23, MeanSD: 0.5, SD: 1, CorrelationDays: 7}
	b.Run("record", func(b *testing.B) {
		for b.Loop() {
			NewRecord(climate, observations)
		}
	})
	b.Run("every day", func(b *testing.B) {
		record := NewRecord(climate, observations)
		weights, sums := make([]float64, 65), make([]float64, 65)
		span, day := &Span{}, 0
		for b.Loop() {
			day = (day + 1) % 1800
			span = record.On(day).Span(day-25, day+39, span)
			span.SumVariance(weights, sums)
		}
	})
}
