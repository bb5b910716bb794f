package forecast

import (
	"math"
	"slices"

	"pleopod/journal"
	"pleopod/journal/evidence"
)

// fixedRule is the rule that predictions are held against: so many days after she was seen with eggs.
const fixedRule = 21

// trackRecord predicts every finished brood again with what was known on the day she was noted, and half-way; and
// likewise the first grown daughter of every cohort that has one with a name.
// What was written down only after it had come cannot be predicted and is left out.
func (r *record) trackRecord() TrackRecord {
	var t TrackRecord
	hindcasts := make([][]Hindcast, len(r.knownBroods))
	each(len(r.knownBroods), func(i int, d *scratch) { hindcasts[i] = r.hindcasts(r.knownBroods[i], d) })
	t.Hindcasts = slices.Concat(hindcasts...)
	var d scratch
	for _, f := range r.knownCohorts {
		seen, ok := r.view(r.colony.AsOf, &d).sign(f)
		if !ok || f.noted >= seen.day || f.noted >= f.firstKnown() {
			continue
		}
		for i, day := range madeOn(f.noted, min(seen.day, f.firstKnown())) {
			if h, ok := r.hindcastYoung(f, seen, day, &d); ok {
				h.Halfway = i > 0
				t.Young = append(t.Young, h)
			}
		}
	}
	t.score()
	return t
}

// hindcasts predicts a finished brood again.
func (r *record) hindcasts(c *knownBrood, d *scratch) []Hindcast {
	if c.Hatched == 0 || c.noted >= c.ended || c.noted >= c.Hatched {
		return nil
	}
	all, known := r.before.track(r, c)
	if known {
		return all
	}
	for i, day := range madeOn(c.noted, c.Hatched) {
		if h, ok := r.hindcast(c, day, d); ok {
			h.Halfway = i > 0
			all = append(all, h)
		}
	}
	return all
}

// madeOn returns the days on which something is predicted again: the day from which it was noted, and half-way to its end.
func madeOn(noted, end journal.Day) []journal.Day {
	half := noted + (end-noted)/2
	if half == noted {
		return []journal.Day{noted}
	}
	return []journal.Day{noted, half}
}

// hindcast predicts a brood as it was known on a day, and false where no date was given then.
func (r *record) hindcast(c *knownBrood, day journal.Day, d *scratch) (Hindcast, bool) {
	v := r.view(day, d)
	o := v.eggs(v.facts(c))
	w := v.window(o)
	if w.Reason != "" {
		return Hindcast{}, false
	}
	return Hindcast{
		Brood: c.Brood, Made: day, Window: w, Observed: c.Hatched,
		CRPS: o.still(day).CRPS(int(c.Hatched - o.first)),
	}, true
}

// score fills in the averages.
func (t *TrackRecord) score() {
	var first Score
	for _, h := range t.Hindcasts {
		if h.Halfway {
			t.Halfway.add(h.Window, h.Observed, h.CRPS)
			continue
		}
		first.add(h.Window, h.Observed, h.CRPS)
		t.FixedRuleMAEDays += math.Abs(float64(h.Observed - h.Brood.Berried - fixedRule))
	}
	for _, h := range t.Young {
		if h.Halfway {
			t.MaturityHalfway.add(h.Window, h.Observed, h.CRPS)
			continue
		}
		t.Maturity.add(h.Window, h.Observed, h.CRPS)
	}
	for _, s := range []*Score{&first, &t.Halfway, &t.Maturity, &t.MaturityHalfway} {
		s.average()
	}
	t.Broods, t.Coverage50, t.Coverage80, t.Coverage90 = first.Count, first.Coverage50, first.Coverage80, first.Coverage90
	t.MAEDays, t.CRPSDays = first.MAEDays, first.CRPSDays
	t.FixedRuleMAEDays /= math.Max(1, float64(first.Count))
}

// add counts one prediction against what came.
func (s *Score) add(w Window, observed journal.Day, crps float64) {
	s.Count++
	s.Coverage50 += held(w.P25, w.P75, observed)
	s.Coverage80 += held(w.P10, w.P90, observed)
	s.Coverage90 += held(w.P05, w.P95, observed)
	s.MAEDays += math.Abs(float64(observed - w.P50))
	s.CRPSDays += crps
}

// average turns sums into means.
func (s *Score) average() {
	for _, sum := range []*float64{&s.Coverage50, &s.Coverage80, &s.Coverage90, &s.MAEDays, &s.CRPSDays} {
		*sum /= math.Max(1, float64(s.Count))
	}
}

func held(low, high, observed journal.Day) float64 {
	return evidence.Held(float64(low), float64(high), float64(observed))
}
