package population

import (
	"fmt"
	"slices"

	"pleopod/journal/evidence"
)

// Quantiles of a number of shrimp.
type Quantiles struct{ P05, P25, P50, P75, P95 float64 }

// At is a number of living shrimp, out of the egg, on a day.
type At struct {
	Day Day
	Quantiles
}

// quantiles returns the quantiles of a number over the particles, by weight.
func (t *tank) quantiles(number func(p *particle) float64) Quantiles {
	values := make([]float64, len(t.particles))
	for i := range t.particles {
		values[i] = number(&t.particles[i])
	}
	return quantilesOf(values, t.cloud.weights)
}

func quantilesOf(values, weights []float64) Quantiles {
	q := evidence.Quantiles(values, weights, 0.05, 0.25, 0.5, 0.75, 0.95)
	return Quantiles{q[0], q[1], q[2], q[3], q[4]}
}

// mean returns the mean of a number over the particles, by weight.
func (t *tank) mean(number func(p *particle) float64) float64 {
	sum := 0.0
	for i := range t.particles {
		sum += t.cloud.weights[i] * number(&t.particles[i])
	}
	return sum
}

// at returns the living on the current day.
func (t *tank) at() At { return At{t.day, t.spread()} }

// spread returns the living as quantiles. They are whole numbers, and asked for every week: weights are added up by
// number instead of sorted.
func (t *tank) spread() Quantiles {
	living := make([]int32, len(t.particles))
	for i := range living {
		living[i] = t.particles[i].living
	}
	return spreadOf(living, t.cloud.weights)
}

// spreadOf returns numbers of at least 0 as quantiles.
func spreadOf(living []int32, by []float64) Quantiles {
	weights := make([]float64, slices.Max(living)+1)
	numbers := make([]float64, len(weights))
	for i, n := range living {
		weights[n] += by[i]
	}
	for n := range numbers {
		numbers[n] = float64(n)
	}
	return quantilesOf(numbers, weights)
}

// Doubt is a fact that the model cannot bring together with the rest of the record. The model follows the fact all the
// same.
type Doubt struct {
	Order int    // of the fact
	Fact  string // what was written, "6 berried"
	Limit string // what could be, "at most 5 can be alive"
	Hint  string // which assumption may be wrong
}

// Message says both, as one clause.
func (d Doubt) Message() string { return d.Fact + ", but " + d.Limit }

// doubt notes that hardly any particle could follow a fact about a group. Of an event about several females, who come one by one,
// it says how many there are in all, and what could be before the first.
func (t *tank) doubt(fact Fact, verb string, g Group) {
	written := fmt.Sprintf("%d %s", g.Total(), verb)
	if last := len(t.doubts) - 1; last >= 0 && t.doubts[last].Order == fact.Order {
		t.doubts[last].Fact = written
		return
	}
	limit, hint := t.limit(g)
	t.doubts = append(t.doubts, Doubt{Order: fact.Order, Fact: written, Limit: limit + " (" + t.arithmetic() + ")", Hint: hint})
}

// limit says what no particle can surpass, a class or else the number alive, and which assumption may be wrong.
func (t *tank) limit(g Group) (limit, hint string) {
	var females, males, young, alive int
	for i := range t.particles {
		p := &t.particles[i]
		females, males = max(females, p.count(p.maybeFemales(t.table))), max(males, p.count(p.maybeMales(t.table)))
		young, alive = max(young, p.count(p.immatures(t.table))), max(alive, int(p.living))
	}
	const missing, wrongly = "a stocking or a move may be missing, ", "or the classes of those that came were told apart wrongly"
	for _, class := range []struct {
		said, most int
		name       string
	}{{g.Females, females, "grown female"}, {g.Males, males, "grown male"}, {g.Juveniles, young, "juvenile"}} {
		if class.said > class.most {
			return atMost(class.most, class.name), missing + wrongly
		}
	}
	if g.Total() <= alive {
		return "so many of each class can hardly be alive together", missing + wrongly
	}
	return fmt.Sprintf("at most %d can be alive", alive), missing + "a number may be wrong, or the young fare far better than assumed"
}

// atMost says that no more than n of a class can be alive.
func atMost(n int, class string) string {
	switch n {
	case 0:
		return "no " + class + " can be alive"
	case 1:
		return "at most 1 " + class + " can be alive"
	}
	return fmt.Sprintf("at most %d %ss can be alive", n, class)
}

// arithmetic says what came and went up to the current fact: stocked, moved, removed by the journal, and born by the model.
func (t *tank) arithmetic() string {
	var stocked, in, out, dead int
	for _, fact := range t.record.Facts[:max(0, t.next-1)] {
		switch what := fact.What.(type) {
		case Stocked:
			stocked += what.Total()
		case MovedIn:
			if packed := t.parcels[what.Parcel]; packed != nil {
				in += len(packed.animals[0])
			}
		case MovedOut:
			out += what.Total()
		case Left:
			if what.Found {
				dead += what.Total()
				continue
			}
			out += what.Total()
		}
	}
	var born int32
	for i := range t.particles {
		born = max(born, t.particles[i].born)
	}
	text := fmt.Sprintf("%d stocked", stocked)
	for _, term := range []struct {
		n    int
		what string
	}{{in, ", %d moved in"}, {int(born), ", up to %d hatched or never written of"}, {dead, ", %d found dead"}, {out, ", %d left"}} {
		if term.n > 0 {
			text += fmt.Sprintf(term.what, term.n)
		}
	}
	return text
}
