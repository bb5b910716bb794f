package population

import (
	"math"

	"pleopod/journal/lifecycle"
)

// effectiveSize returns the effective size of the mature animals of a particle.
func (p *particle) effectiveSize() float64 {
	return lifecycle.EffectiveSize(p.sires, float64(p.grown))
}

// births returns the births of a particle so far.
func births(p *particle) float64 { return float64(p.born) }

// Generation is a stretch of days as long as a generation of the colony.
type Generation struct {
	Number        int     // 1 for the offspring of the founders
	From, To      Day     // To is the last day of the record in the generation that is under way
	EffectiveSize float64 // of the parents, harmonic mean over the young; 0 when none were born
	Inbreeding    float64 // coefficient F after it, 0 to 1, taking the tank's first shrimp for unrelated
	Newcomers     int     // shrimp stocked during it after the first; moves between tanks bring no new blood
}

// size is the expected effective size at the beginning of an age period, and the births in the tank so far.
type size struct {
	day       Day
	effective float64
	born      float64
}

// generations cuts the record into generations and follows inbreeding through them.
//
//	F' = (1 − m)²·[1/(2·Ne) + (1 − 1/(2·Ne))·F]
//
// with Ne the harmonic mean of the effective size over the young, each born to those who could breed in her week, and m
// the share of newcomers among the adults, taken as unrelated. A generation lasts as long as the mean age of mothers in a colony of
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
		if effective, most := t.parents(g.From, g.To); effective > 0 {
			g.EffectiveSize = effective
			kept := 1 - float64(g.Newcomers)/math.Max(float64(g.Newcomers), most)
			drift := lifecycle.InbreedingRate(effective)
			inbred = kept * kept * (drift + (1-drift)*inbred)
		}
		g.Inbreeding = inbred
		all = append(all, g)
	}
	return all
}

// parents returns the effective size of the parents of a span of days, and the greatest of any week as a stand-in for the
// number of adults. Both are 0 when nobody was born.
func (t *tank) parents(from, to Day) (effective, most float64) {
	young, shares := 0.0, 0.0
	for i, s := range t.sizes {
		if s.day < from || s.day > to || s.effective <= 0 {
			continue
		}
		most = math.Max(most, s.effective)
		if i+1 < len(t.sizes) {
			born := math.Max(0, t.sizes[i+1].born-s.born)
			young += born
			shares += born / s.effective
		}
	}
	if young == 0 {
		return 0, 0
	}
	return young / shares, most
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

// newcomers returns how many shrimp were stocked in a span of days, other than on the day of the tank's first facts.
func (t *tank) newcomers(from, to Day) int {
	n := 0
	for _, fact := range t.record.Facts[:t.next] {
		stocked, ok := fact.What.(Stocked)
		if ok && fact.Day != t.record.Facts[0].Day && fact.Day >= from && fact.Day <= to {
			n += stocked.Total()
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
			class.Mature += t.mean(func(p *particle) float64 { return float64(p.herd[woman][a]) })
			class.Females += t.mean(func(p *particle) float64 { return float64(p.herd[girl][a]) + float64(p.herd[woman][a]) })
			class.Males += t.mean(func(p *particle) float64 { return float64(p.herd[male][a]) })
		}
		classes = append(classes, class)
	}
	for len(classes) > 0 && classes[len(classes)-1].Females+classes[len(classes)-1].Males < 0.05 {
		classes = classes[:len(classes)-1]
	}
	return classes
}
