package forecast

import (
	"math"

	"pleopod/journal"
	"pleopod/journal/evidence"
)

// fixedRule is the rule that predictions are held against: so many days after she was seen with eggs.
const fixedRule = 21

// trackRecord predicts every finished brood again with what was known on the day she was noted, and half-way.
// A brood that was written down only after it had hatched cannot be predicted and is left out.
func (r *record) trackRecord(d *desk) TrackRecord {
	var t TrackRecord
	for _, c := range r.clutches {
		if c.Hatched == 0 || c.noted >= c.ended || c.noted >= c.Hatched {
			continue
		}
		if h, ok := r.hindcast(c, c.noted, d); ok {
			t.Hindcasts = append(t.Hindcasts, h)
		}
		half := c.noted + (c.Hatched-c.noted)/2
		if half == c.noted {
			continue
		}
		if h, ok := r.hindcast(c, half, d); ok {
			h.Halfway = true
			t.Hindcasts = append(t.Hindcasts, h)
		}
	}
	t.score()
	return t
}

// hindcast predicts a brood as it was known on a day, and false where no date was given then.
func (r *record) hindcast(c *clutch, day journal.Day, d *desk) (Hindcast, bool) {
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

// score fills in the averages over the predictions made on the day she was noted.
func (t *TrackRecord) score() {
	for _, h := range t.Hindcasts {
		if h.Halfway {
			continue
		}
		t.Broods++
		t.Coverage50 += held(h.Window.P25, h.Window.P75, h.Observed)
		t.Coverage80 += held(h.Window.P10, h.Window.P90, h.Observed)
		t.Coverage90 += held(h.Window.P05, h.Window.P95, h.Observed)
		t.MAEDays += math.Abs(float64(h.Observed - h.Window.P50))
		t.CRPSDays += h.CRPS
		t.FixedRuleMAEDays += math.Abs(float64(h.Observed - h.Brood.Berried - fixedRule))
	}
	if t.Broods == 0 {
		return
	}
	for _, sum := range []*float64{&t.Coverage50, &t.Coverage80, &t.Coverage90, &t.MAEDays, &t.CRPSDays, &t.FixedRuleMAEDays} {
		*sum /= float64(t.Broods)
	}
}

func held(low, high, observed journal.Day) float64 {
	return evidence.Held(float64(low), float64(high), float64(observed))
}
