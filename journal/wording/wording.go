// Package wording writes numbers, readings and lists the way people read them, alike in messages, in the
// terminal and on pages. It stops at the single phrase: what is said, and in which order, is for the rooms that
// say it.
package wording

import (
	"math"
	"strconv"
	"strings"

	"pleopod/journal"
)

// Joined parts a number from its unit without a line break between them.
const Joined = "\u00a0"

// Number writes a number with at most the given digits after the point, without trailing zeros and without
// "-0". A number that is none is "unknown".
func Number(value float64, digits int) string {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return "unknown"
	}
	text := strconv.FormatFloat(value, 'f', digits, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text == "-0" {
		return "0"
	}
	return strings.Replace(text, "-", "−", 1)
}

// Count writes a whole number in figures with its noun.
func Count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// List joins words as prose does: "a, b and c".
func List(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}

// Sentence puts a capital at the front, except where the word itself begins small.
func Sentence(text string) string {
	if strings.HasPrefix(text, "pH") {
		return text
	}
	for i, r := range text {
		return strings.ToUpper(string(r)) + text[i+len(string(r)):]
	}
	return text
}

// Date writes a day as "14 March 2026", and no day as "".
func Date(day journal.Day) string {
	if day == 0 {
		return ""
	}
	return day.Time().Format("2 January 2006")
}
