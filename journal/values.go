package journal

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/token"
)

// values is a mapping that was read by its words: for each key that the keeper wrote, its place and what it says.
type values struct {
	page  *page
	list  []value
	meant []string // words that unknown keys were taken for
}

// value is one key of a mapping with what it says. Which field is filled follows from the word's form.
type value struct {
	word *Word
	key  Position // of the key
	at   Position // of the value
	good bool     // the value was understood

	text     string       // text, choice, path, name, tank
	words    []string     // names, tanks, words
	places   []Position   // of each of words and numbers
	number   float64      // amount, in the reader's unit
	isList   bool         // words were written as a list
	share    bool         // of a change: number is a share, not a volume
	numbers  []float64    // amounts
	day      Day          // date
	count    Count        // count
	counts   []int        // grades
	readings []Reading    // readings
	ranges   []WaterRange // ranges
	children *values      // mapping
	node     ast.Node     // forms that their own reader walks
}

// get returns the value of a key, or nil when it was left out or not understood.
func (v *values) get(name string) *value {
	if found := v.written(name); found != nil && found.good {
		return found
	}
	return nil
}

// written returns the value of a key, understood or not, or nil when it was left out.
func (v *values) written(name string) *value {
	if v == nil {
		return nil
	}
	for i := range v.list {
		if v.list[i].word.Name == name {
			return &v.list[i]
		}
	}
	return nil
}

// places returns where each value stands.
func (v *values) places() []Place {
	places := make([]Place, 0, len(v.list))
	for i := range v.list {
		found := &v.list[i]
		places = append(places, Place{Key: found.word.Name, Position: found.at, Items: found.places})
	}
	return places
}

// text returns a text or a name; true, for the only open brood, is no name.
func (v *values) text(name string) string {
	if found := v.get(name); found != nil {
		return found.text
	}
	return ""
}

func (v *values) names(name string) []string {
	if found := v.get(name); found != nil {
		return found.words
	}
	return nil
}

func (v *values) flag(name string) bool { return v.text(name) == "true" }

func (v *values) day(name string) Day {
	if found := v.get(name); found != nil {
		return found.day
	}
	return 0
}

func (v *values) whole(name string) Maybe[int] {
	if found := v.get(name); found != nil {
		return Known(int(found.number))
	}
	return Maybe[int]{}
}

func (v *values) number(name string) Maybe[float64] {
	if found := v.get(name); found != nil {
		return Known(found.number)
	}
	return Maybe[float64]{}
}

func (v *values) numbers(name string) []float64 {
	if found := v.get(name); found != nil {
		return found.numbers
	}
	return nil
}

func (v *values) count(name string) Count {
	if found := v.get(name); found != nil {
		return found.count
	}
	return Count{}
}

func (v *values) who(name string) Who {
	found := v.get(name)
	if found == nil {
		return Who{}
	}
	return Who{Count: found.count, Names: found.words}
}

func (v *values) counts(name string) []int {
	if found := v.get(name); found != nil {
		return found.counts
	}
	return nil
}

func (v *values) readings(name string) []Reading {
	if found := v.get(name); found != nil {
		return found.readings
	}
	return nil
}

// change returns a water change as a share or as litres.
func (v *values) change(name string) (share, litres Maybe[float64]) {
	found := v.get(name)
	if found == nil {
		return share, litres
	}
	if found.share {
		return Known(found.number), litres
	}
	return share, Known(found.number)
}

// checkBroodNames reports names of broods that do not fit the number of females.
func (v *values) checkBroodNames(berried *Berried) {
	brood := v.get("brood")
	if brood == nil || v.get("berried") == nil || !brood.isList || len(berried.Broods) == berried.Shrimp.Count.Total {
		return
	}
	v.page.fail(brood.at, issue{code: "brood-names",
		message: fmt.Sprintf("%s for %s; give one name, or one for each", plural(len(berried.Broods), "name"),
			plural(berried.Shrimp.Count.Total, "brood"))})
	berried.Broods = nil
}

// checkMeasuredNames reports names of shrimp that do not fit the lengths.
func (v *values) checkMeasuredNames(measured *Measured) {
	given := v.get("names")
	if given == nil || v.get("measured") == nil || len(measured.Names) == len(measured.Lengths) {
		return
	}
	v.page.fail(given.at, issue{code: "measured-names",
		message: fmt.Sprintf("%s for %s; give one name for each length", plural(len(measured.Names), "name"),
			plural(len(measured.Lengths), "length"))})
	measured.Names = nil
}

// plural writes a number with its noun.
func plural(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// readMapping reads a mapping whose keys are words. Every problem is reported in the order of the file. The owner
// is how messages call the mapping, such as "journal.yaml" or "berried".
func (p *page) readMapping(children []child, words []Word, context *context) *values {
	found := &values{page: p, list: make([]value, 0, len(children))}
	for _, c := range children {
		if c.torn != "" {
			p.tornApart(c, numberHint(c.torn))
		}
		word := find(words, c.name)
		if word == nil {
			nearest := nearestKeys(c, words, children)
			found.meant = append(found.meant, nearest...)
			p.unknownKey(c, words, nearest, context)
			continue
		}
		switch {
		case c.torn != "":
			found.meant = append(found.meant, c.name)
		case context.mayLeaveOut(word) && isEmptyNode(c.value):
			p.warn(p.at(c.key), issue{code: "no-value", message: quote(c.name) + " has no value; it is taken as not written", hint: word.missingHint()})
		default:
			found.list = append(found.list, p.readValue(word, c.key, c.value, context))
		}
	}
	return found
}

// requireKeys reports words that must be there and are not. Of a misspelt one enough was said.
func (p *page) requireKeys(found *values, words []Word, at Position, owner string) {
	for i := range words {
		if word := &words[i]; word.Required && found.written(word.Name) == nil && !slices.Contains(found.meant, word.Name) {
			p.fail(at, issue{code: "missing-key", message: fmt.Sprintf("%s has no %s", owner, quote(word.Name)),
				hint: "add: " + word.Name + ": " + word.Example})
		}
	}
}

// entryOwner is how messages call the keys at the top of an entry.
const entryOwner = "an entry"

// context is what reading a value needs to know beside the value.
type context struct {
	owner    string     // what the keys belong to, for messages
	settings *Settings  // nil when journal.yaml could not be read
	kind     *EventKind // nil outside events
	today    reckoned   // what "yesterday" is told from
}

// mayLeaveOut reports whether a word tells more of an event and says nothing where its value is missing, as behind a
// comment that was opened and not filled in.
func (c *context) mayLeaveOut(word *Word) bool {
	return c.kind != nil && word.Name != c.kind.Name && !word.Required
}

// reckoned is a day from which others are told, or zero, and what says it.
type reckoned struct {
	day  Day
	what string
}

// nearestKeys returns the words that a key may mean: none that stands beside it, and no water test for a single value.
func nearestKeys(found child, words []Word, beside []child) []string {
	single, isSingle := scalarOf(found.value)
	free := slices.DeleteFunc(slices.Clone(words), func(word Word) bool {
		return word.Form == FormReadings && isSingle && !single.empty ||
			slices.ContainsFunc(beside, func(c child) bool { return c.name == word.Name })
	})
	return suggest(free, found.name)
}

// unknownKey reports a key that is no word of its place, with those that may be meant.
func (p *page) unknownKey(found child, words []Word, nearest []string, context *context) {
	single, _ := scalarOf(found.value)
	hint := ""
	switch m := keyWithValue.FindStringSubmatch(found.name); {
	case len(nearest) > 0 && strings.Contains(found.name, " ") && fold(found.name) == nearest[0]:
		hint = "write " + nearest[0] + ": " + single.text
	case looseBrace.MatchString(found.name) && find(words, looseBrace.FindStringSubmatch(found.name)[1]) != nil:
		nearest = looseBrace.FindStringSubmatch(found.name)[1:2]
		hint = "write " + nearest[0] + ": {, with a colon and a space before the brace"
	case m != nil && len(suggest(words, m[1])) > 0:
		nearest = suggest(words, m[1])
		hint = "write " + nearest[0] + ": " + m[2]
	}
	problem := unknown{code: "unknown-key", what: "key", written: found.name, owner: context.owner, nearest: nearest, known: names(words)}.issue()
	problem.hint = cmp.Or(hint, problem.hint, choiceHint(found.name, single.text, words, nearest),
		keyHint(found.name, single.text, words), misplaced(found, context))
	if len(nearest) == 0 {
		problem.hint = or(problem.hint, keyHint("", "", words))
	}
	p.fail(p.at(found.key), problem)
}

// looseBrace is a key whose colon or the space behind it is missing before a brace: "water:{ph".
var looseBrace = regexp.MustCompile(`^([a-z0-9-]+)(?::| +)\{`)

// elsewhere names the kinds of events that have an attribute of this name.
func elsewhere(attribute string) string {
	var kinds []string
	for i := range vocabulary.Kinds {
		if find(vocabulary.Kinds[i].Attributes, attribute) != nil {
			kinds = append(kinds, vocabulary.Kinds[i].Name)
		}
	}
	if len(kinds) == 0 {
		return ""
	}
	return quote(attribute) + " goes with " + either(kinds)
}

// readValue reads one value by the form of its word.
func (p *page) readValue(word *Word, key *token.Token, node ast.Node, context *context) value {
	found := value{word: word, key: p.at(key), at: p.at(key), node: node}
	if node != nil && !isImplicitNull(node) {
		found.at = p.at(startOf(node))
	}
	single, isSingle := scalarOf(node)
	if isSingle && single.empty {
		found.good = word.mayBeEmpty()
		if !found.good {
			p.fail(found.key, issue{code: "no-value", message: quote(word.Name) + " has no value",
				hint: word.missingHint()})
		}
		return found
	}
	read, before := &cell{page: p, context: context, found: &found, node: node, single: single, isSingle: isSingle}, len(p.problems)
	if found.good = readForm(read); !found.good {
		for i := range p.problems[before:] {
			p.problems[before+i].Hint = or(read.leaveOut(), p.problems[before+i].Hint)
		}
	}
	return found
}

// missingHint says what to do about a key without a value.
func (w *Word) missingHint() string {
	hint := "give it one, as in " + w.Name + ": " + w.Example
	if w.Required {
		return hint
	}
	return hint + ", or take it out"
}

// forExample shows a key with a value.
func (w *Word) forExample() string { return "for example: " + w.Name + ": " + w.Example }

// mayBeEmpty says whether a key may stand without a value, as when all its lines are comments.
func (w *Word) mayBeEmpty() bool {
	switch w.Form {
	case FormEvents, FormWords, FormMapping, FormBiology, FormTankList, FormRanges:
		return true
	}
	return false
}

func isImplicitNull(node ast.Node) bool {
	return node.GetToken().Type == token.ImplicitNullType
}

// cell is one value while it is read.
type cell struct {
	*page
	context  *context
	found    *value
	node     ast.Node
	single   scalar
	isSingle bool
}

// wrong reports that the value is not of its form.
func (c *cell) wrong(code, allowed, hint string) bool {
	c.fail(c.found.at, issue{code: code,
		message: fmt.Sprintf("%s is %s; %s", quote(c.found.word.Name), c.written(), allowed), hint: hint})
	return false
}

// written shows what the keeper wrote as a value.
func (c *cell) written() string {
	if c.isSingle {
		return quote(c.single.text)
	}
	if list, ok := c.node.(*ast.SequenceNode); ok {
		if len(list.Values) == 0 {
			return "an empty list"
		}
		return "a list"
	}
	return "a group of keys"
}
