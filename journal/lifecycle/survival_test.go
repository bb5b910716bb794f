package lifecycle

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// grown is the chance of an animal alive and grown at one age to be alive at a later one, both in days, without predators.
func (s Survival) grown(from, to float64) float64 {
	return math.Pow(s.Adult, to-from) * s.Late().Survival(from, to)
}

func TestHalfOfTheGrownLiveToTheMedianLife(t *testing.T) {
	s := davidi(t).Survival
	near(t, "half of the grown live 15 months [Schoolmann & Arndt 2018: 12-21 months]", s.grown(s.GrownDays, s.MedianLife), 0.5, 1e-9)
	near(t, "one in twenty passes 21 months", s.grown(s.GrownDays, s.LongLife), 0.05, 1e-9)
	if share := s.grown(120, 210); share < 0.8 {
		t.Errorf("a grown animal survives 90 d with %v, want over 0.8: Tomas et al. 2020", share)
	}
	if s.grown(s.GrownDays, 730) > 0.01 {
		t.Errorf("%v of the grown pass two years, want under 0.01: one to two years, common practice", s.grown(s.GrownDays, 730))
	}
}

func TestAHazardThatHardlyRisesMeetsBothAges(t *testing.T) {
	// A hazard that hardly rises with age (shape 1.33) meets both ages as well.
	s := Survival{Adult: 1, GrownDays: 100, MedianLife: 200, LongLife: 400}
	near(t, "shape: ln[ln 20/ln 2]/ln 3", s.Late().Shape, 1.332319, 1e-5)
	near(t, "half pass the median life", s.grown(100, 200), 0.5, 1e-12)
	near(t, "one in twenty passes the long life", s.grown(100, 400), 0.05, 1e-12)
	near(t, "Weibull in between", s.grown(100, 300), math.Exp(-math.Ln2*math.Pow(2, 1.332319)), 1e-5)
}

func TestDailySurvivalFollowsAgeAndFish(t *testing.T) {
	s := davidi(t).Survival
	for _, row := range []struct {
		days         float64
		mature, fish bool
		want, tol    float64
		source       string
	}{
		{10, false, false, 0.995, 0, "assumption"},
		{59, false, false, 0.995, 0, "assumption"},
		{60, false, false, 0.9985, 1e-12, "assumption"},
		{10, false, true, 0.964, 0, "from Schoolmann & Arndt 2018: 2-3 % of eggs reach adult"},
		{90, false, true, 0.964, 0, "the same, until maturity"},
		{100, true, true, 0.9985, 1e-12, "fish leave adults alone"},
	} {
		got := s.daily(s.Late(), row.days, row.mature, row.fish)
		near(t, fmt.Sprintf("daily(%v, %v, %v) [%s]", row.days, row.mature, row.fish, row.source), got, row.want, row.tol)
	}
	product := 1.0
	for day := s.GrownDays; day < s.MedianLife; day++ {
		product *= s.daily(s.Late(), day, true, false)
	}
	near(t, "product of the days to the median life", product, 0.5, 1e-9)
	// Schoolmann & Arndt 2018: 2-3 % of eggs reach adult with fish; a fifth of the eggs is lost before.
	toAdult := 0.8 * math.Pow(s.YoungFish, 94)
	if toAdult < 0.02 || toAdult > 0.03 {
		t.Errorf("%v of the eggs reach adult with fish at 24 °C, want 0.02 to 0.03", toAdult)
	}
}

func TestOldAgeMeetsBothAgesAndSparesFewerWithTime(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Survival{
			Adult:      rapid.Float64Range(0.95, 1).Draw(t, "adult"),
			GrownDays:  rapid.Float64Range(30, 200).Draw(t, "grown"),
			MedianLife: rapid.Float64Range(210, 900).Draw(t, "median"),
		}
		s.LongLife = s.MedianLife + rapid.Float64Range(1, 900).Draw(t, "more")
		late := s.Late()
		if !(late.Scale > 0) || !(late.Shape >= 1) || math.IsInf(late.Shape, 0) {
			t.Fatalf("Late() = %+v of %+v", late, s)
		}
		if got := s.grown(s.GrownDays, s.MedianLife); got > 0.5+1e-9 {
			t.Fatalf("%v of the grown pass the median life", got)
		}
		if s.grown(s.GrownDays, s.LongLife) > s.grown(s.GrownDays, s.MedianLife)+1e-12 {
			t.Fatal("more pass the long life than the median life")
		}
		age := rapid.Float64Range(0, 1000).Draw(t, "age")
		if late.Survival(age, age+1) < late.Survival(age+30, age+31)-1e-12 {
			t.Fatalf("old age spares more at %v than a month before", age+30)
		}
	})
}

func TestAFullTankSparesFewerYoung(t *testing.T) {
	d := davidi(t).Density
	near(t, "Capacity(40)", d.Capacity(40), 200, 1e-9)
	for _, row := range []struct {
		adults, want float64
		source       string
	}{
		{0, 1, "limit"},
		{100, 1, "2.5 adults per litre in 40 L: no effect in Vazquez et al. 2017"},
		{200, 1.0 / 50, "at the capacity each female is replaced by one"},
		{150, 1 / 25.5, "half-way: 1/(1 + 49/2)"},
	} {
		near(t, fmt.Sprintf("YoungFactor(%v, 200, 50) [%s]", row.adults, row.source), d.YoungFactor(row.adults, 200, 50), row.want, 1e-12)
	}
	near(t, "hardly any growth, at the capacity", d.YoungFactor(200, 200, 1.5), 1/1.5, 1e-12)
	near(t, "a capacity of one", d.YoungFactor(1, 1, 50), 1.0/50, 1e-12)
	near(t, "no capacity", d.YoungFactor(1, 0, 50), 0, 0)
	near(t, "no capacity, nobody there", d.YoungFactor(0, 0, 50), 1, 0)
	near(t, "no growth, no brake", d.YoungFactor(900, 200, 1), 1, 0)
	// Law of Beverton and Holt: the young that grow up rise with the adults and level off.
	last := 0.0
	for adults := 101.0; adults < 5000; adults += 50 {
		recruits := adults * d.YoungFactor(adults, 200, 50)
		if adults > 600 && math.Abs(recruits-last) > 1 {
			t.Errorf("recruits at %v adults = %v, still moving from %v", adults, recruits, last)
		}
		last = recruits
	}
}

func ExampleSurvival_Late() {
	p, _ := Default("neocaridina-davidi")
	late := p.Survival.Late()
	for _, months := range []float64{12, 15, 18, 21, 24} {
		fmt.Printf("old age spares %.0f %% up to %v months\n", 100*late.Survival(122, months*30.4375), months)
	}
	// Output:
	// old age spares 97 % up to 12 months
	// old age spares 83 % up to 15 months
	// old age spares 48 % up to 18 months
	// old age spares 11 % up to 21 months
	// old age spares 0 % up to 24 months
}
