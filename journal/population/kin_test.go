package population

import (
	"math"
	"testing"

	"pleopod/journal/lifecycle"
)

// steady is a tank whose effective size was the same every week, for so many generations of its own length.
func steady(t *testing.T, effective, generations float64, facts ...Fact) *tank {
	t.Helper()
	r := tankOf(t, 23, append([]Fact{founders(10)}, facts...)...)
	f := New([]Record{r}, 2)
	tank := f.tanks[0]
	tank.sizes = []size{{start, effective, 0}}
	length := float64(tank.generationDays())
	for day := start + 7; day < start+Day(generations*length); day += 7 {
		tank.sizes = append(tank.sizes, size{day, effective, float64(day - start)})
		tank.day = day
	}
	tank.next = len(tank.record.Facts)
	return tank
}

// Without newcomers inbreeding follows F = 1 − Π (1 − 1/(2·Ne)): 25 + 25 breeders add 1 % a generation, a pair 12.5 % (FAO
// guideline text; Falconer and Mackay, from memory).
func TestInbreedingOfAClosedColony(t *testing.T) {
	for _, effective := range []float64{2, 4, 25, 50} {
		all := steady(t, effective, 4).generations()
		if len(all) != 4 {
			t.Fatalf("%d generations, want 4", len(all))
		}
		for i, g := range all {
			var sizes []float64
			for range i + 1 {
				sizes = append(sizes, effective)
			}
			if want := lifecycle.InbreedingAfter(sizes...); math.Abs(g.Inbreeding-want) > 1e-9 || g.Newcomers != 0 {
				t.Errorf("Ne %v, generation %d: F %v, want %v", effective, g.Number, g.Inbreeding, want)
			}
		}
	}
}

// New blood lowers inbreeding: with half of the parents unrelated newcomers F' = ¼·[1/(2Ne) + (1 − 1/(2Ne))·F].
func TestNewBlood(t *testing.T) {
	length := steady(t, 10, 1).generationDays()
	joined := Fact{start + length + 30, 2, Stocked{Group: Group{Unsexed: 10}, Youngest: 100, Oldest: 200}}
	all := steady(t, 20, 3, joined).generations()
	if all[0].Newcomers != 0 || all[1].Newcomers != 10 || all[2].Newcomers != 0 {
		t.Fatalf("newcomers %+v", all)
	}
	want := 0.25 * (1.0/40 + (1-1.0/40)*all[0].Inbreeding)
	if math.Abs(all[1].Inbreeding-want) > 1e-9 {
		t.Errorf("F %v after new blood, want %v", all[1].Inbreeding, want)
	}
}

// The effective size of unequal weeks is their harmonic mean when equally many are born: 10, 100 and 1000 give 27.027027
// (Frankham, Ballou and Briscoe, from memory). Weeks in which nobody is born do not count.
func TestEffectiveSizeOfUnequalWeeks(t *testing.T) {
	tank := steady(t, 10, 0.1)
	tank.sizes = []size{{start, 0, 0}, {start + 7, 10, 0}, {start + 14, 100, 5}, {start + 21, 2, 10}, {start + 28, 1000, 10}, {start + 35, 3, 15}}
	tank.day = start + 35
	all := tank.generations()
	if len(all) != 1 || math.Abs(all[0].EffectiveSize-27.027027) > 1e-6 {
		t.Errorf("%+v, want one generation of size 27.027", all)
	}
}

// A generation of this shrimp lasts longer than the way to maturity and less than the lifespan, and is longer in the cold.
func TestGenerationDays(t *testing.T) {
	warm := steady(t, 10, 0.1)
	cold := steady(t, 10, 0.1)
	cold.record.Water = []Temperature{{Mean: 20}}
	w, c := warm.generationDays(), cold.generationDays()
	if w < 120 || w > 400 || c <= w {
		t.Errorf("a generation lasts %d days at 23 °C and %d at 20 °C", w, c)
	}
}

// The pyramid holds everybody.
func TestPyramidAddsUp(t *testing.T) {
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
