package colony_test

import (
	"fmt"
	"testing"

	"pleopod/journal"
	"pleopod/journal/colony"
)

// diary builds a journal for a test, one entry after the other.
type diary struct{ journal journal.Journal }

// newDiary returns a diary of some tanks.
func newDiary(tanks ...string) *diary {
	d := &diary{}
	for i, id := range tanks {
		d.journal.Settings.Tanks = append(d.journal.Settings.Tanks, journal.Tank{
			Position: journal.Position{File: journal.SettingsFile, Line: 3 + i, Column: 3}, ID: id, Name: id,
		})
	}
	return d
}

// on adds an entry of one day about one tank.
func (d *diary) on(date, tank string, what ...journal.Happening) *diary {
	entry := &journal.Entry{Path: fmt.Sprintf("entries/%s-%c.md", date, 'a'+len(d.journal.Entries)), Date: day(date), Tanks: []string{tank}}
	for i, happening := range what {
		entry.Events = append(entry.Events, journal.Event{
			Position: journal.Position{File: entry.Path, Line: 5 + i, Column: 5},
			Entry:    entry, Day: entry.Date, Tank: tank, What: happening,
		})
	}
	d.journal.Entries = append(d.journal.Entries, entry)
	return d
}

// last returns the entry that was added last.
func (d *diary) last() *journal.Entry { return d.journal.Entries[len(d.journal.Entries)-1] }

// seen gives the last event of the last entry its own day.
func (d *diary) seen(date string) *diary {
	events := d.last().Events
	events[len(events)-1].Day = day(date)
	return d
}

// private makes the last entry private.
func (d *diary) private() *diary {
	d.last().Private = true
	return d
}

// replay replays the diary up to a day.
func (d *diary) replay(asOf string) *colony.Colony { return colony.Replay(&d.journal, day(asOf)) }

// day reads a date that the test wrote, and panics on a slip.
func day(date string) journal.Day {
	d, err := journal.ParseDay(date)
	if err != nil {
		panic(err)
	}
	return d
}

// count is a plain number of shrimp.
func count(n int) journal.Count { return journal.Count{Total: n} }

// some is a number of shrimp without names.
func some(n int) journal.Who { return journal.Who{Count: count(n)} }

// named is shrimp with names.
func named(names ...string) journal.Who { return journal.Who{Count: count(len(names)), Names: names} }

// berried opens broods of females without names.
func berried(n int, broods ...string) *journal.Berried {
	return &journal.Berried{Shrimp: some(n), Broods: broods}
}

// berriedBy opens a brood of a named female.
func berriedBy(name, brood string) *journal.Berried {
	return &journal.Berried{Shrimp: named(name), Broods: []string{brood}}
}

// hatched ends a brood.
func hatched(brood string) *journal.Hatched { return &journal.Hatched{Brood: brood} }

// codes returns the codes of all problems, with an exclamation mark after errors.
func codes(c *colony.Colony) []string {
	var all []string
	for _, p := range c.Problems {
		code := p.Code
		if p.Severity == journal.Error {
			code += "!"
		}
		all = append(all, code)
	}
	return all
}

// brood finds a brood by its name.
func brood(t *testing.T, c *colony.Colony, id string) *colony.Brood {
	t.Helper()
	for _, b := range c.Broods {
		if b.ID == id {
			return b
		}
	}
	t.Fatalf("no brood %q on %s", id, c.AsOf)
	return nil
}
