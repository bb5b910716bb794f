package journal

import "errors"

// Amount is an amount as someone typed it outside a journal, as on a command line.
type Amount struct {
	Value float64 // in the first unit that its Quantity names
	Unit  string  // the unit it was typed in, as the program writes it; "" where there is none
}

// ParseQuantity reads one amount as an entry would write it, such as "22C", "74 F" or "10 gal", and returns it in the
// first unit that Quantity names. A number without a unit takes that of units. The error is one line: what was found,
// what is allowed, and the nearest right word. Amounts without any meaning, such as water of 70 °C, are refused.
func ParseQuantity(text string, quantity Quantity, units Units) (float64, error) {
	amount, err := ParseAmount(text, quantity, units)
	return amount.Value, err
}

// ParseAmount is ParseQuantity with the unit that was typed.
func ParseAmount(text string, quantity Quantity, units Units) (Amount, error) {
	written, ok := splitAmount(text)
	if !ok {
		return Amount{}, issue{message: quote(text) + " is no amount of " + string(quantity), hint: or(spanHint(text), numberHint(text))}.plain()
	}
	number, problem := units.convert(written, quantity)
	if problem.code == "" {
		problem = meaningless(&Word{Quantity: quantity}, number, text)
	}
	if problem.code != "" {
		problem.message = quote(text) + ": " + problem.message
		return Amount{}, problem.plain()
	}
	return Amount{Value: number, Unit: units.unitOf(quantity, written)}, nil
}

// unitOf returns how the program writes the unit of an amount that was understood.
func (units Units) unitOf(quantity Quantity, written amount) string {
	if written.unit == "" {
		return units.Unit(quantity)
	}
	u, _ := measureOf(quantity).find(written.unit)
	return u.symbol
}

// Unit returns the unit that a bare number of a quantity has under these units.
func (units Units) Unit(quantity Quantity) string {
	bare, _ := units.bareUnit(quantity)
	return bare.symbol
}

// InUnit turns a value back into a unit of its quantity, as Amount names it. A unit that the quantity does not have
// leaves the value as it is.
func (q Quantity) InUnit(value float64, unit string) float64 {
	u, ok := measureOf(q).find(unit)
	if !ok {
		return value
	}
	return value/u.scale - u.shift
}

// plain turns an issue into an error of one line.
func (found issue) plain() error {
	if found.hint != "" {
		return errors.New(found.message + "; " + found.hint)
	}
	return errors.New(found.message)
}
