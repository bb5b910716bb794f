package population

import (
	"cmp"
	"math"
	"slices"

	"pleopod/journal/lifecycle"
)

// pedigree is the mean kinship within every tank and between each two, followed through the record. Kinship between two
// shrimp is the inbreeding that their young would have.
//
//	drift:     f_i' = 1 − (1 − f_i)·(1 − 1/(2·Ne))^(b/B)           a week with b of the B young of its generation
//	arrivals:  f_i' = (1 − m)²·f_i + 2m(1 − m)·θ_ij + m²·f_j       θ_ik' = (1 − m)·θ_ik + m·θ_jk
//
// m is the share of the newcomers among the adults then. Newcomers from another tank j bring its kinship along; those from
// outside are taken as unrelated to everybody, so that only the first term stays. Source: S. Wright 1931; coancestry under
// migration as in M. Nei 1987, Molecular Evolutionary Genetics, ch. 13 (both from memory).
type pedigree struct {
	theta [][]float64 // by tank and tank; the kinship within a tank on the diagonal
}

// strain is something that changes kinship on a day.
type strain struct {
	day   Day
	order int // among those of a day: facts in the order of the journal, then the week's young, then the ends of generations
	apply func(p *pedigree)
}

// The places of the strains of one day that are no facts.
const (
	afterFacts = 1 << 40
	lastOfDay  = afterFacts + 1
)

// pedigrees fills in the inbreeding of the generations of every tank.
func (f *Filter) pedigrees(all [][]Generation) {
	p := &pedigree{theta: make([][]float64, len(f.tanks))}
	for i := range p.theta {
		p.theta[i] = make([]float64, len(f.tanks))
	}
	var strains []strain
	for i, t := range f.tanks {
		strains = append(strains, t.drifts(i, all[i])...)
		strains = append(strains, f.arrivals(i)...)
		for g := range all[i] {
			generation := &all[i][g]
			strains = append(strains, strain{generation.To, lastOfDay, func(p *pedigree) { generation.Inbreeding = p.theta[i][i] }})
		}
	}
	slices.SortStableFunc(strains, func(a, b strain) int {
		return cmp.Or(cmp.Compare(a.day, b.day), cmp.Compare(a.order, b.order))
	})
	for _, s := range strains {
		s.apply(p)
	}
}

// drifts returns what the young of each week do to the kinship within a tank.
func (t *tank) drifts(place int, generations []Generation) []strain {
	var all []strain
	for _, g := range generations {
		young := 0.0
		t.litters(g.From, g.To, func(_ Day, born, _ float64) { young += born })
		if young < fewYoung {
			continue
		}
		t.litters(g.From, g.To, func(day Day, born, effective float64) {
			kept := math.Pow(1-lifecycle.InbreedingRate(effective), born/young)
			all = append(all, strain{day, afterFacts, func(p *pedigree) {
				within := &p.theta[place][place]
				*within = 1 - (1-*within)*kept
			}})
		})
	}
	return all
}

// litters calls do for every week of a span in which young were born, with their number and the effective size of their
// parents.
func (t *tank) litters(from, to Day, do func(day Day, born, effective float64)) {
	for i, s := range t.sizes {
		if s.day < from || s.day > to || s.effective <= 0 || i+1 == len(t.sizes) {
			continue
		}
		if born := t.sizes[i+1].born - s.born; born > 0 {
			do(s.day, born, s.effective)
		}
	}
}

// arrivals returns what the shrimp that came to a tank did to its kinship.
func (f *Filter) arrivals(place int) []strain {
	t := f.tanks[place]
	var all []strain
	for _, fact := range t.record.Facts[:t.next] {
		n, from := 0, -1
		switch what := fact.What.(type) {
		case Stocked:
			n = what.Total()
		case MovedIn:
			from, n = f.sender(what.Parcel)
		}
		if n == 0 {
			continue
		}
		m := float64(n) / (float64(n) + t.adultsBefore(fact.Day))
		all = append(all, strain{fact.Day, fact.Order, func(p *pedigree) { p.mix(place, from, m) }})
	}
	return all
}

// sender returns the tank that a parcel left, and how many shrimp it held; -1 when nobody sent it.
func (f *Filter) sender(parcel int) (place, n int) {
	for i, t := range f.tanks {
		for _, fact := range t.record.Facts[:t.next] {
			if out, ok := fact.What.(MovedOut); ok && out.Parcel == parcel {
				return i, out.Total()
			}
		}
	}
	return -1, 0
}

// adultsBefore returns the expected adults at the last week's end before a day, and 0 before the first.
func (t *tank) adultsBefore(day Day) float64 {
	adults := 0.0
	for _, s := range t.sizes {
		if s.day >= day {
			break
		}
		adults = s.adults
	}
	return adults
}

// mix lets newcomers from another tank, or -1 for outside, make a share m of a tank.
func (p *pedigree) mix(to, from int, m float64) {
	other := func(k int) float64 {
		if from < 0 {
			return 0
		}
		return p.theta[from][k]
	}
	within := (1-m)*(1-m)*p.theta[to][to] + 2*m*(1-m)*other(to)
	if from >= 0 {
		within += m * m * p.theta[from][from]
	}
	for k := range p.theta {
		if k == to {
			continue
		}
		between := (1-m)*p.theta[to][k] + m*other(k)
		p.theta[to][k], p.theta[k][to] = between, between
	}
	p.theta[to][to] = within
}
