package gather

import (
	"strconv"
	"strings"

	"pleopod/journal"
	"pleopod/journal/wording"
)

// record is one row that was understood.
type record struct {
	row
	moment
	tank   string
	values []reading // in the order of the columns
	method string
	note   string
}

// reading is one number of a row.
type reading struct {
	role   role
	column int
	number number
}

// records reads every row. Rows that cannot be read are reported and left out.
func (r *reader) records() []record {
	var all []record
	last := record{}
	var noted []string // lines
	for _, row := range r.rows {
		if !r.anyValue(row) {
			if r.onlyNoted(row) {
				noted = append(noted, strconv.Itoa(row.line))
			}
			continue
		}
		found, ok := r.record(row, last)
		if ok {
			all = append(all, found)
			last = found
		}
	}
	if r.filled > 0 {
		r.fact("merged cells", "%s taken from the row above",
			wording.Count(r.filled, "empty date or tank is", "empty dates and tanks are"))
	}
	if len(noted) > 0 {
		r.fact("left out", "%s: line %s; write it into an entry", wording.Count(len(noted), "row that has a note and no number", "rows that have a note and no number"), few(noted))
	}
	return all
}

// few lists the first of many.
func few(all []string) string {
	const most = 5
	if len(all) <= most {
		return strings.Join(all, ", ")
	}
	return strings.Join(all[:most], ", ") + " and so on"
}

// anyValue reports whether a row holds something to gather.
func (r *reader) anyValue(of row) bool {
	for i, h := range r.columns {
		if h.why == "" && isValue(h.role) && !isAbsent(of.at(i)) {
			return true
		}
	}
	return false
}

// record reads one row. A date or a tank that is left out is that of the row above, as merged cells are saved.
func (r *reader) record(of row, above record) (record, bool) {
	found := record{row: of, tank: r.Says.Tank}
	if !r.readMoment(&found, above) || !r.readTank(&found, above) {
		return found, false
	}
	for i, h := range r.columns {
		text := of.at(i)
		switch {
		case h.why != "" || isAbsent(text):
		case h.role == roleMethod:
			found.method = strings.ToLower(text)
		case h.role == roleNote:
			found.note = text
		case isValue(h.role):
			n, ok := readNumber(text, r.decimal)
			if !ok {
				r.leaveOut(of, i, quote(text)+" is no number for "+string(h.role),
					"write a number, < and a number, or leave the field empty when nothing was measured")
				return found, false
			}
			if n.unit == "" {
				n.unit = h.unit
			}
			if h.role == role(journal.Temperature) && n.unit == "" {
				n.unit = r.unit
			}
			found.values = append(found.values, reading{h.role, i, n})
		}
	}
	return found, len(found.values) > 0
}

func (r *reader) readMoment(found *record, above record) bool {
	column := r.column(roleDate)
	text := found.at(column)
	if text == "" && above.day != 0 {
		found.moment = moment{day: above.day}
		r.filled++
		return true
	}
	m, ok := readDate(text, r.order)
	if !ok {
		r.leaveOut(found.row, column, quote(text)+" is no date",
			"write it as 2026-03-14, or delete the row if it is a sum or a heading")
		return false
	}
	found.moment = m
	clock := r.column(roleTime)
	if clock < 0 || m.clock != "" || found.at(clock) == "" {
		return true
	}
	if found.clock, ok = readClock(found.at(clock)); !ok {
		r.leaveOut(found.row, clock, quote(found.at(clock))+" is no time of the day", "write it as 18:30")
	}
	return ok
}

func (r *reader) readTank(found *record, above record) bool {
	column := r.column(roleTank)
	if column < 0 {
		return true
	}
	text := found.at(column)
	if text == "" && above.tank != "" && found.day == above.day && found.at(r.column(roleDate)) == "" {
		found.tank = above.tank
		return true
	}
	var known []string
	for _, tank := range r.journal.Settings.Tanks {
		if fold(text) == fold(tank.ID) || fold(text) == fold(tank.Name) {
			found.tank = tank.ID
			return true
		}
		known = append(known, tank.ID, tank.Name)
	}
	hint := "use the ids of journal.yaml, such as " + known[0]
	if near := journal.Nearest(text, known); near != "" {
		hint = "did you mean " + quote(near) + "?"
	}
	r.leaveOut(found.row, column, quote(text)+" is no tank of the journal", hint)
	return false
}

// quote writes what was found, short.
func quote(text string) string {
	if runes := []rune(text); len(runes) > 60 {
		text = string(runes[:59]) + "…"
	}
	return `"` + text + `"`
}
