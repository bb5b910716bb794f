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
	EffectiveSize float64 // of the parents, harmonic mean over the young; 0 when hardly any were born
	Inbreeding    float64 // coefficient F after it, 0 to 1, taking shrimp from outside for unrelated
	Newcomers     int     // shrimp stocked during it after the first
	Kin           int     // shrimp that came during it from other tanks of the journal
}

// fewYoung is the expected number of young below which nothing is said of their parents.
const fewYoung = 5

// size is a tank at the beginning of an age period.
type size struct {
	day       Day
	adults    float64 // expected number
	effective float64 // of the parents of those born in the period, harmonic mean over the young; 0 when there are none
	born      float64 // expected births in the tank so far
}

// measure notes the tank's size, and of whom those of the last period were born.
func (t *tank) measure() {
	var born, shares, all float64
	for i := range t.particles {
		p, w := &t.particles[i], t.cloud.weights[i]
		all += w * float64(p.born)
		if n := w * float64(p.born-p.bornBefore); n > 0 {
			born += n
			shares += n / math.Max(pair, p.effectiveSize())
		}
		p.bornBefore = p.born
	}
	if last := len(t.sizes) - 1; last >= 0 && born > 0 {
		t.sizes[last].effective = born / shares
	}
	t.sizes = append(t.sizes, size{day: t.day, adults: t.mean((*particle).adults), born: all})
}

// pair is the effective size of one female and one male, the least that can have young.
const pair = 2

// generations cuts the record into generations. A generation lasts as long as the mean age of mothers in a colony of
// steady size, from the profile's life table at the mean temperature. The effective size is the harmonic mean over the
// young, each born to those who could breed in her week. It takes all adults of a sex to breed alike and generations not to
// overlap, so that inbreeding, which pedigrees fills in, is a lower bound.
func (t *tank) generations() []Generation {
	if len(t.sizes) == 0 {
		return nil
	}
	length := t.generationDays()
	var all []Generation
	for from := t.sizes[0].day; from <= t.day; from += length {
		g := Generation{Number: len(all) + 1, From: from, To: min(t.day, from+length-1)}
		g.Newcomers, g.Kin = t.newcomers(g.From, g.To)
		g.EffectiveSize = t.parents(g.From, g.To)
		all = append(all, g)
	}
	return all
}

// parents returns the effective size of the parents of a span of days, and 0 when hardly any young were born.
func (t *tank) parents(from, to Day) float64 {
	young, shares := 0.0, 0.0
	t.litters(from, to, func(_ Day, born, effective float64) {
		young += born
		shares += born / effective
	})
	if young < fewYoung {
		return 0
	}
	return young / shares
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

// newcomers returns how many shrimp were stocked in a span of days, other than on the day of the tank's first facts, and
// how many came from other tanks then.
func (t *tank) newcomers(from, to Day) (stocked, kin int) {
	for _, fact := range t.record.Facts[:t.next] {
		if fact.Day == t.record.Facts[0].Day || fact.Day < from || fact.Day > to {
			continue
		}
		switch what := fact.What.(type) {
		case Stocked:
			stocked += what.Total()
		case MovedIn:
			if packed := t.parcels[what.Parcel]; packed != nil && len(packed.animals) > 0 {
				kin += len(packed.animals[0])
			}
		}
	}
	return stocked, kin
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
	women, females, males := t.byAge()
	var classes []AgeClass
	for from := 0; from < t.table.span; from += periods {
		to := min(from+periods, t.table.span)
		class := AgeClass{FromDays: from * t.law.width, ToDays: to * t.law.width}
		for a := from; a < to; a++ {
			class.Mature += women[a]
			class.Females += females[a]
			class.Males += males[a]
		}
		classes = append(classes, class)
	}
	for len(classes) > 0 && classes[len(classes)-1].Females+classes[len(classes)-1].Males < 0.05 {
		classes = classes[:len(classes)-1]
	}
	return classes
}

// byAge returns the expected numbers of mature females, of all females and of males in every age class.
func (t *tank) byAge() (women, females, males [ages]float64) {
	for i := range t.particles {
		p, weight := &t.particles[i], t.cloud.weights[i]
		for a := range int(p.reach) {
			women[a] += weight * float64(p.herd[woman][a])
			females[a] += weight * (float64(p.herd[girl][a]) + float64(p.herd[woman][a]))
			males[a] += weight * float64(p.herd[male][a])
		}
	}
	return women, females, males
}
