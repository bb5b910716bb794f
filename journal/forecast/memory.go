package forecast

import (
	"maps"
	"reflect"
	"slices"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/lifecycle"
	"pleopod/journal/water"
)

// memory is a record with what was predicted from it. The next record takes over what rests on the same, which is compared
// value by value. A nil memory holds nothing.
type memory struct {
	*record
	knownBroods map[string]*knownBrood // by id, as all the maps
	broods      map[string]*Brood
	hindcasts   map[string][]Hindcast
	cohorts     map[string]*Cohort
	lessons     map[string]lesson
	growth      map[string][]Growth // by tank
}

// memory gathers what a forecast says.
func (r *record) memory(f *Forecast) *memory {
	r.before = nil // or memories would hold one another for ever
	m := &memory{
		record: r, knownBroods: map[string]*knownBrood{}, broods: map[string]*Brood{}, hindcasts: map[string][]Hindcast{},
		cohorts: map[string]*Cohort{}, lessons: map[string]lesson{}, growth: map[string][]Growth{},
	}
	for i, c := range r.knownBroods {
		m.knownBroods[c.ID], m.broods[c.ID] = c, &f.Broods[i]
	}
	for i := range f.Cohorts {
		m.cohorts[f.Cohorts[i].ID] = &f.Cohorts[i]
	}
	for i := range f.Tanks {
		m.growth[f.Tanks[i].ID] = f.Tanks[i].Growth
	}
	for _, h := range f.Record.Hindcasts {
		m.hindcasts[h.Brood.ID] = append(m.hindcasts[h.Brood.ID], h)
	}
	for _, l := range r.incubation.lessons {
		m.lessons[l.id] = l
	}
	return m
}

// of returns the memory where it is of a record of the same kind: tanks, species and units are what all rests on.
func (m *memory) of(r *record) *memory {
	if m == nil || m.colony.Settings.Units != r.colony.Settings.Units || m.colony.Settings.Species != r.colony.Settings.Species ||
		!reflect.DeepEqual(m.profiles, r.profiles) || !maps.EqualFunc(m.knownTanks, r.knownTanks, (*knownTank).like) {
		return nil
	}
	return m
}

// like reports whether two tanks are alike in all but their readings.
func (b *knownTank) like(other *knownTank) bool {
	return b.index == other.index && b.climate == other.climate && nameOf(b.tank.Tank) == nameOf(other.tank.Tank) &&
		b.tank.Heater.Known == other.tank.Heater.Known && b.profile.Species == other.profile.Species
}

// holds reports whether a brood is the same as it was, and what was known of its water by the end of a day.
func (m *memory) holds(r *record, c *knownBrood, day journal.Day) bool {
	if m == nil || m.knownBroods[c.ID] == nil || !reflect.DeepEqual(c.bare(), m.knownBroods[c.ID].bare()) {
		return false
	}
	for _, stay := range c.Stays {
		if !m.sameWater(r, stay.Tank, day) {
			return false
		}
	}
	return true
}

// sameWater reports whether the readings of a tank that were known on a day are the same.
func (m *memory) sameWater(r *record, tank string, day journal.Day) bool {
	return slices.EqualFunc(m.knownTanks[tank].until(day), r.knownTanks[tank].until(day), func(a, b seen) bool {
		return a.known == b.known && a.Observation == b.Observation && (a.event == nil) == (b.event == nil)
	})
}

// whole returns the temperature of a tank from a day on, or nil where that does not hold any more.
func (m *memory) whole(r *record, tank string, first journal.Day) *water.Span {
	if m == nil || m.colony.AsOf != r.colony.AsOf || !m.sameWater(r, tank, r.colony.AsOf) {
		return nil
	}
	if whole := m.knownTanks[tank].whole; whole != nil && whole.First == int(first) {
		return whole
	}
	return nil
}

// same reports whether two schools had taught the same by the end of a day.
func (s *learner) same(other *learner, day journal.Day) bool {
	return slices.EqualFunc(s.until(day), other.until(day), func(a, b lesson) bool {
		a.problem, b.problem = nil, nil
		return a == b
	})
}

// bare returns a brood without what it points to in the journal, which nothing that is predicted rests on.
func (c *knownBrood) bare() knownBrood {
	copied, brood := *c, *c.Brood
	brood.Mother, brood.Opened, brood.Ended, brood.Events, brood.Cohort = nil, nil, nil, nil, nil
	copied.Brood = &brood
	return copied
}

// followed reports whether all is the same that was known of a brood by the last day on which it was carried.
func (m *memory) followed(r *record, c *knownBrood) bool {
	last := r.lastCarried(c)
	return m.holds(r, c, last) && r.incubation.same(m.incubation, last)
}

// brood returns what was predicted of a brood, or nil where that does not hold any more.
func (m *memory) brood(r *record, c *knownBrood) *Brood {
	if !m.followed(r, c) || c.ended == 0 && m.colony.AsOf != r.colony.AsOf {
		return nil
	}
	b := *m.broods[c.ID]
	b.Brood = c.Brood
	return &b
}

// track returns how a finished brood was predicted again, and false where that does not hold any more.
func (m *memory) track(r *record, c *knownBrood) ([]Hindcast, bool) {
	if !m.followed(r, c) {
		return nil, false
	}
	all := slices.Clone(m.hindcasts[c.ID])
	for i := range all {
		all[i].Brood = c.Brood
	}
	return all, true
}

// lesson returns what a brood taught on a day, and false where that, or what others had taught before, is not the same.
func (m *memory) lesson(r *record, c *knownBrood, day journal.Day) (lesson, bool) {
	if !m.holds(r, c, day) || !r.incubation.same(m.incubation, day-1) {
		return lesson{}, false
	}
	l := m.lessons[c.ID]
	if l.problem != nil {
		moved := *l.problem
		moved.Position = c.Ended.Position
		l.problem = &moved
	}
	return l, true
}

// cohort returns what was predicted of a cohort, or nil where that does not hold any more.
func (m *memory) cohort(r *record, c *colony.Cohort) *Cohort {
	if m == nil || m.cohorts[c.ID] == nil || m.colony.AsOf != r.colony.AsOf || m.knownTanks[c.Tank].whole != r.knownTanks[c.Tank].whole ||
		!r.maturity.same(m.maturity, r.colony.AsOf) {
		return nil
	}
	old := *m.cohorts[c.ID]
	then, now := *old.Cohort, *c
	if then.Brood.LastCarried != now.Brood.LastCarried {
		return nil
	}
	then.Brood, then.Members, now.Brood, now.Members = nil, nil, nil, nil
	if !reflect.DeepEqual(then, now) {
		return nil
	}
	old.Cohort = c
	return &old
}

// curve returns the growth curve of a sex in a tank, and false where it was not fitted to the same.
func (m *memory) curve(tank string, sex journal.Sex, lengths []lifecycle.Measured, pairs []lifecycle.Recapture) (lifecycle.CurveFit, bool) {
	if m == nil {
		return lifecycle.CurveFit{}, false
	}
	for _, g := range m.growth[tank] {
		if g.Sex == sex {
			return g.fit, slices.Equal(g.lengths, lengths) && slices.Equal(g.recaptures, pairs)
		}
	}
	return lifecycle.CurveFit{}, false
}
