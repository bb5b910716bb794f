package population

import "math"

// table is what holds for all particles of a tank during one age period. Ages count periods: class 0 is being born now,
// class a was born a periods ago.
type table struct {
	law        *law
	span       int                        // age classes in use; those from span on are empty
	youngAges  int                        // classes below this one die at the hazard of the young
	youngRisk  float64                    // daily hazard of the young
	hazard     [ages]float64              // daily hazard of the others, by age
	phi        [ages]float64              // thermal age
	matures    [speedLevels][ages]float64 // probability to have matured since the last period, of those that had not
	grownUp    int                        // from this class on nobody matures any more
	fecundity  [ages]float64              // mean hatchlings of a mature female
	readiness  [ages]float64              // share of the full rate at which a female begins clutches
	mature     [speedLevels][ages]float64 // probability to be mature
	weight     [ages]float64              // food that an animal takes, an adult's being 1
	visible    [ages]float64              // how well a juvenile is seen for its size, the largest being 1
	warmthLeft float64                    // share of hatchlings that warm water leaves
	usualBrood float64                    // hatchlings of a young mother, where a particle has none to average over
	bin        int                        // the bin of the brood clock that comes next, between two runs
}

// wellSeen is the share of the length at maturity from which an animal is as visible as it will be. Assumption.
const wellSeen = 0.6

// fill works the table out for the thermal ages phi, and before of one period ago.
func (t *table) fill(phi, before *[ages]float64) {
	l := t.law
	t.phi = *phi
	t.youngAges = t.lastYoung() + 1
	t.youngRisk = -math.Log(l.profile.Survival.Young)
	if l.fish {
		t.youngRisk = math.Max(t.youngRisk, -math.Log(l.profile.Survival.YoungFish))
	}
	for a := range t.span {
		days := t.days(a)
		t.hazard[a] = l.hazard(days)
		t.fecundity[a] = l.profile.Fecundity.Hatchlings(l.profile.Growth.Female.Length(math.Max(0.8, phi[a])))
		size := math.Min(1, l.profile.Growth.Female.Length(phi[a])/l.profile.Growth.Female.Mature)
		t.weight[a] = math.Pow(size, appetite)
		t.visible[a] = math.Min(1, size/wellSeen)
		t.readiness[a] = l.profile.Breeding.ReadinessOf(days)
	}
	t.usualBrood = l.profile.Fecundity.Hatchlings(l.profile.Growth.Female.Length(1.2))
	t.grownUp = 0
	for level := range speedLevels {
		factor := l.levelFactor(level)
		for a := range t.span {
			was, is := l.mature(factor*before[a]), l.mature(factor*phi[a])
			t.mature[level][a] = is
			if is > was {
				t.matures[level][a] = (is - was) / (1 - was)
				t.grownUp = max(t.grownUp, a+1)
				continue
			}
			t.matures[level][a] = 0
		}
	}
}

// days returns the mean age in days of a class over the period.
func (t *table) days(age int) float64 {
	if age == 0 {
		return float64(t.law.width) / 4
	}
	return float64(age * t.law.width)
}

// lastYoung returns the oldest class that dies at the hazard of the young.
func (t *table) lastYoung() int {
	last := 0
	for a := range ages {
		young := t.days(a) < t.law.profile.Survival.YoungDays
		if t.law.fish {
			young = young || t.phi[a] < 1
		}
		if young {
			last = a
		}
	}
	return last
}

// pace is one day of the clocks that all particles of a tank share.
type pace struct {
	from, to int     // bins of the brood clock that this day passes: from, up to but without to
	share    float64 // of an incubation that this day makes
	gate     float64 // share of the full rate at which clutches begin in this water
}
