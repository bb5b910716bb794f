package journal

import (
	"fmt"
	"slices"
	"strings"

	"github.com/goccy/go-yaml/ast"
)

// ParseEntry reads one entry. It looks at nothing but its arguments, so that the result can be kept for as long as the
// source and the settings stay the same. The entry is nil when its date cannot be read. Problems are sorted. Without
// settings (nil, when journal.yaml could not be read) tanks and grades are not checked.
func ParseEntry(path string, source []byte, settings *Settings) (*Entry, []Problem) {
	p := &page{path: path, units: MetricUnits()}
	if settings != nil {
		p.units = settings.Units
	}
	entry := p.entry(source, settings)
	return entry, p.sorted()
}

func (p *page) entry(source []byte, settings *Settings) *Entry {
	source, ok := p.clean(source, maxEntryBytes)
	if !ok {
		return nil
	}
	found, ok := p.splitFrontMatter(source)
	if !ok {
		return nil
	}
	p.before = found.above
	entry := &Entry{Path: p.path, Source: source}
	r := &entryReader{page: p, entry: entry, settings: settings}
	if !r.readFrontMatter(found.yaml) {
		return nil
	}
	p.readText(entry, found.body)
	if entry.Title == "" {
		entry.Title = firstHeading(entry)
	}
	if entry.Title == "" {
		entry.Title = entry.Date.String()
	}
	return entry
}

// entryReader turns the front matter of one entry into its fields and events.
type entryReader struct {
	*page
	entry    *Entry
	settings *Settings
	several  bool // the entry names a list of tanks
}

func (r *entryReader) readFrontMatter(yaml []byte) bool {
	problems := len(r.problems)
	node := r.parseYAML(yaml)
	if node == nil {
		if len(r.problems) == problems {
			r.fail(r.place(r.before, 1), issue{code: "missing-key", message: `the entry has no "date"`, hint: "add: date: 2026-03-14"})
		}
		return false
	}
	children, ok := r.children(node)
	if !ok {
		r.fail(r.at(startOf(node)), issue{code: "not-a-mapping", message: "the front matter is no list of keys; each line is a key, a colon, a space and a value", hint: "for example: date: 2026-03-14"})
		return false
	}
	about := &context{owner: "", settings: r.settings}
	found := r.readMapping(children, entryWords, about)
	r.requireKeys(found, entryWords, r.place(r.before, 1), "the entry")
	r.entry.Date = found.day("date")
	r.entry.Title = found.text("title")
	r.entry.Private = found.text("visibility") == "private"
	r.entry.Topics = found.names("topics")
	r.readEntryTanks(found)
	if water := found.written("water"); water != nil && water.good {
		r.addEvents(water, kindOf("water"), found, nil)
	}
	if events := found.written("events"); events != nil && events.good && events.node != nil {
		r.readEvents(events)
	}
	return r.entry.Date != 0
}

// readEntryTanks fills the default tanks: those that were written, or the journal's only one.
func (r *entryReader) readEntryTanks(found *values) {
	if written := found.written("tank"); written != nil {
		r.entry.Tanks = found.names("tank")
		r.several = written.isList && len(r.entry.Tanks) > 1
		return
	}
	if r.settings != nil && len(r.settings.Tanks) == 1 {
		r.entry.Tanks = []string{r.settings.Tanks[0].ID}
	}
}

func (r *entryReader) readEvents(events *value) {
	if isImplicitNull(events.node) {
		return
	}
	items, ok := r.items(events.node)
	if !ok {
		r.fail(events.at, issue{code: "not-a-list", message: `"events" takes a list; each event starts with a hyphen`, hint: "for example: - moulted: 1"})
		return
	}
	for i, item := range items {
		if i == maxEvents {
			r.fail(r.at(startOf(item)), issue{code: "too-long", message: fmt.Sprintf("more than %d events in one entry", maxEvents)})
			return
		}
		r.readEvent(item)
	}
}

// readEvent reads one item of the list: exactly one kind, its attributes, and what every event may carry.
func (r *entryReader) readEvent(item ast.Node) {
	children, ok := r.children(item)
	if !ok {
		r.notAnEvent(item)
		return
	}
	var kinds, rest []child
	for _, c := range children {
		if kindOf(c.name) != nil {
			kinds = append(kinds, c)
		} else {
			rest = append(rest, c)
		}
	}
	if len(kinds) == 0 {
		r.unknownEvent(children)
		return
	}
	kind := kindOf(kinds[0].name)
	words := slices.Concat([]Word{kind.Word}, kind.Attributes, eventWords)
	// A word can be a kind and an attribute of another, such as water: what the first kind allows is its attribute.
	for _, second := range kinds[1:] {
		if find(words, second.name) == nil {
			r.fail(r.at(second.key), issue{code: "two-kinds", message: fmt.Sprintf("%s and %s in one event; give each its own item", quote(kinds[0].name), quote(second.name)),
				hint: "start the second with a hyphen of its own: - " + second.name + ": …"})
			continue
		}
		rest = append(rest, second)
	}
	about := &context{owner: quote(kind.Name), settings: r.settings}
	found := r.readMapping(append([]child{kinds[0]}, rest...), words, about)
	r.requireKeys(found, words, found.list[0].key, quote(kind.Name))
	r.addEvents(&found.list[0], kind, found, found)
}

func (r *entryReader) notAnEvent(item ast.Node) {
	at := r.at(startOf(item))
	single, ok := scalarOf(item)
	kind := kindOf(strings.TrimSpace(single.text))
	switch {
	case ok && kind != nil:
		r.fail(at, issue{code: "not-an-event", message: quote(kind.Name) + " has no value", hint: "for example: - " + kind.Name + ": " + kind.Example})
	case ok && !single.empty:
		r.fail(at, issue{code: "not-an-event", message: quote(single.text) + " is no event; an event is a kind, a colon and a value", hint: "for example: - moulted: 1"})
	default:
		r.fail(at, issue{code: "not-an-event", message: "an event is a kind, a colon and a value", hint: "for example: - moulted: 1"})
	}
}

// unknownEvent reports an item without any known kind, at the first key that is no attribute of every event.
func (r *entryReader) unknownEvent(children []child) {
	for _, c := range children {
		if find(eventWords, c.name) != nil || isAttribute(c.name) {
			continue
		}
		r.fail(r.at(c.key), unknown{code: "unknown-event", what: "event", written: c.name, nearest: suggest(kindWords(), c.name), known: names(kindWords())}.issue())
		return
	}
	if len(children) > 0 {
		r.fail(r.at(children[0].key), issue{code: "unknown-event", message: "this event has no kind; allowed: " + either(names(kindWords()))})
	}
}

// isAttribute reports whether any kind has an attribute of that name.
func isAttribute(name string) bool {
	return slices.ContainsFunc(vocabulary.Kinds, func(kind EventKind) bool { return find(kind.Attributes, name) != nil })
}

// addEvents adds the event that was read, once for each tank it is about. own is nil for the water shortcut, which
// takes everything but its readings from the entry.
func (r *entryReader) addEvents(main *value, kind *EventKind, found, own *values) {
	what := kind.build(found)
	if !main.good {
		return
	}
	r.warnUnusual(main)
	event := Event{Position: main.key, Entry: r.entry, Day: r.entry.Date, Note: own.text("note"), What: what}
	if day := own.day("date"); day != 0 {
		event.Day = day
	}
	for _, tank := range r.tanksOf(main, kind, own) {
		event.Tank = tank
		r.warnOutOfRange(tank, what)
		r.entry.Events = append(r.entry.Events, event)
	}
}

// tanksOf returns the tanks of an event: its own, else the entry's. With a list of tanks only some kinds apply to each.
func (r *entryReader) tanksOf(main *value, kind *EventKind, own *values) []string {
	if own.written("tank") != nil {
		return own.names("tank")
	}
	switch {
	case r.several && !kind.EachTank:
		r.fail(main.key, issue{code: "which-tank", message: fmt.Sprintf("the entry is about %d tanks; %s must name its own", len(r.entry.Tanks), quote(kind.Name)), hint: "add to the event: tank: " + r.entry.Tanks[0]})
		return nil
	case len(r.entry.Tanks) == 0 && r.settings != nil && len(r.settings.Tanks) > 1 && !r.triedTank():
		r.fail(main.key, issue{code: "which-tank", message: fmt.Sprintf("%s names no tank, and the journal has %d", quote(kind.Name), len(r.settings.Tanks)), hint: "add to the entry: tank: " + r.settings.Tanks[0].ID})
		return nil
	}
	return r.entry.Tanks
}

// triedTank reports whether a problem about the entry's tank was found already.
func (r *entryReader) triedTank() bool {
	return slices.ContainsFunc(r.problems, func(p Problem) bool { return p.Code == "unknown-tank" || p.Code == "not-a-tank" })
}
