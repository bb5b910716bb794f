package population

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// bornDead is the model reduced to a linear birth-death process: every animal is a mature female that bears one daughter
// now and then, and nothing depends on age or crowd.
type bornDead struct {
	t     *tank
	birth float64 // per day
}

// incubationDay is the incubation of the reduced model, days: short against the time between two births.
const incubationDay = 1.0

func newBornDead(t testing.TB, particles, founders int, birth, death float64) bornDead {
	t.Helper()
	r := tankOf(t, 20)
	r.Water = []Temperature{{Mean: 20}}
	p := &r.Profile
	p.Survival.Adult, p.Survival.Young = math.Exp(-death), math.Exp(-death)
	p.Incubation.Base, p.Incubation.DegreeDays = 10, 10*incubationDay
	p.Maturity.Base, p.Maturity.DegreeDays, p.Maturity.CV = 10, 1e-6, 1e-9
	p.Breeding.StopBelow, p.Breeding.FullFrom = 0, 1
	tank := newTank(&r, 5, particles, nil)
	tank.law.capacity = 1e12
	tank.law.late.Scale = math.Inf(1)
	tank.law.maturing.SD = 0
	b := bornDead{tank, birth}
	for i := range tank.particles {
		p := &tank.particles[i]
		p.grownRisk, p.youngRisk, p.fecundity = 1, 1, 1
		p.share, p.pause = 1, 1
		p.put(tank.table, 0, woman, founders)
		p.ready += int32(founders)
	}
	for i := range tank.law.ladder {
		tank.law.ladder[i] = 1
	}
	tank.table.fill(&tank.phi, &tank.began)
	tank.refresh()
	b.reduce()
	return b
}

// reduce sets what the age structure would set: one young per brood, a mate for everybody, the wanted rate of births.
func (b bornDead) reduce() {
	cycle := 1 + 1.0/perIncubation // incubations from clutch to ready
	for i := range b.t.particles {
		p := &b.t.particles[i]
		p.brood, p.sires, p.firstDays = 1, 1, 1
		p.readiness = cycle * incubationDay * b.birth
	}
}

// run lives through days.
func (b bornDead) run(days Day) {
	for last := b.t.day + days; b.t.day < last; {
		end := min(last, b.t.periodEnd(b.t.day+1))
		if b.t.periodEnd(b.t.day) == b.t.day {
			b.t.turn()
			b.reduce()
		}
		b.t.stretch(end)
	}
}

// moments returns mean, variance and the share of empty particles.
func (b bornDead) moments() (mean, variance, empty float64) {
	n := float64(len(b.t.particles))
	for i := range b.t.particles {
		x := float64(b.t.particles[i].living)
		mean += x / n
		variance += x * x / n
		if x == 0 {
			empty += 1 / n
		}
	}
	return mean, variance - mean*mean, empty
}

// The step, reduced to a linear birth-death process with rates λ and μ, must give its mean, variance and extinction:
//
//	m = n0 e^(rt)    V = n0 (λ+μ)/(λ−μ) e^(rt)(e^(rt) − 1)    P0 = [μ(e^(rt) − 1)/(λe^(rt) − μ)]^n0    r = λ − μ
//	λ = μ: V = 2λ n0 t    P0 = (λt/(1 + λt))^n0
//
// Source: D. G. Kendall 1948, as in textbooks of stochastic processes; values by closed form, and by an independent
// Gillespie simulation within Monte Carlo error. One unit of time is 300 days here, so that the days from a birth to
// the daughter's own first clutch (a week) are short against the time between two births. Tolerances: four standard
// errors and the 1.5 % that this week costs; variance 8 %.
func TestBirthsAndDeathsAreThoseOfTheLinearProcess(t *testing.T) {
	if testing.Short() {
		t.Skip("takes too long where the program is watched for races")
	}
	const unit, particles = 300, 3500
	for _, c := range []struct {
		founders                int
		birth, death, time      float64
		mean, variance, extinct float64
	}{
		{10, 0.3, 0.1, 5, 27.182818, 93.415485, 6.3818e-7},
		{5, 0.2, 0.2, 10, 5, 20, 0.13168724},
	} {
		b := newBornDead(t, particles, c.founders, c.birth/unit, c.death/unit)
		b.run(Day(c.time * unit))
		mean, variance, extinct := b.moments()
		t.Logf("mean %.3f, variance %.2f, extinct %.4f; want %+v", mean, variance, extinct, c)
		if tol := 4*math.Sqrt(c.variance/particles) + 0.015*c.mean; math.Abs(mean-c.mean) > tol {
			t.Errorf("mean %.3f, want %.3f within %.3f", mean, c.mean, tol)
		}
		if math.Abs(variance/c.variance-1) > 0.08 {
			t.Errorf("variance %.2f, want %.2f", variance, c.variance)
		}
		if tol := 4*math.Sqrt(c.extinct*(1-c.extinct)/particles) + 1e-3; math.Abs(extinct-c.extinct) > tol {
			t.Errorf("extinct %.4f, want %.4f within %.4f", extinct, c.extinct, tol)
		}
	}
}

// Without births the survivors are binomial: Σ over cells of (seen − expected)²/expected below the 99.99 % point.
func TestDeathsAreBinomial(t *testing.T) {
	const particles, founders, death, days = 8000, 12, 0.004, 100
	b := newBornDead(t, particles, founders, 1e-12, death)
	b.run(days)
	exact := distuv.Binomial{N: founders, P: math.Exp(-death * days)}
	seen := make([]float64, founders+1)
	for i := range b.t.particles {
		seen[b.t.particles[i].living]++
	}
	var chi2, cells float64
	for k, n := range seen {
		if want := particles * exact.Prob(float64(k)); want >= 20 {
			chi2 += (n - want) * (n - want) / want
			cells++
		}
	}
	if limit := (distuv.ChiSquared{K: cells - 1}).Quantile(0.9999); cells < 6 || chi2 > limit {
		t.Errorf("chi-square %.1f over %v cells, limit %.1f", chi2, cells, limit)
	}
}

// What takes so many times as long goes that much slower: at the median of a multiplier of 1.25 thermal age runs at 0.8, and one
// of two standard deviations above, with an sd of 0.1, at exp(−0.2) of that. The rows of the tables lie evenly between.
func TestAMultiplierSlowsThermalAge(t *testing.T) {
	r := tankOf(t, 23)
	r.Maturity = Multiplier{Median: 1.25, SD: 0.1}
	l := newLaw(&r)
	for z, want := range map[float64]float64{0: 0.8, 2: 0.8 * math.Exp(-0.2), -2: 0.8 * math.Exp(0.2)} {
		if got := l.factor(z); math.Abs(got-want) > 1e-12 {
			t.Errorf("the factor at %g sd is %g, want %g", z, got, want)
		}
	}
	for level := range speedLevels {
		z := speedReach * (2*float64(level)/(speedLevels-1) - 1)
		if got, factor := l.speed(z); int(got) != level || math.Abs(float64(factor)-l.levelFactor(level)) > 1e-6 {
			t.Errorf("at %g sd the row is %d with the factor %g, want %d with %g", z, got, factor, level, l.levelFactor(level))
		}
	}
}

// Law: the probabilities of all that a count can find add up to 1.
func TestChancesOfACountAddUp(t *testing.T) {
	const n, concentration = 12, 7.5
	found, classes := 0.0, 0.0
	for y := range n + 1 {
		found += math.Exp(betaBinomial(y, n, 0.35, concentration))
		for k := range n + 1 - y {
			classes += math.Exp(dirichletMultinomial([]int{y, k, n - y - k}, []float64{3, 0.2, 8}, concentration))
		}
	}
	if math.Abs(found-1) > 1e-12 || math.Abs(classes-1) > 1e-12 {
		t.Errorf("the chances of a number add up to %v, those of three classes to %v", found, classes)
	}
}

// Broods drawn one after the other form a Galton-Watson process. With Poisson broods of mean 1.5 it is extinct by
// generation 1 to 5 with .2231302 .3118276 .3562015 .3807175 .3949786, in the end with .4171884, and after 5 generations of m = σ² = 1.5 has the
// mean m^5 = 7.59375 and the variance σ² m^4 (m^5 − 1)/(m − 1) = 100.142578. Source: H. W. Watson and F. Galton 1874; T. E. Harris, The
// Theory of Branching Processes (formulas from memory; values by closed form). Tolerance: four standard errors and the
// 1/512 to which the table of brood sizes is rounded; 8 % of the variance.
func TestBroodsMultiplyAsABranchingProcess(t *testing.T) {
	const lines, mean = 20000, 1.5
	const safe = 40 // alive: a line that has come so far ends with a chance of .417^40
	r := tankOf(t, 23)
	l := newLaw(&r)
	sizes := distuv.Poisson{Lambda: mean}
	k, below := 0.0, 0.0
	for i := range l.ladder {
		for (float64(i)+0.5)/ladderSteps > below+sizes.Prob(k) {
			below += sizes.Prob(k)
			k++
		}
		l.ladder[i] = float32(k / mean)
	}
	tab := table{law: l, warmthLeft: 1}
	var extinct [5]float64
	var sum, squares, forever float64
	for line := range uint64(lines) {
		s, p := newStream(11, line), particle{firstDays: 1}
		p.fecundity = 1
		alive := 1
		for generation := range extinct {
			next := 0
			for range alive {
				next += p.hatchlings(&tab, &s, mean)
			}
			if alive = next; alive == 0 {
				extinct[generation] += 1.0 / lines
			}
		}
		sum += float64(alive) / lines
		squares += float64(alive) * float64(alive) / lines
		for alive > 0 && alive < safe {
			next := 0
			for range alive {
				next += p.hatchlings(&tab, &s, mean)
			}
			alive = next
		}
		if alive == 0 {
			forever += 1.0 / lines
		}
	}
	if want := 0.4171884; math.Abs(forever-want) > 4*math.Sqrt(want*(1-want)/lines)+1.0/ladderSteps {
		t.Errorf("extinct in the end: %.4f, want %.4f", forever, want)
	}
	for i, want := range []float64{0.2231302, 0.3118276, 0.3562015, 0.3807175, 0.3949786} {
		if tol := 4*math.Sqrt(want*(1-want)/lines) + 1.0/ladderSteps; math.Abs(extinct[i]-want) > tol {
			t.Errorf("extinct by generation %d: %.4f, want %.4f within %.4f", i+1, extinct[i], want, tol)
		}
	}
	if tol := 4*math.Sqrt(100.142578/lines) + 0.03; math.Abs(sum-7.59375) > tol {
		t.Errorf("mean %.3f, want 7.594 within %.3f", sum, tol)
	}
	if variance := squares - sum*sum; math.Abs(variance/100.142578-1) > 0.08 {
		t.Errorf("variance %.2f, want 100.14", variance)
	}
}

// Where nothing is crowded and nobody differs, the simulation must grow as its deterministic skeleton does in the long
// run: at the rate r of Euler and Lotka, Σ e^(−rx) l m = 1, of the profile's life table. The skeleton and the simulation
// treat the weeks around maturity differently, which may cost 6 % of r.
func TestGrowthIsThatOfTheLifeTable(t *testing.T) {
	for _, celsius := range []float64{22, 25} {
		r := tankOf(t, celsius, stock(Group{Females: 1, Males: 1}))
		r.Water = []Temperature{{Mean: celsius}}
		r.Profile.Maturity.CV = 0.03    // the life table knows no spread
		r.Profile.Breeding.Settling = 0 // nor how a colony began: the wave of first broods would still be felt
		tank := newTank(&r, 4, 60, nil)
		tank.law.capacity = 1e12 // past the usual limit
		tank.each(func(p *particle, _ *stream) {
			p.z = [traitCount]float32{}
			p.express(tank.law)
		})
		const from, days = 250, 130
		tank.live(start + from)
		before := tank.mean(func(p *particle) float64 { return float64(p.living) })
		tank.live(start + from + days)
		got := math.Log(tank.mean(func(p *particle) float64 { return float64(p.living) })/before) / days
		want := r.Profile.LifeTable(celsius, 1500, false).Rate()
		t.Logf("%v °C: %.5f a day, life table %.5f", celsius, got, want)
		if math.Abs(got/want-1) > 0.06 {
			t.Errorf("at %v °C the simulation grows by %.5f a day, the life table by %.5f", celsius, got, want)
		}
	}
}
