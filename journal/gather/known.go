package gather

import (
	"math"

	"pleopod/journal"
)

// place is a day in a tank.
type place struct {
	day  journal.Day
	tank string
}

// knownEvents is the tests and counts that the journal has, so that none is written twice.
type knownEvents map[place][]journal.Happening

func (r *reader) knownEvents() knownEvents {
	known := knownEvents{}
	for _, entry := range r.journal.Entries {
		for i := range entry.Events {
			known.add(entry.Events[i].Day, entry.Events[i].Tank, entry.Events[i].What)
		}
	}
	return known
}

func (k knownEvents) add(day journal.Day, tank string, what journal.Happening) {
	k[place{day, tank}] = append(k[place{day, tank}], what)
}

// has reports whether the same was noted on that day in that tank.
func (k knownEvents) has(day journal.Day, tank string, what journal.Happening) bool {
	for _, known := range k[place{day, tank}] {
		switch what := what.(type) {
		case *journal.Counted:
			if other, ok := known.(*journal.Counted); ok && *other == *what {
				return true
			}
		case *journal.WaterTest:
			if other, ok := known.(*journal.WaterTest); ok && within(what.Readings, other.Readings) {
				return true
			}
		}
	}
	return false
}

// within reports whether every reading of a test is among those of another.
func within(test, other []journal.Reading) bool {
	for _, reading := range test {
		found := false
		for _, known := range other {
			found = found || (known.Kind == reading.Kind && known.Below == reading.Below && math.Abs(known.Value-reading.Value) < 1e-9)
		}
		if !found {
			return false
		}
	}
	return true
}
