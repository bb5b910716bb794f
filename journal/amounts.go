package journal

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/goccy/go-yaml/ast"
)

// amountShape is a number and what follows it. The number is a plain decimal: no exponent, no thousands mark.
var amountShape = regexp.MustCompile(`^([+-]?(?:\d{1,12}(?:\.\d{0,9})?|\.\d{1,9}))\s*(.*)$`)

// amount is a number as the keeper wrote it, before its unit is applied.
type amount struct {
	number float64
	unit   string
}

// splitAmount separates the number of an amount from its unit. Spaces that do not break count as spaces.
func splitAmount(text string) (amount, bool) {
	text = strings.TrimSpace(strings.NewReplacer("\u00a0", " ", "\u202f", " ", "\u2009", " ").Replace(text))
	m := amountShape.FindStringSubmatch(text)
	if m == nil {
		return amount{}, false
	}
	number, err := strconv.ParseFloat(m[1], 64)
	if err != nil {
		return amount{}, false
	}
	if m[2] != "" && strings.ContainsAny(m[2][:1], ",.0123456789-–—_") {
		return amount{}, false
	}
	return amount{number: number, unit: strings.TrimSpace(m[2])}, true
}

// convert turns an amount into the reader's unit, or says what is wrong with it.
func (units Units) convert(written amount, quantity Quantity) (float64, issue) {
	m := measureOf(quantity)
	if written.unit == "" || quantity == QuantityAge && strings.EqualFold(written.unit, "m") {
		usual := m.units[0].symbol
		if quantity == QuantityAge {
			usual = "months"
		}
		bare, ok := units.bareUnit(quantity)
		if !ok {
			return 0, issue{code: "no-unit", message: "it needs a unit: " + either(m.symbols()),
				hint: "write " + decimal(written.number) + " " + usual}
		}
		return bare.base(written.number), issue{}
	}
	u, ok := m.find(written.unit)
	if !ok {
		problem := unknownUnit(m, written.unit)
		problem.hint = or(problem.hint, beginsWithUnit(written, m))
		if bare, usual := units.bareUnit(quantity); usual && bare.symbol != "" && slices.Contains([]string{"°", "º", "deg"}, written.unit) {
			problem.hint = "write " + decimal(written.number) + " " + bare.symbol
		} else if usual && strings.Trim(written.unit, "?") == "" {
			problem.hint = "write " + decimal(written.number)
		}
		return 0, problem
	}
	return u.base(written.number), issue{}
}

// nextKey is a key that was meant to follow after a comma: the "gh" of "{temperature: 23.4 C gh: 8}", and nextReading the
// "ph" of "ammonia 1 ph 8".
var (
	nextKey     = regexp.MustCompile(`\s([a-z][a-z-]*):\s`)
	nextReading = regexp.MustCompile(`\s([a-zA-Z-]+) <?\d`)
)

func unknownUnit(m measure, written string) issue {
	if key := nextKey.FindStringSubmatch(" " + written); key != nil {
		return issue{code: "unknown-unit", message: "a comma is missing before " + quote(key[1]+":"),
			hint: "inside braces a comma stands after each value"}
	}
	if key := nextReading.FindStringSubmatch(" " + written); key != nil && len(calledSo(readingWords, key[1])) > 0 {
		return issue{code: "unknown-unit", message: "a comma is missing before " + quote(key[1]), hint: "put a comma after each value"}
	}
	symbols := m.symbols()
	if len(symbols) == 0 {
		return issue{code: "unknown-unit", message: quote(written) + " after the number; it takes a number alone"}
	}
	return unknown{code: "unknown-unit", what: "unit", written: written, nearest: nearestUnit(m, written), known: symbols}.issue()
}

func nearestUnit(m measure, written string) []string {
	for _, u := range m.units {
		if Nearest(written, append([]string{u.symbol}, u.also...)) != "" {
			return []string{u.symbol}
		}
	}
	return nil
}

// readAmount reads one number with its unit.
func (c *cell) readAmount() bool {
	if !c.isSingle {
		return c.wrong("not-a-number", "it takes a number", c.found.word.forExample())
	}
	number, share, good := c.amountOf(c.single.text, c.found.at)
	c.found.number, c.found.share = number, share
	return good
}

// amountOf reads the text of one amount of the word's quantity. share is true for a change in percent.
func (c *cell) amountOf(text string, at Position) (number float64, share, good bool) {
	word := c.found.word
	quantity := word.Quantity
	if word.Form == FormNumber {
		quantity = QuantityNumber
	}
	written, ok := splitAmount(text)
	if !ok {
		c.fail(at, c.noNumber(text))
		return 0, false, false
	}
	if quantity == QuantityChange {
		return c.changeOf(written, at)
	}
	number, problem := c.units.convert(written, quantity)
	if problem.code == "" {
		problem = meaningless(word, number, text)
		problem.hint = c.units.orLostPoint(problem, word, written)
	}
	if problem.code != "" {
		c.fail(at, problem.of(word, text))
		return 0, false, false
	}
	return number, false, true
}

// noNumber says that a text is no number.
func (c *cell) noNumber(text string) issue {
	word := c.found.word
	code := "not-a-number"
	if decimalComma.MatchString(text) {
		code = "decimal-comma"
	}
	return issue{code: code, message: fmt.Sprintf("%s is %s; it takes a number", quote(word.Name), quote(text)),
		hint: cmp.Or(wordsHint(word, text), spanHint(text), numberHint(text), word.forExample())}
}

// wordsHint proposes an amount for words: a part of the water, or none of what may be left out.
func wordsHint(word *Word, text string) string {
	if word.Quantity == QuantityChange {
		return shareHint(text)
	}
	if word.Name == "heater" && traces.MatchString(text) {
		return "leave the line out"
	}
	return ""
}

// spanHint proposes the middle of a span, "1-2 cm", for an amount that is one number.
func spanHint(text string) string {
	m := spanText.FindStringSubmatch(pointed(text))
	if m == nil {
		return ""
	}
	low, _ := strconv.ParseFloat(m[1], 64)
	high, _ := strconv.ParseFloat(m[2], 64)
	return "write one number, such as " + decimal((low+high)/2) + pointed(text)[len(m[0]):]
}

// of opens the message with the key and what was written there.
func (found issue) of(word *Word, text string) issue {
	found.message = quote(word.Name) + " is " + quote(text) + "; " + found.message
	return found
}

// meaningless says what is wrong with a number that nothing in the world can have.
func meaningless(word *Word, number float64, text string) issue {
	low, high, unit := word.bounds()
	switch {
	case word.Positive && number == 0:
		return issue{code: "number-without-meaning", message: "it must be above zero"}
	case number >= low && number <= high:
		return issue{}
	}
	if number < low && low == 0 {
		return issue{code: "number-without-meaning", message: "it cannot be below zero"}
	}
	found := issue{code: "number-without-meaning", message: "it can be " + decimal(low) + " to " + decimal(high) + unit}
	if bare := strings.TrimSpace(text); word.Quantity == QuantityTemperature && wholeShape.MatchString(bare) && number <= 113 {
		found.hint = "if it is Fahrenheit, write " + bare + " F"
	}
	return found
}

// bounds is the span outside which the number of a word has no meaning, in the reader's unit.
func (w *Word) bounds() (low, high float64, unit string) {
	if w.Low != 0 || w.High != 0 {
		return w.Low, w.High, ""
	}
	return bounds(w.Quantity)
}

// bounds is the span outside which an amount has no meaning, in the reader's unit.
func bounds(quantity Quantity) (low, high float64, unit string) {
	switch quantity {
	case QuantityTemperature:
		return 0, 45, " C"
	case QuantityVolume:
		return 0, 1e6, " L"
	case QuantityLength:
		return 0, 500, " mm"
	case QuantityAge, QuantityDays:
		return 0, 3653, " days"
	}
	return 0, 1e6, ""
}

// changeOf reads the size of a water change: a share in percent or a volume, always with its unit.
func (c *cell) changeOf(written amount, at Position) (number float64, share, good bool) {
	number, share, problem := changeFrom(written, c.single.text)
	if problem.code != "" {
		c.fail(at, problem.of(c.found.word, c.single.text))
		return 0, false, false
	}
	return number, share, true
}

// changeFrom turns an amount into a share, 0 to 1, or into litres.
func changeFrom(written amount, text string) (number float64, share bool, problem issue) {
	if u, ok := measureOf(QuantityShare).find(written.unit); ok && written.unit != "" {
		number = u.base(written.number)
		if number < 0 || number > 1 {
			return 0, false, issue{code: "number-without-meaning", message: "a share is 0 to 100 %"}
		}
		return number, true, issue{}
	}
	u, ok := measureOf(QuantityVolume).find(written.unit)
	switch {
	case written.unit == "":
		return 0, false, issue{code: "no-unit", message: `it needs a unit: "%", "L" or "gal"`,
			hint: or(shareHint(text), "write "+decimal(written.number)+" % or "+decimal(written.number)+" L")}
	case !ok:
		found := unknown{code: "unknown-unit", what: "unit", written: written.unit, known: []string{"%", "L", "gal"}}.issue()
		found.hint = or(shareHint(text), beginsWithUnit(written, measureOf(QuantityShare), measureOf(QuantityVolume)))
		return 0, false, found
	}
	number = u.base(written.number)
	return number, false, meaningless(&Word{Quantity: QuantityVolume}, number, text)
}

var (
	// partWords are the words for parts of a whole, in percent.
	partWords = []struct {
		word    string
		percent float64
	}{{"half", 50}, {"third", 33}, {"quarter", 25}, {"fifth", 20}, {"tenth", 10}}
	fraction = regexp.MustCompile(`^(\d{1,2}) ?/ ?(\d{1,2})$`)
)

// shareHint proposes the percent of a part of the water: "half", "1/4", "0.25".
func shareHint(text string) string {
	text = strings.TrimSpace(text)
	percent := 0.0
	if m := fraction.FindStringSubmatch(text); m != nil {
		above, _ := strconv.ParseFloat(m[1], 64)
		below, _ := strconv.ParseFloat(m[2], 64)
		percent = 100 * above / max(below, 1)
	} else if part, err := strconv.ParseFloat(text, 64); err == nil && part < 1 {
		percent = 100 * part
	}
	for _, part := range partWords {
		if strings.Contains(strings.ToLower(text), part.word) && digitsOnly.FindString(text) == "" {
			percent = part.percent
		}
	}
	if percent <= 0 || percent > 100 {
		return ""
	}
	return "write " + decimal(round(percent, 1)) + " %"
}

// beginsWithUnit proposes a number with the unit that the words behind it begin with: "20 % tap water", "12 weeks old".
func beginsWithUnit(written amount, measures ...measure) string {
	first, _, more := strings.Cut(written.unit, " ")
	for _, m := range measures {
		if u, ok := m.find(first); ok && more {
			return "write " + decimal(written.number) + " " + u.symbol
		}
	}
	return ""
}

// readAmounts reads a list of amounts; a single one is a list of one.
func (c *cell) readAmounts() bool {
	nodes := []ast.Node{c.node}
	if !c.isSingle {
		items, ok := c.items(c.node)
		if !ok || len(items) == 0 {
			return c.wrong("not-a-list", "it takes a list of numbers",
				c.found.word.forExample())
		}
		nodes = items
	} else if all := several(c.single.text); all != nil && !decimalComma.MatchString(c.single.text) {
		return c.wrong("not-a-list", "it takes a list of numbers", bracketed(c.found.word.Name, all))
	}
	good := true
	for i, node := range nodes {
		single, ok := scalarOf(node)
		at := c.at(startOf(node))
		if i > 0 && c.joinedItems(nodes[i-1], node) {
			first := startOf(nodes[i-1]).Value
			c.warn(c.at(startOf(nodes[i-1])),
				issue{code: "decimal-comma",
					message: fmt.Sprintf("%s is read as two numbers, %s and %s", quote(first+","+single.text),
						first, single.text),
					hint: "write " + first + "." + single.text + " for one, or put a space after the comma for two"})
		}
		if !ok || single.empty {
			c.fail(at, issue{code: "not-a-number", message: "an item of " + quote(c.found.word.Name) + " is no number"})
			good = false
			continue
		}
		number, _, understood := c.amountOf(single.text, at)
		good = good && understood
		c.found.numbers = append(c.found.numbers, number)
		c.found.places = append(c.found.places, at)
	}
	return good
}

// wholeShape is a whole number as a keeper writes it.
var wholeShape = regexp.MustCompile(`^\d{1,9}$`)

// wholeOf reads the text of a whole number.
func (p *page) wholeOf(text string) (int, issue) {
	text = strings.TrimSpace(text)
	if !wholeShape.MatchString(text) {
		found := issue{code: "not-a-whole-number", message: "it takes a whole number", hint: countHint(text)}
		if written, ok := splitAmount(text); ok && written.number < 0 {
			found = issue{code: "number-without-meaning", message: "it cannot be below zero"}
		} else if ok && found.hint == "" && strings.Contains(text, " ") && written.number == float64(int(written.number)) && digitsOnly.FindString(written.unit) == "" {
			found.hint = "write " + decimal(written.number)
		}
		return 0, found
	}
	number, _ := strconv.Atoi(text)
	if number > maxCount {
		return 0, issue{code: "number-without-meaning", message: fmt.Sprintf("at most %d are understood", maxCount)}
	}
	return number, issue{}
}

func (c *cell) readWhole() bool {
	if !c.isSingle {
		return c.wrong("not-a-whole-number", "it takes a whole number", c.found.word.forExample())
	}
	number, problem := c.wholeOf(c.single.text)
	if problem.code != "" {
		if problem.code == "not-a-whole-number" {
			problem.hint = or(problem.hint, c.found.word.forExample())
		}
		c.fail(c.found.at, problem.of(c.found.word, c.single.text))
		return false
	}
	c.found.number = float64(number)
	return true
}
