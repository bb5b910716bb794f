package journal

import (
	"errors"
	"fmt"
	"strings"
)

// Amount is an amount as someone typed it outside a journal, as on a command line.
type Amount struct {
	Value float64 // in the unit that its Quantity names
	Unit  string  // the unit it was typed in, as the program writes it; "" where there is none
}

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

// Quantity returns what a reading of this kind measures, and NoQuantity for a kind that does not exist.
func (k ReadingKind) Quantity() Quantity {
	if word := find(readingWords, string(k)); word != nil {
		return word.Quantity
	}
	return NoQuantity
}

// InUnit turns a value back into a unit of its quantity, as ParseAmount names it. A unit that the quantity does not
// have leaves the value as it is.
func (q Quantity) InUnit(value float64, unit string) float64 {
	u, ok := measureOf(q).find(unit)
	if !ok {
		return value
	}
	return value/u.scale - u.shift
}

// Unit returns the unit that a bare number of a quantity has under these units.
func (units Units) Unit(quantity Quantity) string {
	bare, _ := units.bareUnit(quantity)
	return bare.symbol
}

// ParseAmount reads an amount of a quantity as an entry would: a number, and a unit where the bare number has none.
// The error says what was found and what is allowed.
func (units Units) ParseAmount(quantity Quantity, text string) (Amount, error) {
	written, ok := splitAmount(text)
	if !ok {
		return Amount{}, issue{message: quote(text) + " is no " + string(quantity), hint: numberHint(text)}.err()
	}
	value, problem := units.convert(written, quantity)
	if problem.code == "" {
		problem = meaningless(&Word{Quantity: quantity}, value, text)
	}
	if problem.code != "" {
		problem.message = quote(text) + ": " + problem.message
		return Amount{}, problem.err()
	}
	return Amount{Value: value, Unit: units.unitOf(quantity, written)}, nil
}

// unitOf returns how the program writes the unit of an amount that was understood.
func (units Units) unitOf(quantity Quantity, written amount) string {
	if written.unit == "" {
		return units.Unit(quantity)
	}
	u, _ := measureOf(quantity).find(written.unit)
	return u.symbol
}

// err makes an error of what is wrong, with the way out of it.
func (found issue) err() error {
	if found.hint == "" {
		return errors.New(found.message)
	}
	return errors.New(found.message + "; " + found.hint)
}

// ParseReadings reads readings with their values, separated by commas: "gh 12, nitrate <5, temperature 75 F". Each
// number means what it would mean in a water test of an entry; a colon or an equals sign may stand after the name. A
// kind given twice, an unknown word and a number without meaning are errors that name the nearest right word.
func (units Units) ParseReadings(text string) ([]TypedReading, error) {
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
		return TypedReading{}, fmt.Errorf("%s is no reading; write a name and a number, such as %s", quote(text), quote("gh 8"))
	}
	word := find(readingWords, name)
	if word == nil {
		return TypedReading{}, unknown{what: "reading", written: name, nearest: suggest(readingWords, name), known: names(readingWords)}.issue().err()
	}
	reading, written, problem := units.readingFrom(word, rest)
	if problem.code != "" {
		return TypedReading{}, problem.err()
	}
	return TypedReading{Reading: reading, Unit: units.unitOf(word.Quantity, written)}, nil
}

// splitReading parts the name of a reading from its value. A digit ends the name, as in "gh8", unless it belongs to one
// that is known, as in "no3 40".
func splitReading(text string) (name, value string) {
	name = strings.ToLower(text)
	if at := strings.IndexAny(text, " :=\t<"); at >= 0 {
		name = name[:at]
	}
	if digit := strings.IndexAny(name, "0123456789"); digit >= 0 && suggest(readingWords, name) == "" {
		name = name[:digit]
	}
	return name, strings.TrimLeft(text[len(name):], " :=\t")
}

// readingFrom reads the text of one reading.
func (units Units) readingFrom(word *Word, text string) (Reading, amount, issue) {
	number, below := strings.CutPrefix(strings.TrimSpace(text), "<")
	written, ok := splitAmount(number)
	if !ok {
		return Reading{}, amount{}, noReading(word, text)
	}
	value, problem := units.convert(written, word.Quantity)
	if problem.code == "" {
		problem = meaninglessReading(word, value, number)
	}
	if problem.code != "" {
		return Reading{}, amount{}, problem.of(word, text)
	}
	return Reading{Kind: ReadingKind(word.Name), Value: value, Below: below}, written, issue{}
}

// ParseChange reads the size of a water change: a share of the water in percent, or a volume. Exactly one of the two
// is known.
func (units Units) ParseChange(text string) (share, volume Maybe[float64], err error) {
	if strings.TrimSpace(text) == "" {
		return share, volume, errors.New("a water change needs its size, such as 25 % or 10 L")
	}
	written, ok := splitAmount(text)
	if !ok {
		return share, volume, issue{message: quote(text) + " is no size of a water change", hint: numberHint(text)}.err()
	}
	number, isShare, problem := changeFrom(written, text)
	switch {
	case problem.code != "":
		problem.message = quote(text) + ": " + problem.message
		return share, volume, problem.err()
	case isShare:
		return Known(number), volume, nil
	}
	return share, Known(number), nil
}
