package figure

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
)

// Table is the numbers of a figure as text.
type Table struct {
	Head []string // one name per column, the X axis or the lane first
	Rows []Row
	Note string // what was left out, or ""
}

// Row is one line of a table.
type Row struct {
	X     float64 // place on the X axis, finite
	Cells []Cell  // as many as Head, without the first where that of a row above stands for this one too
}

// Cell is one entry of a row.
type Cell struct {
	Text string // "" where there is no value
	Link string // page it leads to, or ""
	Rows int    // how many rows it stands for, where it names a lane; 0 elsewhere
}

// tableRows is how many rows that stand only for lines and bands a table holds; with more, it shows every so many.
const tableRows = 40

// Table returns the numbers of the figure: a row per place on X with a column per line, band and cloud of
// marks, or a row per span and mark of a lane. Every mark and span is there; of long lines every so many
// points, with both ends. What a lane leads to is linked from its name alone. A figure with lanes and a Y axis gives the rows of its lanes first.
func (f Figure) Table() Table {
	if len(f.Lanes) == 0 {
		return f.plotTable()
	}
	table := f.laneTable()
	if !f.hasPlot() {
		return table
	}
	// The values of the part below go into the last column, so that one table holds both.
	plot := f.plotTable()
	var rows []Row
	for _, row := range plot.Rows {
		cells := []Cell{row.Cells[0], {}, {}}
		var said []string
		for i, cell := range row.Cells[1:] {
			if cell.Text != "" {
				said = append(said, strings.TrimSpace(plot.Head[i+1]+" "+cell.Text))
			}
		}
		cells[2].Text = strings.Join(said, "; ")
		rows = append(rows, Row{X: row.X, Cells: cells})
	}
	table.add(Cell{Text: f.Y.title()}, rows)
	table.Note = plot.Note
	return table
}

// add appends rows under a name that stands before all of them.
func (t *Table) add(name Cell, rows []Row) {
	if len(rows) > 0 {
		name.Rows = len(rows)
		rows[0].Cells = append([]Cell{name}, rows[0].Cells...)
	}
	t.Rows = append(t.Rows, rows...)
}

// laneTable lists spans and marks, lane by lane in the order of their start.
func (f Figure) laneTable() Table {
	table := Table{Head: []string{"Row", "From", "To", "What"}}
	for _, lane := range f.Lanes {
		var rows []Row
		what := func(label, link string) Cell {
			if link == lane.Link {
				link = ""
			}
			return Cell{Text: clean(label), Link: link}
		}
		for _, s := range lane.Spans {
			rows = append(rows, Row{s.From, []Cell{{Text: f.X.value(s.From)}, {Text: f.X.value(s.To)}, what(s.Label, s.Link)}})
		}
		for _, m := range lane.Marks {
			rows = append(rows, Row{m.X, []Cell{{Text: f.X.value(m.X)}, {}, what(m.Label, m.Link)}})
		}
		rows = slices.DeleteFunc(rows, func(r Row) bool { return !finite(r.X) })
		slices.SortStableFunc(rows, func(a, b Row) int { return cmp.Compare(a.X, b.X) })
		table.add(Cell{Text: clean(lane.Label), Link: lane.Link}, rows)
	}
	return table
}

// grid collects the cells of a table by place and column.
type grid struct {
	width  int
	rows   map[float64]*gridRow
	places []float64
}

type gridRow struct {
	cells  []Cell
	marked bool // holds a mark, and stays when rows are thinned
}

// set puts a text into a column of the row at x, beside what is there.
func (g *grid) set(x float64, column int, cell Cell, marked bool) {
	row := g.rows[x]
	if row == nil {
		row = &gridRow{cells: make([]Cell, g.width)}
		g.rows[x] = row
		g.places = append(g.places, x)
	}
	row.marked = row.marked || marked
	if cell.Text == "" {
		return
	}
	if old := row.cells[column]; old.Text != "" && old.Text != cell.Text {
		cell.Text = old.Text + "; " + cell.Text
		cell.Link = firstOf(old.Link, cell.Link)
	}
	row.cells[column] = cell
}

func firstOf(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// plotTable lists lines, bands and marks by their place on X.
func (f Figure) plotTable() Table {
	head := []string{f.X.head("Day")}
	for _, b := range f.Bands {
		head = append(head, columnName(b.Name, f.Y))
	}
	for _, l := range f.Lines {
		if !l.Joins {
			head = append(head, columnName(l.Name, f.Y))
		}
	}
	labelled := false
	for _, p := range f.Points {
		head = append(head, columnName(p.Name, f.Y))
		labelled = labelled || slices.ContainsFunc(p.Marks, func(m Mark) bool { return f.note(m) != "" })
	}
	if labelled {
		head = append(head, "Note")
	}

	g := grid{width: len(head), rows: map[float64]*gridRow{}}
	f.fill(&g)
	slices.Sort(g.places)
	table := Table{Head: head}
	table.Rows, table.Note = g.thin(f.X)
	return table
}

// fill puts every finite value of the figure into the grid.
func (f Figure) fill(g *grid) {
	column := 1
	for _, b := range f.Bands {
		for _, e := range b.Edges {
			if finite(e.X) && finite(e.Low) && finite(e.High) {
				g.set(e.X, column, Cell{Text: f.Y.value(e.Low) + " \u2013 " + f.Y.value(e.High)}, false)
			}
		}
		column++
	}
	for _, l := range f.Lines {
		if l.Joins {
			continue
		}
		for _, p := range l.Points {
			if finite(p.X) && finite(p.Y) {
				g.set(p.X, column, Cell{Text: f.Y.value(p.Y)}, false)
			}
		}
		column++
	}
	for _, points := range f.Points {
		for _, m := range points.Marks {
			if finite(m.X) && finite(m.Y) {
				g.set(m.X, column, Cell{Text: f.Y.value(m.Y), Link: m.Link}, true)
				g.set(m.X, g.width-1, Cell{Text: f.note(m)}, true)
			}
		}
		column++
	}
}

// note returns what the label of a mark says besides its value.
func (f Figure) note(m Mark) string {
	if label := clean(m.Label); label != f.Y.word(m.Y) {
		return label
	}
	return ""
}

// thin returns the rows to show: all with a mark, and of the others at most tableRows with both ends.
func (g *grid) thin(x Axis) ([]Row, string) {
	unmarked := 0
	for _, at := range g.places {
		if !g.rows[at].marked {
			unmarked++
		}
	}
	every := max(1, int(math.Ceil(float64(unmarked)/tableRows)))

	var rows []Row
	count := -1
	for i, at := range g.places {
		row := g.rows[at]
		if !row.marked {
			count++
		}
		if !row.marked && count%every != 0 && i != len(g.places)-1 {
			continue
		}
		row.cells[0].Text = x.value(at)
		rows = append(rows, Row{at, row.cells})
	}
	if len(rows) == len(g.places) {
		return rows, ""
	}
	return rows, fmt.Sprintf("%d of %d rows are shown.", len(rows), len(g.places))
}

// head names the column of the X axis.
func (a Axis) head(calendar string) string {
	if title := a.title(); title != "" {
		return clean(title)
	}
	if a.Kind == Calendar {
		return calendar
	}
	return "Value"
}

// columnName names the column of a line, band or cloud, with the unit of the Y axis.
func columnName(name string, y Axis) string {
	if name == "" {
		return clean(y.title())
	}
	if y.Unit == "" {
		return clean(name)
	}
	return clean(name + ", " + y.Unit)
}
