package forecast

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pleopod/journal"
	"pleopod/journal/wording"
)

// width is how many days lie between the 5 % and the 95 % day.
func width(w Window) int { return int(w.P95 - w.P05) }

func TestOddWater(t *testing.T) {
	start := day(t, "2026-01-10")
	for _, c := range []struct {
		name     string
		tank     journal.Tank
		write    func(d *diary)
		doubt    string // a part of the doubt that must be said, or "" for none
		wide     bool   // the window must be wider than with good readings
		noReason bool
	}{
		{name: "no reading, a heater", tank: heated("shelf", 24), write: func(*diary) {}, doubt: "set-point of 24 °C is taken"},
		{name: "no reading, no heater", tank: unheated("shelf"), write: func(*diary) {}, doubt: "22 °C is taken", wide: true},
		{name: "one reading", tank: unheated("shelf"), write: func(d *diary) { d.on(start-2, "shelf", temperature(24)) }, wide: true},
		{name: "readings years apart", tank: unheated("shelf"), write: func(d *diary) {
			d.on(start-2000, "shelf", temperature(25)).on(start-900, "shelf", temperature(23))
		}, doubt: "days old", wide: true},
		{name: "a logger with a gap", tank: logged(start, func(day int) []float64 {
			if day > 20 && day < 60 {
				return nil
			}
			return []float64{24}
		}), write: func(*diary) {}},
		{name: "a logger that stopped", tank: logged(start, func(day int) []float64 {
			if day > 80 {
				return nil
			}
			return []float64{24}
		}), write: func(*diary) {}, doubt: "is 41 days old"},
		{name: "two loggers that disagree", tank: logged(start, func(int) []float64 { return []float64{22.5, 25.5} }), write: func(*diary) {}, doubt: "differ by up to 3 °C in shelf"},
		{name: "a logger and the same values by hand", tank: logged(start, func(int) []float64 { return []float64{24} }), write: func(d *diary) {
			for i := range 40 {
				d.on(start-3*journal.Day(i), "shelf", temperature(24))
			}
		}},
		{name: "two loggers that agree", tank: logged(start, func(int) []float64 { return []float64{24, 24} }), write: func(*diary) {}},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := newDiary(c.tank)
			c.write(d)
			d.on(start, "shelf", berried("amber"))
			good := newDiary(heated("shelf", 24))
			for i := range 20 {
				good.on(start-60+3*journal.Day(i), "shelf", temperature(24))
			}
			good.on(start, "shelf", berried("amber"))
			w := find(t, Days(d.replay(start+1)), "amber").Hatch
			narrow := find(t, Days(good.replay(start+1)), "amber").Hatch
			if w.Reason != "" || w.P50 == 0 {
				t.Fatalf("no date: %q", w.Reason)
			}
			if said := strings.Join(w.Doubts, " "); !strings.Contains(said, c.doubt) || c.doubt == "" && said != "" {
				t.Errorf("doubts %q, want %q", said, c.doubt)
			}
			if c.wide != (width(w) > width(narrow)+1) {
				t.Errorf("window of %d days against %d with good readings; wider wanted: %v", width(w), width(narrow), c.wide)
			}
		})
	}
}

// logged is an unheated tank with daily means from 120 days before a day.
func logged(before journal.Day, celsius func(day int) []float64) journal.Tank {
	tank := unheated("shelf")
	for i := range 121 {
		for _, c := range celsius(i) {
			tank.Logged = append(tank.Logged, journal.LoggedDay{Day: before - 120 + journal.Day(i), Mean: c, Min: c, Max: c, Samples: 24})
		}
	}
	return tank
}

func TestOutsideTheLaw(t *testing.T) {
	start := day(t, "2026-01-10")
	for _, c := range []struct {
		celsius       float64
		dated, doubts bool
	}{{14, false, false}, {18, true, true}, {22, true, false}, {31, true, true}, {34, false, false}} {
		d := newDiary(heated("shelf", c.celsius))
		for i := range 40 {
			d.on(start-60+3*journal.Day(i), "shelf", temperature(c.celsius))
		}
		d.on(start, "shelf", berried("amber"))
		w := find(t, Days(d.replay(start+5)), "amber").Hatch
		if (w.Reason == "") != c.dated || (w.P50 != 0) != c.dated || (len(w.Doubts) > 0) != c.doubts {
			t.Errorf("at %g °C: %+v, want a date %v and doubts %v", c.celsius, w, c.dated, c.doubts)
		}
	}
}

func TestImpossibleHatch(t *testing.T) {
	start := day(t, "2026-01-10")
	d := newDiary(heated("shelf", 24))
	for i := range 40 {
		d.on(start+3*journal.Day(i), "shelf", temperature(24))
	}
	d.on(start, "shelf", berried("amber")).on(start+80, "shelf", &journal.Hatched{Brood: "amber"})
	d.on(start+1, "shelf", berried("flint")).on(start+22, "shelf", &journal.Hatched{Brood: "flint"})
	f := Days(d.replay(start + 90))
	learned := f.Learning.Incubation
	if learned.Used != 1 || len(learned.LeftOut) != 1 || !strings.HasPrefix(learned.LeftOut[0], "amber: hatched 80 days") {
		t.Errorf("used %d, left out %q, want flint used and amber left out", learned.Used, learned.LeftOut)
	}
	if own := learned.Tanks; len(own) != 1 || own[0].Tank != "shelf" || own[0].Used != 1 || own[0].Mean <= learned.Mean || own[0].SD <= 0 {
		t.Errorf("the tank's own part %+v, want one brood and a multiplier beyond the journal's %g, which its brood moved up", own, learned.Mean)
	}
	if len(f.Problems) != 1 || f.Problems[0].Code != "unlikely-hatch" || f.Problems[0].Severity != journal.Warning || f.Problems[0].Line == 0 {
		t.Errorf("problems %v, want one warning at the hatch", f.Problems)
	}
	if f.Record.Broods != 2 {
		t.Errorf("the track record counts %d broods, want both: a miss is not hidden", f.Record.Broods)
	}
}

func TestOverdue(t *testing.T) {
	start := day(t, "2026-01-10")
	d := newDiary(heated("shelf", 24))
	for i := range 60 {
		d.on(start+3*journal.Day(i), "shelf", temperature(24))
	}
	d.on(start, "shelf", berried("amber"))
	var last journal.Day
	for _, c := range []struct {
		after int
		want  BroodState
	}{{5, Carried}, {18, Carried}, {30, Overdue}, {40, Overdue}} {
		asOf := start + journal.Day(c.after)
		b := find(t, Days(d.replay(asOf)), "amber")
		if b.State != c.want || b.Hatch.P05 <= asOf || b.Hatch.P95 < last || b.Progress <= 0 || b.Progress > 1 {
			t.Errorf("after %d days: %s, window %s to %s, progress %.2f; want %s and a window after %s",
				c.after, b.State, b.Hatch.P05, b.Hatch.P95, b.Progress, c.want, asOf)
		}
		if told := b.Expected(); (told.P50 == 0) != (c.want == Overdue) || (told.Reason != "") != (c.want == Overdue) {
			t.Errorf("after %d days people are told %+v, want days only while it is not late", c.after, told)
		}
		if n := len(b.History); c.want == Overdue && (b.LateFrom == 0 || b.History[n-1].Day >= b.LateFrom) {
			t.Errorf("after %d days, late from %s, the history ends on %s", c.after, b.LateFrom, b.History[n-1].Day)
		}
		last = b.Hatch.P95
	}
}

// Nobody wrote how the eggs ended. Three weeks after the window first foreseen all that is said is that they hatched unseen,
// about the day first foreseen, however long ago that is.
func TestUnseen(t *testing.T) {
	start := day(t, "2026-01-10")
	d := newDiary(heated("shelf", 24)).on(start, "shelf", berried("amber"))
	foreseen := find(t, Days(d.replay(start)), "amber").Hatch
	for _, c := range []struct {
		on   journal.Day
		want BroodState
	}{{foreseen.P95 + Forgotten, Overdue}, {foreseen.P95 + Forgotten + 1, Unseen}, {start + 700, Unseen}} {
		f := Days(d.replay(c.on))
		b := find(t, f, "amber")
		if b.State != c.want || (b.Hatch.P50 == 0) != (c.want == Unseen) || b.Change != nil {
			t.Errorf("on %s: %s, window %+v, changed by %v; want %s", c.on, b.State, b.Hatch, b.Change, c.want)
		}
		if c.want == Unseen && (b.Foreseen.P50 != foreseen.P50 || !strings.Contains(b.Expected().Reason, wording.Date(foreseen.P50))) {
			t.Errorf("on %s people are told %q, want the day first foreseen, %s", c.on, b.Expected().Reason, foreseen.P50)
		}
	}
}

func TestLearningIsConjugate(t *testing.T) {
	// Equal precisions: a prior of 0 and one datum of x, both with sd s, give x/2 and s/√2 for journal and tank together.
	// Source: the precision rule of conjugate normals (Gelman et al., Bayesian Data Analysis, section 2.5, from memory).
	s := newLearner(0.15, 1)
	sd := math.Hypot(0.15, tankSD)
	s.learn(lesson{id: "amber", known: 1, log: 0.2, sd: sd})
	got := s.on(1).tanks[0]
	if math.Abs(got.Mean-0.1) > 1e-12 || math.Abs(got.SD-sd/math.Sqrt2) > 1e-12 {
		t.Errorf("after one brood: %+v, want 0.1 and %g", got, sd/math.Sqrt2)
	}
	// Ten observations with a sd of 20 and a mean 30 below the prior's, whose sd is 40: −29.2683 and 6.24695.
	// Source: the same book, exercise 2.8 (from memory): prior N(180, 40²), mean of ten 150, posterior 150.7317.
	weighed := newLearner(math.Sqrt(40*40-tankSD*tankSD), 1)
	weighed.learn(lesson{id: "students", known: 1, log: -30, sd: 20 / math.Sqrt(10)})
	if got := weighed.on(1).tanks[0]; math.Abs(got.Mean+29.2683) > 5e-5 || math.Abs(got.SD-6.24695) > 5e-6 {
		t.Errorf("exercise 2.8: %+v, want -29.2683 and 6.24695", got)
	}
	if before := s.on(0); before.used != 0 || before.journal.SD != 0.15 {
		t.Errorf("before it: %+v, want the prior", before.journal)
	}
	// The order of the lessons changes nothing, and a tank learns less from another tank than from its own.
	a, b := newLearner(0.15, 2), newLearner(0.15, 2)
	one, two := lesson{id: "a", tank: 0, log: 0.2, sd: 0.1}, lesson{id: "b", tank: 1, log: -0.1, sd: 0.1}
	a.learn(one)
	if own, other := a.on(9).tanks[0].Mean, a.on(9).tanks[1].Mean; own <= other || other <= 0 {
		t.Errorf("a brood of one tank moves it by %g and the other by %g", own, other)
	}
	a.learn(two)
	b.learn(two)
	b.learn(one)
	if x, y := a.on(9).journal, b.on(9).journal; math.Abs(x.Mean-y.Mean) > 1e-12 || math.Abs(x.SD-y.SD) > 1e-12 {
		t.Errorf("in one order %+v, in the other %+v", x, y)
	}
}

// BenchmarkThousandBroods predicts and hindcasts a thousand broods of five years, with every day of their history, and the young of
// some of them.
func BenchmarkThousandBroods(b *testing.B) {
	start := day(b, "2021-01-01")
	d := newDiary(heated("a", 24), unheated("b"), heated("c", 22))
	for i := range 1825 {
		if i%3 == 0 {
			for k, tank := range []string{"a", "b", "c"} {
				d.on(start+journal.Day(i), tank, temperature(23+math.Sin(float64(i)/58)+0.3*float64(k)))
			}
		}
	}
	for i := range 1000 {
		at, tank := start+journal.Day(10+i*1780/1000), []string{"a", "b", "c"}[i%3]
		id := fmt.Sprintf("brood-%d", i)
		d.on(at, tank, berried(id))
		if i%2 == 0 {
			d.on(at+12, tank, &journal.Eyed{Brood: id})
		}
		d.on(at+19+journal.Day(i%5), tank, &journal.Hatched{Brood: id})
		if i%10 == 0 && i < 900 {
			d.on(at+70, tank, &journal.Measured{Lengths: []float64{14}, Names: []string{"of-" + id}, Brood: id})
			d.on(at+130, tank, &journal.Saddled{Shrimp: named("of-" + id)})
		}
	}
	c := d.replay(start + 1825)
	b.ResetTimer()
	for b.Loop() {
		if f := Days(c); f.Record.Broods < 900 || f.Record.Maturity.Count < 80 {
			b.Fatalf("%d broods and %d cohorts were hindcast, want 1000 and 90 but for a few", f.Record.Broods, f.Record.Maturity.Count)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/1000, "ns/brood")
}
