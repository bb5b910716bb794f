package gather

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"pleopod/journal"
)

// Order is how the parts of a date follow each other.
type Order string

// The orders.
const (
	YearFirst  Order = "year-first"
	DayFirst   Order = "day-first"
	MonthFirst Order = "month-first"
)

// moment is a day, with the time of the day where one was written.
type moment struct {
	day   journal.Day
	clock string // "08:00" or "08:00:30", or ""
}

func (m moment) String() string {
	if m.clock == "" {
		return m.day.String()
	}
	return m.day.String() + " " + m.clock
}

// The shapes of dates. What follows the date is a time of the day.
var (
	isoDate     = regexp.MustCompile(`^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})\.?(?:[T ,]+(.*))?$`)
	shortDate   = regexp.MustCompile(`^(\d{1,2})([-/.]) ?(\d{1,2})[-/.] ?(\d{2}|\d{4})(?:[T ,]+(.*))?$`)
	namedDate   = regexp.MustCompile(`^(\d{1,2})\.?[- ](?:de )?(\pL{3,})\.?[- ,]+(?:de )?(\d{4})(?:[T ,]+(.*))?$`)
	namedFirst  = regexp.MustCompile(`^(\pL{3,})\.? (\d{1,2})(?:st|nd|rd|th)?,? (\d{4})(?:[T ,]+(.*))?$`)
	chineseDate = regexp.MustCompile(`^(\d{4})年(\d{1,2})月(\d{1,2})日(?: ?(.*))?$`)
	dayNumber   = regexp.MustCompile(`^(\d{5})(?:[.,](\d+))?$`)
	weekday     = regexp.MustCompile(`^\pL{2,}\.?,? +(\d.*)$`)
	clockShape  = regexp.MustCompile(`(?i)^(\d{1,2})[:.h](\d{2})(?:[:.](\d{2})(?:[.,]\d+)?)? ?([ap])?\.?(?:m\.?)?(?: ?(?:z|utc|[+-]\d{2}:?\d{2}))?$`)
)

// months is the first letters of the months in English, German, French, Spanish, Italian, Dutch, Portuguese and
// Swedish.
var months = map[string]time.Month{
	"jan": 1, "ene": 1, "gen": 1, "feb": 2, "fev": 2, "fèv": 2, "mar": 3, "mrz": 3, "maa": 3, "mae": 3, "mrt": 3, "apr": 4, "avr": 4, "abr": 4, "may": 5, "mai": 5, "mei": 5, "maj": 5, "mag": 5,
	"jun": 6, "juin": 6, "giu": 6, "jul": 7, "juil": 7, "lug": 7, "aug": 8, "aou": 8, "ago": 8, "sep": 9, "set": 9, "oct": 10, "okt": 10, "ott": 10, "out": 10, "nov": 11, "dec": 12, "dez": 12, "dic": 12,
}

// monthOf returns a month by its name.
func monthOf(name string) (time.Month, bool) {
	folded := fold(name)
	for _, length := range []int{4, 3} {
		if len(folded) >= length {
			if m, ok := months[folded[:length]]; ok {
				return m, true
			}
		}
	}
	return 0, false
}

// serialEpoch is day 0 of the day numbers of spreadsheets, for numbers above 60.
var serialEpoch = journal.NewDay(1899, time.December, 30)

// The day numbers of spreadsheets that are taken for dates: 1989-12-31 to 2079-06-06.
const firstSerial, lastSerial = 32873, 65536

// readDate reads one date. Dates whose order the text does not show are read in the given one.
func readDate(text string, order Order) (moment, bool) {
	if m := weekday.FindStringSubmatch(text); m != nil && !namedFirst.MatchString(text) {
		text = m[1]
	}
	if m := isoDate.FindStringSubmatch(text); m != nil {
		return momentOf(m[1], m[2], m[3], m[4])
	}
	if m := chineseDate.FindStringSubmatch(text); m != nil {
		return momentOf(m[1], m[2], m[3], m[4])
	}
	if m := namedDate.FindStringSubmatch(text); m != nil {
		return namedMoment(m[3], m[2], m[1], m[4])
	}
	if m := namedFirst.FindStringSubmatch(text); m != nil {
		return namedMoment(m[3], m[1], m[2], m[4])
	}
	if m := dayNumber.FindStringSubmatch(text); m != nil {
		return serialMoment(m[1], m[2])
	}
	m := shortDate.FindStringSubmatch(text)
	if m == nil {
		return moment{}, false
	}
	switch order {
	case DayFirst:
		return momentOf(m[4], m[3], m[1], m[5])
	case MonthFirst:
		return momentOf(m[4], m[1], m[3], m[5])
	case YearFirst:
		return momentOf(m[1], m[3], m[4], m[5])
	}
	return moment{}, false
}

func namedMoment(year, name, day, clock string) (moment, bool) {
	month, ok := monthOf(name)
	if !ok {
		return moment{}, false
	}
	return momentOf(year, strconv.Itoa(int(month)), day, clock)
}

// momentOf puts the parts of a date together, and refuses a day that does not exist. A year of two digits is in
// this century.
func momentOf(year, month, day, clock string) (moment, bool) {
	if len(year) > 4 || len(year) == 3 || len(day) > 2 {
		return moment{}, false
	}
	if len(year) <= 2 {
		year = fmt.Sprintf("20%02s", year)
	}
	d, err := journal.ParseDay(fmt.Sprintf("%s-%02s-%02s", year, month, day))
	if err != nil {
		return moment{}, false
	}
	time, ok := readClock(clock)
	return moment{d, time}, ok
}

// serialMoment reads the day number of a spreadsheet; its fraction is the time of the day.
func serialMoment(whole, fraction string) (moment, bool) {
	days, err := strconv.Atoi(whole)
	if err != nil || days < firstSerial || days > lastSerial {
		return moment{}, false
	}
	m := moment{day: serialEpoch + journal.Day(days)}
	if strings.Trim(fraction, "0") == "" {
		return m, true
	}
	part, err := strconv.ParseFloat("0."+fraction, 64)
	if err != nil {
		return moment{}, false
	}
	minutes := min(int(part*24*60+0.5), 24*60-1)
	m.clock = fmt.Sprintf("%02d:%02d", minutes/60, minutes%60)
	return m, true
}

// readClock reads a time of the day, and "" as none.
func readClock(text string) (string, bool) {
	text = strings.TrimSpace(text)
	if text == "" {
		return "", true
	}
	m := clockShape.FindStringSubmatch(text)
	if m == nil {
		return "", false
	}
	hour, _ := strconv.Atoi(m[1])
	minute, _ := strconv.Atoi(m[2])
	second, _ := strconv.Atoi("0" + m[3])
	switch half := strings.ToLower(m[4]); {
	case half != "" && (hour < 1 || hour > 12):
		return "", false
	case half == "a":
		hour %= 12
	case half == "p":
		hour = hour%12 + 12
	}
	if hour > 23 || minute > 59 || second > 59 {
		return "", false
	}
	if second == 0 {
		return fmt.Sprintf("%02d:%02d", hour, minute), true
	}
	return fmt.Sprintf("%02d:%02d:%02d", hour, minute, second), true
}

// firstYear is the first year that is written with two digits in front: a smaller number is a day or a month there.
const firstYear = 13

// ordersOf returns the orders in which every date of a column exists, and the first date whose order is open. A year of two
// digits stands last, unless every date begins with a number that is no month, or can be read in no other way.
func ordersOf(dates []string) (fits []Order, open string) {
	fits = []Order{DayFirst, MonthFirst, YearFirst}
	dotted, yearLeads := true, true
	for _, text := range dates {
		if m := weekday.FindStringSubmatch(text); m != nil {
			text = m[1]
		}
		m := shortDate.FindStringSubmatch(text)
		if m == nil || isoDate.MatchString(text) {
			continue
		}
		if open == "" {
			open = text
		}
		dotted = dotted && m[2] == "." && len(m[4]) == 4
		first, _ := strconv.Atoi(m[1])
		yearLeads = yearLeads && first >= firstYear
		fits = slices.DeleteFunc(fits, func(order Order) bool {
			_, ok := readDate(text, order)
			return !ok || (order == YearFirst && len(m[4]) == 4)
		})
	}
	if dotted && slices.Contains(fits, DayFirst) { // before a whole year, dots are written only where the day stands first
		fits = []Order{DayFirst}
	}
	if !yearLeads && len(fits) > 1 {
		fits = slices.DeleteFunc(fits, func(order Order) bool { return order == YearFirst })
	}
	return fits, open
}
