package gather

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strconv"
	"strings"

	"pleopod/journal"
	"pleopod/journal/water"
	"pleopod/journal/wording"
)

// logHeader begins the header row of logger files that gather writes and may add to.
const logHeader = "time,temperature "

// becomeLog adds what is new to the logger file of each tank.
func (r *reader) becomeLog(records []record) {
	byTank := map[string][]record{}
	var order []string
	for _, found := range records {
		if _, known := byTank[found.tank]; !known {
			order = append(order, found.tank)
		}
		byTank[found.tank] = append(byTank[found.tank], found)
	}
	for _, id := range order {
		r.logOf(r.journal.Settings.Tank(id), byTank[id])
	}
}

// logLine is one temperature of a logger file.
type logLine struct {
	time    string
	celsius float64
}

// key tells two temperatures apart. A hundredth of a degree is finer than any logger.
func (l logLine) key() string { return fmt.Sprintf("%s %.2f", l.time, l.celsius) }

// logOf adds the new temperatures of one tank.
func (r *reader) logOf(tank *journal.Tank, records []record) {
	path := tank.LogFile
	if path == "" {
		path = "readings/" + tank.ID + ".csv"
		r.result.Advice = append(r.result.Advice,
			fmt.Sprintf("add to journal.yaml, below %s: temperature-log: %s", tank.ID, path))
	}
	before, err := fs.ReadFile(r.folder, path)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		r.ask(path+" cannot be read", "look at the file; a logger file is text")
		return
	}
	unit := "C"
	if n := records[0].values[0].number.unit; n == "F" {
		unit = n
	}
	seen, unit, ok := loggedBefore(string(before), unit)
	if !ok {
		r.ask(path+" is there already, in another form than gather writes, and nothing of yours is changed",
			fmt.Sprintf("rename it, gather both files again, and both are in a new %s", path))
		return
	}
	r.addLog(path, string(before), unit, seen, records)
}

// loggedBefore reads a file that gather wrote earlier: its temperatures, and its unit. An empty file has the
// unit given.
func loggedBefore(text, unit string) (seen map[string]bool, _ string, ok bool) {
	seen = map[string]bool{}
	if text == "" {
		return seen, unit, true
	}
	header, rest, _ := strings.Cut(text, "\n")
	unit, ours := strings.CutPrefix(strings.TrimSpace(header), logHeader)
	unit = strings.Trim(unit, "()")
	if !ours || (unit != "C" && unit != "F") {
		return nil, "", false
	}
	for line := range strings.Lines(rest) {
		time, number, _ := strings.Cut(strings.TrimSpace(line), ",")
		if celsius, err := journal.ParseQuantity(number+" "+unit, journal.QuantityTemperature, journal.MetricUnits()); err == nil {
			seen[logLine{time, celsius}.key()] = true
		}
	}
	return seen, unit, true
}

// addLog writes the temperatures that are not in the file yet.
func (r *reader) addLog(path, before, unit string, seen map[string]bool, records []record) {
	var text strings.Builder
	text.WriteString(before)
	if before == "" {
		text.WriteString(logHeader + "(" + unit + ")\n")
	} else if !strings.HasSuffix(before, "\n") {
		text.WriteByte('\n')
	}
	var added []logLine
	for _, found := range records {
		n := found.values[0].number
		celsius, err := journal.ParseQuantity(n.text+" "+n.unit, journal.QuantityTemperature, journal.MetricUnits())
		if err != nil || n.below {
			r.leaveOut(found.row, found.values[0].column,
				quote(found.at(found.values[0].column))+" is no temperature of a tank",
				"a gap in the readings does no harm: delete the row, or let it be left out")
			continue
		}
		line := logLine{found.moment.String(), celsius}
		if seen[line.key()] {
			r.result.Known++
			continue
		}
		seen[line.key()] = true
		added = append(added, line)
		text.WriteString(line.time + "," + inUnit(n, celsius, unit) + "\n")
	}
	if len(added) > 0 {
		r.result.Files = append(r.result.Files,
			File{Path: path, Text: text.String(), About: aboutLog(added), Grows: before != ""})
	}
}

// inUnit writes a temperature in the unit of the file: as it was written where the units agree.
func inUnit(n number, celsius float64, unit string) string {
	switch {
	case n.unit == unit:
		return n.text
	case unit == "F":
		return strconv.FormatFloat(water.Fahrenheit(celsius), 'f', 2, 64)
	}
	return strconv.FormatFloat(celsius, 'f', 2, 64)
}

// aboutLog says what a logger file gets.
func aboutLog(added []logLine) string {
	byTime := func(a, b logLine) int { return strings.Compare(a.time, b.time) }
	byHeat := func(a, b logLine) int { return int(1000 * (a.celsius - b.celsius)) }
	first, last := slices.MinFunc(added, byTime), slices.MaxFunc(added, byTime)
	return fmt.Sprintf("%s, %s to %s, %.1f to %.1f °C",
		wording.Count(len(added), "temperature", "temperatures"), first.time[:10], last.time[:10],
		slices.MinFunc(added, byHeat).celsius, slices.MaxFunc(added, byHeat).celsius)
}
