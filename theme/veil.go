package theme

import (
	"pleopod/journal"
	"pleopod/journal/forecast"
)

// newsDays returns the days on which private entries told something, and those on which public ones did.
func (v *veil) newsDays() (private, open map[journal.Day]bool) {
	private, open = map[journal.Day]bool{}, map[journal.Day]bool{}
	for tank := range v.tanks {
		for _, e := range tank.Events {
			known := map[bool]map[journal.Day]bool{true: private, false: open}[hidden(e)]
			known[e.Day], known[e.Entry.Date] = true, true
		}
	}
	return private, open
}

// change leaves out a comparison with the day before that a private entry is part of.
func (v *veil) change(c *forecast.Change) *forecast.Change {
	private, _ := v.newsDays()
	if c == nil || private[c.Since+1] {
		return nil
	}
	return c
}

// young leaves out the cohorts that are private, and those whose first grown daughter is.
func (v *veil) young(all []forecast.YoungHindcast) []forecast.YoungHindcast {
	var out []forecast.YoungHindcast
	for _, h := range all {
		kept := v.cohorts[h.Cohort]
		if kept == nil || h.Observed != kept.FirstSaddled && h.Observed != kept.FirstBerried {
			continue
		}
		h.Cohort = kept
		out = append(out, h)
	}
	return out
}
