package journal

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"
)

// readReadings reads a mapping of readings.
func (c *cell) readReadings() bool {
	return c.eachReading("it takes readings with values", func(word *Word, written child) {
		if reading, good := c.readingOf(word, written); good {
			c.found.readings = append(c.found.readings, reading)
		}
	})
}

// eachReading walks a mapping whose keys are readings, and reports when it is none.
func (c *cell) eachReading(allowed string, read func(word *Word, written child)) bool {
	children, ok := c.children(c.node)
	if !ok {
		return c.wrong("not-a-mapping", allowed, c.found.word.forExample())
	}
	inner := *c.context
	inner.owner, inner.kind = quote(c.found.word.Name), nil
	for _, written := range children {
		word := find(readingWords, written.name)
		switch {
		case word == nil:
			c.unknownKey(written, readingWords, nearestKeys(written, readingWords, children), &inner)
		case written.torn != "" && c.found.word.Form == FormRanges:
			c.tornApart(written, "")
		case written.torn != "":
			c.tornApart(written, numberHint(written.torn))
		default:
			read(word, written)
		}
	}
	return true
}

// readingOf reads one reading: a number, its unit where it has one, and < for below.
func (c *cell) readingOf(word *Word, written child) (Reading, bool) {
	single, ok := scalarOf(written.value)
	reading := Reading{Position: c.at(written.key), Kind: ReadingKind(word.Name)}
	if single.empty {
		c.fail(reading.Position, issue{code: "no-value", message: quote(word.Name) + " has no value",
			hint: word.missingHint()})
		return reading, false
	}
	at := c.at(startOf(written.value))
	if !ok {
		c.fail(at, issue{code: "not-a-reading", message: quote(word.Name) + " takes one number"})
		return reading, false
	}
	found, _, problem := c.units.readingFrom(word, single.text)
	if problem.code != "" {
		c.fail(at, problem)
		return reading, false
	}
	reading.Value, reading.Below = found.Value, found.Below
	return reading, true
}

// noReading says that a text is no reading.
func noReading(word *Word, text string) issue {
	found := issue{code: "not-a-reading",
		message: fmt.Sprintf("%s is %s; it takes a number, or < and a number", quote(word.Name), quote(text)),
		hint:    readingHint(word, text)}
	if decimalComma.MatchString(text) {
		found.code = "decimal-comma"
	}
	return found
}

// readingHint proposes the reading that a text may mean.
func readingHint(word *Word, text string) string {
	from, to, isSpan := spanOf(text)
	switch {
	case isSpan:
		return "a reading is one number: " + from + ", " + to + ", or <" + to + " for less than that"
	case pastScale.MatchString(text):
		return "where the colour is past the scale, thin the sample with pure water, test again and multiply; or write the end of the scale and say so in a note"
	case strings.IndexFunc(text, unicode.IsDigit) >= 0:
		return numberHint(text)
	case unsure.MatchString(text):
		return notKnown(word)
	case traces.MatchString(text):
		return "for a trace too small to read, write < and the smallest step of the test, such as <0.25"
	}
	return "write the number beside the colour that comes nearest"
}

var (
	// pastScale is a reading above what the test can tell.
	pastScale = regexp.MustCompile(`^>\s*\d|^\d[\d.]*\s*\+$`)
	// traces are the words for a reading too small to tell.
	traces = regexp.MustCompile(`(?i)^$|trace|none|nil|zero|\bn/?d\b|\bnot?\b|undetect|clear|negative`)
)

// meaninglessReading is meaningless for a reading: pH has an upper end of its own.
func meaninglessReading(word *Word, value float64, text string) issue {
	if word.Name == string(PH) && (value < 0 || value > 14) {
		return issue{code: "number-without-meaning", message: "pH runs from 0 to 14"}
	}
	return meaningless(word, value, text)
}

// rangeShape is two numbers with a hyphen, and the unit of both.
var rangeShape = regexp.MustCompile(`^([+-]?[\d.]+)\s*(?:-|–|to)\s*([\d.]+)\s*(.*)$`)

// readRanges reads the spans that the keeper wants readings to stay in.
func (c *cell) readRanges() bool {
	return c.eachReading("it takes readings with two numbers each", func(word *Word, written child) {
		if span, good := c.rangeOf(word, written); good {
			c.found.ranges = append(c.found.ranges, span)
		}
	})
}

func (c *cell) rangeOf(word *Word, written child) (WaterRange, bool) {
	span := WaterRange{Kind: ReadingKind(word.Name)}
	single, ok := scalarOf(written.value)
	at := c.at(written.key)
	if ok && !single.empty {
		at = c.at(startOf(written.value))
	}
	m := rangeShape.FindStringSubmatch(strings.TrimSpace(single.text))
	if !ok || m == nil {
		hint := "for example: temperature: 20-26 C"
		if rangeShape.MatchString(pointed(single.text)) {
			hint = "write " + pointed(single.text)
		} else if most, ok := strings.CutPrefix(pointed(single.text), "<"); ok {
			hint = "write 0-" + strings.TrimSpace(most)
		}
		c.fail(at, issue{code: "not-a-range",
			message: fmt.Sprintf("%s is %s; it takes two numbers with a hyphen", quote(word.Name), quote(single.text)), hint: hint})
		return span, false
	}
	for _, end := range []struct {
		text string
		into *float64
	}{{m[1] + " " + m[3], &span.Low}, {m[2] + " " + m[3], &span.High}} {
		amount, ok := splitAmount(end.text)
		if !ok {
			c.fail(at, issue{code: "not-a-range",
				message: fmt.Sprintf("%s is %s; it takes two numbers with a hyphen", quote(word.Name), quote(single.text)), hint: "for example: temperature: 20-26 C"})
			return span, false
		}
		value, problem := c.units.convert(amount, word.Quantity)
		if problem.code == "" {
			problem = meaninglessReading(word, value, "")
		}
		if problem.code != "" {
			if word.Quantity == QuantityTemperature && m[3] == "" && value > 0 && value <= 113 {
				problem.hint = "if it is Fahrenheit, write " + strings.TrimSpace(single.text) + " F"
			}
			c.fail(at, problem.of(word, single.text))
			return span, false
		}
		*end.into = value
	}
	if span.Low > span.High {
		c.fail(at, issue{code: "not-a-range",
			message: fmt.Sprintf("%s is %s; the lower number stands first", quote(word.Name), quote(single.text))})
		return span, false
	}
	return span, true
}
