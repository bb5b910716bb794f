package journal

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/goccy/go-yaml/ast"
)

// readForm reads one value by its form and reports whether it was understood.
func readForm(c *cell) bool {
	switch c.found.word.Form {
	case FormText:
		return c.readText()
	case FormWords:
		return c.readWords()
	case FormDate:
		return c.readDate()
	case FormFlag, FormTrue:
		return c.readFlag()
	case FormChoice:
		return c.readChoice()
	case FormWhole:
		return c.readWhole()
	case FormNumber, FormAmount:
		return c.readAmount()
	case FormAmounts:
		return c.readAmounts()
	case FormCount, FormWho:
		return c.readWho()
	case FormName, FormNames, FormNameOrNames, FormNameOrTrue:
		return c.readNames()
	case FormTank, FormTanks:
		return c.readTanks()
	case FormReadings:
		return c.readReadings()
	case FormRanges:
		return c.readRanges()
	case FormGrades:
		return c.readGrades()
	case FormMapping:
		return c.readKeys()
	case FormPath, FormAddress, FormLanguage:
		return c.readPlain()
	}
	return true // events, tanks and biology have readers of their own
}

func (c *cell) readText() bool {
	if !c.isSingle {
		return c.wrong("not-text", "it takes a text", "put a text with brackets or braces in quotes")
	}
	if utf8.RuneCountInString(c.single.text) > maxTextLength {
		return c.wrong("too-long", fmt.Sprintf("a text here has at most %d characters", maxTextLength),
			"long texts belong below the second line of hyphens")
	}
	c.found.text = strings.TrimSpace(c.single.text)
	return true
}

// readWords reads a list of words; a single word is a list of one.
func (c *cell) readWords() bool {
	nodes := []ast.Node{c.node}
	if !c.isSingle {
		items, ok := c.items(c.node)
		if !ok {
			return c.wrong("not-a-list", "it takes a list", c.found.word.forExample())
		}
		nodes = items
	} else if strings.Contains(c.single.text, ",") && !c.single.quoted {
		c.warn(c.found.at, issue{code: "not-a-list", message: quote(c.found.word.Name) + " is " + c.written() + ", taken as one word; several stand in a list",
			hint: bracketed(c.found.word.Name, betweenThe.Split(c.single.text, -1))})
	}
	for _, node := range nodes {
		single, ok := scalarOf(node)
		text := strings.TrimSpace(single.text)
		at := c.at(startOf(node))
		switch {
		case !ok || single.empty:
			c.fail(at, issue{code: "not-text", message: "an item of " + quote(c.found.word.Name) + " is no word"})
		case utf8.RuneCountInString(text) > maxNameLength:
			c.fail(at, issue{code: "too-long",
				message: fmt.Sprintf("%s is too long; a word here has at most %d characters", quote(text),
					maxNameLength)})
		case slices.Contains(c.found.words, text):
			c.fail(at, issue{code: "word-twice", message: quote(text) + " is given twice"})
		default:
			c.found.words = append(c.found.words, text)
			c.found.places = append(c.found.places, at)
		}
	}
	return true
}

func (c *cell) readDate() bool {
	if !c.isSingle {
		return c.wrong("not-a-date", "a date is written like 2026-03-14", "")
	}
	text := strings.TrimSpace(c.single.text)
	day, err := ParseDay(text)
	if err != nil {
		return c.wrongDate(text)
	}
	if year := day.Time().Year(); year < firstYear || year > lastYear {
		return c.wrong("not-a-date", fmt.Sprintf("years from %d to %d are understood", firstYear, lastYear), "")
	}
	c.found.day = day
	return true
}

var dateShape = regexp.MustCompile(`^\d{4}-\d{2}-\d{2}$`)

func (c *cell) wrongDate(text string) bool {
	if dateShape.MatchString(text) {
		return c.wrong("no-such-date", "there is no such day", lastDayHint(text))
	}
	return c.wrong("not-a-date", "a date is written like 2026-03-14", or(c.context.today.dateHint(text), dateHint(text)))
}

// lastDayHint names the last day of the month of a date whose day is too large.
func lastDayHint(text string) string {
	first, err := ParseDay(text[:8] + "01")
	if err != nil {
		return "months run from 01 to 12"
	}
	return "that month ends on " + DayAt(first.Time().AddDate(0, 1, -1)).String()
}

func (c *cell) readFlag() bool {
	text := strings.ToLower(c.single.text)
	if c.isSingle && !c.single.quoted && (text == "true" || (text == "false" && c.found.word.Form == FormFlag)) {
		c.found.text = text
		return true
	}
	hint := "write " + c.found.word.Name + ": true"
	if slices.Contains([]string{"no", "false", "off", "n", "0"}, text) {
		hint = "leave the line out"
	}
	return c.wrong("not-a-flag", "it takes true", hint)
}

func (c *cell) readChoice() bool {
	word := c.found.word
	if !c.isSingle {
		return c.wrong("not-a-choice", "it takes one of "+either(word.Allowed), "")
	}
	text := strings.TrimSpace(c.single.text)
	for _, allowed := range word.Allowed {
		if strings.EqualFold(allowed, text) {
			c.found.text = allowed
			return true
		}
	}
	if same := sameUnit(word.Allowed, text); same != "" {
		c.found.text = same
		return true
	}
	nearest := equallyNear(text, word.Allowed)
	if choice := chosen(word.Allowed, text); len(nearest) == 0 && choice != "" {
		nearest = []string{choice}
	}
	c.fail(c.found.at, unknown{code: "unknown-word", what: word.Name, written: text, nearest: nearest, known: word.Allowed}.issue())
	return false
}

// sameUnit returns the allowed unit that text is another spelling of, such as C for °C.
func sameUnit(allowed []string, text string) string {
	for _, m := range measures {
		if u, ok := m.find(text); ok && slices.Contains(allowed, u.symbol) {
			return u.symbol
		}
	}
	return ""
}

// readNames reads the name of a brood, or names of shrimp.
func (c *cell) readNames() bool {
	word := c.found.word
	if c.isSingle && word.Form != FormNames {
		if word.Form == FormNameOrTrue && !c.single.quoted && strings.EqualFold(c.single.text, "true") {
			return true
		}
		if !c.checkName(c.node, c.single) {
			return false
		}
		c.found.text = strings.TrimSpace(c.single.text)
		c.found.words, c.found.places = []string{c.found.text}, []Position{c.found.at}
		return true
	}
	if word.Form == FormName || word.Form == FormNameOrTrue {
		return c.wrong("not-a-name", "it takes one name", "write an event for each brood, with "+word.Name+": "+word.Example)
	}
	if c.isSingle {
		return c.wrong("not-a-list", "it takes a list of names", bracketed(word.Name, betweenThe.Split(singleSpaced(c.single.text), -1)))
	}
	c.found.isList = true
	return c.readNameList()
}

// readNameList reads a list of names, each once.
func (c *cell) readNameList() bool {
	items, ok := c.items(c.node)
	if !ok || len(items) == 0 {
		return c.wrong("not-a-list", "it takes a list of names", "for example: "+c.found.word.Name+": [ruby, pearl]")
	}
	good := true
	for _, node := range items {
		single, ok := scalarOf(node)
		at := c.at(startOf(node))
		text := strings.TrimSpace(single.text)
		switch {
		case !ok || single.empty:
			c.fail(at, issue{code: "not-a-name", message: "an item of " + quote(c.found.word.Name) + " is no name"})
			good = false
		case !c.checkName(node, single):
			good = false
		case slices.Contains(c.found.words, text):
			c.fail(at, issue{code: "word-twice", message: quote(text) + " is given twice"})
			good = false
		default:
			c.found.words = append(c.found.words, text)
			c.found.places = append(c.found.places, at)
		}
	}
	return good
}

// checkName reports a name that cannot be one: a bare number or yes/no is a slip, and marks would be lost in addresses.
func (c *cell) checkName(node ast.Node, single scalar) bool {
	text := strings.TrimSpace(single.text)
	brood := c.broodHint(text)
	found := issue{code: "not-a-name", message: quote(text) + " is no name; names are made of letters, digits, spaces, hyphens and apostrophes", hint: or(trapHint(text), brood)}
	orTrue := c.found.word.Form == FormNameOrTrue
	switch node.(type) {
	case *ast.IntegerNode, *ast.FloatNode, *ast.BoolNode, *ast.NullNode, *ast.InfinityNode, *ast.NanNode:
		found.message = quote(text) + " is no name"
		found.hint = or(brood, "if it is one, put it in quotes: "+quote(text))
		if orTrue {
			found.message = quote(c.found.word.Name) + " is " + quote(text) + "; it takes true or the name of a brood"
		}
		if orTrue && strings.EqualFold(text, "false") {
			found.hint = "leave the event out"
		}
	default:
		if hint := c.noneNamed(text); hint != "" && !single.quoted {
			found.message, found.hint = quote(text)+" is no name of one shrimp", hint
		} else if nameShape(text) && (single.quoted || brood == "") {
			return true
		}
	}
	if found.hint == "" && orTrue {
		found.hint = "write the name of the brood, or true for the only open one"
	}
	c.fail(c.at(startOf(node)), found)
	return false
}

// nameShape reports whether text can be the name of a brood or a shrimp.
func nameShape(text string) bool {
	if text == "" || utf8.RuneCountInString(text) > maxNameLength {
		return false
	}
	first, _ := utf8.DecodeRuneInString(text)
	if !unicode.IsLetter(first) && !unicode.IsDigit(first) {
		return false
	}
	return strings.IndexFunc(text, func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsMark(r) && !unicode.IsDigit(r) && r != ' ' && r != '-' && r != '\'' && r != '’'
	}) < 0
}

// readTanks reads a tank id or a list of them, and checks that each exists.
func (c *cell) readTanks() bool {
	nodes := []ast.Node{c.node}
	if !c.isSingle {
		items, ok := c.items(c.node)
		if c.found.word.Form == FormTank || !ok || len(items) == 0 {
			return c.wrong("not-a-tank", "it takes the id of one tank", "")
		}
		nodes, c.found.isList = items, true
	}
	good := true
	for _, node := range nodes {
		single, ok := scalarOf(node)
		id := strings.TrimSpace(single.text)
		at := c.at(startOf(node))
		switch {
		case !ok || single.empty:
			c.fail(at, issue{code: "not-a-tank", message: "an item of " + quote(c.found.word.Name) + " is no tank id"})
			good = false
		case !c.checkTank(id, at):
			good = false
		case slices.Contains(c.found.words, id):
			c.fail(at, issue{code: "word-twice", message: quote(id) + " is given twice"})
			good = false
		default:
			c.found.text = id
			c.found.words = append(c.found.words, id)
			c.found.places = append(c.found.places, at)
		}
	}
	return good
}

// checkTank reports a tank that journal.yaml does not have. Without settings, or without tanks in them,
// nothing can be said.
func (c *cell) checkTank(id string, at Position) bool {
	settings := c.context.settings
	if settings == nil || len(settings.Tanks) == 0 || settings.Tank(id) != nil {
		return true
	}
	var ids, all []string
	for _, tank := range settings.Tanks {
		ids = append(ids, tank.ID)
		all = append(all, tank.ID, tank.Name)
	}
	nearest := equallyNear(strings.TrimPrefix(strings.ToLower(id), "the "), all)
	for i, name := range nearest {
		for _, tank := range settings.Tanks {
			if tank.Name == name {
				nearest[i] = tank.ID
			}
		}
	}
	nearest = slices.Compact(nearest)
	found := unknown{code: "unknown-tank", what: "tank", written: id, nearest: nearest, known: ids}.issue()
	found.message = strings.Replace(found.message, "; allowed: ", "; journal.yaml has ", 1)
	if c.found.word.Form == FormTanks && (several(id) != nil || slices.Contains([]string{"both", "all"}, strings.ToLower(id))) {
		found.hint = "for several tanks " + bracketed("tank", ids)
	}
	c.fail(at, found)
	return false
}

// readKeys reads a mapping with fixed keys.
func (c *cell) readKeys() bool {
	children, ok := c.children(c.node)
	if !ok {
		return c.wrong("not-a-mapping", "it takes keys with values",
			c.found.word.forExample())
	}
	inner := *c.context
	inner.owner, inner.kind = quote(c.found.word.Name), nil
	c.found.children = c.readMapping(children, c.found.word.Keys, &inner)
	return true
}

// readPlain takes a single value as it is; its own checks follow where more is known.
func (c *cell) readPlain() bool {
	if !c.isSingle {
		return c.wrong("not-text", "it takes one text", "")
	}
	c.found.text = strings.TrimSpace(c.single.text)
	return true
}
