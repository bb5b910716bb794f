package journal

import "errors"

// ParseQuantity reads one amount as an entry would write it, such as "22C", "74 F" or "10 gal", and returns it in the
// first unit that Quantity names. A number without a unit takes that of units. The error is one line: what was found,
// what is allowed, and the nearest right word. Amounts without any meaning, such as water of 70 °C, are refused.
func ParseQuantity(text string, quantity Quantity, units Units) (float64, error) {
	written, ok := splitAmount(text)
	if !ok {
		return 0, issue{message: quote(text) + " is no amount of " + string(quantity), hint: numberHint(text)}.plain()
	}
	number, problem := units.convert(written, quantity)
	if problem.code == "" {
		problem = meaningless(&Word{Quantity: quantity}, number, text)
	}
	if problem.code != "" {
		problem.message = quote(text) + ": " + problem.message
		return 0, problem.plain()
	}
	return number, nil
}

// plain turns an issue into an error of one line.
func (found issue) plain() error {
	if found.hint != "" {
		return errors.New(found.message + "; " + found.hint)
	}
	return errors.New(found.message)
}
