package theme

import (
	"fmt"
	"testing"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
)

var markdown = goldmark.New(goldmark.WithExtensions(extension.GFM, extension.Footnote), goldmark.WithParserOptions(parser.WithAutoHeadingID()))

func day(t *testing.T, text string) journal.Day {
	t.Helper()
	d, err := journal.ParseDay(text)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// story builds a journal by hand.
type story struct {
	t *testing.T
	j *journal.Journal
}

func newStory(t *testing.T) *story {
	return &story{t, &journal.Journal{Settings: journal.Settings{
		Title: "Harbour Street shrimp", Keeper: "Wren Adeyemi", Address: "https://example.org/shrimp/", Language: "en",
		Units:   journal.Units{Temperature: "C", Volume: "L", Length: "mm", Hardness: "dGH"},
		Species: "neocaridina-davidi", Grades: []string{"pale", "even", "deep"}, Ammonia: journal.BasisN, TDSFactor: 0.5,
		Tanks: []journal.Tank{
			{ID: "north-shelf", Name: "North shelf", Species: "neocaridina-davidi", Volume: journal.Known(38.0), Since: day(t, "2025-01-12"), Heater: journal.Known(23.0),
				Range: []journal.WaterRange{{Kind: journal.PH, Low: 6.8, High: 7.8}, {Kind: journal.GH, Low: 6, High: 10}}},
			{ID: "window", Name: "Window tank", Species: "neocaridina-davidi", Volume: journal.Known(20.0), Since: day(t, "2025-08-01")},
		},
	}}}
}

func (s *story) entry(date, title, body string, events ...journal.Event) *journal.Entry {
	d := day(s.t, date)
	source := []byte(body)
	if title == "" {
		title = date
	}
	e := &journal.Entry{Path: fmt.Sprintf("entries/%s-%d.md", date, len(s.j.Entries)), Date: d, Title: title, Tanks: []string{"north-shelf"}, Source: source,
		Text: markdown.Parser().Parse(text.NewReader(source)), Events: events}
	for i := range e.Events {
		ev := &e.Events[i]
		ev.Entry, ev.File, ev.Line, ev.Column = e, e.Path, 4+i, 5
		if ev.Day == 0 {
			ev.Day = d
		}
		if ev.Tank == "" {
			ev.Tank = "north-shelf"
		}
	}
	s.j.Entries = append(s.j.Entries, e)
	return e
}

func (s *story) forecast(asOf string) *forecast.Forecast {
	return forecast.Make(colony.Replay(s.j, day(s.t, asOf)))
}

func ev(what journal.Happening) journal.Event { return journal.Event{What: what} }

func many(n int) journal.Who { return journal.Who{Count: journal.Count{Total: n}} }

func named(names ...string) journal.Who {
	return journal.Who{Count: journal.Count{Total: len(names)}, Names: names}
}

func test(temperature, ph, gh float64) journal.Event {
	return ev(&journal.WaterTest{Readings: []journal.Reading{
		{Kind: journal.Temperature, Value: temperature}, {Kind: journal.PH, Value: ph}, {Kind: journal.GH, Value: gh},
		{Kind: journal.Ammonia, Value: 0.05, Below: true}, {Kind: journal.Nitrate, Value: 10},
	}})
}

// fullYear is a journal with something of everything.
func fullYear(t *testing.T) *story {
	s := newStory(t)
	s.entry("2025-01-12", "Ten small shrimp", "They came in a bag, *ten of them*, and hid at once.\n\n## The plan\n\nWait. See [the plan](#the-plan).", ev(&journal.Stocked{Shrimp: journal.Count{Total: 10}, Source: "a neighbour", Age: journal.Known(90.0)}), test(23.1, 7.4, 8))
	for i := range 24 {
		d := day(t, "2025-01-20") + journal.Day(17*i)
		s.entry(d.String(), "", "", test(22.5+float64(i%5)*0.3, 7.2+float64(i%4)*0.1, 7+float64(i%3)), ev(&journal.WaterChange{Share: journal.Known(0.2)}))
	}
	type brood struct{ berried, eyed, hatched, name, mother string }
	for _, b := range []brood{{"2025-03-02", "2025-03-13", "2025-03-22", "amber", "Ruby"}, {"2025-04-10", "", "2025-04-29", "birch", "Ruby"}, {"2025-05-20", "2025-05-30", "2025-06-07", "cedar", "Dot"}, {"2025-08-01", "", "2025-08-20", "dune", "Ruby"}, {"2025-11-01", "2025-11-12", "2025-11-21", "elder", "Dot"}, {"2026-03-12", "2026-03-25", "", "flint", "Ruby"}, {"2026-03-28", "", "", "gorse", "Minnow"}} {
		s.entry(b.berried, "Eggs: "+b.name, "She carries them under her tail, and fans them.", ev(&journal.Berried{Shrimp: named(b.mother), Broods: []string{b.name}, LastClear: day(t, b.berried) - 2}))
		if b.eyed != "" {
			s.entry(b.eyed, "Eyes in "+b.name, "", ev(&journal.Eyed{Brood: b.name}))
		}
		if b.hatched != "" {
			s.entry(b.hatched, "Hatch of "+b.name, "Tiny ones on the glass.", ev(&journal.Hatched{Brood: b.name, Shrimplets: journal.Known(14)}), ev(&journal.Sighted{Shrimplets: 5, Brood: b.name}))
		}
	}
	s.entry("2025-06-20", "Counting day", "Counted twice.", ev(&journal.Counted{Shrimp: journal.Count{Total: 31}, Method: journal.Careful}), ev(&journal.Measured{Lengths: []float64{22, 23.5}, Sex: journal.Female}), ev(&journal.Measured{Lengths: []float64{11, 12.4, 12}, Brood: "amber"})).Topics = []string{"Counts", "growth"}
	s.entry("2025-10-02", "Some leave", "", ev(&journal.Removed{Shrimp: many(6), Reason: journal.Sold, To: "a club friend"}), ev(&journal.Moved{Shrimp: many(4), To: "window"}), ev(&journal.Died{Shrimp: many(1), Cause: "failed moult"}), ev(&journal.Moulted{Shrimp: many(1), Failed: true}))
	s.entry("2026-01-10", "Grades", "", ev(&journal.Graded{Counts: []int{3, 8, 2}, Sex: journal.Female, Brood: "cedar"}), ev(&journal.Courting{}), ev(&journal.Saddled{Shrimp: named("Minnow")}), ev(&journal.Dosed{Amount: "2 ml", Substance: "minerals"}), ev(&journal.Fed{Food: "blanched nettle"})).Topics = []string{"growth"}
	s.entry("2026-02-14", "Counted again", "More than I thought.", ev(&journal.Counted{Shrimp: journal.Count{Total: 48}, Method: journal.Careful}), ev(&journal.Dropped{Brood: "birch"}))
	s.j.Entries = s.j.Entries[:len(s.j.Entries)-1]
	s.entry("2026-02-14", "Counted again", "More than I thought.", ev(&journal.Counted{Shrimp: journal.Count{Total: 48}, Method: journal.Careful}))
	sortEntries(s.j)
	return s
}
