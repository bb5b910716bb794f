package journal

import "cmp"

// Journal is a keeper's folder, read and typed.
type Journal struct {
	Settings Settings
	Entries  []*Entry // by date, then path
	Photos   []Photo  // pictures that entries and tanks refer to, by path
	Problems []Problem
}

// Photo is a picture file that the journal refers to. Only its header has been read.
type Photo struct {
	Path          string // relative to the journal folder
	Format        string // "jpeg", "png" or "webp"
	Width, Height int    // pixels, before orientation is applied
}

// Entry is one page of the diary.
type Entry struct {
	Path    string // relative to the journal folder, such as "entries/2026-03-14.md"
	Date    Day
	Title   string   // title, else the first heading, else the date
	Tanks   []string // default tanks of the events
	Events  []Event  // in the order of the file, the water shortcut first
	Topics  []string
	Private bool
	Source  []byte // the whole file, with LF line ends and without a byte-order mark
	// BodyOffset is where the text below the front matter begins in Source.
	BodyOffset int
	Words      string // the text below the front matter without markup, with single spaces, and without the heading that Headed tells of
	Headed     bool   // the text begins with a heading that says the title
	Images     []Image
	Links      []Link  // to other entries
	Places     []Place // where the value of each key was written, in the order of the file
	Nodes      int     // how many words, marks and blocks the text has, as a measure of its cost; 0 for a text that was refused
}

// Reading tells whether entries come from the same reading of a file: then it is the same for them, and so is what was
// written. It is nil for an entry from no file.
func (e *Entry) Reading() *byte {
	if len(e.Source) == 0 {
		return nil
	}
	return &e.Source[0]
}

// At returns where the value of a key stands, and the beginning of the file when the key was not written.
func (e *Entry) At(key string) Position {
	return placeOf(e.Places, key, Position{File: e.Path, Line: 1, Column: 1})
}

// Link is a link in an entry's text to the file of another entry.
type Link struct {
	Position
	Path string // relative to the journal folder; there may be no such file
}

// Image is a picture inside an entry's text.
type Image struct {
	Position
	Path   string // relative to the journal folder; "" for a remote picture
	Remote string // address of a remote picture, which becomes a link and is never loaded
	Alt    string
}

// Event is something that happened in one tank on one day.
type Event struct {
	Position        // of the kind's key
	Entry    *Entry // where it was written
	Day      Day    // the event's own date, else the entry's
	Tank     string
	Note     string
	What     Happening
	Places   []Place // where each value was written, in the order of the file
}

// KnownFrom returns the day from which the event was known: its own, or that of its entry when it was written down later.
func (e *Event) KnownFrom() Day {
	if e.Entry == nil {
		return e.Day
	}
	return max(e.Day, e.Entry.Date)
}

// AboutShrimp reports whether an event is about shrimp, and not about the tank alone.
func (e *Event) AboutShrimp() bool { return !kindOf(e.What.Kind()).EachTank }

// Compare orders events as they are replayed: by day, then by file and place in it. Events of one place, which a list of
// tanks makes, are equal.
func (e *Event) Compare(other *Event) int {
	return cmp.Or(cmp.Compare(e.Day, other.Day), e.Position.compare(other.Position))
}

// Place is where one value of an entry, an event or the settings stands.
type Place struct {
	Key      string     // the kind or the attribute
	Position            // of the value
	Items    []Position // of each item, when the value is a list
}

// At returns where the value of a key stands, and the place of the event when the key was not written.
func (e *Event) At(key string) Position {
	return placeOf(e.Places, key, e.Position)
}

// placeOf returns where the value of a key stands, and other when it is not among the places.
func placeOf(places []Place, key string, other Position) Position {
	for _, place := range places {
		if place.Key == key {
			return place.Position
		}
	}
	return other
}

// AtItem returns where one item of a list stands, counted from 0, and the place of the value when it is no list.
func (e *Event) AtItem(key string, item int) Position {
	for _, place := range e.Places {
		if place.Key == key && item < len(place.Items) {
			return place.Items[item]
		}
	}
	return e.At(key)
}

// Happening is the part of an event that depends on its kind: one of the types below.
type Happening interface {
	// Kind returns the word of the format, such as "berried".
	Kind() string
}

// Sex is female, male, or not known.
type Sex string

// The sexes. The zero Sex is not known.
const (
	Female Sex = "female"
	Male   Sex = "male"
)

// Count is a number of shrimp, in classes where the keeper told them apart.
// A class left out of a mapping was not counted: unknown, not zero.
type Count struct {
	Total     int  // the whole number, or the sum of the classes that were counted
	Sorted    bool // a mapping was written
	Females   Maybe[int]
	Males     Maybe[int]
	Juveniles Maybe[int]
	Unsexed   Maybe[int]
}

// Who is how many shrimp an event is about, and which, where they have names.
type Who struct {
	Count Count
	Names []string // len(Names) == Count.Total when there are names
}

// Method is how carefully a count was made.
type Method string

// The census methods, from the least to the most complete.
const (
	Glance  Method = "glance"
	Careful Method = "careful"
	Emptied Method = "emptied"
)

// Reason is why shrimp left.
type Reason string

// The reasons for removal. The zero Reason is not given.
const (
	Sold     Reason = "sold"
	Given    Reason = "given"
	Culled   Reason = "culled"
	MovedOut Reason = "moved-out"
)

// ReadingKind names one thing a water test measures, as the format writes it.
type ReadingKind string

// The kinds of readings, with the unit of Reading.Value.
const (
	Temperature  ReadingKind = "temperature"  // °C
	PH           ReadingKind = "ph"           // pH
	GH           ReadingKind = "gh"           // dGH
	KH           ReadingKind = "kh"           // dKH
	TDS          ReadingKind = "tds"          // ppm
	Conductivity ReadingKind = "conductivity" // µS/cm at 25 °C
	Ammonia      ReadingKind = "ammonia"      // mg/L, total, on the basis of Settings.Ammonia
	Nitrite      ReadingKind = "nitrite"      // mg/L as NO2-
	Nitrate      ReadingKind = "nitrate"      // mg/L as NO3-
	Copper       ReadingKind = "copper"       // mg/L
	Oxygen       ReadingKind = "oxygen"       // mg/L
)

// Reading is one value of a water test.
type Reading struct {
	Position
	Kind  ReadingKind
	Value float64 // in the unit of Kind
	Below bool    // written "<0.25": the true value is below Value
}

// Stocked is shrimp joining a tank.
type Stocked struct {
	Shrimp Count
	Age    Maybe[float64] // days
	Length Maybe[float64] // mm
	Source string
	Line   string
}

// Saddled is eggs seen in the ovaries.
type Saddled struct{ Shrimp Who }

// Moulted is shed shells found.
type Moulted struct {
	Shrimp Who
	Failed bool
}

// Courting is males swimming restlessly through the tank.
type Courting struct{}

// Berried is females seen carrying eggs; it opens one brood for each.
type Berried struct {
	Shrimp    Who
	Broods    []string   // as written; empty when left out
	Eggs      Maybe[int] // for each female
	LastClear Day        // last day she was seen without eggs, or zero
}

// Eyed is eyes seen in the eggs of a brood.
type Eyed struct{ Brood string } // "" means the only open brood of the tank

// Hatched is the end of a brood and the start of a cohort.
type Hatched struct {
	Brood       string
	Shrimplets  Maybe[int]
	LastCarried Day // last day the eggs were still carried, or zero
}

// Dropped is part or all of a brood lost.
type Dropped struct {
	Brood  string
	Eggs   Maybe[int] // all when left out
	Reason string
}

// Sighted is young shrimp seen.
type Sighted struct {
	Shrimplets int
	Brood      string
}

// Counted is a census.
type Counted struct {
	Shrimp Count
	Method Method
}

// Measured is body lengths.
type Measured struct {
	Lengths   []float64 // mm
	Sex       Sex
	Brood     string
	HatchedOn Day
	Names     []string // len(Names) == len(Lengths) when there are names
}

// Graded is colour quality on the journal's own scale.
type Graded struct {
	Counts []int // one for each of Settings.Grades, in that order
	Sex    Sex
	Brood  string
}

// Died is shrimp found dead.
type Died struct {
	Shrimp Who
	Cause  string
}

// Removed is shrimp leaving the journal.
type Removed struct {
	Shrimp Who
	Reason Reason
	To     string
}

// Moved is shrimp changing tank.
type Moved struct {
	Shrimp Who
	To     string // tank id
}

// WaterTest is one set of readings.
type WaterTest struct{ Readings []Reading }

// WaterChange is water taken out and replaced. Exactly one of Share and Volume is known.
type WaterChange struct {
	Share       Maybe[float64] // 0 to 1
	Volume      Maybe[float64] // L
	With        []Reading      // of the new water
	Temperature Maybe[float64] // of the new water, °C
}

// Dosed is anything added to the water.
type Dosed struct {
	Amount    string // as written
	Substance string
}

// Fed is food.
type Fed struct{ Food string }

// Kind returns "stocked".
func (*Stocked) Kind() string { return "stocked" }

// Kind returns "saddled".
func (*Saddled) Kind() string { return "saddled" }

// Kind returns "moulted".
func (*Moulted) Kind() string { return "moulted" }

// Kind returns "courting".
func (*Courting) Kind() string { return "courting" }

// Kind returns "berried".
func (*Berried) Kind() string { return "berried" }

// Kind returns "eyed".
func (*Eyed) Kind() string { return "eyed" }

// Kind returns "hatched".
func (*Hatched) Kind() string { return "hatched" }

// Kind returns "dropped".
func (*Dropped) Kind() string { return "dropped" }

// Kind returns "sighted".
func (*Sighted) Kind() string { return "sighted" }

// Kind returns "counted".
func (*Counted) Kind() string { return "counted" }

// Kind returns "measured".
func (*Measured) Kind() string { return "measured" }

// Kind returns "graded".
func (*Graded) Kind() string { return "graded" }

// Kind returns "died".
func (*Died) Kind() string { return "died" }

// Kind returns "removed".
func (*Removed) Kind() string { return "removed" }

// Kind returns "moved".
func (*Moved) Kind() string { return "moved" }

// Kind returns "water".
func (*WaterTest) Kind() string { return "water" }

// Kind returns "water-change".
func (*WaterChange) Kind() string { return "water-change" }

// Kind returns "dosed".
func (*Dosed) Kind() string { return "dosed" }

// Kind returns "fed".
func (*Fed) Kind() string { return "fed" }
