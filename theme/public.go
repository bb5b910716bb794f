package theme

import (
	"slices"
	"strings"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
)

// closed is the state of a brood whose end stands in a private entry: it is no longer followed on the site.
const closed forecast.BroodState = "closed"

// public returns the part of a forecast that may be published, in the same shape. Everything on the site is drawn
// from its result and from nothing else, so this is the one place that decides what is private:
//
//   - entries, events, readings, counts and lengths are those of public entries;
//   - a brood, a cohort or a name is there when the entry that opened it is public, and what private entries say
//     of it later is left out, as if they had not been written;
//   - an entry that tells nothing, as "pleopod entry" leaves it, is not there;
//   - estimates (numbers, temperature, growth curves, what was learned) stay as they are: they count private events.
//
// Lists of the result are new, so the forecast itself is never changed.
func public(f *forecast.Forecast) *forecast.Forecast {
	v := newVeil(f.Colony)
	out := *f
	out.Problems = nil
	out.Colony = v.colony(f.Colony)
	out.Broods, out.Cohorts, out.Tanks = nil, nil, nil
	for _, b := range f.Broods {
		if kept := v.broods[b.Brood]; kept != nil {
			out.Broods = append(out.Broods, v.foreseen(b, kept))
		}
	}
	for _, c := range f.Cohorts {
		if kept := v.cohorts[c.Cohort]; kept != nil {
			c.Cohort = kept
			out.Cohorts = append(out.Cohorts, c)
		}
	}
	for _, t := range f.Tanks {
		out.Tanks = append(out.Tanks, v.estimated(t, f.Colony))
	}
	out.Notices, out.Ended = open(f.Notices), open(f.Ended)
	out.Record.Hindcasts = v.hindcasts(f.Record.Hindcasts)
	out.Record.Young = v.young(f.Record.Young)
	out.Learning.Incubation.LeftOut = v.sentences(f.Learning.Incubation.LeftOut)
	out.Learning.Maturity.LeftOut = v.sentences(f.Learning.Maturity.LeftOut)
	return &out
}

// open leaves out the notices that rest on a private entry, or that one ended.
func open(all []forecast.Notice) []forecast.Notice {
	return slices.DeleteFunc(slices.Clone(all), func(n forecast.Notice) bool {
		return !n.Public || hidden(n.Ending) || slices.ContainsFunc(n.Events, hidden)
	})
}

// tells reports whether anything stands in an entry besides its title: an event, a picture or text, were it a heading.
func tells(e *journal.Entry) bool {
	return len(e.Events) > 0 || len(e.Images) > 0 || e.Words != "" || e.Headed
}

// hidden reports whether an event stands in a private entry. A value without an event comes from a logger file.
func hidden(e *journal.Event) bool { return e != nil && e.Entry.Private }

// veil holds the public copies of a colony's broods, cohorts and named shrimp; what is private has none.
type veil struct {
	broods  map[*colony.Brood]*colony.Brood
	cohorts map[*colony.Cohort]*colony.Cohort
	shrimp  map[*colony.Shrimp]*colony.Shrimp
	tanks   map[*colony.Tank]*colony.Tank
	names   map[string]bool // public names of shrimp
	secrets []string        // names of private broods and shrimp
	// private and open are the days on which private and public entries told something.
	private, open map[journal.Day]bool
}

func newVeil(c *colony.Colony) *veil {
	v := &veil{
		broods: map[*colony.Brood]*colony.Brood{}, cohorts: map[*colony.Cohort]*colony.Cohort{},
		shrimp: map[*colony.Shrimp]*colony.Shrimp{}, tanks: map[*colony.Tank]*colony.Tank{},
		names: map[string]bool{},
	}
	v.noteNews(c)
	for _, s := range c.Shrimp {
		if !s.Public || hidden(s.First) {
			v.secrets = append(v.secrets, s.Name)
			continue
		}
		v.names[s.Name] = true
		v.shrimp[s] = v.named(s)
	}
	for _, b := range c.Broods {
		if !b.Public() {
			v.secrets = append(v.secrets, b.ID)
			continue
		}
		v.broods[b] = v.brood(b)
	}
	for _, cohort := range c.Cohorts {
		if kept := v.broods[cohort.Brood]; kept != nil && kept.State == colony.HasHatched {
			v.cohorts[cohort] = v.cohort(cohort, kept)
		}
	}
	v.link()
	return v
}

// link points the copies at each other.
func (v *veil) link() {
	for old, b := range v.broods {
		b.Mother = v.shrimp[old.Mother]
		b.Cohort = v.cohorts[old.Cohort]
	}
	for old, s := range v.shrimp {
		s.Cohort = v.cohorts[old.Cohort]
		s.Broods = keep(old.Broods, v.broods)
	}
	for old, c := range v.cohorts {
		c.Members = keep(old.Members, v.shrimp)
	}
}

// keep returns the public copies of a list.
func keep[T any](all []*T, kept map[*T]*T) []*T {
	var out []*T
	for _, one := range all {
		if k := kept[one]; k != nil {
			out = append(out, k)
		}
	}
	return out
}

// shown returns the public events of a list.
func shown(events []*journal.Event) []*journal.Event {
	return slices.DeleteFunc(slices.Clone(events), hidden)
}

func (v *veil) brood(b *colony.Brood) *colony.Brood {
	kept := *b
	kept.Events = shown(b.Events)
	kept.Stays = publicStays(b)
	kept.Eyed = 0
	for _, e := range b.Events {
		switch what := e.What.(type) {
		case *journal.Eyed:
			if !hidden(e) && (kept.Eyed == 0 || e.Day < kept.Eyed) {
				kept.Eyed = e.Day
			}
		case *journal.Dropped:
			if hidden(e) && e != b.Ended {
				kept.EggsLost -= what.Eggs.Or(0)
			}
		}
	}
	if hidden(b.Ended) {
		kept.State = colony.BroodState(closed)
		kept.Ended, kept.Hatched, kept.Dropped, kept.LastCarried = nil, 0, 0, 0
		kept.DropReason, kept.Shrimplets = "", journal.Maybe[int]{}
	}
	return &kept
}

// publicStays leaves out the stays that began with a private move.
func publicStays(b *colony.Brood) []colony.Stay {
	stays := b.Stays[:1:1]
	for _, stay := range b.Stays[1:] {
		private := slices.ContainsFunc(b.Events, func(e *journal.Event) bool {
			moved, ok := e.What.(*journal.Moved)
			return ok && hidden(e) && e.Day == stay.From && moved.To == stay.Tank
		})
		if !private {
			stays = append(stays, stay)
		}
	}
	return stays
}

func (v *veil) cohort(c *colony.Cohort, brood *colony.Brood) *colony.Cohort {
	kept := *c
	kept.Brood = brood
	kept.FirstSaddled, kept.FirstBerried = 0, 0
	for _, member := range c.Members {
		if v.shrimp[member] == nil {
			continue
		}
		for _, e := range shown(member.Events) {
			switch e.What.(type) {
			case *journal.Saddled:
				kept.FirstSaddled = earlier(kept.FirstSaddled, e.Day)
			case *journal.Berried:
				kept.FirstBerried = earlier(kept.FirstBerried, e.Day)
			}
		}
	}
	return &kept
}

// earlier returns the earlier of two days, of which the first may be none.
func earlier(a, b journal.Day) journal.Day {
	if a == 0 || b < a {
		return b
	}
	return a
}

func (v *veil) named(s *colony.Shrimp) *colony.Shrimp {
	kept := *s
	kept.Events = shown(s.Events)
	kept.Tank = s.First.Tank
	kept.Gone = 0
	for _, e := range kept.Events {
		kept.Tank = e.Tank
		switch what := e.What.(type) {
		case *journal.Moved:
			kept.Tank = what.To
		case *journal.Died, *journal.Removed:
			kept.Gone = s.Gone
		}
	}
	return &kept
}

func (v *veil) colony(c *colony.Colony) *colony.Colony {
	out := *c
	out.Problems = nil
	out.Entries = slices.DeleteFunc(slices.Clone(c.Entries), func(e *journal.Entry) bool { return e.Private || !tells(e) })
	out.Broods, out.Cohorts, out.Shrimp = keep(c.Broods, v.broods), keep(c.Cohorts, v.cohorts), keep(c.Shrimp, v.shrimp)
	out.Tanks = nil
	for _, t := range c.Tanks {
		v.tanks[t] = v.tank(t)
		out.Tanks = append(out.Tanks, v.tanks[t])
	}
	return &out
}

func (v *veil) tank(t *colony.Tank) *colony.Tank {
	out := *t
	out.Events = shown(t.Events)
	out.Temperatures = slices.DeleteFunc(slices.Clone(t.Temperatures),
		func(x colony.Temperature) bool { return hidden(x.Event) })
	out.Tests = slices.DeleteFunc(slices.Clone(t.Tests), func(x colony.Test) bool { return hidden(x.Event) })
	out.Censuses = slices.DeleteFunc(slices.Clone(t.Censuses), func(x colony.Census) bool { return hidden(x.Event) })
	out.Broods, out.Cohorts = keep(t.Broods, v.broods), keep(t.Cohorts, v.cohorts)
	out.Ledger = nil
	for _, line := range t.Ledger {
		if hidden(line.Event) {
			continue
		}
		line.Cohort = v.cohorts[line.Cohort]
		line.Names = v.known(line.Names)
		out.Ledger = append(out.Ledger, line)
	}
	out.Lengths = nil
	for _, length := range t.Lengths {
		if !hidden(length.Event) {
			out.Lengths = append(out.Lengths, v.length(length))
		}
	}
	return &out
}

func (v *veil) length(l colony.Length) colony.Length {
	if kept := v.cohorts[l.Cohort]; l.Cohort != nil && kept == nil {
		l.Hatched = 0
		l.Cohort = nil
	} else {
		l.Cohort = kept
	}
	if !v.names[l.Name] {
		l.Name = ""
	}
	return l
}

// known returns the names that are public.
func (v *veil) known(names []string) []string {
	return slices.DeleteFunc(slices.Clone(names), func(name string) bool { return !v.names[name] })
}

func (v *veil) foreseen(b forecast.Brood, kept *colony.Brood) forecast.Brood {
	if kept.State == colony.BroodState(closed) {
		return forecast.Brood{Brood: kept, State: closed}
	}
	b.History, b.Change = v.history(b), v.change(b.Change)
	b.Brood = kept
	return b
}

// history leaves out the days on which only private entries changed the window, and the reason of a day on
// which one did.
func (v *veil) history(b forecast.Brood) []forecast.Snapshot {
	var out []forecast.Snapshot
	for _, s := range b.History {
		if v.private[s.Day] && !v.open[s.Day] {
			continue
		}
		if v.private[s.Day] {
			s.Why = ""
		}
		out = append(out, s)
	}
	return out
}

// estimated returns what is estimated of a tank. What follows from its water tests is calculated anew from the public
// ones, so that no private reading shows through a sum.
func (v *veil) estimated(t forecast.Tank, c *colony.Colony) forecast.Tank {
	kept := v.tanks[t.Tank]
	t.Water = forecast.WaterOf(kept, t.Course, c.Settings)
	t.Rates, t.Creep = forecast.RatesOf(kept), forecast.CreepOf(kept, c.AsOf)
	growth := slices.Clone(t.Growth)
	for i := range growth {
		var points []forecast.GrowthPoint
		for _, p := range growth[i].Points {
			if !hidden(p.Length.Event) {
				p.Length = v.length(p.Length)
				points = append(points, p)
			}
		}
		growth[i].Points = points
	}
	t.Growth = growth
	t.Population.Evidence = v.evidence(t)
	t.Tank = kept
	return t
}

// evidence returns the sentences on what narrowed an estimate, unless one of them may tell of a private event.
func (v *veil) evidence(t forecast.Tank) []string {
	for _, e := range t.Tank.Events {
		switch e.What.(type) {
		case *journal.Counted, *journal.Stocked:
			if hidden(e) {
				return nil
			}
		}
	}
	return t.Population.Evidence
}

func (v *veil) hindcasts(all []forecast.Hindcast) []forecast.Hindcast {
	var out []forecast.Hindcast
	for _, h := range all {
		if kept := v.broods[h.Brood]; kept != nil && kept.State == colony.HasHatched {
			h.Brood = kept
			out = append(out, h)
		}
	}
	return out
}

// sentences leaves out those that name something private.
func (v *veil) sentences(all []string) []string {
	return slices.DeleteFunc(slices.Clone(all), func(s string) bool {
		return slices.ContainsFunc(v.secrets, func(name string) bool { return strings.Contains(s, name) })
	})
}
