package forecast

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/lifecycle"
	"pleopod/journal/wording"
)

// knownCohort is a cohort with the days from which it was known that its named daughters were grown.
type knownCohort struct {
	*colony.Cohort
	noted journal.Day // the hatch
	signs []sign      // by day
}

// sign is a named daughter seen with a saddle or with eggs.
type sign struct {
	day, known journal.Day
	eggs       bool
}

func newKnownCohort(c *colony.Cohort) knownCohort {
	f := knownCohort{Cohort: c, noted: c.Brood.Ended.KnownFrom()}
	for _, daughter := range c.Members {
		joined := joinedFrom(daughter)
		for _, e := range daughter.Events {
			kind := e.What.Kind()
			if e.Day > c.Hatched && (kind == "saddled" || kind == "berried") {
				f.signs = append(f.signs, sign{e.Day, max(joined, e.KnownFrom()), kind == "berried"})
			}
		}
	}
	slices.SortStableFunc(f.signs, func(a, b sign) int { return cmp.Compare(a.day, b.day) })
	return f
}

// joinedFrom returns the day from which it was known where a shrimp hatched: that of the first length which says so.
func joinedFrom(s *colony.Shrimp) journal.Day {
	for _, e := range s.Events {
		if m, ok := e.What.(*journal.Measured); ok && m.Brood != "" {
			return e.KnownFrom()
		}
	}
	return 0
}

// firstKnown returns the day from which it was known that a daughter is grown, and zero when none is.
func (f knownCohort) firstKnown() journal.Day {
	var first journal.Day
	for _, s := range f.signs {
		first = earliest(first, s.known)
	}
	return first
}

// sign returns the first sign of a cohort that the view knows of, and false when there is none.
func (v view) sign(f knownCohort) (sign, bool) {
	i := slices.IndexFunc(f.signs, func(s sign) bool { return s.known <= v.asOf })
	if i < 0 {
		return sign{}, false
	}
	return f.signs[i], true
}

// noticeSaddle is how many days a saddle may be there before somebody notes it: an assumption, about a moult.
const noticeSaddle = 14

// firstSign returns the question when the first daughter is seen grown, by a saddle or by eggs.
func (v view) firstSign(n nursery, eggs bool) lifecycle.Stage {
	stage := v.stage(n, 1)
	stage.Notice = lifecycle.Interval{To: noticeSaddle}
	if eggs {
		maturity := n.knownTank.profile.Maturity
		stage.Notice = lifecycle.Interval{From: maturity.FirstEggs, To: maturity.FirstEggs + maturity.MoultDays}
	}
	return stage
}

// learnYoung goes through the cohorts in the order in which a named daughter was known to be grown. As with eggs, each
// teaches with what was known on that day and never changes afterwards.
func (r *record) learnYoung() {
	r.maturity = newLearner(r.profiles[r.colony.Settings.Species].Maturity.PriorSD, len(r.knownTanks))
	var grown []knownCohort
	for _, c := range r.colony.Cohorts {
		f := newKnownCohort(c)
		r.knownCohorts = append(r.knownCohorts, f)
		if len(f.signs) > 0 {
			grown = append(grown, f)
		}
	}
	slices.SortStableFunc(grown, func(a, b knownCohort) int { return cmp.Compare(a.firstKnown(), b.firstKnown()) })
	var d scratch
	for _, f := range grown {
		r.maturity.learn(r.view(f.firstKnown(), &d).maturityLesson(f))
	}
}

// maturityLesson returns what a cohort teaches on the day its first grown daughter is known.
func (v view) maturityLesson(f knownCohort) lesson {
	seen, _ := v.sign(f)
	n := v.nursery(f.Cohort)
	l := lesson{id: f.ID, known: v.asOf, tank: n.knownTank.index}
	stage := v.firstSign(n, seen.eggs)
	if w := v.youngReason(n, Window{P50: seen.day, P95: seen.day}); w.Reason != "" {
		l.leftOut = w.Reason
		return l
	}
	dist := v.scratch.progress.Window(stage)
	if day := int(seen.day - n.first); dist.Later(day-1) < improbable || dist.Later(day) > 1-improbable {
		l.leftOut = fmt.Sprintf("first seen grown %s after hatching, outside the central 99.8 %% of its window", wording.Count(int(seen.day-f.Hatched), "day", "days"))
		return l
	}
	grown := lifecycle.Interval{From: float64(seen.day) - stage.Notice.To, To: float64(seen.day) - stage.Notice.From}
	l.log, l.sd = v.taken(n.first, n.begun, grown)
	l.sd = math.Hypot(l.sd, logSD(n.knownTank.profile.Maturity.CV))
	return l
}

// hindcastYoung predicts the first grown daughter of a cohort as it was known on a day, and false where no date was
// given then.
func (r *record) hindcastYoung(f knownCohort, seen sign, day journal.Day, d *scratch) (YoungHindcast, bool) {
	v := r.view(day, d)
	n := v.nursery(f.Cohort)
	dist := v.scratch.progress.Window(v.firstSign(n, seen.eggs))
	w := v.youngReason(n, spread(n.first, dist))
	if w.Reason != "" {
		return YoungHindcast{}, false
	}
	return YoungHindcast{
		Cohort: f.Cohort, Made: day, Eggs: seen.eggs, Window: w, Observed: seen.day, CRPS: dist.CRPS(int(seen.day - n.first)),
	}, true
}
