package theme

import (
	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
)

// noteNews notes the days on which private entries told something, and those on which public ones did.
func (v *veil) noteNews(c *colony.Colony) {
	v.private, v.open = map[journal.Day]bool{}, map[journal.Day]bool{}
	for _, tank := range c.Tanks {
		for _, e := range tank.Events {
			known := v.open
			if hidden(e) {
				known = v.private
			}
			known[e.Day], known[e.Entry.Date] = true, true
		}
	}
}

// change leaves out a comparison with the day before that a private entry is part of.
func (v *veil) change(c *forecast.Change) *forecast.Change {
	if c == nil || v.private[c.Since+1] {
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
