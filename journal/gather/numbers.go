package gather

import (
	"regexp"
	"slices"
	"strings"

	"pleopod/journal"
)

// Mark is what stands between the whole part of a number and its decimals.
type Mark string

// The decimal marks, as flags write them.
const (
	Point Mark = "point"
	Comma Mark = "comma"
)

var (
	// numberText is a number with its sign, its marks and what follows.
	numberText = regexp.MustCompile(`^(<?) ?([+-]?)((?:\d[\d.,' ]*\d|\d)|[.,]\d+) ?([^\d\s.,<+–-].*)?$`)
	openMark   = regexp.MustCompile(`^[1-9]\d{0,2}([.,])\d{3}$`)
)

// absent is what people write into a field that has no value.
var absent = []string{"", "-", "--", "–", "—", "n/a", "na", "n.a.", "none", "k.a.", "x", "/", "?", "nan",
	"null", "#n/a", "not tested"}

// isAbsent reports whether a field says that nothing was measured.
func isAbsent(text string) bool { return slices.Contains(absent, strings.ToLower(text)) }

// number is a number as it stands in a field.
type number struct {
	below bool   // "<0.25"
	text  string // with a decimal point and nothing else between its digits
	unit  string // what follows, or ""
}

// readNumber reads the number of a field with a decimal mark.
func readNumber(text string, decimal Mark) (number, bool) {
	m := numberText.FindStringSubmatch(text)
	if m == nil {
		return number{}, false
	}
	digits, ok := plainDigits(strings.TrimSpace(m[3]), decimal)
	if !ok {
		return number{}, false
	}
	sign := strings.TrimPrefix(m[2], "+")
	return number{below: m[1] != "", text: sign + digits, unit: strings.TrimSpace(m[4])}, true
}

// grouped is digits in groups of three.
var grouped = regexp.MustCompile(`^\d{1,3}([.,' ]\d{3})+$`)

// plainDigits takes the marks between thousands away and turns the decimal mark into a point. Where the text itself
// shows its decimal mark, such as 23,4 or 1.234,5, the text decides.
func plainDigits(digits string, decimal Mark) (string, bool) {
	if own := shownMark(digits); own != "" {
		decimal = own
	}
	point, thousands := ".", ","
	if decimal == Comma {
		point, thousands = ",", "."
	}
	whole, decimals, found := strings.Cut(digits, point)
	if strings.ContainsAny(decimals, ".,' ") {
		return "", false
	}
	if strings.ContainsAny(whole, thousands+"' ") && !grouped.MatchString(whole) {
		return "", false
	}
	whole = strings.NewReplacer(thousands, "", "'", "", " ", "").Replace(whole)
	if whole == "" {
		whole = "0"
	}
	if !found || decimals == "" {
		return whole, true
	}
	return whole + "." + decimals, true
}

// shownMark returns the decimal mark that a number shows beyond doubt, or "".
func shownMark(digits string) Mark {
	comma, point := strings.LastIndexByte(digits, ','), strings.LastIndexByte(digits, '.')
	switch {
	case comma < 0 && point < 0, openMark.MatchString(digits):
		return ""
	case comma >= 0 && point >= 0 && comma > point:
		return Comma
	case comma >= 0 && point >= 0:
		return Point
	case strings.Count(digits, ",") > 1: // 1,234,567
		return Point
	case strings.Count(digits, ".") > 1:
		return Comma
	case comma >= 0:
		return Comma
	}
	return Point
}

// marksOf returns the decimal mark that the numbers of a table show, "" when none does, and a number that could be read
// in two ways.
func marksOf(fields []string) (shown Mark, open string) {
	seen := map[Mark]int{}
	for _, text := range fields {
		m := numberText.FindStringSubmatch(text)
		if m == nil {
			continue
		}
		digits := strings.TrimSpace(m[3])
		if own := shownMark(digits); own != "" {
			seen[own]++
		} else if openMark.MatchString(digits) && open == "" {
			open = digits
		}
	}
	switch {
	case seen[Comma] > 0 && seen[Point] == 0:
		return Comma, open
	case seen[Point] > 0 && seen[Comma] == 0:
		return Point, open
	}
	return "", open
}

// possible reports whether a number can be a value of the reading at all, as a keeper would write it.
func possible(word *journal.Word, text, unit string) bool {
	low, high := journal.Reach(*word)
	value, err := journal.ParseQuantity(text, journal.QuantityNumber, journal.MetricUnits())
	return err == nil && value >= low && value <= high && (unit == "" || word.Quantity != journal.QuantityTemperature || value <= 113)
}
