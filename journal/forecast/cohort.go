package forecast

import (
	"math"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/lifecycle"
)

// hatchBefore is the most days before a hatch was noted that are looked at for it.
const hatchBefore = 15

// nursery is a cohort's water and development, ready for questions about its stages.
type nursery struct {
	cohort    *colony.Cohort
	knownTank *knownTank
	first     journal.Day
	begun     lifecycle.Interval
	warmth    lifecycle.Warmth
}

// nursery counts a cohort's development on the scratch.
func (v view) nursery(c *colony.Cohort) nursery {
	b := v.knownTanks[c.Tank]
	hatched := interval(c.Brood.LastCarried, c.Hatched, math.Min(hatchBefore, 1+b.profile.Incubation.NoticeDays))
	n := nursery{cohort: c, knownTank: b, first: journal.Day(math.Floor(hatched.From))}
	n.begun = lifecycle.Interval{From: hatched.From - float64(n.first), To: hatched.To - float64(n.first)}
	// for a cohort of the past, the days long after it matured are of no use
	last := min(v.asOf+yearAhead, n.first+longestYouth-1)
	if v.asOf == v.colony.AsOf {
		whole := v.whole(c.Tank)
		n.warmth = whole.Slice(int(n.first)-whole.First, int(last)-whole.First+1)
	} else {
		n.warmth = v.course(c.Tank).Span(int(n.first), int(last), v.scratch.span(0))
	}
	v.scratch.progress.Count(n.warmth, b.growing)
	return n
}

// longestYouth is how many days from hatching are looked at for maturity.
const longestYouth = 540

// stage returns the question when a share of the way to maturity is done.
func (v view) stage(n nursery, share float64) lifecycle.Stage {
	m := v.maturity.on(v.asOf).tanks[n.knownTank.index]
	return lifecycle.Stage{
		Begun: n.begun, Share: share, LogMean: m.Mean,
		LogSD: math.Hypot(m.SD, logSD(n.knownTank.profile.Maturity.CV)),
	}
}

// cohorts predicts every cohort.
func (r *record) cohorts(tanks []Tank) []Cohort {
	all := make([]Cohort, len(r.colony.Cohorts))
	each(len(all), func(i int, d *scratch) {
		c := r.colony.Cohorts[i]
		if known := r.before.cohort(r, c); known != nil {
			all[i] = *known
		} else {
			all[i] = r.view(r.colony.AsOf, d).cohort(c)
		}
		growth := tanks[r.knownTanks[c.Tank].index].Growth
		all[i].Female = curveOf(growth, journal.Female).Length(all[i].Phi)
		all[i].Male = curveOf(growth, journal.Male).Length(all[i].Phi)
	})
	return all
}

func (v view) cohort(c *colony.Cohort) Cohort {
	n := v.nursery(c)
	maturity := n.knownTank.profile.Maturity
	mature := v.stage(n, 1)
	out := Cohort{Cohort: c}
	m := v.maturity.on(v.asOf).tanks[n.knownTank.index]
	grown, _ := v.scratch.progress.Between((n.begun.From+n.begun.To)/2, float64(v.asOf-n.first))
	out.Phi = grown * math.Exp(-m.Mean)
	seen := earliest(c.FirstSaddled, c.FirstBerried)
	out.Sexable = v.youngWindow(n, v.stage(n, maturity.SexableAt), seen)
	out.Mature = v.youngWindow(n, mature, seen)
	mature.Notice = lifecycle.Interval{From: maturity.FirstEggs, To: maturity.FirstEggs + maturity.MoultDays}
	out.FirstEggs = v.youngWindow(n, mature, c.FirstBerried)
	return out
}

// youngWindow returns the window of a stage of the young, given that a named one of them had reached it by a day.
func (v view) youngWindow(n nursery, stage lifecycle.Stage, by journal.Day) Window {
	stage.Through = 0
	d := v.scratch.progress.Window(stage)
	if by != 0 {
		d = d.By(int(by - n.first))
	}
	return v.youngReason(n, spread(n.first, d))
}

// youngReason takes the dates away where the water is outside the temperatures for which any are given.
func (v view) youngReason(n nursery, w Window) Window {
	to := n.warmth.Days() - 1
	if w.P50 != 0 {
		to = min(to, max(int(w.P50-n.first), 0))
	}
	var sum float64
	for i := 0; i <= to; i++ {
		mean, _ := n.warmth.Day(i)
		sum += mean
	}
	limits := n.knownTank.profile.Incubation
	switch mean := sum / float64(to+1); {
	case mean < limits.LimitLow:
		return Window{Reason: "Below " + v.celsius(limits.LimitLow) + " the young hardly grow, and nothing published tells how long they take."}
	case mean > limits.LimitHigh:
		return Window{Reason: "Above " + v.celsius(limits.LimitHigh) + " the young do not thrive, so there is no date to give."}
	}
	if w.P95 == 0 {
		return Window{Reason: "The water is expected to be too cold for the young to mature within a year and a half."}
	}
	if why := v.waterDoubt(n.cohort.Tank); why != "" {
		w.Doubts = append(w.Doubts, why)
	}
	return w
}

// earliest returns the earlier of two days, where zero is no day.
func earliest(a, b journal.Day) journal.Day {
	if a == 0 || b != 0 && b < a {
		return b
	}
	return a
}
