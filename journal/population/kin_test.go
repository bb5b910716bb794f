package population

import (
	"math"
	"testing"
)

// steady is a tank whose effective size was the same every week, for so many generations of its own length.
func steady(t *testing.T, effective, generations float64, facts ...Fact) *Filter {
	t.Helper()
	r := tankOf(t, 23, append([]Fact{founders(10)}, facts...)...)
	f := New([]Record{r}, 2)
	f.tanks[0].bookWeeks(effective, generations)
	return f
}

// bookWeeks books weeks of the same size for so many generations, with a young a day.
func (t *tank) bookWeeks(effective, generations float64) {
	t.sizes = []size{{start, effective, effective, 0}}
	length := float64(t.generationDays())
	for day := start + 7; day < start+Day(generations*length); day += 7 {
		t.sizes = append(t.sizes, size{day, effective, effective, float64(day - start)})
		t.day = day
	}
	t.next = len(t.record.Facts)
}

// kin returns the generations of all tanks with their inbreeding.
func (f *Filter) kin() [][]Generation {
	all := make([][]Generation, len(f.tanks))
	for i, t := range f.tanks {
		all[i] = t.generations()
	}
	f.pedigrees(all)
	return all
}

// Without newcomers inbreeding follows F = 1 − Π (1 − 1/(2·Ne)): 25 + 25 breeders add 1 % a generation, a pair 12.5 % (FAO
// guideline text; Falconer and Mackay, from memory).
func TestInbreedingOfAClosedColonyFollowsTheClosedForm(t *testing.T) {
	for _, effective := range []float64{2, 4, 25, 50} {
		all := steady(t, effective, 4).kin()[0]
		if len(all) != 4 {
			t.Fatalf("%d generations, want 4", len(all))
		}
		for i, g := range all {
			if want := 1 - math.Pow(1-1/(2*effective), float64(i+1)); math.Abs(g.Inbreeding-want) > 1e-9 || g.Newcomers != 0 {
				t.Errorf("Ne %v, generation %d: F %v, want %v", effective, g.Number, g.Inbreeding, want)
			}
		}
	}
}

// New blood lowers inbreeding: with newcomers from outside as half of the adults a quarter is left of it.
func TestNewBloodLowersInbreeding(t *testing.T) {
	length := steady(t, 10, 1).tanks[0].generationDays()
	joined := Fact{start + length, 2, Stocked{Group: Group{Unsexed: 20}, Youngest: 100, Oldest: 200}}
	closed := steady(t, 20, 3).kin()[0]
	open := steady(t, 20, 3, joined).kin()[0]
	if open[0].Newcomers != 0 || open[1].Newcomers != 20 || open[2].Newcomers != 0 {
		t.Fatalf("newcomers %+v", open)
	}
	if open[0].Inbreeding != closed[0].Inbreeding {
		t.Errorf("F %v before anybody came, %v in a closed colony", open[0].Inbreeding, closed[0].Inbreeding)
	}
	// A quarter of 1/40 is left, then a generation of drift: 1 − (1 − 1/160)·(1 − 1/40).
	if want := 1 - (1-1.0/160)*(1-1.0/40); math.Abs(open[1].Inbreeding-want) > 1e-9 {
		t.Errorf("F %v after new blood, want %v", open[1].Inbreeding, want)
	}
}

// A tank founded from another inherits its kinship; when some go back, they bring no new blood but what drift has made.
func TestATankInheritsTheKinshipOfItsFounders(t *testing.T) {
	probe := steady(t, 10, 1).tanks[0]
	length := probe.generationDays()
	a, b := tankOf(t, 23, founders(10)), tankOf(t, 23)
	b.Tank = "window"
	moved := start + 2*length
	a.Facts = append(a.Facts, Fact{moved, 2, MovedOut{Group: Group{Unsexed: 6}, Parcel: 1}})
	b.Facts = []Fact{{moved, 2, MovedIn{Parcel: 1}}}
	f := New([]Record{a, b}, 2)
	f.tanks[0].bookWeeks(10, 4)
	f.tanks[1].next, f.tanks[1].day = 1, f.tanks[0].day
	f.tanks[1].sizes = []size{{moved, 6, 6, 0}, {moved + 7, 6, 6, 20}, {f.tanks[0].day, 6, 6, 20}}
	all := f.kin()
	before := 1 - math.Pow(1-1.0/20, 2)
	if want := 1 - (1-before)*(1-1.0/12); math.Abs(all[1][0].Inbreeding-want) > 1e-9 {
		t.Errorf("F %v in the tank founded from another with F %v, want %v", all[1][0].Inbreeding, before, want)
	}
	p := pedigree{theta: [][]float64{{0.1, 0.04}, {0.04, 0.2}}}
	p.mix(0, 1, 0.5)
	if want := 0.25*0.1 + 0.5*0.04 + 0.25*0.2; math.Abs(p.theta[0][0]-want) > 1e-12 || math.Abs(p.theta[0][1]-0.12) > 1e-12 || p.theta[0][1] != p.theta[1][0] {
		t.Errorf("%v after half came from the other tank, want %v within and 0.12 between", p.theta, want)
	}
}

// The effective size of unequal weeks is their harmonic mean when equally many are born: 10, 100 and 1000 give 27.027027
// (Frankham, Ballou and Briscoe, from memory). Evenings in which nobody is born do not count, and of hardly any young
// nothing is said.
func TestTheEffectiveSizeOfUnequalWeeksIsTheirHarmonicMean(t *testing.T) {
	tank := steady(t, 10, 0.1).tanks[0]
	tank.sizes = []size{{start, 9, 0, 0}, {start + 7, 9, 10, 0}, {start + 14, 9, 100, 5}, {start + 21, 9, 2, 10}, {start + 28, 9, 1000, 10}, {start + 35, 9, 3, 15}}
	tank.day = start + 35
	all := tank.generations()
	if len(all) != 1 || math.Abs(all[0].EffectiveSize-27.027027) > 1e-6 {
		t.Errorf("%+v, want one generation of size 27.027", all)
	}
	tank.sizes = []size{{start, 9, 2, 0}, {start + 7, 9, 2, 1}}
	if all := tank.generations(); all[0].EffectiveSize != 0 {
		t.Errorf("one young was born, and its parents count %v", all[0].EffectiveSize)
	}
}

// A period books of whom its young were born: 30 of 10 + 10 breeders (size 20) in one course of events, 10 of a pair (size 2) in
// another as likely; over all the young the harmonic mean is 40/(30/20 + 10/2) = 6.1538. Young of before do not count again.
func TestPeriodsBookWhoseYoungWereBorn(t *testing.T) {
	tank := steady(t, 10, 0.1).tanks[0]
	tank.sizes = []size{{day: start}}
	many, few := &tank.particles[0], &tank.particles[1]
	many.sires, many.grown, many.born, many.bornBefore = 10, 10, 130, 100
	few.sires, few.grown, few.born, few.bornBefore = 1, 1, 110, 100
	tank.measure()
	tank.measure()
	if got := tank.sizes[0].effective; math.Abs(got-40/6.5) > 1e-12 {
		t.Errorf("the parents count %v, want %v", got, 40/6.5)
	}
	if got := tank.sizes[1]; got.effective != 0 || got.born != 120 {
		t.Errorf("%+v, want no parents of nobody, and 120 born so far", got)
	}
}

// A generation of this shrimp lasts longer than the way to maturity and less than the lifespan, and is longer in the cold.
func TestAGenerationIsLongerInTheCold(t *testing.T) {
	warm := steady(t, 10, 0.1).tanks[0]
	cold := steady(t, 10, 0.1).tanks[0]
	cold.record.Water = []Temperature{{Mean: 20}}
	w, c := warm.generationDays(), cold.generationDays()
	if w < 120 || w > 400 || c <= w {
		t.Errorf("a generation lasts %d days at 23 °C and %d at 20 °C", w, c)
	}
}

// The pyramid holds everybody.
func TestThePyramidHoldsEverybody(t *testing.T) {
	f := New([]Record{tankOf(t, 23, founders(10))}, 100)
	f.Advance(start + 200)
	tank := f.tanks[0]
	sum, mature := 0.0, 0.0
	for _, class := range tank.pyramid() {
		sum += class.Females + class.Males
		mature += class.Mature
	}
	want := tank.mean(func(p *particle) float64 { return float64(p.living) })
	grown := tank.mean(func(p *particle) float64 { return float64(p.grown) })
	if math.Abs(sum-want) > 0.1 || math.Abs(mature-grown) > 0.1 {
		t.Errorf("the pyramid holds %v with %v mature females, the tank %v with %v", sum, mature, want, grown)
	}
}
