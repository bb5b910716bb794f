package forecast

import (
	"cmp"
	"slices"
	"sync"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/lifecycle"
	"pleopod/journal/water"
)

// record is a colony laid out for predicting, where everything carries the day from which it was known.
// Only a view reads it.
type record struct {
	colony       *colony.Colony
	profiles     map[string]lifecycle.Profile
	knownTanks   map[string]*knownTank
	knownBroods  []*knownBrood
	incubation   *learner // what finished broods taught about incubation
	knownCohorts []knownCohort
	maturity     *learner // what cohorts taught about maturity
	before       *memory  // of an earlier record
}

// knownTank is one tank's record.
type knownTank struct {
	tank    *colony.Tank
	index   int
	profile lifecycle.Profile
	eggs    lifecycle.Response
	growing lifecycle.Response
	climate water.Climate
	seen    []seen // by the day they were known
	late    bool   // some readings were noted on a later day than they were taken
	courses map[int]*water.Record
	lock    sync.Mutex  // of courses
	whole   *water.Span // as known on the as-of day
}

// seen is one measured temperature with the day from which it was known.
type seen struct {
	known journal.Day
	water.Observation
	event *journal.Event // nil for a logged day
}

// The spreads of a tank's water that no parameter of the species names. Assumptions.
const (
	loggerSD   = 0.1 // °C, the daily mean of a logger against the true one
	setPointSD = 0.5 // °C, a heater's set-point against the mean it keeps
	yearlySD   = 2.5 // °C, each coefficient of the yearly course of an unheated room
)

// newRecord lays a colony out. before may be nil.
func newRecord(c *colony.Colony, before *memory) *record {
	r := &record{colony: c, profiles: profiles(c.Settings), knownTanks: map[string]*knownTank{}}
	for i, tank := range c.Tanks {
		r.knownTanks[tank.ID] = newKnownTank(tank, i, r.profiles[speciesOf(c.Settings, tank.Tank)])
	}
	for _, b := range c.Broods {
		r.knownBroods = append(r.knownBroods, newKnownBrood(b))
	}
	r.before = before.of(r)
	r.learnEggs()
	r.learnYoung()
	return r
}

// profiles returns the species that the journal keeps, with the keeper's overrides. A species that is not known is
// taken as the one that is; the reader has already complained.
func profiles(s *journal.Settings) map[string]lifecycle.Profile {
	all := map[string]lifecycle.Profile{}
	add := func(species string) {
		p, ok := lifecycle.Default(species)
		if !ok {
			p, _ = lifecycle.Default(lifecycle.Species()[0])
		}
		for _, o := range s.Biology {
			_ = p.Set(o.Name, o.Value) // the reader has already complained
		}
		all[species] = p
	}
	add(s.Species)
	for i := range s.Tanks {
		add(speciesOf(s, &s.Tanks[i]))
	}
	return all
}

func speciesOf(s *journal.Settings, tank *journal.Tank) string {
	return cmp.Or(tank.Species, s.Species)
}

func newKnownTank(tank *colony.Tank, index int, p lifecycle.Profile) *knownTank {
	b := &knownTank{
		tank: tank, index: index, profile: p, eggs: p.Incubation.Response(), growing: p.Maturity.Response(),
		climate: climateOf(tank.Tank, p.Temperature), courses: map[int]*water.Record{},
	}
	for _, t := range tank.Temperatures {
		s := seen{t.Day, water.Observation{Day: int(t.Day), Celsius: t.Celsius, SD: p.Temperature.ReadingSD}, t.Event}
		if t.Logged {
			s.SD = loggerSD
		} else if t.Event != nil {
			s.known = t.Event.KnownFrom()
		}
		b.late = b.late || s.known > t.Day
		b.seen = append(b.seen, s)
	}
	slices.SortStableFunc(b.seen, func(a, b seen) int { return cmp.Compare(a.known, b.known) })
	return b
}

func climateOf(tank *journal.Tank, t lifecycle.Temperature) water.Climate {
	climate := water.Climate{Mean: t.Fallback, MeanSD: t.FallbackSD, YearlySD: yearlySD, SD: t.UnheatedSD, CorrelationDays: t.CorrelationDays}
	if tank.Heater.Known {
		climate.Mean, climate.MeanSD, climate.YearlySD, climate.SD = tank.Heater.Value, setPointSD, 0, t.HeatedSD
	}
	return climate
}

// course returns the tank's temperature as it was known on a day.
func (b *knownTank) course(asOf journal.Day) *water.Course {
	known := len(b.seen)
	if b.late {
		known = len(b.until(asOf))
	}
	b.lock.Lock()
	defer b.lock.Unlock()
	if b.courses[known] == nil {
		observations := make([]water.Observation, known)
		for i := range observations {
			observations[i] = b.seen[i].Observation
		}
		b.courses[known] = water.NewRecord(b.climate, observations)
	}
	return b.courses[known].On(int(asOf))
}

// knownBrood is a brood with the days from which its facts were known.
type knownBrood struct {
	*colony.Brood
	noted journal.Day // its beginning
	eyed  journal.Day // that eyes were seen; zero when they were not
	ended journal.Day // its end; zero when it has none
	moves []journal.Day
	// lostWithHer is true of eggs that were lost because their mother died or left.
	lostWithHer bool
}

func newKnownBrood(b *colony.Brood) *knownBrood {
	c := &knownBrood{Brood: b, noted: b.Opened.KnownFrom(), moves: make([]journal.Day, len(b.Stays))}
	if b.Ended != nil {
		c.ended = b.Ended.KnownFrom()
		_, dropped := b.Ended.What.(*journal.Dropped)
		c.lostWithHer = b.State == colony.WasDropped && !dropped
	}
	c.moves[0] = c.noted
	for i, stay := range b.Stays[1:] {
		c.moves[i+1] = max(c.noted, stay.From)
	}
	for _, e := range b.Events {
		switch e.What.(type) {
		case *journal.Eyed:
			if c.eyed == 0 && e.Day == b.Eyed {
				c.eyed = e.KnownFrom()
			}
		case *journal.Moved:
			c.moved(e)
		}
	}
	return c
}

// moved notes from when the stay that a move began is known.
func (c *knownBrood) moved(e *journal.Event) {
	for i, stay := range c.Stays {
		if i > 0 && stay.From == e.Day {
			c.moves[i] = max(c.noted, e.KnownFrom())
		}
	}
}

// until returns the temperatures that were known at the end of a day.
func (b *knownTank) until(day journal.Day) []seen {
	n, _ := slices.BinarySearchFunc(b.seen, day+1, func(s seen, day journal.Day) int { return cmp.Compare(s.known, day) })
	return b.seen[:n]
}

// on returns the temperatures that became known on a day.
func (b *knownTank) on(day journal.Day) []seen { return b.until(day)[len(b.until(day-1)):] }
