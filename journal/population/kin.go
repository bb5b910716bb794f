package population

import (
	"math"

	"pleopod/journal/lifecycle"
)

// effectiveSize returns the effective size of the mature animals of a particle.
func (p *particle) effectiveSize() float64 {
	return lifecycle.EffectiveSize(p.sires, float64(p.grown))
}

// Generation is a stretch of days as long as a generation of the colony.
type Generation struct {
	Number        int     // 1 for the offspring of the founders
	From, To      Day     // To is the last day of the record in the generation that is under way
	EffectiveSize float64 // of the parents, harmonic mean over the weeks; 0 when nobody could breed
	Inbreeding    float64 // coefficient F after it, 0 to 1, taking the founders for unrelated
	Newcomers     int     // shrimp that joined during it, other than the founders
}

// size is the expected effective size at the beginning of an age period.
type size struct {
	day       Day
	effective float64
}

// generations cuts the record into generations and follows inbreeding through them.
//
//	F' = (1 − m)²·[1/(2·Ne) + (1 − 1/(2·Ne))·F]
//
// with Ne the harmonic mean of the effective size over the weeks in which there was anybody to breed, and m the share of
// newcomers among the adults, taken as unrelated. A generation lasts as long as the mean age of mothers in a colony of
// steady size, from the profile's life table at the mean temperature. Source: S. Wright 1931 (from memory). It takes all
// adults of a sex to breed alike and generations not to overlap, so it is a lower bound of the inbreeding.
func (t *tank) generations() []Generation {
	if len(t.sizes) == 0 {
		return nil
	}
	length := t.generationDays()
	var all []Generation
	inbred := 0.0
	for from := t.sizes[0].day; from <= t.day; from += length {
		g := Generation{Number: len(all) + 1, From: from, To: min(t.day, from+length-1)}
		g.Newcomers = t.newcomers(g.From, g.To)
		weeks, adults := t.breeding(g.From, g.To)
		if len(weeks) > 0 {
			g.EffectiveSize = lifecycle.HarmonicMean(weeks...)
			kept := 1 - float64(g.Newcomers)/math.Max(float64(g.Newcomers), adults)
			drift := lifecycle.InbreedingRate(g.EffectiveSize)
			inbred = kept * kept * (drift + (1-drift)*inbred)
		}
		g.Inbreeding = inbred
		all = append(all, g)
	}
	return all
}

// breeding returns the effective sizes of the weeks of a span in which there was anybody to breed, and the greatest of
// them as a stand-in for the number of adults.
func (t *tank) breeding(from, to Day) (weeks []float64, adults float64) {
	for _, s := range t.sizes {
		if s.day >= from && s.day <= to && s.effective >= 1 {
			weeks = append(weeks, s.effective)
			adults = math.Max(adults, s.effective)
		}
	}
	return weeks, adults
}

// generationDays returns how long a generation of the tank lasts, in days.
func (t *tank) generationDays() Day {
	sum, n := 0.0, 0.0
	for day := t.sizes[0].day; day <= t.day; day++ {
		sum += t.record.water(day).Mean
		n++
	}
	life := t.law.profile.LifeTable(math.Max(reference-3, sum/n), 2*t.law.profile.Survival.LongLife, t.law.fish)
	days := life.Generation()
	if math.IsNaN(days) || days < 1 {
		days = t.law.profile.Survival.GrownDays * 2
	}
	return Day(math.Round(days))
}

// newcomers returns how many shrimp joined the tank from outside in a span of days, other than on the day of the first
// stocking.
func (t *tank) newcomers(from, to Day) int {
	n, first := 0, Day(0)
	for _, fact := range t.record.Facts[:t.next] {
		joined := 0
		switch what := fact.What.(type) {
		case Stocked:
			joined = what.Total()
		case MovedIn:
			if packed := t.parcels[what.Parcel]; packed != nil {
				joined = len(packed.animals[0])
			}
		}
		if joined == 0 {
			continue
		}
		if first == 0 {
			first = fact.Day
		}
		if fact.Day != first && fact.Day >= from && fact.Day <= to {
			n += joined
		}
	}
	return n
}

// AgeClass is the animals of one span of age.
type AgeClass struct {
	FromDays, ToDays int     // without ToDays
	Females, Males   float64 // expected numbers
	Mature           float64 // expected number of mature females among them
}

// pyramid returns the expected numbers by age and sex, in classes of about a month, up to the oldest that is there.
func (t *tank) pyramid() []AgeClass {
	const periods = 4
	var classes []AgeClass
	for from := 0; from < t.table.span; from += periods {
		to := min(from+periods, t.table.span)
		class := AgeClass{FromDays: from * t.law.width, ToDays: to * t.law.width}
		for a := from; a < to; a++ {
			class.Mature += t.mean(func(p *particle) float64 { return float64(p.women[a]) })
			class.Females += t.mean(func(p *particle) float64 { return float64(p.girls[a]) + float64(p.women[a]) })
			class.Males += t.mean(func(p *particle) float64 { return float64(p.males[a]) })
		}
		classes = append(classes, class)
	}
	for len(classes) > 0 && classes[len(classes)-1].Females+classes[len(classes)-1].Males < 0.05 {
		classes = classes[:len(classes)-1]
	}
	return classes
}
