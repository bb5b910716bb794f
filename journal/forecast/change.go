package forecast

import (
	"strings"

	"pleopod/journal"
	"pleopod/journal/wording"
)

// Change compares the window of a brood with what it was at the end of the day before, and says what moved it.
type Change struct {
	Since    journal.Day // the day before the as-of day
	From, To Snapshot    // the window on each of the two days
	Causes   []Cause     // in the order in which they are counted; their shifts add up to that of the likeliest day
}

// Cause is one thing that became known since the day before, with what it did to the window.
type Cause struct {
	Why     string // such as "24.1 °C measured"
	Shift   int    // days by which it moved the likeliest day; below 0 is earlier
	Widened int    // days by which it widened the 80 % window; below 0 it became narrower
}

// change predicts a carried brood from yesterday's knowledge and adds what is new piece by piece: that she still carries,
// the water, what other broods taught, what was seen of her. It is nil where there is no such brood, or no date, yesterday.
func (r *record) change(c *knownBrood, d *scratch) *Change {
	today := r.colony.AsOf
	if c.ended != 0 || c.noted >= today {
		return nil
	}
	v := r.view(today-1, d)
	before, ok := v.shot(c)
	if !ok {
		return nil
	}
	change := &Change{Since: today - 1, From: before}
	now := r.view(today, d)
	for _, piece := range []struct {
		why string
		add func()
	}{
		{"one more day has passed, and no hatch was written", func() { v.asOf = today }},
		{now.measured(now.facts(c)), func() { v.water = today }},
		{now.taughtToday(), func() { v.taught = today }},
		{now.seenToday(c, now.facts(c)), func() { v.told = today }},
	} {
		piece.add()
		after, ok := v.shot(c)
		if !ok {
			return nil
		}
		if piece.why != "" {
			width := func(s Snapshot) int { return int(s.P90 - s.P10) }
			change.Causes = append(change.Causes, Cause{piece.why, int(after.P50 - before.P50), width(after) - width(before)})
		}
		before = after
	}
	change.To = before
	return change
}

// shot returns the window of a brood as the view sees it, and false where there is no date.
func (v view) shot(c *knownBrood) (Snapshot, bool) {
	w := v.window(v.eggs(v.facts(c)))
	return Snapshot{Day: v.asOf, P10: w.P10, P50: w.P50, P90: w.P90}, w.Reason == ""
}

// news says what became known on the day of the view that bears on a brood.
func (v view) news(c *knownBrood, f facts) string {
	if c.noted == v.asOf {
		return "seen with eggs"
	}
	var news []string
	for _, words := range []string{v.seenToday(c, f), v.measured(f), v.taughtToday()} {
		if words != "" {
			news = append(news, words)
		}
	}
	if len(news) == 0 {
		return "no hatch written"
	}
	return strings.Join(news, "; ")
}

// seenToday says what was seen of a brood itself, or "".
func (v view) seenToday(c *knownBrood, f facts) string {
	var news []string
	if f.eyed != 0 && c.eyed == v.asOf {
		news = append(news, "eyes seen")
	}
	for i, stay := range f.stays {
		if i > 0 && c.moves[i] == v.asOf {
			news = append(news, "moved to "+nameOf(v.knownTanks[stay.Tank].tank.Tank))
		}
	}
	return strings.Join(news, "; ")
}

// taughtToday says how many broods taught something on the day of the view, or "".
func (v view) taughtToday() string {
	if n := v.incubation.today(v.asOf); n > 0 {
		return wording.Count(n, "other brood", "other broods") + " hatched"
	}
	return ""
}

// measured names the temperatures that became known on the day of the view, of the tanks that a brood was in.
func (v view) measured(f facts) string {
	var news []string
	asked := map[string]bool{}
	for _, stay := range f.stays {
		words := v.measuredToday(stay.Tank)
		if asked[stay.Tank] || words == "" {
			continue
		}
		asked[stay.Tank] = true
		if stay.Tank != f.tank() {
			words += " in " + nameOf(v.knownTanks[stay.Tank].tank.Tank)
		}
		news = append(news, words)
	}
	return strings.Join(news, "; ")
}
