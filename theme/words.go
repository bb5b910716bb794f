package theme

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
)

// shortDay writes a day as "14 Mar".
func shortDay(d journal.Day) string { return d.Time().Format("2 Jan") }

// span writes a stretch of days without saying anything twice: "12 to 18 April 2026".
func span(from, to journal.Day) string {
	a, b := from.Time(), to.Time()
	switch {
	case from == to:
		return wording.Date(from)
	case a.Year() != b.Year():
		return wording.Date(from) + " to " + wording.Date(to)
	case a.Month() != b.Month():
		return a.Format("2 January") + " to " + wording.Date(to)
	}
	return a.Format("2") + " to " + wording.Date(to)
}

// smallNumbers are written out, as in prose.
var smallNumbers = []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
	"eleven", "twelve"}

// inWords writes a whole number as prose does: words up to twelve, then figures.
func inWords(n int) string {
	if n >= 0 && n < len(smallNumbers) {
		return smallNumbers[n]
	}
	return strconv.Itoa(n)
}

// several writes a number in words with its noun.
func several(n int, one, other string) string {
	if n == 1 {
		return "one " + one
	}
	return inWords(n) + " " + other
}

// age writes a number of days in the unit a keeper would use.
func age(days int) string {
	switch {
	case days < 0:
		return "not yet"
	case days < 21:
		return wording.Count(days, "day", "days")
	case days < 70:
		return wording.Count(int(math.Round(float64(days)/7)), "week", "weeks")
	case days < 730:
		return wording.Count(wording.Months(days), "month", "months")
	}
	return wording.Number(float64(days)/365.25, 1) + " years"
}

// whole rounds a number of shrimp.
func whole(n float64) int { return int(math.Round(n)) }

// numbers writes an estimate with its central 90 %: "about 56 (41 to 74)".
func numbers(q forecast.Quantiles) string {
	if whole(q.P05) == whole(q.P95) {
		return strconv.Itoa(whole(q.P50))
	}
	return fmt.Sprintf("about %d (%d to %d)", whole(q.P50), whole(q.P05), whole(q.P95))
}

// sureNumbers writes how many shrimp there are with how sure that is: "about 139 shrimp (9 in 10: 109 to 195)".
func sureNumbers(q forecast.Quantiles) string {
	if whole(q.P05) == whole(q.P95) {
		return strconv.Itoa(whole(q.P50)) + " shrimp"
	}
	return fmt.Sprintf("about %d shrimp (9 in 10: %d to %d)", whole(q.P50), whole(q.P05), whole(q.P95))
}

// dated reports whether a window has dates.
func dated(w forecast.Window) bool { return w.P50 != 0 }

// headCount writes a count and its classes: "10 shrimp (4 females, 3 males)".
func headCount(c journal.Count) string {
	text := strconv.Itoa(c.Total) + " shrimp"
	if classes := classes(c); c.Sorted && classes != "" {
		text += " (" + classes + ")"
	}
	return text
}

// classes writes the classes of a count that were told apart.
func classes(c journal.Count) string {
	var parts []string
	for _, class := range []struct {
		n          journal.Maybe[int]
		one, other string
	}{
		{c.Females, "female", "females"}, {c.Males, "male", "males"},
		{c.Juveniles, "juvenile", "juveniles"}, {c.Unsexed, "unsexed", "unsexed"},
	} {
		if class.n.Known {
			parts = append(parts, wording.Count(class.n.Value, class.one, class.other))
		}
	}
	return strings.Join(parts, ", ")
}

// excerpt cuts a text at a word, to at most limit characters.
func excerpt(text string, limit int) string {
	var short strings.Builder
	short.Grow(limit + 40)
	n := 0
	for word := range strings.FieldsSeq(text) {
		if n > 0 {
			short.WriteByte(' ')
			n++
		}
		short.WriteString(word)
		if n += utf8.RuneCountInString(word); n > limit {
			break
		}
	}
	if n <= limit {
		return short.String()
	}
	cut := string([]rune(short.String())[:limit])
	if at := strings.LastIndexByte(cut, ' '); at > limit/2 {
		cut = cut[:at]
	}
	return strings.TrimRight(cut, " ,.;:-–") + "\u00a0…"
}
