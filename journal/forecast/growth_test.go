package forecast

import (
	"math"
	"testing"

	"pleopod/journal"
	"pleopod/journal/lifecycle"
)

// growing is a tank at 25 °C whose young are measured as they grow along a curve.
func growing(t *testing.T, curve lifecycle.Curve, ages ...int) (*diary, journal.Day) {
	t.Helper()
	start := day(t, "2026-01-10")
	d := newDiary(heated("shelf", 25))
	for i := range 40 {
		d.on(start+7*journal.Day(i), "shelf", temperature(25))
	}
	d.on(start, "shelf", berried("amber")).on(start+18, "shelf", &journal.Hatched{Brood: "amber"})
	for _, age := range ages {
		mm := curve.Length(float64(age) * 12 / 1030)
		d.on(start+18+journal.Day(age), "shelf", &journal.Measured{Lengths: []float64{mm, mm}, Sex: journal.Female, Brood: "amber"})
	}
	return d, start + 18
}

func TestGrowthIsFitted(t *testing.T) {
	// The truth is ours: females that grow to 24 mm instead of 26.5. The fit must move most of the way towards it.
	truth := lifecycle.Curve{Hatch: 2.3, Mature: 20.5, Max: 24}
	d, hatched := growing(t, truth, 20, 35, 50, 65, 80, 100, 120, 150)
	f := Days(d.replay(hatched + 160))
	female := f.Tanks[0].Growth[0]
	if !female.Fitted || female.Reason != "" {
		t.Fatalf("fitted %v, reason %q, want a fit", female.Fitted, female.Reason)
	}
	if got := female.Curve.Length(1); math.Abs(got-20.5) > 1 {
		t.Errorf("length at maturity %.2f mm, want 20.5 ± 1", got)
	}
	if male := f.Tanks[0].Growth[1]; male.Fitted || male.Reason == "" {
		t.Errorf("males were never measured: fitted %v, reason %q", male.Fitted, male.Reason)
	}
	usual, _ := lifecycle.Default("neocaridina-davidi")
	if female.MeanSD(1) <= 0 || female.MeanSD(1) >= f.Tanks[0].Growth[1].MeanSD(1)+usual.Growth.MeasureSD {
		t.Errorf("sd of the mean curve %.2f mm, want it above 0 and below that of a guess", female.MeanSD(1))
	}
	if got := f.Cohorts[0].Female; math.Abs(got-truth.Length(160*12/1030.0)) > 1 {
		t.Errorf("expected length of the cohort %.2f mm, want that of its own tank's curve", got)
	}
}

func TestGrowthFromRecaptures(t *testing.T) {
	truth := lifecycle.Curve{Hatch: 2.3, Mature: 20.5, Max: 24}
	start := day(t, "2026-01-10")
	d := newDiary(heated("shelf", 25))
	for i := range 20 {
		d.on(start+7*journal.Day(i), "shelf", temperature(25))
	}
	for i, name := range []string{"ruby", "opal", "jade", "onyx"} {
		phi := 0.3 + 0.15*float64(i)
		for k := range 3 {
			mm := truth.Length(phi + float64(30*k)*12/1030)
			d.on(start+journal.Day(30*k), "shelf", &journal.Measured{Lengths: []float64{mm}, Sex: journal.Female, Names: []string{name}})
		}
	}
	female := Days(d.replay(start + 90)).Tanks[0].Growth[0]
	if female.Pairs != 8 {
		t.Errorf("%d pairs, want two of each of four shrimp", female.Pairs)
	}
	usual, _ := lifecycle.Default("neocaridina-davidi")
	if !female.Fitted || female.Curve.Max >= usual.Growth.Female.Max {
		t.Errorf("fitted %v with a greatest length of %.2f mm, want it drawn from %.1f towards 24", female.Fitted, female.Curve.Max, usual.Growth.Female.Max)
	}
}

// A curve is taken over from an earlier forecast only where the lengths and the water are still the same.
func TestGrowthWithMemory(t *testing.T) {
	curve := lifecycle.Curve{Hatch: 2.3, Mature: 20.5, Max: 24}
	write := func() (*diary, journal.Day) { return growing(t, curve, 20, 35, 50, 65, 80, 100, 120, 150) }
	d, hatched := write()
	before, told := predict(d.replay(hatched+160), nil)
	length := func(mm float64, name string) *journal.Measured {
		return &journal.Measured{Lengths: []float64{mm}, Sex: journal.Female, Names: []string{name}}
	}
	for name, change := range map[string]func(d *diary){
		"another length": func(d *diary) {
			d.on(hatched+90, "shelf", &journal.Measured{Lengths: []float64{19}, Sex: journal.Female, Brood: "amber"})
		},
		"a recapture": func(d *diary) {
			d.on(hatched+40, "shelf", length(12, "ruby")).on(hatched+70, "shelf", length(14, "ruby"))
		},
		"another reading": func(d *diary) { d.on(hatched+30, "shelf", temperature(21)) },
	} {
		d, _ := write()
		change(d)
		after, _ := predict(d.replay(hatched+160), told)
		want := Days(d.replay(hatched + 160)).Tanks[0].Growth[0].Curve
		if got := after.Tanks[0].Growth[0].Curve; got != want || got == before.Tanks[0].Growth[0].Curve {
			t.Errorf("%s: %v, want %v and not as before, %v", name, got, want, before.Tanks[0].Growth[0].Curve)
		}
	}
}

func TestTheClockIsReadAtMidday(t *testing.T) {
	// Half of a day's own warmth has come by its middle: gains of 2, 4 and 6 stand at 1, 4 and 9.
	c := clock{first: 100, sums: []float64{2, 6, 12}}
	for day, want := range map[journal.Day]float64{100: 1, 101: 4, 102: 9} {
		if got := c.at(day); got != want {
			t.Errorf("at the middle of day %d the clock says %g, want %g", day, got, want)
		}
	}
	if got := c.between(101, 102); got != 5 {
		t.Errorf("from middle to middle %g, want 5", got)
	}
}

func TestPredictedAgainHalfWay(t *testing.T) {
	if got := madeOn(10, 22); len(got) != 2 || got[0] != 10 || got[1] != 16 {
		t.Errorf("noted on day 10 and over on day 22: made on %v, want 10 and 16", got)
	}
	if got := madeOn(10, 11); len(got) != 1 || got[0] != 10 {
		t.Errorf("over the next day: made on %v, want 10 only", got)
	}
}

// Young that take longer than usual have come less far at the same age. Law: thermal age times the thermal time to maturity is the
// thermal time that they had, 60 days at 24 °C above a base of 13 °C, whatever the journal has learned of their speed.
func TestLearnedMaturitySlowsTheClock(t *testing.T) {
	start := day(t, "2026-01-10")
	for _, age := range []journal.Day{75, 120} {
		d := newDiary(heated("shelf", 24))
		for i := range 60 {
			d.on(start+3*journal.Day(i), "shelf", temperature(24))
		}
		d.on(start, "shelf", berried("amber")).on(start+20, "shelf", &journal.Hatched{Brood: "amber"})
		d.on(start+80, "shelf", &journal.Measured{Lengths: []float64{14}, Names: []string{"ruby"}, Brood: "amber"})
		d.on(start+20+age, "shelf", &journal.Saddled{Shrimp: named("ruby")})
		f := Days(d.replay(start + 150))
		if l := f.Learning.Maturity; l.Used != 1 || math.Abs(l.Mean-1) < 0.05 || (l.Mean > 1) != (age > 94) {
			t.Fatalf("grown at %d days: learned %+v, want a multiplier well away from 1", age, l)
		}
		g := f.Tanks[0].Growth[0] // a saddle is that of a female
		phi := g.Points[0].Phi
		if got, want := phi*g.Maturity, 60*(24-13.0); math.Abs(got-want) > 0.01*want {
			t.Errorf("grown at %d days: %.3f of the way to %.0f °C·d is %.0f °C·d, want %.0f", age, phi, g.Maturity, got, want)
		}
	}
}
