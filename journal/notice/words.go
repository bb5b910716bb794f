package notice

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"pleopod/journal"
	"pleopod/journal/water"
)

// joined keeps a number and its unit on one line.
const joined = "\u00a0"

// date writes a day as "14 March 2026".
func date(d journal.Day) string { return d.Time().Format("2 January 2006") }

// number writes a number with at most so many decimals, without trailing zeros.
func number(x float64, decimals int) string {
	text := strconv.FormatFloat(x, 'f', decimals, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text == "-0" {
		return "0"
	}
	return strings.Replace(text, "-", "−", 1)
}

// leastChance is the smallest probability that is written as a number. Models of this kind are fitted to a few
// broods and readings, and cannot tell how rare anything rarer is; the data keep the number as it was computed.
const leastChance = 1e-3

// chance writes a probability as a beginner reads it: a percentage, or one in so many when it is small.
func chance(p float64) string {
	switch {
	case p >= 0.995:
		return "almost 100" + joined + "%"
	case p >= 0.095:
		return number(100*p, 0) + joined + "%"
	case p >= leastChance:
		return "about 1 in " + thousands(int(roundTo(1/p)))
	}
	return "less than 1 in 1,000"
}

// thousands writes a whole number with a comma before its last three digits where it has more.
func thousands(n int) string {
	if n < 1000 {
		return strconv.Itoa(n)
	}
	return fmt.Sprintf("%d,%03d", n/1000, n%1000)
}

// roundTo rounds a number to two digits that count.
func roundTo(x float64) float64 {
	scale := math.Pow10(max(0, int(math.Floor(math.Log10(x)))-1))
	return math.Round(x/scale) * scale
}

// several writes a number with its noun.
func several(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// days writes a number of days as people say it.
func days(n journal.Day) string {
	if n >= 21 {
		return several(int(math.Round(float64(n)/7)), "week", "weeks")
	}
	return several(int(n), "day", "days")
}

// amount writes a reading's value with its unit in the keeper's units.
func (r *record) amount(kind journal.ReadingKind, value float64) string {
	switch kind {
	case journal.Temperature:
		return r.temperature(value)
	case journal.PH:
		return "pH" + joined + number(value, 1)
	case journal.GH, journal.KH:
		return r.hardness(kind, value)
	case journal.TDS:
		return number(value, 0) + joined + "ppm"
	case journal.Conductivity:
		return number(value, 0) + joined + "µS/cm"
	}
	return number(value, 3) + joined + "mg/L"
}

func (r *record) temperature(celsius float64) string {
	if r.units.Temperature == "F" {
		return number(celsius*1.8+32, 1) + joined + "°F"
	}
	return number(celsius, 1) + joined + "°C"
}

func (r *record) hardness(kind journal.ReadingKind, degrees float64) string {
	if r.units.Hardness == "ppm" {
		return number(degrees*water.PPMPerDegree, 0) + joined + "ppm"
	}
	return number(degrees, 1) + joined + map[journal.ReadingKind]string{journal.GH: "dGH", journal.KH: "dKH"}[kind]
}

// readingNames is what people call a reading.
func readingName(kind journal.ReadingKind) string {
	switch kind {
	case journal.PH:
		return "pH"
	case journal.GH:
		return "general hardness"
	case journal.KH:
		return "carbonate hardness"
	case journal.TDS:
		return "dissolved solids"
	}
	return string(kind)
}

// sentence puts a capital at the front, except where the word itself begins small.
func sentence(text string) string {
	if strings.HasPrefix(text, "pH") {
		return text
	}
	return strings.ToUpper(text[:1]) + text[1:]
}

// list joins words as prose does: "a, b and c".
func list(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return fmt.Sprintf("%s and %s", strings.Join(words[:last], ", "), words[last])
}
