package forecast

import (
	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/lifecycle"
	"pleopod/journal/water"
)

// journey is the water that a brood lived in, tank after tank. The waters of two tanks are taken as independent.
type journey struct {
	legs []*water.Span
	days int
}

// journey returns the temperature from first to last along the stays of a brood; before the first stay she was in its tank.
func (v view) journey(stays []colony.Stay, first, last journal.Day) lifecycle.Warmth {
	j := journey{days: int(last-first) + 1}
	for i, stay := range stays {
		from, to := max(stay.From, first), last
		if i == 0 {
			from = first
		}
		if i+1 < len(stays) {
			to = min(last, stays[i+1].From-1)
		}
		if to >= from {
			j.legs = append(j.legs, v.course(stay.Tank).Span(int(from), int(to), v.scratch.span(len(j.legs))))
		}
	}
	if len(j.legs) == 1 {
		return j.legs[0]
	}
	return j
}

// span returns the memory of the i-th leg of an earlier journey, which is over.
func (d *scratch) span(i int) *water.Span {
	if i == len(d.spans) {
		d.spans = append(d.spans, &water.Span{})
	}
	return d.spans[i]
}

func (j journey) Days() int { return j.days }

func (j journey) Day(i int) (mean, sd float64) {
	for _, leg := range j.legs {
		if i < leg.Days() {
			return leg.Day(i)
		}
		i -= leg.Days()
	}
	panic("forecast: a day beyond the journey")
}

func (j journey) SumVariance(weights, out []float64) {
	from, before := 0, 0.0
	for _, leg := range j.legs {
		to := from + leg.Days()
		leg.SumVariance(weights[from:to], out[from:to])
		for i := from; i < to; i++ {
			out[i] += before
		}
		from, before = to, out[to-1]
	}
}

func (j journey) SumCovariance(weights []float64, at int, out []float64) {
	sums := make([]float64, j.days)
	j.SumVariance(weights, sums)
	from, before := 0, 0.0
	for _, leg := range j.legs {
		to := from + leg.Days()
		switch {
		case at >= to: // the whole leg lies before
		case at >= from:
			leg.SumCovariance(weights[from:to], at-from, out[from:to])
			for i := at; i < to; i++ {
				out[i] += before
			}
		default: // a later tank knows nothing of an earlier one
			for i := from; i < to; i++ {
				out[i] = sums[at]
			}
		}
		before = sums[to-1]
		from = to
	}
}
