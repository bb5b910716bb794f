package journal

import (
	"errors"
	"fmt"
	"strings"
)

// TypedReading is a reading as someone typed it, with the unit it was typed in.
type TypedReading struct {
	Reading
	Unit string // as the program writes it; "" where there is none
}

// ReadingKinds lists what a water test can measure, in the order of the manual.
func ReadingKinds() []ReadingKind {
	var kinds []ReadingKind
	for _, name := range names(readingWords) {
		kinds = append(kinds, ReadingKind(name))
	}
	return kinds
}

// ReadingOf returns the reading of a kind in a list.
func ReadingOf(readings []Reading, kind ReadingKind) (Reading, bool) {
	for _, r := range readings {
		if r.Kind == kind {
			return r, true
		}
	}
	return Reading{}, false
}

// MeasuredOf returns the value of a kind in a list, and false where it was not measured or only known to be below something.
func MeasuredOf(readings []Reading, kind ReadingKind) (float64, bool) {
	r, ok := ReadingOf(readings, kind)
	return r.Value, ok && !r.Below
}

// Quantity returns what a reading of this kind measures, and NoQuantity for a kind that does not exist.
func (k ReadingKind) Quantity() Quantity {
	if word := find(readingWords, string(k)); word != nil {
		return word.Quantity
	}
	return NoQuantity
}

// ParseReadings reads readings with their values, separated by commas: "gh 12, nitrate <5, temperature 75 F". Each
// number means what it would mean in a water test of an entry; a colon or an equals sign may stand after the name. A
// kind given twice, an unknown word and a number without meaning are errors that name the nearest right word.
func ParseReadings(text string, units Units) ([]TypedReading, error) {
	var all []TypedReading
	for part := range strings.SplitSeq(text, ",") {
		part = strings.TrimSpace(part)
		if n := len(all); n > 0 && digits.MatchString(part) {
			return nil, fmt.Errorf("%s has a comma before %s; a decimal number has a point", quote(text), quote(part))
		}
		typed, err := units.parseReading(part)
		if err != nil {
			return nil, err
		}
		for _, other := range all {
			if other.Kind == typed.Kind {
				return nil, fmt.Errorf("%s is given twice", quote(string(typed.Kind)))
			}
		}
		all = append(all, typed)
	}
	return all, nil
}

// parseReading reads one name with its value.
func (units Units) parseReading(text string) (TypedReading, error) {
	name, rest := splitReading(text)
	if name == "" {
		return TypedReading{}, fmt.Errorf("%s is no reading; write a name and a number, such as %s",
			quote(text), quote("gh 8"))
	}
	word := find(readingWords, name)
	if word == nil {
		return TypedReading{}, unknown{what: "reading", written: name, nearest: suggest(readingWords, name), known: names(readingWords)}.issue().plain()
	}
	reading, written, problem := units.readingFrom(word, rest)
	if problem.code != "" {
		return TypedReading{}, problem.plain()
	}
	return TypedReading{Reading: reading, Unit: units.unitOf(word.Quantity, written)}, nil
}

// splitReading parts the name of a reading from its value. A digit ends the name where a known
// one stands before it, as in "gh8".
func splitReading(text string) (name, value string) {
	name = strings.ToLower(text)
	if at := strings.IndexAny(text, " :=\t<"); at >= 0 {
		name = name[:at]
	}
	if digit := strings.IndexAny(name, "0123456789"); digit >= 0 && find(readingWords, name[:digit]) != nil || digit == 0 {
		name = name[:digit]
	}
	return name, strings.TrimLeft(text[len(name):], " :=\t")
}

// readingFrom reads the text of one reading.
func (units Units) readingFrom(word *Word, text string) (Reading, amount, issue) {
	number, below := strings.CutPrefix(strings.TrimSpace(text), "<")
	written, ok := splitAmount(number)
	if _, _, isSpan := spanOf(number); isSpan || pastScale.MatchString(number) || !ok {
		return Reading{}, amount{}, noReading(word, text)
	}
	value, problem := units.convert(written, word.Quantity)
	if problem.code == "unknown-unit" && problem.hint == "" {
		problem.hint = otherReading(word, written)
	}
	if problem.code == "" {
		problem = meaninglessReading(word, value, number)
		problem.hint = units.orLostPoint(problem, word, written)
	}
	if problem.code != "" {
		return Reading{}, amount{}, problem.of(word, text)
	}
	return Reading{Kind: ReadingKind(word.Name), Value: value, Below: below}, written, issue{}
}

// otherReading names the reading that a unit belongs to, for the two that are mixed up: dissolved solids and
// conductivity.
func otherReading(word *Word, written amount) string {
	other := map[string]ReadingKind{string(TDS): Conductivity, string(Conductivity): TDS}[word.Name]
	if _, ok := measureOf(other.Quantity()).find(written.unit); !ok || other == "" {
		return ""
	}
	return fmt.Sprintf("a meter that shows %s measures the %s: write %s: %s %s", written.unit, other, other,
		decimal(written.number), written.unit)
}

// ParseChange reads the size of a water change: a share of the water in percent, or a volume. Exactly one of the two
// is known.
func ParseChange(text string, units Units) (share, volume Maybe[float64], err error) {
	if strings.TrimSpace(text) == "" {
		return share, volume, errors.New("a water change needs its size, such as 25 % or 10 L")
	}
	written, ok := splitAmount(text)
	if !ok {
		return share, volume, issue{message: quote(text) + " is no size of a water change", hint: numberHint(text)}.plain()
	}
	number, isShare, problem := changeFrom(written, text)
	switch {
	case problem.code != "":
		problem.message = quote(text) + ": " + problem.message
		return share, volume, problem.plain()
	case isShare:
		return Known(number), volume, nil
	}
	return share, Known(number), nil
}
