package theme

import (
	"strings"
	"testing"

	"golang.org/x/net/html"

	"pleopod/journal"
	"pleopod/journal/wording"
)

// wetPage fills the page of the water of the journal testdata/water.txtar.
func wetPage(t *testing.T) *WaterPage {
	t.Helper()
	b := newBook(public(foretold(t, "water")), nil)
	p := b.pen(b.waterPath("shelf"))
	out := p.waterPage(b.tanks["shelf"]).(*WaterPage)
	if p.err != nil {
		t.Fatal(p.err)
	}
	return out
}

// spaced makes words comparable: numbers and units are joined by spaces that do not break.
func spaced(text string) string { return strings.ReplaceAll(text, wording.Joined, " ") }

func TestWaterPageLatest(t *testing.T) {
	page := wetPage(t)
	got := map[string]LatestReading{}
	for _, r := range page.Latest {
		got[r.Name] = r
	}
	for _, want := range []LatestReading{
		{Name: "pH", Value: "7.9", Wanted: "6.8 to 7.8", State: "above", Day: moment(journal.NewDay(2026, 4, 18)), Age: "2 days before", Step: "+0.9 in 3 months"},
		{Name: "General hardness", Value: "5.5 dGH", Other: "98 ppm", Wanted: "6 to 10 dGH", State: "below", Day: moment(journal.NewDay(2026, 4, 18)), Age: "2 days before", Step: "−5.5 dGH in 3 months"},
		{Name: "Carbonate hardness", Value: "3 dKH", Other: "54 ppm", Day: moment(journal.NewDay(2026, 1, 20)), Age: "3 months before"},
		{Name: "Dissolved solids", Value: "290 ppm", Wanted: "150 to 300 ppm", State: "within", Day: moment(journal.NewDay(2026, 1, 20)), Age: "3 months before"},
		{Name: "Nitrate", Value: "15 mg/L", Wanted: "5 to 20 mg/L", State: "within", Day: moment(journal.NewDay(2026, 4, 18)), Age: "2 days before"},
		{Name: "Total ammonia", Value: "0 mg/L", Wanted: "0 to 0.3 mg/L", State: "within", Day: moment(journal.NewDay(2026, 4, 18)), Age: "2 days before", Step: "−0.5 mg/L in 6 weeks"},
	} {
		r := got[want.Name]
		r.plain = ""
		r.Value, r.Other, r.Wanted, r.Step = spaced(r.Value), spaced(r.Other), spaced(r.Wanted), spaced(r.Step)
		if r != want {
			t.Errorf("got  %+v\nwant %+v", r, want)
		}
	}
	if want := "Last tested on 18 April 2026, 2 days before the day of this site. Outside the range that the keeper wants: pH (7.9, above) and general hardness (5.5 dGH, below)."; spaced(page.Description) != want {
		t.Errorf("the page begins %q", spaced(page.Description))
	}
}

// TestWaterPageTests holds the un-ionised ammonia of each test, and what is said where it is not known. 0.0502
// is the worked example of the University of Florida fact sheet FA031; .012361 at pH 7.5 and 20 °C is the
// formula of Emerson et al. 1975.
func TestWaterPageTests(t *testing.T) {
	page := wetPage(t)
	if got, want := strings.Join(page.Columns, "; "), "Temperature, °C; pH; GH, dGH; KH, dKH; TDS, ppm; Conductivity, µS/cm; Ammonia, mg/L; Nitrate, mg/L; Un-ionised, mg/L"; got != want {
		t.Fatalf("columns %s", got)
	}
	want := []string{
		"18 April 2026: ; 7.9; 5.5; ; ; ; 0; 15; 0",
		"10 March 2026: ; ; ; ; ; ; 0.5; ; ",
		"20 January 2026: ; 7; 11; 3; 290; ; <0.25; <10; <0.0011",
		"15 January 2026: 20; ; ; ; ; 420; 1; ; 0.0124 (pH between tests)",
		"10 January 2026: ; ; 8; ; ; ; 1; ; 0.0502",
		"10 January 2026: 24; 8; ; ; ; ; ; ; ",
	}
	for i, line := range page.Tests {
		if got := line.Day.Long + ": " + strings.Join(line.Cells, "; "); i >= len(want) || got != want[i] {
			t.Errorf("test %d says %q", i, got)
		}
	}
	if len(page.Tests) != len(want) {
		t.Errorf("%d tests, want %d: the private one stays out", len(page.Tests), len(want))
	}
}

func TestWaterPageWords(t *testing.T) {
	b := newBook(public(foretold(t, "water")), nil)
	p := b.pen(b.waterPath("shelf"))
	tank := b.tanks["shelf"]
	for i, want := range []string{
		"0.0502 mg/L of 1 mg/L in all on 10 January 2026, with pH 8 and 24 °C (both of that day). Harm to fish begins at about 0.05 mg/L; for dwarf shrimp no value is known.",
		"",
		"0.0124 mg/L of 1 mg/L in all on 15 January 2026, with pH 7.5 and 20 °C (the pH drawn from the days around it). Harm to fish begins at about 0.05 mg/L; for dwarf shrimp no value is known.",
		"at most 0.0011 mg/L of less than 0.25 mg/L in all on 20 January 2026, with pH 7 and 21.6 °C (the temperature estimated). Harm",
		"not known: 0.5 mg/L in all on 10 March 2026, and no pH within 14 days of that day",
		"none: the test of 18 April 2026 read 0",
	} {
		if got := spaced(p.unionisedWords(&tank.Water[i])); i != 1 && !strings.HasPrefix(got, want) {
			t.Errorf("test %d says %q\nwant %q", i, got, want)
		}
	}
	facts := map[string]string{}
	for _, f := range p.waterFacts(tank) {
		facts[f.Name] = spaced(plain(f.Words))
	}
	for name, want := range map[string]string{
		"Dissolved solids":  "420 µS/cm taken as 269 ppm on 15 January 2026, with the factor 0.64: a convention of meters, no weighing",
		"Last water change": "15 January 2026, 3 months before: 10 L of water changed, new water: GH 4 dGH, TDS 120 ppm",
		"Last dose":         "15 January 2026, 3 months before: 2 mL minerals",
		"Quickest changes":  "temperature −4 °C in 5 days (10 to 15 January 2026); pH −1 in 10 days (10 to 20 January 2026); GH +3 dGH in 10 days (10 to 20 January 2026)",
	} {
		if facts[name] != want {
			t.Errorf("%s says %q\nwant %q", name, facts[name], want)
		}
	}
}

// TestWaterFigures holds the strips and what happened on one stretch of days, each with its numbers as a table. What was
// read once, here kh and conductivity, has no strip.
func TestWaterFigures(t *testing.T) {
	b := newBook(public(foretold(t, "water")), nil)
	p := b.pen(b.waterPath("shelf"))
	p.waterPage(b.tanks["shelf"])
	names := ""
	for _, f := range p.figures {
		names += f.ID + " "
		if f.X.Min != p.figures[0].X.Min || f.X.Max != p.figures[0].X.Max || f.Inset != waterInset {
			t.Errorf("%s stands on other days than %s", f.ID, p.figures[0].ID)
		}
		if table := f.Table(); len(table.Rows) == 0 {
			t.Errorf("%s has no number", f.ID)
		}
	}
	if want := "happened water-temperature water-ph water-gh water-tds water-ammonia water-unionised water-nitrate "; names != want {
		t.Fatalf("figures %s", names)
	}
	lanes := map[string]int{}
	for _, lane := range p.figures[0].Lanes {
		lanes[lane.Label] = len(lane.Marks)
	}
	if lanes["changes"] != 1 || lanes["doses"] != 1 || lanes["deaths"] != 1 || lanes["moults"] != 1 {
		t.Errorf("what happened: %v", lanes)
	}
	said := ""
	for _, points := range p.figures[4].Points {
		said += points.Name + "; "
	}
	if want := "test; from the conductivity, factor 0.64; "; said != want {
		t.Errorf("the dissolved solids are %q", said)
	}
}

func TestWaterPageIsWhole(t *testing.T) {
	s := site(t, "water")
	page, err := html.Parse(strings.NewReader(string(s.Files["tanks/shelf.water.html"])))
	if err != nil {
		t.Fatal(err)
	}
	var heads, rows int
	for n := range page.Descendants() {
		if n.Data == "th" && attribute(n, "scope") == "col" {
			heads++
		}
		if n.Data == "th" && attribute(n, "scope") == "row" {
			rows++
		}
	}
	if heads < 14 || rows < 12 {
		t.Errorf("tables for screen readers have %d heads of columns and %d of rows", heads, rows)
	}
	text := ""
	for n := range page.Descendants() {
		if n.Type == html.TextNode || n.Data == "title" {
			text += n.Data + " "
		}
		if n.Type == html.TextNode && strings.TrimSpace(n.Data) == "19.2" { // alone; the estimate of another day may begin so
			t.Error("a table shows the temperature of a private test")
		}
	}
	for _, private := range []string{"9.37", "9.4 ", "3.33", "19.19", "19.2\u00a0°C", "12 March"} {
		if strings.Contains(text, private) {
			t.Errorf("the page shows %q of a private test", private)
		}
	}
	for caution, where := range map[string][]string{
		cautionCopper: {"tanks/shelf.water.html", "diary/2026-01-15.html"},
		cautionPower:  {"tanks/shelf.water.html", "diary/2026-01-15.html"},
		cautionLeave:  {"tanks/shelf.html", "diary/2026-04-18.html"},
	} {
		for _, path := range where {
			if n := strings.Count(visible(t, s.Files[path]), caution); n != 1 {
				t.Errorf("%s says %d times: %s", path, n, caution)
			}
		}
	}
	if blank := visible(t, s.Files["tanks/bench.water.html"]); !strings.Contains(blank, "not tested yet") || !strings.Contains(blank, "One value is enough") {
		t.Error("a tank that was never tested does not say what to do")
	}
	if !strings.Contains(string(s.Files["tanks/shelf.html"]), `href="../tanks/shelf.water.html"`) {
		t.Error("the page of the tank does not lead to its water")
	}
}
