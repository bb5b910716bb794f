package gather

import (
	"fmt"
	"slices"
	"strings"

	"pleopod/journal"
)

// mostAbove is how many lines may stand above the header, such as the name of the device.
const mostAbove = 40

// findHeader finds the row that names the columns, and returns its line.
func (r *reader) findHeader(rows []row) (int, bool) {
	if len(r.Says.Columns) > 0 {
		return r.namedColumns(rows)
	}
	if columns, below := headerOf(rows); below > 0 {
		r.columns, r.rows = columns, written(rows[below:])
		r.unitRow()
		return rows[below-1].line, true
	}
	r.ask(r.Name+": no row names a column of dates and a column of something measured or counted",
		"say what the columns hold, from the left, with - for one to pass over, such as: --columns date,temperature,-")
	return 0, false
}

// headerOf returns the columns that the first rows name, and the row below them; 0 when they name none.
func headerOf(rows []row) (columns []heading, below int) {
	for i := range rows[:min(len(rows), mostAbove)] {
		columns, below = understandRow(rows[i]), i+1
		if i+1 < len(rows) && goesOn(rows[i+1]) {
			columns, below = joined(rows[i], rows[i+1]), i+2
		}
		if complete(columns) {
			return columns, below
		}
	}
	return nil, 0
}

// goesOn reports whether a row is a second row of names, below merged cells.
func goesOn(next row) bool {
	for _, c := range next.cells {
		if dated(c.text) {
			return false
		}
	}
	return slices.ContainsFunc(understandRow(next), func(h heading) bool { return isValue(h.role) })
}

// understandRow reads every cell as the name of a column.
func understandRow(of row) []heading {
	var columns []heading
	for _, c := range of.cells {
		columns = append(columns, understand(c.text))
	}
	return columns
}

// joined reads two header rows as one: the lower name counts where it says something.
func joined(upper, lower row) []heading {
	var columns []heading
	for i := range max(len(upper.cells), len(lower.cells)) {
		h := understand(lower.at(i))
		if h.role == roleNone && lower.at(i) == "" {
			h = understand(upper.at(i))
		}
		columns = append(columns, h)
	}
	return columns
}

// complete reports whether columns name a date and something to gather.
func complete(columns []heading) bool {
	has := func(wanted func(role) bool) bool {
		return slices.ContainsFunc(columns, func(h heading) bool { return wanted(h.role) })
	}
	return has(func(found role) bool { return found == roleDate || found == roleTime }) && has(isValue)
}

// written returns the rows in which something is written.
func written(rows []row) []row {
	return slices.DeleteFunc(slices.Clone(rows), row.empty)
}

// namedColumns takes the names of the columns from the keeper.
func (r *reader) namedColumns(rows []row) (int, bool) {
	for _, name := range r.Says.Columns {
		h := heading{written: name}
		if name != "-" && name != "" {
			h = understand(name)
			if h.role == roleNone {
				r.ask(fmt.Sprintf("--columns: %q is nothing that a column can hold", name),
					"use "+strings.Join(roleNames(), ", ")+", or - for a column to pass over")
				return 0, false
			}
		}
		r.columns = append(r.columns, h)
	}
	if !complete(r.columns) {
		r.ask("--columns names no date, or nothing that is measured or counted",
			"such as: --columns date,temperature,-")
		return 0, false
	}
	date := r.column(roleDate)
	if date < 0 {
		date = r.column(roleTime)
	}
	for i, row := range rows {
		if dated(row.at(date)) {
			r.rows = written(rows[i:])
			return max(row.line-1, 0), true
		}
	}
	r.ask(fmt.Sprintf("%s: column %d holds no date", r.Name, date+1), "look at --columns")
	return 0, false
}

// roleNames lists what a column can hold.
func roleNames() []string {
	names := []string{string(roleDate), string(roleTime), string(roleTank), string(roleCount),
		string(roleMethod), string(roleNote)}
	for _, word := range append(journal.Words().Readings, journal.Words().Classes...) {
		names = append(names, word.Name)
	}
	return names
}

// dated reports whether a field holds a date in any order.
func dated(text string) bool {
	for _, order := range []Order{DayFirst, MonthFirst, YearFirst} {
		if _, ok := readDate(text, order); ok {
			return true
		}
	}
	return false
}

// unitRow takes the units from a row of units below the header.
func (r *reader) unitRow() {
	if len(r.rows) == 0 {
		return
	}
	columns, found := slices.Clone(r.columns), false
	for i := range columns {
		text := strings.Trim(r.rows[0].at(i), "()[]")
		if strings.ContainsAny(text, "0123456789") && !strings.Contains(text, "CaCO3") {
			return
		}
		before := columns[i].unit
		columns[i].readUnit(text)
		found = found || columns[i].unit != before
	}
	if found {
		r.columns, r.rows = columns, r.rows[1:]
	}
}

// tooWide asks when most rows have more fields than the header has names: a decimal comma between commas.
func (r *reader) tooWide() {
	wide := 0
	for _, row := range r.rows {
		for i := len(r.columns); i < len(row.cells); i++ {
			if row.cells[i].text != "" {
				wide++
				break
			}
		}
	}
	if r.separator == "commas" && 2*wide > len(r.rows) {
		r.ask(fmt.Sprintf("%s: the rows have more columns than the header; is the comma also the decimal mark, as in %q?", r.Name, strings.Join(texts(r.rows[0]), ",")),
			"save the table again with semicolons or tabs between its columns")
	}
}

// texts returns the fields of a row.
func texts(of row) []string {
	var all []string
	for _, c := range of.cells {
		all = append(all, c.text)
	}
	return all
}

// settleColumns decides which columns are used.
func (r *reader) settleColumns() {
	if r.column(roleDate) < 0 {
		r.columns[r.column(roleTime)].role = roleDate
	}
	for i := range r.columns {
		h := &r.columns[i]
		switch {
		case h.role != roleNone && h.role != roleNote && len(r.fields(i)) == 0:
			h.why = "nothing is written in it"
		case h.basis != "" && h.basis != r.journal.Settings.Ammonia:
			h.why = fmt.Sprintf("it counts %s, and journal.yaml says that your test reports %s; make ammonia-as: %s if the column is right", h.basis, r.journal.Settings.Ammonia, h.basis)
		}
	}
	r.settleTwins()
	if !slices.ContainsFunc(r.columns, func(h heading) bool { return h.why == "" && isValue(h.role) }) {
		r.ask(r.Name+": no column can be used", "see the columns and their units: "+r.whyNot())
	}
}

// whyNot lists why columns are not used.
func (r *reader) whyNot() string {
	var all []string
	for _, h := range r.columns {
		if h.why != "" {
			all = append(all, h.written+": "+h.why)
		}
	}
	return strings.Join(all, "; ")
}

// settleTwins asks when two columns hold the same. Of dates the first counts; a mean counts before its extremes.
func (r *reader) settleTwins() {
	for i := range r.columns {
		h := &r.columns[i]
		if h.role == roleNone || h.why != "" {
			continue
		}
		for j := i + 1; j < len(r.columns); j++ {
			twin := &r.columns[j]
			switch {
			case twin.role != h.role || twin.why != "":
			case h.role == roleDate || h.role == roleTime || h.role == roleNote:
				twin.why = "the column " + h.written + " says it"
			default:
				r.ask(fmt.Sprintf("%s: two columns hold %s: %q and %q", r.Name, h.role, h.written, twin.written),
					"name the one to use, and - for the other: --columns "+r.columnsWithout(j)+" or --columns "+r.columnsWithout(i))
				return
			}
		}
	}
}

// columnsWithout writes the answer to --columns that passes over one column.
func (r *reader) columnsWithout(left int) string {
	var all []string
	for i, h := range r.columns {
		name := string(h.role)
		if i == left || h.role == roleNone || h.why != "" {
			name = "-"
		}
		all = append(all, name)
	}
	return strings.Join(all, ",")
}
