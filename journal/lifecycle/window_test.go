package lifecycle

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// days is a warmth whose days are independent of each other, or all off by the same amount.
type days struct {
	mean   []float64
	sd     float64
	shared bool // every day is off by the same normal amount
}

func (d days) Days() int                          { return len(d.mean) }
func (d days) Day(i int) (mean, sd float64)       { return d.mean[i], d.sd }
func (d days) SumVariance(weights, out []float64) { d.SumCovariance(weights, -1, out) }

func (d days) SumCovariance(weights []float64, at int, out []float64) {
	var sum, squares, fixed float64
	for i, w := range weights {
		sum += w
		squares += w * w
		if i <= at {
			fixed = sum
		}
		switch {
		case i < at:
		case d.shared && at >= 0:
			out[i] = d.sd * d.sd * fixed * sum
		case d.shared:
			out[i] = d.sd * d.sd * sum * sum
		case at < 0 || i == at:
			out[i] = d.sd * d.sd * squares
		default:
			out[i] = out[i-1]
		}
	}
}

// steady is n days at one temperature that is known exactly.
func steady(celsius float64, n int) days {
	d := days{mean: make([]float64, n)}
	for i := range d.mean {
		d.mean[i] = celsius
	}
	return d
}

func profile(t interface{ Helper() }) Profile {
	t.Helper()
	p, _ := Default("neocaridina-davidi")
	return p
}

// count adds a law up over days.
func count(w Warmth, r Response) *Progress {
	p := &Progress{}
	p.Count(w, r)
	return p
}

func quantile(t interface {
	Helper()
	Fatalf(string, ...any)
}, d Distribution, p float64) int {
	t.Helper()
	day, ok := d.Quantile(p)
	if !ok {
		t.Fatalf("the quantile %g lies beyond day %d", p, d.Last())
	}
	return day
}

func TestTheMedianOfAWindowIsThePublishedDay(t *testing.T) {
	eggs := profile(t).Incubation
	for _, c := range []struct {
		celsius float64
		want    int
		source  string
	}{
		{27, 15, "15 d at 27 °C: Nur & Christianus 2013, doi 10.3923/ajava.2013.108.115"},
		{20, 27, "239 °C·d above 11 °C, closed form: 26.6 d"},
		{22, 22, "the same: 21.7 d"},
		{28, 15, "the same: 14.1 d"},
	} {
		d := count(steady(c.celsius, 80), eggs.Response()).Window(Stage{Share: 1, LogSD: 0.001})
		if got := quantile(t, d, 0.5); got != c.want {
			t.Errorf("at %g °C the median day is %d, want %d (%s)", c.celsius, got, c.want, c.source)
		}
	}
}

func TestTheRateOverANormalDayIsItsMean(t *testing.T) {
	// Laws: the slope is the derivative of the rate by the mean (Stein's lemma), and the closed form agrees with quadrature.
	law := profile(t).Incubation.Response()
	for _, sd := range []float64{0.3, 1, 3} {
		for celsius := 6.0; celsius < 34; celsius += 0.7 {
			rate, slope := law.Over(celsius, sd)
			high, _ := law.Over(celsius+1e-4, sd)
			low, _ := law.Over(celsius-1e-4, sd)
			if want := (high - low) / 2e-4; math.Abs(slope-want) > 1e-8 {
				t.Errorf("slope at %g ± %g = %g, want %g", celsius, sd, slope, want)
			}
			var sum, weight float64
			for z := -8.0; z <= 8; z += 0.001 {
				r, _ := law.Over(celsius+z*sd, 0)
				sum += r * normalDensity(z)
				weight += normalDensity(z)
			}
			if math.Abs(rate-sum/weight) > 1e-6 {
				t.Errorf("rate at %g ± %g = %g, want %g", celsius, sd, rate, sum/weight)
			}
		}
	}
}

func TestAWindowOfKnownWaterIsLogNormal(t *testing.T) {
	// With a temperature that is known, a known start and no delay the day is log-normal: P(by k) = Φ(ln(k·r)/s).
	d := count(steady(24, 60), kinked{{11, 1.0 / 239}}).Window(Stage{Share: 1, LogSD: 0.18})
	for day := 10; day < 37; day++ {
		want := upper(math.Log(float64(day)*13/239) / 0.18)
		if got := d.Later(day); math.Abs(got-want) > 1e-12 {
			t.Errorf("P(later than %d) = %.12f, want %.12f", day, got, want)
		}
	}
}

func TestASharedErrorOfTheThermometerDoesNotAverageOut(t *testing.T) {
	// A thermometer that is off by the same amount every day makes the rate log-normal in one piece: the sd of ln development
	// is sd/(T − T0). Independent days average out: sd/((T − T0)·√n).
	all := count(days{steady(24, 60).mean, 1, true}, kinked{{11, 1.0 / 239}})
	own := count(days{steady(24, 60).mean, 1, false}, kinked{{11, 1.0 / 239}})
	for _, day := range []float64{9.5, 29.5} {
		_, shared := all.Between(-0.5, day)
		_, single := own.Between(-0.5, day)
		if want := 1.0 / 169; math.Abs(shared-want) > 1e-12 || math.Abs(single-want/(day+0.5)) > 1e-12 {
			t.Errorf("to %g: relative variance %g and %g, want %g and %g", day, shared, single, want, want/(day+0.5))
		}
	}
}

// drawn is a stage over days, drawn at random in the range of the incubation law.
func drawn(t *rapid.T) (days, Stage) {
	w := days{sd: rapid.Float64Range(0, 2).Draw(t, "sd"), shared: rapid.Bool().Draw(t, "shared")}
	base := rapid.Float64Range(19, 28).Draw(t, "celsius")
	for range 120 {
		w.mean = append(w.mean, base)
	}
	for range rapid.IntRange(0, 10).Draw(t, "bumps") {
		w.mean[rapid.IntRange(0, 40).Draw(t, "bump")] += rapid.Float64Range(-3, 3).Draw(t, "by")
	}
	stage := Stage{
		Begun:   Interval{0, rapid.Float64Range(0, 6).Draw(t, "berried")},
		Share:   1,
		LogMean: rapid.Float64Range(-0.3, 0.3).Draw(t, "ln m"),
		LogSD:   rapid.Float64Range(0.08, 0.25).Draw(t, "ln sd"),
		Notice:  Interval{0, 2},
	}
	if rapid.Bool().Draw(t, "eyed") {
		stage.Sign = &Sign{Day: rapid.IntRange(8, 18).Draw(t, "eyed on"), Share: 0.58, SD: 0.08, Lag: 2}
	}
	return w, stage
}

var levels = []float64{0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95}

func TestAWindowIsADistribution(t *testing.T) {
	law := profile(t).Incubation.Response()
	rapid.Check(t, func(t *rapid.T) {
		w, stage := drawn(t)
		asOf := rapid.IntRange(0, 60).Draw(t, "as of")
		stage.Through = asOf
		d := count(w, law).Window(stage)
		still := d.After(asOf)
		last, lastStill := -1, asOf
		for _, p := range levels {
			day, ok := d.Quantile(p)
			late, okLate := still.Quantile(p)
			if !ok || !okLate {
				return
			}
			if day < last || late < lastStill || late <= asOf {
				t.Fatalf("quantiles out of order: %d after %d, %d after %d (carried on %d)", day, last, late, lastStill, asOf)
			}
			if late < day {
				t.Fatalf("still carried on day %d moves the %g quantile from %d to %d", asOf, p, day, late)
			}
			if float64(day) < stage.Begun.From {
				t.Fatalf("hatched on %d, before she was berried", day)
			}
			last, lastStill = day, late
		}
	})
}

func TestWarmerIsNeverLater(t *testing.T) {
	law := profile(t).Incubation.Response()
	rapid.Check(t, func(t *rapid.T) {
		w, stage := drawn(t)
		stage.Sign = nil
		warm := days{sd: w.sd, shared: w.shared}
		by := rapid.Float64Range(0, 1.5).Draw(t, "warmer by")
		for _, c := range w.mean {
			warm.mean = append(warm.mean, math.Min(c, 28)+math.Max(0, math.Min(by, 28-c)))
		}
		for i := range w.mean {
			w.mean[i] = math.Min(w.mean[i], 28)
		}
		a, b := count(w, law).Window(stage), count(warm, law).Window(stage)
		if x, y := quantile(t, a, 0.5), quantile(t, b, 0.5); y > x {
			t.Fatalf("warmer by up to %g °C moves the median from %d to %d", by, x, y)
		}
	})
}

func TestNothingLeaps(t *testing.T) {
	// A hundredth of a degree, or of a day, moves no probability by more than two hundredths.
	law := profile(t).Incubation.Response()
	rapid.Check(t, func(t *rapid.T) {
		w, stage := drawn(t)
		moved := days{sd: w.sd, shared: w.shared}
		for _, c := range w.mean {
			moved.mean = append(moved.mean, c+0.01)
		}
		a := count(w, law).Window(stage)
		b := count(moved, law).Window(stage)
		stage.Begun.To += 0.01
		c := count(w, law).Window(stage)
		for day := range 100 {
			if math.Abs(a.Later(day)-b.Later(day)) > 0.02 || math.Abs(a.Later(day)-c.Later(day)) > 0.02 {
				t.Fatalf("P(later than %d) leaps from %g to %g and %g", day, a.Later(day), b.Later(day), c.Later(day))
			}
		}
	})
}

func TestEyesThatWereSeenNarrowTheWindow(t *testing.T) {
	// Eyes seen early mean a quick brood, eyes seen late a slow one; both narrow the window. No source: direction only.
	p := count(steady(24, 80), profile(t).Incubation.Response())
	stage := Stage{Begun: Interval{0, 2}, Share: 1, LogSD: 0.18, Notice: Interval{0, 2}}
	blind := p.Window(stage)
	width := quantile(t, blind, 0.9) - quantile(t, blind, 0.1)
	var medians []int
	for _, day := range []int{8, 10, 12, 14, 16} {
		stage.Sign = &Sign{Day: day, Share: 0.58, SD: 0.08, Lag: 2}
		d := p.Window(stage)
		medians = append(medians, quantile(t, d, 0.5))
		if got := quantile(t, d, 0.9) - quantile(t, d, 0.1); got > width {
			t.Errorf("eyes on day %d widen the 80 %% window from %d to %d days", day, width, got)
		}
	}
	for i := 1; i < len(medians); i++ {
		if medians[i] < medians[i-1] {
			t.Errorf("medians %v, want them to rise with the day eyes are seen", medians)
		}
	}
	if middle := quantile(t, blind, 0.5); medians[0] >= middle || medians[4] <= middle {
		t.Errorf("medians %v do not lie around %d, the median without eyes", medians, middle)
	}
}

func TestWhatIsDoneIsTheDevelopmentSoFar(t *testing.T) {
	p := count(steady(24, 200), profile(t).Incubation.Response())
	stage := Stage{Begun: Interval{0, 0}, Share: 1, LogSD: 0.001}
	for _, day := range []float64{3, 9, 15} {
		if got, want := p.Done(stage, day), day*13/239; math.Abs(got-want) > 1e-5 {
			t.Errorf("done on day %g = %g, want %g", day, got, want)
		}
	}
	stage.LogSD = 0.18
	for day := 1.0; day < 199; day++ {
		if got := p.Done(stage, day); got <= 0 || got > 1 || got < p.Done(stage, day-1)-1e-9 {
			t.Errorf("done on day %g = %g, want it to rise and stay within 1", day, got)
		}
	}
	stage.Through = 190
	if d := p.Window(stage).After(190); quantile(t, d, 0.95) > 200 {
		t.Errorf("a brood that is half a year overdue: 95 %% by day %d, want the next days", quantile(t, d, 0.95))
	}
}

func TestDoneIsAMeanOfWhatIsNotOver(t *testing.T) {
	// Law: ln of the development X is normal with the mean ln(share) − doubt/2 − LogMean, so that the development itself is expected
	// to be the share; Done is E(e^X given X < 0), here by quadrature.
	warm := steady(23, 60)
	warm.sd, warm.shared = 1.5, true
	p := count(warm, profile(t).Incubation.Response())
	for _, stage := range []Stage{{Share: 1, LogSD: 0.1}, {Share: 1, LogMean: 0.2, LogSD: 0.3}, {Share: 1000, LogMean: -0.1, LogSD: 0.2}} {
		for _, day := range []float64{5, 16, 20, 25} {
			share, doubt := p.Between(0, day)
			mean, sd := math.Log(share/stage.Share)-doubt/2-stage.LogMean, math.Sqrt(doubt+stage.LogSD*stage.LogSD)
			var sum, weight float64
			const step = 1e-4
			for z := -8 + step/2; mean+sd*z < 0 && z < 8; z += step {
				sum += math.Exp(mean+sd*z) * normalDensity(z)
				weight += normalDensity(z)
			}
			near(t, "the share done", p.Done(stage, day), sum/weight, 1e-4)
			if stage.Share == 1000 { // nothing is over: the mean of a log-normal number
				near(t, "the development", 1000*p.Done(stage, day), share*math.Exp(stage.LogSD*stage.LogSD/2-stage.LogMean), 1e-9)
			}
		}
	}
}

func TestConditionsAreThoseOfProbability(t *testing.T) {
	// Law: P(T > d | a < T ≤ b) = (P(T > d) − P(T > b))/(P(T > a) − P(T > b)), in whichever order the two are told.
	d := count(steady(23, 80), profile(t).Incubation.Response()).Window(Stage{Share: 1, LogSD: 0.15})
	for _, b := range []int{17, 20, 24} {
		for day := range 40 {
			over := func(after float64) float64 {
				return max(0, min(1, (d.Later(day)-d.Later(b))/(after-d.Later(b))))
			}
			near(t, "by a day", d.By(b).Later(day), over(1), 1e-12)
			near(t, "after and by a day", d.After(15).By(b).Later(day), over(d.Later(15)), 1e-12)
			near(t, "by and after a day", d.By(b).After(15).Later(day), over(d.Later(15)), 1e-12)
		}
	}
}

func BenchmarkWindow(b *testing.B) {
	p, _ := Default("neocaridina-davidi")
	w := steady(24, 65)
	w.sd, w.shared = 0.5, true
	stage := Stage{Begun: Interval{0, 2}, Share: 1, LogSD: 0.18, Notice: Interval{0, 2}}
	signed := stage
	signed.Sign = &Sign{Day: 12, Share: 0.58, SD: 0.08, Lag: 2}
	var progress Progress
	law := p.Incubation.Response()
	b.Run("plain", func(b *testing.B) {
		for b.Loop() {
			progress.Count(w, law)
			progress.Window(stage)
		}
	})
	b.Run("eyed", func(b *testing.B) {
		for b.Loop() {
			progress.Count(w, law)
			progress.Window(signed)
		}
	})
}

func TestASpreadIntervalKeepsItsMeanAndVariance(t *testing.T) {
	// Mean and variance of an even distribution, (a+b)/2 and (b−a)²/12 (closed form), and no jump where another stretch begins.
	for _, width := range []float64{0.5, 2, 3, 4.5, 6, 7, 24, 40} {
		mean, variance := moments(spread(Interval{1, 1 + width}))
		if math.Abs(mean-(1+width/2)) > 1e-9 || math.Abs(variance-width*width/12) > 1e-9 {
			t.Errorf("an interval of %g days: mean %g and variance %g", width, mean, variance)
		}
		bent := func(in Interval) (sum float64) {
			for _, m := range spread(in) {
				sum += m.weight * math.Max(0, m.at-3.7)
			}
			return sum
		}
		if a, b := bent(Interval{0, width}), bent(Interval{0, width + 1e-6}); math.Abs(a-b) > 1e-5 {
			t.Errorf("from %g days on, the mean of a kinked law leaps from %g to %g", width, a, b)
		}
	}
}

func moments(of []moment) (mean, variance float64) {
	for _, m := range of {
		mean += m.weight * m.at
	}
	for _, m := range of {
		variance += m.weight * (m.at - mean) * (m.at - mean)
	}
	return mean, variance
}
