package population

import "pleopod/journal/lifecycle"

// Day is a calendar day counted as journal.Day counts it; only differences and order matter here.
type Day int32

// Group is a number of shrimp by class, each at least 0.
type Group struct {
	Females   int // told apart by eye, so close to mature or mature
	Males     int
	Juveniles int // too young to be told apart
	Unsexed   int // of any class
}

// Total returns the number of shrimp in all classes.
func (g Group) Total() int { return g.Females + g.Males + g.Juveniles + g.Unsexed }

// Temperature is the water of one day.
type Temperature struct {
	Mean float64 // °C
	SD   float64 // °C, of that mean
}

// Multiplier is a log-normal factor on a default duration. The zero Multiplier is "not learned": 1 with the profile's
// own uncertainty.
type Multiplier struct {
	Median float64
	SD     float64 // of its logarithm
}

// Record is what is known of one tank.
type Record struct {
	Tank       string
	Profile    lifecycle.Profile
	Litres     float64       // 0 when not known
	Capacity   float64       // adults that the tank can carry; below 0 when the keeper names none
	Fish       bool          // young are eaten
	From       Day           // day of Water[0]
	Water      []Temperature // one a day; the last stands for every later day, the first for every earlier one
	Incubation Multiplier
	Maturity   Multiplier
	Facts      []Fact      // by Day, then Order
	Open       []OpenBrood // carried on the last day
}

// mostInFact is the greatest number of shrimp of one class that a fact is taken to be about. A misprint of some more
// digits must not take the machine down.
const mostInFact = 3000

// limited returns the group with no class above mostInFact.
func (g Group) limited() Group {
	return Group{
		Females: min(g.Females, mostInFact), Males: min(g.Males, mostInFact),
		Juveniles: min(g.Juveniles, mostInFact), Unsexed: min(g.Unsexed, mostInFact),
	}
}

// limited returns a fact about no more shrimp than can be simulated.
func limited(what What) What {
	switch w := what.(type) {
	case Stocked:
		w.Group = w.limited()
		return w
	case Left:
		w.Group = w.limited()
		return w
	case MovedOut:
		w.Group = w.limited()
		return w
	case Alive:
		w.Group = w.limited()
		return w
	case Counted:
		w.Group = w.limited()
		return w
	case Hatched:
		w.Seen = min(w.Seen, mostInFact)
		return w
	case Berried:
		w.Young = min(w.Young, mostInFact)
		return w
	case FailedMoult:
		w.Group = w.limited()
		return w
	case Sighted:
		w.Young = min(w.Young, mostInFact)
		return w
	}
	return what
}

// Fact is something the journal says happened in the tank.
type Fact struct {
	Day   Day
	Order int // place among all facts of the colony, which decides the order within a day
	What  What
}

// before reports whether a fact comes before one of another tank. Of a move, which is one event, it is the leaving.
func (f Fact) before(other Fact) bool {
	if f.Order != other.Order {
		return f.Order < other.Order
	}
	_, leaving := f.What.(MovedOut)
	return leaving
}

// What is the part of a fact that depends on its kind: one of the types below.
type What interface {
	apply(t *tank, fact Fact)
}

// Stocked is shrimp that came from outside.
type Stocked struct {
	Group
	Youngest, Oldest float64 // days of age between which the age of the group lies
}

// Left is shrimp that left the journal or were found dead.
type Left struct {
	Group
	Found bool // dead: one of the deaths that the model may already have drawn
}

// FailedMoult is shrimp that were seen stuck in their shells: each dies with the profile's probability.
type FailedMoult struct{ Group }

// MovedOut is shrimp that left for another tank of the journal.
type MovedOut struct {
	Group
	Parcel int      // the same number as in MovedIn, and no other's in the colony
	Broods []string // named broods carried by females of the group
}

// MovedIn is shrimp that came from another tank of the journal. It follows its MovedOut in Order.
type MovedIn struct{ Parcel int }

// Berried is one brood that was seen.
type Berried struct {
	Brood    string
	Earliest Day     // the first day on which she may have become berried
	Young    float64 // expected hatchlings when eggs were counted, else 0
}

// Hatched is the end of a brood that was seen carried.
type Hatched struct {
	Brood string
	Seen  int // young seen that day: a lower bound
}

// Dropped is a whole brood lost.
type Dropped struct{ Brood string }

// Sighted is young shrimp seen: at least so many are alive.
type Sighted struct{ Young int }

// Alive is shrimp seen alive for certain, such as saddled females or named animals: at least so many of each class.
type Alive struct{ Group }

// Method is how carefully a count was made.
type Method uint8

// The methods, from the least to the most complete.
const (
	Glance Method = iota
	Careful
	Emptied
)

// Classes is a set of the classes of a Group.
type Classes uint8

// The classes.
const (
	Females Classes = 1 << iota
	Males
	Juveniles
	Unsexed
)

// Counted is a census. Classes that are not in Known were not counted. A plain number is Unsexed alone.
type Counted struct {
	Group
	Known  Classes
	Method Method
}

// OpenBrood is a named brood that is carried on the last day of the record.
type OpenBrood struct {
	Brood string
	Hatch []Day // 5, 10, 25, 50, 75, 90 and 95 % quantiles of its hatch day, rising; empty when no date can be given
}

// levels are the probabilities at which windows of days are given.
var levels = [7]float64{0.05, 0.10, 0.25, 0.50, 0.75, 0.90, 0.95}

// water returns the temperature of a day.
func (r *Record) water(day Day) Temperature {
	if len(r.Water) == 0 {
		t := r.Profile.Temperature
		return Temperature{Mean: t.Fallback, SD: t.FallbackSD}
	}
	i := min(max(int(day-r.From), 0), len(r.Water)-1)
	return r.Water[i]
}
