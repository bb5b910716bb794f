package forecast

import (
	"math"
	"slices"

	"pleopod/journal"
	"pleopod/journal/evidence"
)

// Grading is the colour grades of one generation.
type Grading struct {
	Generation int // of the colony, from 1; 0 for stocked shrimp and their time
	From, To   journal.Day
	Graded     int
	Shares     []GradeShare // in the order of the journal's scale, worst first
}

// GradeShare is how many of a generation are of one grade.
type GradeShare struct {
	Grade     string
	Count     int
	Share     float64 // 0 to 1
	Low, High float64 // 90 % interval of the share, 0 to 1
}

// Selecting is whether the share of the best grade rises from the first graded generation to the last.
type Selecting struct {
	First, Last int     // generations that are compared; equal when there is nothing to compare
	Rise        float64 // difference of the shares, -1 to 1
	Low, High   float64 // 90 % interval of that difference
	Probability float64 // that the share has risen at all; 0.5 when nothing is known
}

// gradeInterval is the probability of the intervals of grades.
const gradeInterval = 0.90

// gradings adds up the tank's graded shrimp by generation: that of the brood where the event names one, else the one that
// was under way. Private gradings are left out.
func (tr *translator) gradings(t *Tank, generations []Generation) []Grading {
	scale := tr.forecast.Colony.Settings.Grades
	var all []Grading
	for _, e := range t.Events {
		what, ok := e.What.(*journal.Graded)
		if !ok || e.Entry.Private || len(what.Counts) != len(scale) {
			continue
		}
		number := tr.generationOf(what.Brood, e.Day, generations)
		i := slices.IndexFunc(all, func(g Grading) bool { return g.Generation == number })
		if i < 0 {
			i = len(all)
			all = append(all, Grading{Generation: number, From: e.Day, Shares: make([]GradeShare, len(scale))})
		}
		all[i].To = e.Day
		for grade, n := range what.Counts {
			all[i].Graded += n
			all[i].Shares[grade].Count += n
		}
	}
	slices.SortStableFunc(all, func(a, b Grading) int { return a.Generation - b.Generation })
	for i := range all {
		all[i].share(scale)
	}
	return slices.DeleteFunc(all, func(g Grading) bool { return g.Graded == 0 })
}

// generationOf returns the generation of graded shrimp: of the brood they come from as the journal proves it, else of the
// time in which it was carried; without a brood those graded are taken as the parents of the generation under way.
func (tr *translator) generationOf(brood string, day journal.Day, generations []Generation) int {
	parents := 1
	for _, b := range tr.forecast.Broods {
		if brood == "" || b.ID != brood {
			continue
		}
		if b.Mother != nil && b.Mother.Cohort != nil {
			return b.Generation
		}
		parents, day = 0, b.Berried
	}
	number := parents
	for _, g := range generations {
		if g.From <= day {
			number = g.Number
		}
	}
	return number - parents
}

// share fills in the shares and their intervals: the central interval of Beta(x + ½, n − x + ½) (Jeffreys).
func (g *Grading) share(scale []string) {
	for i := range g.Shares {
		s := &g.Shares[i]
		s.Grade = scale[i]
		if g.Graded == 0 {
			continue
		}
		s.Share = float64(s.Count) / float64(g.Graded)
		s.Low, s.High = evidence.Jeffreys(s.Count, g.Graded, gradeInterval)
	}
}

// selecting compares the share of the best grade in the first and the last graded generation. Both shares are believed to
// be Beta(x + ½, n − x + ½); interval and probability are those of their difference, taken as normal.
func selecting(gradings []Grading) Selecting {
	if len(gradings) == 0 {
		return Selecting{Probability: 0.5}
	}
	first, last := gradings[0], gradings[len(gradings)-1]
	s := Selecting{First: first.Generation, Last: last.Generation, Probability: 0.5}
	if len(gradings) == 1 {
		return s
	}
	before, after := first.best(), last.best()
	difference := evidence.Normal{Mean: after.Mean() - before.Mean(), SD: math.Hypot(before.SD(), after.SD())}
	s.Rise = last.bestShare() - first.bestShare()
	s.Low = difference.Quantile((1 - gradeInterval) / 2)
	s.High = difference.Quantile((1 + gradeInterval) / 2)
	s.Probability = 1 - difference.CDF(0)
	return s
}

// best is the belief about the share of the best grade.
func (g Grading) best() evidence.Beta {
	hits := float64(g.Shares[len(g.Shares)-1].Count)
	return evidence.Beta{A: 0.5, B: 0.5}.Update(hits, float64(g.Graded)-hits)
}

func (g Grading) bestShare() float64 { return g.Shares[len(g.Shares)-1].Share }
