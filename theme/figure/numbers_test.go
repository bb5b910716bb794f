package figure

import (
	"encoding/json"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// optionOf returns the option of a figure, read back.
func optionOf(t testing.TB, f Figure) map[string]any {
	t.Helper()
	text, err := f.Option()
	if err != nil {
		t.Fatalf("Option of %s: %v", f.ID, err)
	}
	var option map[string]any
	if err := json.Unmarshal(text, &option); err != nil {
		t.Fatalf("Option of %s: %v", f.ID, err)
	}
	return option
}

// seriesOf returns the points of the series of that name.
func seriesOf(t testing.TB, option map[string]any, name string) [][]any {
	t.Helper()
	for _, s := range option["series"].([]any) {
		s := s.(map[string]any)
		if s["name"] != name {
			continue
		}
		var points [][]any
		for _, p := range s["data"].([]any) {
			points = append(points, p.([]any))
		}
		return points
	}
	t.Fatalf("there is no series %q", name)
	return nil
}

// polyline reads the places of a path of moves, steps, levels and uprights.
func polyline(t testing.TB, d string) []spot {
	t.Helper()
	var line []spot
	at := spot{}
	for _, command := range regexp.MustCompile(`([MlHVZh])([-0-9. ]*)`).FindAllStringSubmatch(d, -1) {
		var numbers []float64
		for _, text := range regexp.MustCompile(`-?(?:[0-9]+(?:\.[0-9])?|\.[0-9])`).FindAllString(command[2], -1) {
			n, err := strconv.ParseFloat(text, 64)
			if err != nil {
				t.Fatalf("a number %q in %q", text, command[2])
			}
			numbers = append(numbers, n)
		}
		switch command[1] {
		case "M":
			at = spot{numbers[0], numbers[1]}
		case "H":
			at.x = numbers[0]
		case "V":
			at.y = numbers[0]
		case "l":
			for i := 0; i+1 < len(numbers); i += 2 {
				at = spot{at.x + numbers[i], at.y + numbers[i+1]}
				line = append(line, at)
			}
			continue
		case "Z":
			continue
		}
		line = append(line, at)
	}
	return line
}

// TestSameNumbersEverywhere compares line, band and counts of the fan in SVG, table and option with the figure.
func TestSameNumbersEverywhere(t *testing.T) {
	f := fan()
	x, y, _ := f.ranges()
	y = f.Y.widened(y, 5)
	d := f.draw(sheets[0])
	left, _ := strconv.ParseFloat(d.Left, 64)
	right, _ := strconv.ParseFloat(d.Right, 64)
	clip := polyline(t, d.Clip)
	fr := frame{x: scale{x, left, right}, y: scale{y, clip[2].y - 2, clip[0].y + 2}}

	var want []spot
	for _, p := range f.Lines[0].Points {
		want = append(want, spot{fr.x.at(p.X), fr.y.at(p.Y)})
	}
	drawn := polyline(t, d.Data[slices.IndexFunc(d.Data, func(s shape) bool { return strings.HasPrefix(s.Class, "fig-line") })].D)
	// A tenth of a pixel is the rounding of the path.
	if off := deviation(want, drawn); off > tolerance+0.1 {
		t.Errorf("the line of the drawing is %.2f pixels off", off)
	}
	for i, e := range f.Bands {
		var edges []spot
		for _, e := range e.Edges {
			edges = append(edges, spot{fr.x.at(e.X), fr.y.at(e.High)}, spot{fr.x.at(e.X), fr.y.at(e.Low)})
		}
		outline := polyline(t, d.Data[i].D)
		if off := deviation(edges, append(outline, outline[0])); off > tolerance+0.1 {
			t.Errorf("band %d of the drawing is %.2f pixels off", i, off)
		}
	}

	option := optionOf(t, f)
	median, wide := seriesOf(t, option, "median"), seriesOf(t, option, "9 of 10 runs")
	for i, p := range f.Lines[0].Points {
		e := f.Bands[0].Edges[i]
		if median[i][0] != dateOf(p.X).Format("2006-01-02") || median[i][1] != rounded(p.Y) {
			t.Fatalf("point %d of the option is %v, want %v", i, median[i], p)
		}
		if wide[i][2] != rounded(e.Low) || wide[i][3] != rounded(e.High) || math.Abs(wide[i][1].(float64)-(e.High-e.Low)) > 0.1 {
			t.Fatalf("edge %d of the option is %v, want %v", i, wide[i], e)
		}
	}

	table := f.Table()
	if diff := cmp.Diff([]string{"Day", "9 of 10 runs", "half of the runs", "median", "counted", "Note"}, table.Head); diff != "" {
		t.Errorf("head (-want +got):\n%s", diff)
	}
	for _, row := range table.Rows {
		i := int(row.X - day1)
		p, e := f.Lines[0].Points[i], f.Bands[0].Edges[i]
		want := []string{dateOf(p.X).Format("2 Jan 2006"), f.Y.value(e.Low) + " – " + f.Y.value(e.High)}
		if row.Cells[0].Text != want[0] || row.Cells[1].Text != want[1] || row.Cells[3].Text != f.Y.value(p.Y) {
			t.Fatalf("row %v, want %v and %v", row, want, p.Y)
		}
	}
	items := 0
	for _, m := range f.Points[0].Marks {
		row := table.Rows[slices.IndexFunc(table.Rows, func(r Row) bool { return r.X == m.X })]
		if row.Cells[4] != (Cell{Text: f.Y.value(m.Y), Link: m.Link}) || row.Cells[5].Text != m.Label {
			t.Errorf("the count %v stands as %v", m, row)
		}
		for _, it := range d.Items {
			if it.X == f.X.word(m.X) && it.Y == f.Y.word(m.Y) && it.Label == m.Label && it.Link == m.Link {
				items++
			}
		}
	}
	if items != len(f.Points[0].Marks) {
		t.Errorf("%d of %d counts carry their numbers in the drawing", items, len(f.Points[0].Marks))
	}
}

// TestTableThinning counts rows and says what is left out.
func TestTableThinning(t *testing.T) {
	for _, test := range []struct {
		figure   Figure
		low, top int
		note     bool
	}{{fan(), 30, 62, true}, {decade(), 30, 42, true}, {strip(), 9, 9, false}, {growth(), 30, 42, true}} {
		table := test.figure.Table()
		if len(table.Rows) < test.low || len(table.Rows) > test.top || (table.Note != "") != test.note {
			t.Errorf("%s: %d rows, note %q", test.figure.ID, len(table.Rows), table.Note)
		}
		for i, row := range table.Rows {
			if len(row.Cells) != len(table.Head) {
				t.Fatalf("%s: row %d has %d cells for %d columns", test.figure.ID, i, len(row.Cells), len(table.Head))
			}
			if i > 0 && row.X <= table.Rows[i-1].X {
				t.Fatalf("%s: row %d is out of order", test.figure.ID, i)
			}
		}
	}
	last := decade().Table().Rows
	if last[0].X != day1 || last[len(last)-1].X != day1+3649 {
		t.Errorf("the ends are %v and %v", last[0].X, last[len(last)-1].X)
	}
}

// fullRows returns the cells of every row, with the name that stands before several of them in each.
func fullRows(t *testing.T, table Table) [][]Cell {
	t.Helper()
	var all [][]Cell
	var name Cell
	left := 0
	for i, row := range table.Rows {
		cells := row.Cells
		if len(cells) == len(table.Head) {
			name, left, cells = cells[0], cells[0].Rows, cells[1:]
			name.Rows = 0
		}
		if left--; left < 0 || len(cells) != len(table.Head)-1 {
			t.Fatalf("row %d has %d cells and no name", i, len(row.Cells))
		}
		all = append(all, append([]Cell{name}, cells...))
	}
	if left != 0 {
		t.Fatalf("the last name stands for %d rows more than there are", left)
	}
	return all
}

// TestLanesEverywhere compares spans and marks of a timeline in drawing, table and option.
func TestLanesEverywhere(t *testing.T) {
	f := timeline()
	table, d := f.Table(), f.draw(sheets[1])
	lanes := optionOf(t, f)["figure"].(map[string]any)["lanes"].([]any)
	if diff := cmp.Diff([]string{"Row", "From", "To", "What"}, table.Head); diff != "" {
		t.Error(diff)
	}
	rows, items := 0, 0
	for i, lane := range f.Lanes {
		spans := lanes[i].(map[string]any)["spans"].([]any)
		for j, s := range lane.Spans {
			want := []Cell{{Text: clean(lane.Label), Link: lane.Link}, {Text: f.X.value(s.From)}, {Text: f.X.value(s.To)},
				{Text: s.Label, Link: s.Link}}
			if s.Link == lane.Link {
				want[3].Link = ""
			}
			if !slices.ContainsFunc(fullRows(t, table), func(cells []Cell) bool { return cmp.Equal(cells, want) }) {
				t.Errorf("the table lacks %v", want)
			}
			if !slices.ContainsFunc(d.Items, func(it item) bool {
				return it.X == want[1].Text+" – "+want[2].Text && it.Label == s.Label && it.Link == s.Link
			}) {
				t.Errorf("the drawing lacks %v", s)
			}
			got := spans[j].(map[string]any)
			if got["from"] != f.X.json(s.From) || got["to"] != f.X.json(s.To) || got["label"] != s.Label {
				t.Errorf("the option has %v for %v", got, s)
			}
		}
		rows += len(lane.Spans) + len(lane.Marks)
		items += len(lane.Spans) + len(lane.Marks)
	}
	if len(table.Rows) != rows || len(d.Items) != items {
		t.Errorf("%d rows and %d items, want %d and %d", len(table.Rows), len(d.Items), rows, items)
	}
}

// TestSpansAreCutAtTheRange draws spans that begin before and end after a fixed range, and one outside.
func TestSpansAreCutAtTheRange(t *testing.T) {
	f := Figure{ID: "cut", Title: "Cut", X: Axis{Min: 0, Max: 10},
		Lanes: []Lane{{Spans: []Span{{From: -5, To: 5, Label: "early"}, {From: 8, To: 20}, {From: 11, To: 12},
			{From: 4, To: 4}}}}}
	d := f.draw(sheets[1])
	if len(d.Items) != 3 {
		t.Fatalf("%d spans are drawn, want 3", len(d.Items))
	}
	for i, want := range [][2]float64{{1, 165.5}, {264.2, 330}, {131.6, 133.6}} {
		box := polyline(t, d.Items[i].D)
		left, right := box[0].x, box[1].x
		if math.Abs(left-want[0]) > 0.2 || math.Abs(right-want[1]) > 0.2 {
			t.Errorf("span %d from %v to %v, want %v", i, left, right, want)
		}
	}
	if d.Items[0].X != "−5 – 5" {
		t.Errorf("the readout says %q", d.Items[0].X)
	}
}

// TestTableTogether has the rows of lanes before those of the plot.
func TestTableTogether(t *testing.T) {
	f := together()
	table := f.Table()
	lanes := 0
	for _, lane := range f.Lanes {
		lanes += len(lane.Spans) + len(lane.Marks)
	}
	row := fullRows(t, table)[lanes]
	if row[0].Text != "Temperature, °C" || row[1].Text != "7 Oct 2025" || row[3].Text != "temperature, °C 22" {
		t.Errorf("the first row of the plot is %v", row)
	}
}

// TestTableSaysThingsOnce has no column for a line that only joins the marks, and no note that repeats a value.
func TestTableSaysThingsOnce(t *testing.T) {
	f := Figure{ID: "once", Title: "Once", Y: Axis{Unit: "mg/L"},
		Lines:  []Line{{Name: "between tests", Joins: true, Points: []XY{{1, 2}, {2, 3}}}},
		Points: []Points{{Name: "test", Marks: []Mark{{X: 1, Y: 2, Label: "2\u00a0mg/L"}, {X: 2, Y: 3, Label: "3\u00a0mg/L"}}}}}
	if diff := cmp.Diff([]string{"Value", "test, mg/L"}, f.Table().Head); diff != "" {
		t.Errorf("head (-want +got):\n%s", diff)
	}
	f.Points[0].Marks[1].Label = "under 3\u00a0mg/L"
	table := f.Table()
	if diff := cmp.Diff([]Cell{{Text: "2"}, {Text: "3"}, {Text: "under 3\u00a0mg/L"}}, table.Rows[1].Cells); diff != "" {
		t.Errorf("a row with a note (-want +got):\n%s", diff)
	}
	if note := table.Rows[0].Cells[2].Text; note != "" {
		t.Errorf("a note says %q, which the value says already", note)
	}
}
