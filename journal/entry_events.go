package journal

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/goccy/go-yaml/ast"
)

// happened is one event as it was read, before it is put into its tanks.
type happened struct {
	kind  *EventKind
	found *values
	at    Position
}

func (r *entryReader) readEvents(written *value) {
	if written.node == nil || isEmptyNode(written.node) {
		return
	}
	items, ok := r.items(written.node)
	if !ok {
		r.fail(written.at, issue{code: "not-a-list", message: `"events" takes a list`,
			hint: "put a hyphen and a space before each event:   - " + exampleFor(written.node)})
		return
	}
	for _, item := range items {
		r.readEvent(item)
	}
}

func isEmptyNode(node ast.Node) bool {
	single, ok := scalarOf(node)
	return ok && single.empty
}

func (r *entryReader) readEvent(item ast.Node) {
	children, ok := r.children(item)
	if !ok {
		r.eventWithoutValue(item)
		return
	}
	kind, key := r.kindOfEvent(children, r.at(startOf(item)))
	if kind == nil {
		return
	}
	words := make([]Word, 0, 1+len(kind.Attributes)+len(eventWords))
	words = append(append(append(words, kind.Word), kind.Attributes...), eventWords...)
	for i := range words {
		if words[i].Form == FormTank && words[i].Required {
			words[i].Example = r.otherTank(children)
		}
	}
	found := r.readMapping(children, words, &context{owner: quote(kind.Name), settings: r.settings, kind: kind,
		today: reckoned{r.entry.Date, "the date of the entry"}})
	r.requireKeys(found, words, r.at(key.key), quote(kind.Name))
	value := found.get(kind.Name)
	if value == nil {
		return
	}
	if (kind.Form == FormWho || kind.Form == FormCount) && !kind.MayBeNone && value.count.Total == 0 {
		r.warn(value.at, issue{code: "nothing-happened", message: quote(kind.Name) + " is 0, and an event is what happened", hint: "leave it out, or write how many"})
	}
	r.addEvents(&happened{kind: kind, found: found, at: r.at(key.key)})
}

// otherTank returns a tank of the journal that is not the one of an event, or a word for it.
func (r *entryReader) otherTank(children []child) string {
	own := r.entry.Tanks
	for _, c := range children {
		if single, _ := scalarOf(c.value); c.name == "tank" || c.name == "from" {
			own = []string{single.text}
		}
	}
	if r.settings != nil {
		for _, tank := range r.settings.Tanks {
			if !slices.Contains(own, tank.ID) {
				return tank.ID
			}
		}
	}
	return "the id of the other tank, which journal.yaml must have"
}

// eventWithoutValue explains an item of the list that is no mapping.
func (r *entryReader) eventWithoutValue(item ast.Node) {
	single, ok := scalarOf(item)
	at := r.at(startOf(item))
	if !ok || single.empty {
		r.fail(at, issue{code: "not-an-event", message: "an event is a kind with a value", hint: "for example:   - " + exampleFor(item)})
		return
	}
	hint := "for example:   - "
	if kindMeant(single.text) != nil {
		hint = "write "
	}
	r.fail(at, issue{code: "not-an-event",
		message: quote(single.text) + " has no value; an event is a kind with a value", hint: hint + exampleFor(item)})
}

// kindMeant returns the kind that the first word of a text is or comes near to, or that a later one is called, or nil.
func kindMeant(text string) *EventKind {
	words := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" :•·*–—−", r) })
	if len(words) == 0 {
		return nil
	}
	for _, called := range [][]string{{text}, words} {
		for _, name := range called {
			if kind := firstKind(calledSo(kindWords(), name)); kind != nil {
				return kind
			}
		}
	}
	return firstKind(suggest(kindWords(), strings.TrimLeft(words[0], "-")))
}

// countIn is the number in a text of some words, as in "2 berried females".
var countIn = regexp.MustCompile(`(?:^|[ :])(\d{1,6})(?: |$)`)

// exampleFor returns an event as it is written in the list of events: of the kind that stands in a value which is no such
// list or no event, or of any kind where none does.
func exampleFor(node ast.Node) string {
	name, value := "", ""
	switch node := node.(type) {
	case *ast.MappingNode:
		if len(node.Values) > 0 {
			single, _ := scalarOf(node.Values[0].Value)
			name, value = node.Values[0].Key.GetToken().Value, single.text
		}
	case *ast.SequenceNode:
		if len(node.Values) > 0 {
			return exampleFor(node.Values[0])
		}
	default:
		single, _ := scalarOf(node)
		name = single.text
		if m := countIn.FindStringSubmatch(name); m != nil {
			value = m[1]
		}
	}
	kind := kindMeant(name)
	if kind == nil {
		return "moulted: 1"
	}
	if kind.Form == FormNameOrTrue && wholeShape.MatchString(value) {
		value = ""
	}
	return kind.Name + ": " + or(singleSpaced(value), usualValue(kind))
}

// kindOfEvent finds the one kind among the keys of an event, and reports an event with none or several.
func (r *entryReader) kindOfEvent(children []child, at Position) (*EventKind, child) {
	var kind *EventKind
	var key child
	for _, c := range children {
		found := kindOf(c.name)
		if found == nil {
			continue
		}
		if kind != nil {
			r.fail(r.at(c.key), issue{code: "two-kinds",
				message: quote(kind.Name) + " and " + quote(c.name) + " are two events; each is an item of the list", hint: "put a hyphen before " + quote(c.name)})
			return nil, key
		}
		kind, key = found, c
	}
	if kind == nil {
		r.noKind(children, at)
	}
	return kind, key
}

// noKind reports an event without a kind, at the key that was meant to be one.
func (r *entryReader) noKind(children []child, at Position) {
	kinds := kindWords()
	var candidate *child
	for i, c := range children {
		if knownAttribute(c.name) {
			continue
		}
		if candidate == nil || (len(suggest(kinds, c.name)) > 0 && len(suggest(kinds, candidate.name)) == 0) {
			candidate = &children[i]
		}
	}
	if len(children) == 0 {
		r.fail(at, issue{code: "not-an-event", message: "an event is a kind with a value",
			hint: "for example:   - moulted: 1"})
		return
	}
	if candidate == nil {
		r.fail(r.at(children[0].key), orphan(children[0].name))
		return
	}
	r.fail(r.at(candidate.key), unknownEvent(kinds, *candidate))
}

// unknownEvent says of a key that is no kind which one may be meant. Its value tells more where it is a kind itself, as in
// "seen: saddle".
func unknownEvent(kinds []Word, written child) issue {
	single, _ := scalarOf(written.value)
	nearest, hint := suggest(kinds, written.name), ""
	if inValue := firstKind(calledSo(kinds, single.text)); inValue != nil {
		nearest, hint = []string{inValue.Name}, "write "+inValue.Name+": "+usualValue(inValue)
	}
	found := unknown{code: "unknown-event", what: "event", written: written.name, nearest: nearest, known: names(kinds)}.issue()
	found.hint = or(or(hint, found.hint), eventHint(written.name, or(single.text, "1"), firstKind(nearest)))
	if found.hint == "" && len(nearest) == 0 {
		found.hint = noEventHint(written.name, single.text)
	}
	return found
}

// noEventHint says where that belongs which comes near no event.
func noEventHint(written, value string) string {
	if kind := kindMeant(written); kind != nil && strings.Contains(written, " ") {
		return "write " + kind.Name + ": " + or(value, usualValue(kind))
	}
	if called := calledSo(readingWords, written); len(called) > 0 {
		return "write water: {" + called[0] + ": " + or(value, find(readingWords, called[0]).Example) + "}"
	}
	return "what is no event belongs in the text, below the second line of hyphens"
}

// firstKind returns the kind of the first name, or nil when there is none.
func firstKind(names []string) *EventKind {
	if len(names) == 0 {
		return nil
	}
	return kindOf(names[0])
}

// usualValue is what a keeper who saw one shrimp writes for a kind.
func usualValue(kind *EventKind) string {
	switch kind.Form {
	case FormWho, FormCount, FormWhole:
		return "1"
	case FormNameOrTrue:
		return "true"
	}
	return kind.Example
}

// orphan says of a key that tells more of an event that the event itself is missing, and which it may be.
func orphan(key string) issue {
	found := issue{code: "no-kind", message: quote(key) + " tells more of an event, and the event itself is missing", hint: "begin the item with what happened, such as: moulted: 1"}
	var owners []string
	if word := find(readingWords, key); word != nil {
		found.hint = "if it was measured in the tank, write water: {" + key + ": " + word.Example + "}"
		return found
	}
	for i := range vocabulary.Kinds {
		kind := &vocabulary.Kinds[i]
		if find(kind.Attributes, key) == nil {
			continue
		}
		if len(owners) == 0 {
			found.hint = "begin the item with what happened, such as: " + kind.Name + ": " + kind.Example
		}
		owners = append(owners, kind.Name)
	}
	if len(owners) > 0 && len(owners) <= 3 {
		found.message += "; it goes with " + either(owners)
	}
	return found
}

// knownAttribute reports whether some event may carry the key.
func knownAttribute(name string) bool {
	if find(eventWords, name) != nil {
		return true
	}
	for i := range vocabulary.Kinds {
		if find(vocabulary.Kinds[i].Attributes, name) != nil {
			return true
		}
	}
	return false
}

// addEvents puts what happened into its tank, or into each tank of the entry for the kinds that apply to each.
func (r *entryReader) addEvents(what *happened) {
	if len(r.entry.Events) >= maxEvents {
		r.fail(what.at, issue{code: "too-long", message: "more events than one entry may have",
			hint: "write a second entry"})
		return
	}
	event := Event{Position: what.at, Entry: r.entry, Day: r.entry.Date, Note: what.found.text("note"),
		What: what.kind.build(what.found), Places: what.found.places()}
	if day := what.found.day("date"); day != 0 {
		event.Day = day
	}
	for _, tank := range r.tanksOf(what) {
		event.Tank = tank
		r.entry.Events = append(r.entry.Events, event)
		r.checkEvent(&event)
	}
}

// tanksOf returns the tanks of an event, and reports an event whose tank cannot be told.
func (r *entryReader) tanksOf(what *happened) []string {
	if own := what.found.written("tank"); own != nil {
		if !own.good {
			return nil
		}
		return []string{own.text}
	}
	switch {
	case len(r.entry.Tanks) == 1 || (len(r.entry.Tanks) > 1 && what.kind.EachTank):
		return r.entry.Tanks
	case r.tankless:
		return nil
	case len(r.entry.Tanks) > 1:
		r.fail(what.at, issue{code: "no-tank",
			message: quote(what.kind.Name) + " needs its own tank, because the entry names several: " + either(r.entry.Tanks), hint: "add to the event: tank: " + r.entry.Tanks[0]})
		return nil
	}
	var ids []string
	for _, tank := range r.settings.Tanks {
		ids = append(ids, tank.ID)
	}
	if len(ids) > 0 {
		r.fail(what.at, issue{code: "no-tank",
			message: "no tank for " + quote(what.kind.Name) + "; journal.yaml has " + either(ids),
			hint:    "add to the entry: tank: " + ids[0]})
	}
	return nil
}

// checkEvent reports what is odd about one event in its tank.
func (r *entryReader) checkEvent(event *Event) {
	r.checkNumbers(event)
	r.checkYear(event)
	switch happening := event.What.(type) {
	case *Berried:
		r.checkOrder(event, "last-clear", happening.LastClear)
	case *Hatched:
		r.checkOrder(event, "last-carried", happening.LastCarried)
	case *Removed:
		r.checkTo(event, happening)
	case *Measured:
		r.checkOrder(event, "hatched-on", happening.HatchedOn)
	case *WaterTest:
		r.checkReadings(event.Tank, happening.Readings)
	}
}

// checkOrder reports a day of an event's past that lies after the event.
func (r *entryReader) checkOrder(event *Event, key string, day Day) {
	if day == 0 || event.Day == 0 || day <= event.Day {
		return
	}
	about := find(kindOf(event.What.Kind()).Attributes, key).About
	r.fail(event.At(key), issue{code: "date-order",
		message: fmt.Sprintf("%s is %s, after the %s of %s", quote(key), day, event.What.Kind(), event.Day),
		hint:    "it is the " + strings.TrimPrefix(about, "the ")})
}
