package forecast

import (
	"fmt"
	"testing"

	"pleopod/journal"
	"pleopod/journal/colony"
)

// diary is a journal in the making.
type diary struct {
	journal journal.Journal
	lines   int
}

// newDiary starts a journal with tanks.
func newDiary(tanks ...journal.Tank) *diary {
	return &diary{journal: journal.Journal{Settings: journal.Settings{
		Title: "A test", Species: "neocaridina-davidi", Ammonia: journal.BasisN, TDSFactor: 0.5,
		Units: journal.Units{Temperature: "C", Volume: "L", Length: "mm", Hardness: "dGH"}, Tanks: tanks,
	}}}
}

func heated(id string, celsius float64) journal.Tank {
	return journal.Tank{ID: id, Heater: journal.Known(celsius), Volume: journal.Known(40.0)}
}

func unheated(id string) journal.Tank { return journal.Tank{ID: id, Volume: journal.Known(40.0)} }

// on writes an entry.
func (d *diary) on(day journal.Day, tank string, what ...journal.Happening) *diary {
	return d.late(day, day, tank, what...)
}

// late writes an entry on a day about another day.
func (d *diary) late(written, day journal.Day, tank string, what ...journal.Happening) *diary {
	d.lines++
	entry := &journal.Entry{Path: fmt.Sprintf("entries/%06d.md", d.lines), Date: written, Title: written.String(), Tanks: []string{tank}}
	for i, w := range what {
		entry.Events = append(entry.Events, journal.Event{
			Position: journal.Position{File: entry.Path, Line: 4 + i, Column: 5}, Entry: entry, Day: day, Tank: tank, What: w,
		})
	}
	d.journal.Entries = append(d.journal.Entries, entry)
	return d
}

func (d *diary) replay(asOf journal.Day) *colony.Colony { return colony.Replay(&d.journal, asOf) }

func day(t testing.TB, text string) journal.Day {
	t.Helper()
	d, err := journal.ParseDay(text)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func some(n int) journal.Who { return journal.Who{Count: journal.Count{Total: n}} }

func named(names ...string) journal.Who {
	return journal.Who{Count: journal.Count{Total: len(names)}, Names: names}
}

func berried(brood string) *journal.Berried {
	return &journal.Berried{Shrimp: some(1), Broods: []string{brood}}
}

func temperature(celsius float64) *journal.WaterTest {
	return &journal.WaterTest{Readings: []journal.Reading{{Kind: journal.Temperature, Value: celsius}}}
}

// find returns the forecast of a brood.
func find(t fataler, f *Forecast, id string) Brood {
	t.Helper()
	for _, b := range f.Broods {
		if b.ID == id {
			return b
		}
	}
	t.Fatalf("no brood %q", id)
	return Brood{}
}

// fataler is what the helpers need of a test.
type fataler interface {
	Helper()
	Fatalf(format string, args ...any)
}
