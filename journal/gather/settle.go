package gather

import (
	"fmt"
	"slices"
	"strings"

	"pleopod/journal"
)

// settleDates finds the order of the parts of a date.
func (r *reader) settleDates() {
	dates := r.fields(r.column(roleDate))
	fits, open := ordersOf(dates)
	switch {
	case r.Says.Dates != "":
		r.order = r.Says.Dates
		r.fact("dates", "%s, as you say", r.order)
	case open == "":
		r.order = YearFirst
		if first := slices.IndexFunc(dates, dayNumber.MatchString); first >= 0 {
			m, _ := readDate(dates[first], "")
			r.fact("dates", "day numbers of a spreadsheet: %s is %s", dates[first], m.day)
		}
	case len(fits) == 1:
		r.order = fits[0]
		m, _ := readDate(open, r.order)
		r.fact("dates", "%s: %s is %s", r.order, open, m.day)
	case len(fits) == 0:
		r.ask(r.Name+": the dates contradict each other; in no order do all of them exist",
			"look for slips in the column, or say the order that most have: --dates day-first, --dates month-first or --dates year-first")
	default:
		var readings, flags []string
		for _, order := range fits {
			m, _ := readDate(open, order)
			readings = append(readings, m.day.Time().Format("2 January 2006"))
			flags = append(flags, "--dates "+string(order))
		}
		r.ask(fmt.Sprintf("%s: is %s the %s?", r.Name, open, strings.Join(readings, " or the ")),
			"add "+strings.Join(flags, " or "))
	}
}

// settleNumbers finds the decimal mark.
func (r *reader) settleNumbers() {
	var fields []string
	for i, h := range r.columns {
		if h.why == "" && isValue(h.role) {
			fields = append(fields, r.fields(i)...)
		}
	}
	shown, open := marksOf(fields)
	switch {
	case r.Says.Decimal != "":
		r.decimal = r.Says.Decimal
		r.fact("numbers", "decimal %s, as you say", r.decimal)
	case shown != "":
		r.decimal = shown
		r.fact("numbers", "decimal %s", shown)
	case open == "":
		r.decimal = Point
	case r.onlyOneReading():
		r.fact("numbers", "decimal %s, because %s could not be true otherwise", r.decimal, open)
	default:
		whole, _ := readNumber(open, other(open))
		part, _ := readNumber(open, same(open))
		r.ask(fmt.Sprintf("%s: is %s the number %s, or %s?", r.Name, open, part.text, whole.text),
			fmt.Sprintf("add --decimal %s for %s, or --decimal %s for %s", same(open), part.text, other(open),
				whole.text))
	}
}

// same is the decimal mark that makes an open number a small one.
func same(open string) Mark {
	if strings.Contains(open, ",") {
		return Comma
	}
	return Point
}

// other is the decimal mark that makes an open number thousands.
func other(open string) Mark {
	if same(open) == Comma {
		return Point
	}
	return Comma
}

// onlyOneReading decides the decimal mark by what the readings can be: 23.456 as a temperature is no 23456 degrees.
func (r *reader) onlyOneReading() bool {
	var fits []Mark
	for _, decimal := range []Mark{Point, Comma} {
		if r.everythingPossible(decimal) {
			fits = append(fits, decimal)
		}
	}
	if len(fits) != 1 {
		return false
	}
	r.decimal = fits[0]
	return true
}

func (r *reader) everythingPossible(decimal Mark) bool {
	for i, h := range r.columns {
		if h.why != "" || !isValue(h.role) {
			continue
		}
		word := readingWord(h.role)
		if word == nil {
			word = &journal.Word{Name: string(h.role), Form: journal.FormWhole}
		}
		for _, text := range r.fields(i) {
			n, ok := readNumber(text, decimal)
			if ok && (!possible(word, n.text, n.unit) || (word.Form == journal.FormWhole && strings.Contains(n.text, "."))) {
				return false
			}
		}
	}
	return true
}

// The temperatures of water that only one scale can have in a tank of dwarf shrimp. Common practice, no source.
const (
	coldestC, warmestC = 8, 38
	coldestF, warmestF = 46, 100
	mostly             = 19 // times as many as of the other scale
)

// settleUnit finds the unit of temperatures that have none.
func (r *reader) settleUnit() {
	column := r.column(role(journal.Temperature))
	if column < 0 || r.columns[column].unit != "" {
		return
	}
	if r.Says.Unit != "" {
		r.columns[column].unit = r.Says.Unit
		return
	}
	celsius, fahrenheit, bare := 0, 0, 0
	open := ""
	for _, text := range r.fields(column) {
		n, ok := readNumber(text, r.decimal)
		if !ok || n.unit != "" {
			continue
		}
		value, err := journal.ParseQuantity(n.text, journal.QuantityNumber, journal.MetricUnits())
		bare++
		switch {
		case err != nil:
		case value >= coldestC && value <= warmestC:
			celsius++
		case value >= coldestF && value <= warmestF:
			fahrenheit++
		case open == "":
			open = text
		}
	}
	switch {
	case bare == 0:
	case celsius > mostly*fahrenheit: // a few others may be a sensor that failed
		r.unit = "C"
	case fahrenheit > mostly*celsius:
		r.unit = "F"
	default:
		r.ask(r.Name+": the temperatures have no unit, and their values do not show it", "add --unit C or --unit F")
	}
}

// settleTank finds out whose values they are.
func (r *reader) settleTank() {
	tanks := r.journal.Settings.Tanks
	switch {
	case r.column(roleTank) >= 0 && r.Says.Tank != "":
		r.ask(r.Name+": the table has a column of tanks", "leave --tank out, or pass over the column with --columns")
	case r.column(roleTank) >= 0:
	case r.Says.Tank != "":
		r.fact("tank", "%s, as you say", r.Says.Tank)
	case len(tanks) == 1:
		r.Says.Tank = tanks[0].ID
		r.fact("tank", "%s, the only one", r.Says.Tank)
	default:
		var flags []string
		for _, tank := range tanks {
			flags = append(flags, "--tank "+tank.ID)
		}
		r.ask(r.Name+": whose values are they? The table has no column of tanks", "add "+strings.Join(flags, " or "))
	}
}
