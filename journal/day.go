package journal

import (
	"fmt"
	"regexp"
	"time"
)

// Day is a calendar day without a zone, counted from 1 for 0001-01-01 in the proleptic Gregorian calendar
// (the "fixed day" of Reingold & Dershowitz, Calendrical Calculations). The zero Day is no day at all.
// Subtracting two days gives the number of days between them.
type Day int32

// unixEpoch is the Day of 1970-01-01.
const unixEpoch Day = 719163

// NewDay returns the day of a Gregorian date. Months and days outside their range carry over, as in time.Date.
func NewDay(year int, month time.Month, day int) Day {
	return DayAt(time.Date(year, month, day, 0, 0, 0, 0, time.UTC))
}

// DayAt returns the day that t shows on its own calendar, whatever its zone.
func DayAt(t time.Time) Day {
	year, month, day := t.Date()
	return unixEpoch + Day(time.Date(year, month, day, 0, 0, 0, 0, time.UTC).Unix()/86400)
}

// ParseDay reads a day written as YYYY-MM-DD, the extended form of ISO 8601. Years run from 0001 to 9999.
func ParseDay(text string) (Day, error) {
	t, err := time.Parse(time.DateOnly, text)
	if err != nil || t.Year() < 1 {
		return 0, fmt.Errorf("%q is not a date like 2026-03-14", text)
	}
	return DayAt(t), nil
}

// namedDay is a day in the path of a file: "entries/2026-03-14-eggs.md", "entries/2026/03-14.md".
var namedDay = regexp.MustCompile(`(?:^|/)(\d{4})[-/](\d{2})[-/](\d{2})(?:[^/\d][^/]*)?$`)

// dayOfName returns the day that a file is named after, or no day.
func dayOfName(path string) Day {
	m := namedDay.FindStringSubmatch(path)
	if m == nil {
		return 0
	}
	day, err := ParseDay(m[1] + "-" + m[2] + "-" + m[3])
	if err != nil {
		return 0
	}
	return day
}

// ReadDay is ParseDay for what a person typed: its error proposes the day that was meant.
func ReadDay(text string) (Day, error) {
	day, err := ParseDay(text)
	if err == nil {
		return day, nil
	}
	if hint := dateHint(text); hint != "" {
		return 0, fmt.Errorf("%w; %s", err, hint)
	}
	return 0, err
}

// Time returns midnight UTC of the day, for the formatting and calendar functions of package time.
func (d Day) Time() time.Time { return time.Unix(int64(d-unixEpoch)*86400, 0).UTC() }

// String returns the day as YYYY-MM-DD, and "" for no day.
func (d Day) String() string {
	if d == 0 {
		return ""
	}
	return d.Time().Format(time.DateOnly)
}

// MarshalText writes the day as String does.
func (d Day) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// UnmarshalText reads what MarshalText writes.
func (d *Day) UnmarshalText(text []byte) (err error) {
	if len(text) == 0 {
		*d = 0
		return nil
	}
	*d, err = ParseDay(string(text))
	return err
}
