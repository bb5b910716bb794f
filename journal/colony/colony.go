package colony

import "pleopod/journal"

// Colony is everything the journal proves about the tanks on one day. Nothing in it is later than AsOf.
type Colony struct {
	AsOf     journal.Day
	Settings *journal.Settings // a copy whose logger files end on AsOf
	Tanks    []*Tank           // in the order of journal.yaml
	Broods   []*Brood          // by berried day, then order of replay
	Cohorts  []*Cohort         // by hatch day, then order of replay
	Shrimp   []*Shrimp         // named animals, in order of first mention
	Entries  []*journal.Entry  // copies, not later than AsOf and without later events, by date, then path
	Photos   []journal.Photo   // those that Entries and the tanks refer to, by path
	Problems []journal.Problem // found while replaying, in the order of the manual; the reader's own are not among them
}

// Tank is one tank's record up to the as-of day. Every list is in replay order: event day, path, position.
type Tank struct {
	*journal.Tank
	Events       []*journal.Event // all of them; a move stands in both tanks
	Temperatures []Temperature    // readings and logged days, by day
	Tests        []Test
	Ledger       []Line
	Censuses     []Census
	Proofs       []Proof
	Lengths      []Length
	Broods       []*Brood  // every brood that was ever carried here, in the order they came
	Cohorts      []*Cohort // of the broods that hatched here
}

// Proof is a number of shrimp that were alive in a tank on a day because an event shows them: counted, sighted,
// measured, graded, seen with eggs or a saddle, or taken out alive. Found shells and deaths prove nothing about the living.
type Proof struct {
	Day     journal.Day
	AtLeast int
	Event   *journal.Event
}

// Temperature is one observation of a tank's water.
type Temperature struct {
	Day     journal.Day
	Celsius float64
	Logged  bool           // a daily mean of the logger file rather than one reading
	Event   *journal.Event // nil when logged
}

// Test is one water test.
type Test struct {
	Day      journal.Day
	Readings []journal.Reading
	Event    *journal.Event
}

// Line is one entry of a tank's stock ledger.
type Line struct {
	Day    journal.Day
	Change int // positive in, negative out; of a hatch the shrimplets seen, 0 when nobody counted them
	Why    Why
	Count  journal.Count
	Names  []string
	Event  *journal.Event
	Cohort *Cohort // of CameHatched, else nil
	Other  string  // the other tank of a move
}

// Why says how shrimp came or went.
type Why string

// The causes of a ledger line.
const (
	CameStocked Why = "stocked"
	CameMoved   Why = "moved in"
	CameHatched Why = "hatched"
	LeftDied    Why = "died"
	LeftRemoved Why = "removed"
	LeftMoved   Why = "moved out"
)

// Census is one count of the living.
type Census struct {
	Day    journal.Day
	Count  journal.Count
	Method journal.Method
	Event  *journal.Event
}

// Length is one measured body length.
type Length struct {
	Day     journal.Day
	MM      float64
	Sex     journal.Sex
	Cohort  *Cohort     // known origin, or nil
	Hatched journal.Day // hatch day when known, from the cohort or from hatched-on
	Name    string      // of a named shrimp, or ""
	Event   *journal.Event
}

// BroodState is where a brood stands on the as-of day, as the journal knows it.
type BroodState string

// The states of a brood. Being overdue is a prediction, not a record: see package forecast.
const (
	Carried    BroodState = "carried"
	HasHatched BroodState = "hatched"
	WasDropped BroodState = "dropped"
)

// Stay is a stretch of days in one tank, from From on.
type Stay struct {
	Tank string
	From journal.Day
}

// Brood is one clutch of eggs.
type Brood struct {
	ID          string
	State       BroodState
	Stays       []Stay // where it was carried; the last is where it is, or ended
	Mother      *Shrimp
	Berried     journal.Day // the day she was seen berried
	LastClear   journal.Day // last day seen without eggs, or zero
	Eyed        journal.Day // first day eyes were seen, or zero
	Hatched     journal.Day
	LastCarried journal.Day // last day the eggs were still carried before the hatch, or zero
	Dropped     journal.Day // the day all was lost, or zero
	DropReason  string
	Eggs        journal.Maybe[int]
	EggsLost    int // by partial drops
	Shrimplets  journal.Maybe[int]
	Opened      *journal.Event
	Ended       *journal.Event // hatched, dropped, or the death that dropped it
	Events      []*journal.Event
	Cohort      *Cohort // after the hatch
	Generation  int     // 1 for broods of stocked females or unknown mothers, else the mother's own plus one
}

// Tank returns the id of the tank where the brood is or ended.
func (b *Brood) Tank() string { return b.Stays[len(b.Stays)-1].Tank }

// TankOn returns the id of the tank where the brood was on a day not before it was berried.
func (b *Brood) TankOn(day journal.Day) string {
	tank := b.Stays[0].Tank
	for _, stay := range b.Stays {
		if stay.From <= day {
			tank = stay.Tank
		}
	}
	return tank
}

// Public reports whether the brood may appear on the site: whether the entry that opened it is public.
func (b *Brood) Public() bool { return !b.Opened.Entry.Private }

// Cohort is the young of one hatch.
type Cohort struct {
	ID         string // the brood's
	Tank       string // where it hatched
	Hatched    journal.Day
	Brood      *Brood
	Shrimplets journal.Maybe[int]
	Generation int
	Members    []*Shrimp // named shrimp known to come from it
	// FirstSaddled and FirstBerried are the first days a named member was seen so, or zero.
	FirstSaddled, FirstBerried journal.Day
}

// Public reports whether the cohort may appear on the site.
func (c *Cohort) Public() bool { return c.Brood.Public() }

// Shrimp is one named animal.
type Shrimp struct {
	Name   string
	Sex    journal.Sex
	Tank   string // where it is or was last
	First  *journal.Event
	Gone   journal.Day // died or removed, or zero
	Cohort *Cohort     // where it hatched, when the journal says so
	// Hatched is the day it hatched, from its cohort or from hatched-on, or zero.
	Hatched journal.Day
	Broods  []*Brood
	Events  []*journal.Event
	Public  bool // its first mention stands in a public entry
}
