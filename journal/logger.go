package journal

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// ParseLog reads the file of a temperature logger and averages it by day: over time where the rows tell it,
// with straight lines between them, so that a logger which writes only changes, or a burst of rows, does not
// weigh more. A row counts for the day that is written in it, whatever its zone. The units say what a
// temperature column without a unit means. A row that repeats an earlier one is counted once, as when a logger
// was read out twice.
//
// A row that cannot be read, or whose temperature no tank can have (outside 0 to 45 °C, as when a sensor fails), is
// left out with a warning at its place; an empty temperature is a gap and left out without one.
func ParseLog(path string, source []byte, units Units) ([]LoggedDay, []Problem) {
	p := &page{path: path, units: units}
	if len(source) > maxLogBytes {
		p.fail(p.place(1, 1), issue{code: "too-long",
			message: fmt.Sprintf("the file has %d bytes; a logger file may have %d", len(source), maxLogBytes)})
		return nil, p.sorted()
	}
	text, ok := p.cleanText(source)
	if !ok {
		return nil, p.sorted()
	}
	log := &logReader{page: p, byDay: map[Day]*loggedRows{}}
	log.read(string(text))
	return log.days(), p.sorted()
}

// logReader reads one logger file.
type logReader struct {
	*page
	separator         byte
	time, temperature int // columns, counted from 0
	celsius           unit
	byDay             map[Day]*loggedRows
	skipped           int // rows that were left out
}

// logCell is one field of a row.
type logCell struct {
	text   string
	column int // in the line, in code points from 1
}

func (l *logReader) read(text string) {
	seen := map[string]bool{}
	number := 0
	header := false
	for line := range strings.Lines(text) {
		number++
		line = strings.TrimRight(line, " \n")
		switch {
		case strings.TrimSpace(line) == "":
		case len(line) > maxLogRow:
			l.leaveOut(l.place(number, 1),
				fmt.Sprintf("the row has %d bytes; at most %d are read", len(line), maxLogRow), "")
		case !header:
			header = true
			if !l.readHeader(line, number) {
				return
			}
		case !seen[line]:
			seen[line] = true
			l.readRow(line, number)
		}
	}
	if !header {
		l.fail(l.place(1, 1), issue{code: "log-header", message: "the file has no header row",
			hint: "its first line names the columns: time,temperature"})
	}
}

// cells splits a line into fields. A field in double quotes may hold the separator.
func (l *logReader) cells(line string) []logCell {
	var all []logCell
	column, start, quoted := 1, 0, false
	for i := 0; i <= len(line); i++ {
		if i < len(line) && line[i] == '"' {
			quoted = !quoted
		}
		if i < len(line) && (quoted || line[i] != l.separator) {
			continue
		}
		raw := line[start:i]
		inner := strings.TrimLeft(raw, " ")
		all = append(all, logCell{strings.Trim(strings.TrimSpace(raw), `"`), column + len(raw) - len(inner)})
		column += utf8.RuneCountInString(raw) + 1
		start = i + 1
	}
	return all
}

// columnUnit takes "temperature (F)" and "temperature [°C]" apart.
var columnUnit = regexp.MustCompile(`^(.*?)\s*[(\[]\s*(.*?)\s*[)\]]$`)

func (l *logReader) readHeader(line string, number int) bool {
	for _, mark := range []byte{'\t', ';', ','} {
		l.separator = mark
		if len(l.cells(line)) > 1 {
			break
		}
	}
	l.time, l.temperature = -1, -1
	l.celsius, _ = l.units.bareUnit(QuantityTemperature)
	for i, cell := range l.cells(line) {
		name, written := strings.ToLower(strings.TrimSpace(cell.text)), ""
		if m := columnUnit.FindStringSubmatch(name); m != nil {
			name, written = m[1], m[2]
		}
		switch {
		case l.time < 0 && slices.Contains([]string{"time", "date", "timestamp"}, name):
			l.time = i
		case l.temperature < 0 && name == "temperature":
			l.temperature = i
			if !l.readUnit(written, l.place(number, cell.column)) {
				return false
			}
		}
	}
	if l.time >= 0 && l.temperature >= 0 {
		return true
	}
	l.fail(l.place(number, 1), issue{code: "log-header",
		message: "the header " + quote(line) + " lacks a time column or a temperature column",
		hint:    `name one column "time", "date" or "timestamp" and one "temperature" or "temperature (F)"`})
	return false
}

// readUnit reads the unit of the temperature column.
func (l *logReader) readUnit(written string, at Position) bool {
	if written == "" {
		return true
	}
	u, ok := measureOf(QuantityTemperature).find(written)
	if !ok {
		l.fail(at, issue{code: "log-header",
			message: "unknown unit " + quote(written) + " of the temperature column; allowed: " + either([]string{"C", "F"})})
		return false
	}
	l.celsius = u
	return true
}

func (l *logReader) readRow(line string, number int) {
	cells := l.cells(line)
	if len(cells) <= max(l.time, l.temperature) {
		l.leaveOut(l.place(number, 1), fmt.Sprintf("the row has %s; its temperature is column %d", plural(len(cells), "column"), l.temperature+1), "")
		return
	}
	written := cells[l.temperature]
	at := l.place(number, written.column)
	if written.text == "" {
		return
	}
	if l.separator == ',' && l.temperature == len(cells)-2 && digits.MatchString(written.text) && wholeShape.MatchString(cells[l.temperature+1].text) {
		// "2026-03-14,23,4": the comma of the number is also the one between the columns.
		l.leaveOut(at, "the temperature has a decimal comma in a file whose columns are separated by commas",
			"save the file with semicolons between its columns")
		return
	}
	day, minute, ok := loggedTime(cells[l.time].text)
	if !ok {
		l.leaveOut(l.place(number, cells[l.time].column),
			quote(cells[l.time].text)+" is no time like 2026-03-14 or 2026-03-14 18:30", dateHint(cells[l.time].text))
		return
	}
	amount, ok := splitAmount(strings.Replace(written.text, ",", ".", 1))
	if !ok || amount.unit != "" {
		l.leaveOut(at, quote(written.text)+" is no temperature", "")
		return
	}
	celsius := l.celsius.base(amount.number)
	if low, high, _ := bounds(QuantityTemperature); celsius < low || celsius > high {
		l.leaveOut(at, quote(written.text)+" is no temperature of a tank", "")
		return
	}
	l.add(day, loggedRow{minute, celsius}, l.place(number, 1))
}

// leaveOut warns of a row that is left out. A file in the wrong form has thousands; the first ones tell enough.
func (l *logReader) leaveOut(at Position, why, hint string) {
	if l.skipped++; l.skipped > maxReportedInFile {
		return
	}
	l.warn(at, issue{code: "log-row", message: why + "; the row is left out", hint: hint})
}

// loggedRow is one reading of a day. The minute counts from midnight by the clock and is -1 where only the day
// is written.
type loggedRow struct {
	minute  int
	celsius float64
}

// loggedRows is the readings of one day.
type loggedRows struct {
	at   Position // of the first
	rows []loggedRow
}

// add puts one reading into its day.
func (l *logReader) add(day Day, row loggedRow, at Position) {
	if l.byDay[day] == nil {
		l.byDay[day] = &loggedRows{at: at}
	}
	l.byDay[day].rows = append(l.byDay[day].rows, row)
}

// sum returns the day that the rows make.
func (r *loggedRows) sum(day Day) LoggedDay {
	logged := LoggedDay{Position: r.at, Day: day, Samples: len(r.rows), Min: r.rows[0].celsius, Max: r.rows[0].celsius}
	for i, row := range r.rows {
		logged.Min, logged.Max = min(logged.Min, row.celsius), max(logged.Max, row.celsius)
		logged.Mean += (row.celsius - logged.Mean) / float64(i+1)
	}
	rows := slices.Clone(r.rows)
	slices.SortStableFunc(rows, func(a, b loggedRow) int { return a.minute - b.minute })
	first, last := rows[0].minute, rows[len(rows)-1].minute
	if first < 0 || first == last {
		return logged // nothing tells how long each row stood
	}
	var area float64
	for i, row := range rows[1:] {
		area += float64(row.minute-rows[i].minute) * (row.celsius + rows[i].celsius) / 2
	}
	logged.Mean = area / float64(last-first)
	return logged
}

// days returns the days in order, and says how many rows beyond the reported ones were left out.
func (l *logReader) days() []LoggedDay {
	if rest := l.skipped - maxReportedInFile; rest > 0 {
		last := l.problems[len(l.problems)-1].Position
		l.warn(l.place(last.Line+1, 1), issue{code: "log-row",
			message: plural(rest, "more row") + " further down cannot be read and are left out"})
	}
	var days []LoggedDay
	for day, rows := range l.byDay {
		days = append(days, rows.sum(day))
	}
	slices.SortFunc(days, func(a, b LoggedDay) int { return int(a.Day - b.Day) })
	return days
}

// timeShape is the extended form of ISO 8601 with T or a space: a day, optionally a time, optionally a zone.
var timeShape = regexp.MustCompile(`^(\d{4}-\d{2}-\d{2})(?:[T ]([01]\d|2[0-4])(?::([0-5]\d)(?::[0-5]\d(?:[.,]\d+)?)?)?\s*(?:Z|UTC|[+-]\d{2}(?::?\d{2})?)?)?$`)

// loggedTime returns the day that is written in a time, and the minute of it, -1 where there is none.
func loggedTime(text string) (Day, int, bool) {
	m := timeShape.FindStringSubmatch(strings.ToUpper(strings.TrimSpace(text)))
	if m == nil {
		return 0, 0, false
	}
	day, err := ParseDay(m[1])
	if err != nil || day.Time().Year() < firstYear || day.Time().Year() > lastYear {
		return 0, 0, false
	}
	minute := -1
	if m[2] != "" {
		hours, _ := strconv.Atoi(m[2]) // the shape holds digits
		minutes, _ := strconv.Atoi(m[3])
		minute = 60*hours + minutes
	}
	return day, minute, true
}
