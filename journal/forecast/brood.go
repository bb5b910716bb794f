package forecast

import (
	"cmp"
	"fmt"

	"pleopod/journal"
	"pleopod/journal/wording"
)

// longestHistory is how many days of a brood's history are kept: a brood that nobody ended is not followed for ever.
const longestHistory = 120

// broods predicts every brood of the colony.
func (r *record) broods() []Brood {
	all := make([]Brood, len(r.knownBroods))
	each(len(all), func(i int, d *scratch) {
		if known := r.before.brood(r, r.knownBroods[i]); known != nil {
			all[i] = *known
			return
		}
		all[i] = r.brood(r.knownBroods[i], d)
	})
	return all
}

// brood predicts one brood: with all that is known when it is carried, else as it looked on the last day before its end.
func (r *record) brood(c *knownBrood, d *scratch) Brood {
	b := Brood{Brood: c.Brood}
	last := r.lastCarried(c)
	v := r.view(last, d)
	f := v.facts(c)
	o := v.eggs(f)
	b.Progress = v.scratch.progress.Done(o.stage, float64(last-o.first))
	b.Eyes = v.eyes(o)
	b.EyedFrom = cmp.Or(f.eyed, b.Eyes.P50)
	b.Celsius, b.CelsiusSD = v.meanCelsius(o), v.meanSpread(o)
	b.Hatch = v.windowOf(o, b.Celsius)
	if b.Hatch.Reason == "" {
		b.AltP50 = v.alternative(o)
	} else {
		b.EyedFrom, b.Eyes = f.eyed, Window{}
	}
	b.Foreseen = b.Hatch
	if c.noted < last {
		first := r.view(c.noted, d)
		b.Foreseen = first.window(first.eggs(first.facts(c)))
	}
	r.follow(&b, c, last, d)
	b.State = b.stateOn(c, r.colony.AsOf, o)
	switch b.State {
	case Carried:
		b.Change = r.change(c, d)
	case Overdue:
		b.LateFrom = cmp.Or(b.LateFrom, o.day(o.dist, 0.95)+1) // where History ends before it
	case Hatched:
		b.Progress = 1
	case Unseen:
		b.Progress = 1
		b.Hatch = Window{Reason: fmt.Sprintf("Nothing was written of its end; it is taken as hatched unseen about %s.", wording.Date(b.Foreseen.P50))}
	}
	return b
}

// Forgotten is how many days after the last day on which a brood should have hatched, as foreseen, it is taken as hatched
// unseen. Assumption.
const Forgotten = 21

// stateOn returns where the brood stands on the as-of day. A mother who dies or leaves long after the eggs must have hatched
// did not carry them so long.
func (b *Brood) stateOn(c *knownBrood, asOf journal.Day, o outlook) BroodState {
	if c.lostWithHer {
		asOf = c.Dropped - 1
	}
	late := o.day(o.dist, 0.95)
	switch {
	case c.ended != 0 && !c.lostWithHer:
		return BroodState(c.State)
	case b.Foreseen.P95 != 0 && asOf > b.Foreseen.P95+Forgotten:
		return Unseen
	case c.lostWithHer:
		return Dropped
	case b.Hatch.Reason == "" && late != 0 && asOf > late:
		return Overdue
	}
	return Carried
}

// Open reports whether the eggs are carried as far as anybody knows.
func (b *Brood) Open() bool { return b.State == Carried || b.State == Overdue }

// Expected is the window of the hatch as people are told: Hatch, but for an overdue brood no days, and instead what to look
// at. That the eggs are still carried is all that its Hatch rests on, and nobody has seen it.
func (b *Brood) Expected() Window {
	if b.State != Overdue {
		return b.Hatch
	}
	return Window{Reason: fmt.Sprintf("It should have hatched before %s: 19 of 20 such broods have. Look at her belly; then write hatched or dropped.", wording.Date(b.LateFrom))}
}

// lastCarried returns the last day on which nothing was known of a brood's end: the as-of day, or the day before the end.
func (r *record) lastCarried(c *knownBrood) journal.Day {
	if c.ended == 0 {
		return r.colony.AsOf
	}
	return max(c.noted, c.ended-1)
}

// follow fills in how the window looked day after day and what changed it, and since when she was late. Days on which the
// window stood still, or she was late, are left out.
func (r *record) follow(b *Brood, c *knownBrood, last journal.Day, d *scratch) {
	for day := c.noted; day <= min(last, c.noted+longestHistory); day++ {
		v := r.view(day, d)
		f := v.facts(c)
		o := v.eggs(f)
		w := v.window(o)
		if w.Reason != "" {
			b.LateFrom = 0
			continue
		}
		if b.late(o, day); b.LateFrom != 0 {
			continue // from here on the window follows from nothing but that no end was written
		}
		shot := Snapshot{Day: day, P10: w.P10, P50: w.P50, P90: w.P90, Why: v.news(c, f)}
		if n := len(b.History); n > 0 && b.History[n-1].P10 == shot.P10 && b.History[n-1].P50 == shot.P50 && b.History[n-1].P90 == shot.P90 {
			continue
		}
		b.History = append(b.History, shot)
	}
}

// late notes whether the brood was late at the end of a day on which it was carried.
func (b *Brood) late(o outlook, day journal.Day) {
	b.StillCarried = o.dist.Later(int(day - o.first))
	switch late := o.day(o.dist, 0.95); {
	case late == 0 || day <= late:
		b.LateFrom = 0
	case b.LateFrom == 0:
		b.LateFrom = day
	}
}

// measuredToday names the temperatures of a tank that became known on the day of the view.
func (v view) measuredToday(tank string) string {
	seen := v.knownTanks[tank].on(v.asOf)
	switch {
	case len(seen) == 0:
		return ""
	case len(seen) > 1:
		return wording.Count(len(seen), "temperature", "temperatures") + " measured"
	case seen[0].event == nil:
		return fmt.Sprintf("%s logged", v.celsius(seen[0].Celsius))
	}
	return fmt.Sprintf("%s measured", v.celsius(seen[0].Celsius))
}
