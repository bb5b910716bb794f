package forecast

import (
	"cmp"
	"math"
	"slices"

	"pleopod/journal"
	"pleopod/journal/lifecycle"
)

// MeanSD returns the standard error of the mean curve at phi, in mm: how sure the curve is, not how animals differ.
func (g Growth) MeanSD(phi float64) float64 { return g.fit.MeanSD(phi) }

// AnimalSD returns the sd of the length of one animal around the curve at phi, in mm, with how unsure the curve is.
func (g Growth) AnimalSD(phi float64) float64 {
	return math.Hypot(g.cv*g.Curve.Length(phi), g.MeanSD(phi))
}

// GrowthGroup is the lengths of one generation and sex in one tank against the species' own curve.
type GrowthGroup struct {
	Tank       string
	Generation int // 0 where the cohort is not known
	Sex        journal.Sex
	Lengths    int
	Animals    int // lengths without a name count as one animal each
	// Ratio is the geometric mean over animals of measured to expected length at the same thermal age; Low and High hold it
	// with 90 %. Groups whose ranges overlap cannot be told apart.
	Ratio, Low, High float64
}

// GrowthGroups compares the measured lengths by tank, generation and sex, each against the species' curve at its own
// thermal age, so that warm and cold tanks, young and old animals can be held side by side.
//
//	ln ratio = mean over animals of ln(measured/expected) ± 1.645·s/√n
//
// where s is the assumed spread of single animals with the error of measuring, or the observed spread where that is
// larger. Lengths of one named animal are averaged first. That sisters are alike is not counted: ranges are a little narrow.
func (f *Forecast) GrowthGroups() []GrowthGroup {
	var all []GrowthGroup
	for i := range f.Tanks {
		t := &f.Tanks[i]
		for _, g := range t.Growth {
			usual := defaultCurve(t.Profile.Growth, g.Sex)
			for _, points := range byGeneration(g.Points) {
				group := compare(points, usual, t.Profile.Growth)
				group.Tank, group.Generation, group.Sex = t.Tank.ID, generationOf(points[0]), g.Sex
				all = append(all, group)
			}
		}
	}
	return all
}

func generationOf(p GrowthPoint) int {
	if p.Length.Cohort == nil {
		return 0
	}
	return p.Length.Cohort.Generation
}

// byGeneration sorts lengths into generations, the first first and those of unknown cohorts last.
func byGeneration(points []GrowthPoint) [][]GrowthPoint {
	sorted := slices.Clone(points)
	rank := func(p GrowthPoint) int { return cmp.Or(generationOf(p), math.MaxInt) }
	slices.SortStableFunc(sorted, func(a, b GrowthPoint) int { return cmp.Compare(rank(a), rank(b)) })
	var all [][]GrowthPoint
	for len(sorted) > 0 {
		n := 1
		for n < len(sorted) && rank(sorted[n]) == rank(sorted[0]) {
			n++
		}
		all = append(all, sorted[:n])
		sorted = sorted[n:]
	}
	return all
}

// compare holds lengths against a curve.
func compare(points []GrowthPoint, usual lifecycle.Curve, law lifecycle.Growth) GrowthGroup {
	type animal struct{ sum, n float64 }
	animals := map[string]*animal{}
	var order []*animal
	var assumed float64
	for _, p := range points {
		expected := usual.Length(p.Phi)
		assumed += math.Hypot(law.CV, law.MeasureSD/expected) / float64(len(points))
		a := animals[p.Length.Name]
		if a == nil || p.Length.Name == "" {
			a = &animal{}
			animals[p.Length.Name] = a
			order = append(order, a)
		}
		a.sum += math.Log(p.MM / expected)
		a.n++
	}
	n := float64(len(order))
	var mean, squares float64
	for _, a := range order {
		mean += a.sum / a.n / n
	}
	for _, a := range order {
		squares += (a.sum/a.n - mean) * (a.sum/a.n - mean)
	}
	spread := assumed
	if n > 1 {
		spread = math.Max(assumed, math.Sqrt(squares/(n-1)))
	}
	const central90 = 1.6448536269514722 // standard normal quantile of 0.95
	half := central90 * spread / math.Sqrt(n)
	return GrowthGroup{
		Lengths: len(points), Animals: len(order),
		Ratio: math.Exp(mean), Low: math.Exp(mean - half), High: math.Exp(mean + half),
	}
}
