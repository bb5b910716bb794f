package lifecycle

// What published work and common practice say about Neocaridina davidi, against the default profile. Each row is a fact
// from outside with its source; what comes out of the profile must lie in its range. A change of a default that breaks
// a row has to say why the fact is wrong.

import (
	"fmt"
	"math"
	"testing"
)

// outside is one fact: a quantity must lie between low and high.
type outside struct {
	what           string
	got, low, high float64
	source         string
}

// practice is the source of what keepers say.
const practice = "common practice, no source"

func checkOutside(t *testing.T, facts []outside) {
	t.Helper()
	for _, fact := range facts {
		if !(fact.got >= fact.low && fact.got <= fact.high) {
			t.Errorf("%s = %.4g, want %v to %v (%s)", fact.what, fact.got, fact.low, fact.high, fact.source)
		}
	}
}

func TestEggsAreAsOthersFoundThem(t *testing.T) {
	eggs := davidi(t).Incubation
	const mahmoud = "Mahmoud et al. 2020, Biodiversitas 21:2396-2402: 15 d at 25-28 °C"
	checkOutside(t, []outside{
		{"days at 27 °C", eggs.Days(27), 14.5, 15.5, "Nur & Christianus 2013, Asian J. Anim. Vet. Adv. 8:108-115: 15 d"},
		{"days at 28 °C, the warm end", eggs.Days(28), 12, 15, mahmoud},
		{"days at 25 °C, the cool end", eggs.Days(25), 15, 18, mahmoud},
		{"days at 18 °C, the coolest that keepers use", eggs.Days(18), 30, 35, practice + ": 15 to 35 days"},
		{"days at 28 °C, the warmest", eggs.Days(28), 14, 16, practice + ": 15 to 35 days"},
		{"days at 22.5 °C", eggs.Days(22.5), 14, 21, practice + ": two to three weeks"},
		{"days at 25 °C", eggs.Days(25), 14, 21, practice + ": two to three weeks"},
		{"days at 28 °C", eggs.Days(28), 14, 21, practice + ": two to three weeks"},
		{"days at 20 over days at 25.5 °C", eggs.Days(20) / eggs.Days(25.5), 1.5, 1.7,
			"Caridina multidentata, 40 d (Hamano & Hayashi 1992) over about 25 d (Cao et al. 2020)"},
	})
}

func TestMaturityIsAsOthersFoundIt(t *testing.T) {
	p := davidi(t)
	checkOutside(t, []outside{
		{"days to maturity at 27 °C", p.Maturity.Days(27), 70, 80, "Nur & Christianus 2013; Mahmoud et al. 2020: 75 d"},
		{"days to maturity at 24 °C", p.Maturity.Days(24), 80, 100, "Tropea, Stumpf & López Greco 2015, PLoS ONE 10:e0119468: within about 90 d"},
		{"months to maturity at 21 °C", p.Maturity.Days(21) / 30.44, 4, 6, practice + ": four to six months"},
		{"days from maturity to first eggs", p.Maturity.FirstEggs, 1, 3, "Nur & Christianus 2013"},
	})
}

func TestLengthsAreAsOthersFoundThem(t *testing.T) {
	p := davidi(t)
	year := 365 * p.Maturity.Rate(23)
	checkOutside(t, []outside{
		{"hatchling, mm", p.Growth.Female.Length(0), 2.25, 2.35, "Nur & Christianus 2013"},
		{"female at maturity, mm", p.Growth.Female.Length(1), 22.5, 23.5, practice + "; Mahmoud et al. 2020: mature animals 23-30 mm"},
		{"male at maturity, mm", p.Growth.Male.Length(1), 19, 19.99, practice + ": a little under 20 mm"},
		{"female of a year at 23 °C, mm", p.Growth.Female.Length(year), 24.5, 26.5, practice + ": about 25 mm"},
		{"male of a year at 23 °C, mm", p.Growth.Male.Length(year), 19.5, 21.2, practice + ": about 20 mm"},
		{"a large grown female (two sd above the mean), mm", p.Growth.Female.Length(3) * (1 + 2*p.Growth.CV), 27, 31, "Mahmoud et al. 2020: up to 30 mm"},
	})
}

func TestBroodsAreAsOthersFoundThem(t *testing.T) {
	p := davidi(t)
	const nur = "Nur & Christianus 2013: 21-51 young per brood"
	checkOutside(t, []outside{
		{"young of a female of 23 mm", p.Fecundity.Hatchlings(23), 21, 51, nur},
		{"young of a female of 20 mm", p.Fecundity.Hatchlings(20), 21, 51, nur},
		{"young of a female of 26 mm", p.Fecundity.Hatchlings(26), 21, 51, nur},
		{"share of the time that a female carries eggs", 1 / p.Breeding.Interval, 0.5, 0.8, "Soomro et al. 2011 (Caridina sakishimensis), doi 10.1651/10-3329.1"},
		{"share of the full rate of clutches at 18.5 °C", p.Breeding.ReadinessAt(18.5), 0.05, 0.95, "Onuki 2021, Crustacean Research 50:33-39: spawns at 17-20 °C"},
		{"share of females", p.Breeding.FemaleShare, 0.45, 0.59, "Schoolmann & Arndt 2018, doi 10.1016/j.limno.2018.05.001"},
		{"share of eggs kept at 32 °C", p.Fecundity.HeatFactor(32), 0, 0, "Tropea et al. 2015: all lost"},
	})
}

func TestLivesAreAsOthersFoundThem(t *testing.T) {
	p := davidi(t)
	s := p.Survival
	withFish := 1 - p.Fecundity.EggLoss
	for day := range int(p.Maturity.Days(24)) {
		withFish *= s.daily(s.Late(), float64(day), false, true)
	}
	median := s.GrownDays
	for s.grown(s.GrownDays, median) > 0.5 {
		median++
	}
	checkOutside(t, []outside{
		{"grown shrimp alive after 90 d", s.grown(122, 212), 0.8, 1, "Tomas et al. 2020, doi 10.1111/anu.13076: over 80 %"},
		{"median age of death of the grown, months", median / 30.44, 12, 21, "Schoolmann & Arndt 2018: lifespan 12-21 months"},
		{"age that one grown shrimp in twenty passes, years", s.LongLife / 365.25, 1, 2, practice + ": one to two years"},
		{"share of eggs that reach adult with fish", withFish, 0.02, 0.03, "Schoolmann & Arndt 2018: 2-3 %"},
		{"effect of 2.5 adults per litre", p.Density.YoungFactor(2.5*40, p.Density.Capacity(40), 100), 1, 1, "Vazquez et al. 2017, doi 10.1093/jcbiol/rux051: none"},
	})
}

func TestFoundersAreAsOthersFoundThem(t *testing.T) {
	checkOutside(t, []outside{
		{"ten shrimp hold both sexes, %", 100 * BothSexes(10, 0.5), 99.75, 99.85, "closed form 1 − 2·0.5^10"},
		{"effective size of 99 females and a male", EffectiveSize(1, 99), 3.95, 3.97, "US FWS Inland Salmonid Broodstock Handbook p. 1-8"},
	})
}

func TestTheTableOfDaysToHatchIsThatOfTheMethodsPage(t *testing.T) {
	// Days to hatch as the methods page prints them: 239 degree-days above 11 °C, half the slope above 28 °C.
	eggs := davidi(t).Incubation
	for celsius, want := range map[float64]float64{18: 34.1, 20: 26.6, 22: 21.7, 24: 18.4, 26: 15.9, 28: 14.1, 30: 13.3} {
		near(t, fmt.Sprintf("days at %v °C", celsius), math.Round(eggs.Days(celsius)*10)/10, want, 1e-9)
	}
}
