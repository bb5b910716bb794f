package colony

import (
	"cmp"
	"slices"
	"strings"

	"pleopod/journal"
)

// Replay returns the colony as the journal proves it at the end of the as-of day.
//
// Events are replayed by day, then by path, then by position in the file. A mistake that only the order of events
// can show becomes a Problem, and the replay goes on with the likeliest meaning.
func Replay(j *journal.Journal, asOf journal.Day) *Colony {
	r := newReplay(until(j, asOf), asOf)
	for _, event := range r.events {
		r.apply(event)
	}
	r.settle()
	return r.colony
}

// Earlier returns the colony of an earlier day, as Replay of the whole journal would give it for that day.
func (c *Colony) Earlier(day journal.Day) *Colony {
	return Replay(&journal.Journal{Settings: *c.Settings, Entries: c.Entries, Photos: c.Photos}, min(day, c.AsOf))
}

// Tank returns one tank's record, or nil.
func (c *Colony) Tank(id string) *Tank {
	i := slices.IndexFunc(c.Tanks, func(t *Tank) bool { return t.ID == id })
	if i < 0 {
		return nil
	}
	return c.Tanks[i]
}

// replay is the work in hand: the colony so far and the indexes that find things in it by name.
type replay struct {
	colony  *Colony
	events  []*journal.Event
	tanks   map[string]*Tank
	bounds  map[string]*bound
	broods  map[string]*Brood
	numbers map[string]int // the number that a brood name of several was last given
	shrimp  map[string]*Shrimp
	unknown []reference
	first   *journal.Event // that is about shrimp
}

// newReplay lays the tanks out and puts the events in order.
func newReplay(known *journal.Journal, asOf journal.Day) *replay {
	r := &replay{
		colony:  &Colony{AsOf: asOf, Settings: &known.Settings, Entries: known.Entries, Photos: known.Photos},
		tanks:   map[string]*Tank{},
		bounds:  map[string]*bound{},
		broods:  map[string]*Brood{},
		numbers: map[string]int{},
		shrimp:  map[string]*Shrimp{},
	}
	for i := range known.Settings.Tanks {
		tank := &Tank{Tank: &known.Settings.Tanks[i]}
		r.colony.Tanks = append(r.colony.Tanks, tank)
		r.tanks[tank.ID] = tank
		r.bounds[tank.ID] = &bound{}
	}
	for _, entry := range known.Entries {
		for i := range entry.Events {
			// The reader has already complained about a tank that does not exist.
			if r.tanks[entry.Events[i].Tank] != nil {
				r.events = append(r.events, &entry.Events[i])
			}
		}
	}
	slices.SortStableFunc(r.colony.Entries, func(a, b *journal.Entry) int {
		return cmp.Or(cmp.Compare(a.Date, b.Date), strings.Compare(a.Path, b.Path))
	})
	slices.SortStableFunc(r.events, (*journal.Event).Compare)
	r.limit()
	return r
}

// apply replays one event.
func (r *replay) apply(e *journal.Event) {
	r.tanks[e.Tank].Events = append(r.tanks[e.Tank].Events, e)
	if r.first == nil && e.AboutShrimp() {
		r.first = e
	}
	switch what := e.What.(type) {
	case *journal.Stocked:
		r.stocked(e, what)
	case *journal.Saddled:
		r.saddled(e, what)
	case *journal.Moulted:
		r.mentionAll(e, what.Shrimp)
	case *journal.Berried:
		r.berried(e, what)
	case *journal.Eyed:
		r.eyed(e, what)
	case *journal.Hatched:
		r.hatched(e, what)
	case *journal.Dropped:
		r.dropped(e, what)
	case *journal.Sighted:
		r.sighted(e, what)
	case *journal.Counted:
		r.counted(e, what)
	case *journal.Measured:
		r.measured(e, what)
	case *journal.Graded:
		r.graded(e, what)
	case *journal.Died:
		r.left(e, what.Shrimp, LeftDied)
	case *journal.Removed:
		r.left(e, what.Shrimp, LeftRemoved)
	case *journal.Moved:
		r.moved(e, what)
	case *journal.WaterTest:
		r.tested(e, what)
	}
}

// tested keeps a water test and its temperature.
func (r *replay) tested(e *journal.Event, test *journal.WaterTest) {
	tank := r.tanks[e.Tank]
	tank.Tests = append(tank.Tests, Test{Day: e.Day, Readings: test.Readings, Event: e})
	if celsius, ok := journal.MeasuredOf(test.Readings, journal.Temperature); ok {
		tank.Temperatures = append(tank.Temperatures, Temperature{Day: e.Day, Celsius: celsius, Event: e})
	}
}

// settle draws the conclusions that need the whole record.
func (r *replay) settle() {
	for _, tank := range r.colony.Tanks {
		for _, logged := range tank.Logged {
			tank.Temperatures = append(tank.Temperatures, Temperature{Day: logged.Day, Celsius: logged.Mean, Logged: true})
		}
		slices.SortStableFunc(tank.Temperatures, func(a, b Temperature) int { return cmp.Compare(a.Day, b.Day) })
		r.settleLengths(tank)
	}
	r.settleCohorts()
	r.settleGenerations()
	r.explainUnknownBroods()
	r.checkTanks()
	journal.SortProblems(r.colony.Problems)
}
