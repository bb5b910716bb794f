package journal

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
)

// ParseLog reads a temperature logger's file and averages it per day. A bare number has the journal's unit unless the
// header names one. Problems are sorted; a row that cannot be read is left out.
func ParseLog(path string, source []byte, units Units) ([]LoggedDay, []Problem) {
	p := &page{path: path, units: units}
	days := p.log(source)
	return days, p.sorted()
}

// logColumns says where in a row the two columns stand, and how numbers are written.
type logColumns struct {
	separator         string
	time, temperature int
	unit              unit
}

// timeWords and temperatureWords are the column names that are understood.
var (
	timeWords        = []string{"time", "date", "timestamp"}
	temperatureWords = []string{"temperature"}
)

func (p *page) log(source []byte) []LoggedDay {
	source, ok := p.clean(source, maxLogBytes)
	if !ok {
		return nil
	}
	lines := strings.Split(string(source), "\n")
	start := slices.IndexFunc(lines, func(line string) bool { return strings.TrimSpace(line) != "" })
	if start < 0 {
		p.fail(p.place(1, 1), issue{code: "logger-header", message: "the file is empty; it needs a header row with time and temperature"})
		return nil
	}
	columns, ok := p.logHeader(lines[start], start+1)
	if !ok {
		return nil
	}
	byDay := map[Day]*LoggedDay{}
	seen := map[string]bool{} // a logger read out twice repeats its rows
	for i, line := range lines[start+1:] {
		if strings.TrimSpace(line) == "" || seen[line] {
			continue
		}
		seen[line] = true
		day, celsius, ok := p.logRow(columns, line, start+i+2)
		if !ok {
			continue
		}
		d := byDay[day]
		if d == nil {
			d = &LoggedDay{Position: p.place(start+i+2, 1), Day: day, Min: celsius, Max: celsius}
			byDay[day] = d
		}
		d.Mean += (celsius - d.Mean) / float64(d.Samples+1)
		d.Min, d.Max, d.Samples = min(d.Min, celsius), max(d.Max, celsius), d.Samples+1
	}
	days := make([]LoggedDay, 0, len(byDay))
	for _, d := range byDay {
		days = append(days, *d)
	}
	slices.SortFunc(days, func(a, b LoggedDay) int { return int(a.Day - b.Day) })
	return days
}

func (p *page) logHeader(line string, number int) (logColumns, bool) {
	columns := logColumns{separator: ",", time: -1, temperature: -1}
	for _, separator := range []string{"\t", ";"} {
		if strings.Contains(line, separator) {
			columns.separator = separator
			break
		}
	}
	columns.unit, _ = p.units.bareUnit(QuantityTemperature)
	for i, field := range logFields(line, columns.separator) {
		name, unitText, _ := strings.Cut(strings.ToLower(field), "(")
		name = strings.TrimSpace(name)
		switch {
		case slices.Contains(timeWords, name) && columns.time < 0:
			columns.time = i
		case slices.Contains(temperatureWords, name) && columns.temperature < 0:
			columns.temperature = i
			if unitText = strings.TrimSpace(strings.TrimSuffix(unitText, ")")); unitText != "" {
				u, ok := measureOf(QuantityTemperature).find(unitText)
				if !ok {
					p.fail(p.place(number, 1), issue{code: "logger-header", message: "the unit " + quote(unitText) + " of the temperature is unknown; allowed: " + either(measureOf(QuantityTemperature).symbols())})
					return columns, false
				}
				columns.unit = u
			}
		}
	}
	if columns.time < 0 || columns.temperature < 0 {
		p.fail(p.place(number, 1), issue{code: "logger-header", message: "the header is " + quote(line) + `; it needs a column "time" and a column "temperature"`, hint: "for example: time,temperature (C)"})
		return columns, false
	}
	return columns, true
}

func logFields(line, separator string) []string {
	fields := strings.Split(line, separator)
	for i := range fields {
		fields[i] = strings.Trim(strings.TrimSpace(fields[i]), `"`)
	}
	return fields
}

// logRow reads one row. Positions point at the field that is wrong.
func (p *page) logRow(columns logColumns, line string, number int) (day Day, celsius float64, ok bool) {
	fields := logFields(line, columns.separator)
	if columns.separator == "," && len(fields) == max(columns.time, columns.temperature)+2 && columns.temperature == len(fields)-2 {
		// "2026-03-14 08:00,23,4": the comma of the number is also the one between columns.
		p.fail(p.place(number, fieldColumn(line, ",", columns.temperature)), issue{code: "decimal-comma", message: "the temperature has a decimal comma in a file whose columns are separated by commas", hint: "save the file with semicolons between its columns"})
		return 0, 0, false
	}
	if len(fields) <= max(columns.time, columns.temperature) {
		p.fail(p.place(number, 1), issue{code: "logger-row", message: "the row " + quote(line) + " has too few columns"})
		return 0, 0, false
	}
	day, ok = logDay(fields[columns.time])
	if !ok {
		p.fail(p.place(number, fieldColumn(line, columns.separator, columns.time)), issue{code: "logger-row", message: "the time is " + quote(fields[columns.time]) + "; it is written like 2026-03-14 08:30", hint: dateHint(fields[columns.time])})
		return 0, 0, false
	}
	text := fields[columns.temperature]
	if columns.separator != "," {
		text = strings.Replace(text, ",", ".", 1)
	}
	value, err := strconv.ParseFloat(text, 64)
	celsius = columns.unit.base(value)
	if err != nil || !(celsius >= 0 && celsius <= 45) {
		p.fail(p.place(number, fieldColumn(line, columns.separator, columns.temperature)), issue{code: "logger-row", message: fmt.Sprintf("the temperature is %s; it takes a number, and water is 0 to 45 C", quote(fields[columns.temperature]))})
		return 0, 0, false
	}
	return day, celsius, true
}

// logTimes is ISO 8601 with a T or a space; seconds and zone may be left out.
var logTimes = []string{"2006-01-02T15:04:05", "2006-01-02T15:04", "2006-01-02T15", "2006-01-02", "2006-01-02T15:04:05Z07:00", "2006-01-02T15:04Z07:00", "2006-01-02T15:04:05Z0700", "2006-01-02T15:04:05Z07"}

// logDay returns the day as it is written, whatever the zone.
func logDay(text string) (Day, bool) {
	if len(text) > 10 && text[10] == ' ' {
		text = text[:10] + "T" + strings.ReplaceAll(text[11:], " ", "")
	}
	for _, layout := range logTimes {
		if t, err := time.Parse(layout, text); err == nil {
			return DayAt(t), true
		}
	}
	return 0, false
}

// fieldColumn returns the column, in code points, of a field of a line.
func fieldColumn(line, separator string, field int) int {
	parts := strings.Split(line, separator)
	column := 1
	for i := 0; i < field && i < len(parts); i++ {
		column += len([]rune(parts[i])) + 1
	}
	return column
}
