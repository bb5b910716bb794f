package journal

import (
	"fmt"
	"slices"

	"github.com/goccy/go-yaml/ast"
)

// ParseEntry reads one entry file. It touches nothing but its arguments, so a caller may keep the result for the same
// path, source and settings. The path is the file's, relative to the journal folder. Without settings (nil) nothing
// that depends on journal.yaml is checked. The entry holds what could be understood; it is nil when the front matter
// could not be read at all. Whether photos exist is for Read to find out.
func ParseEntry(path string, source []byte, settings *Settings) (*Entry, []Problem) {
	p := &page{path: path, units: MetricUnits()}
	if settings != nil {
		p.units = settings.Units
	}
	if len(source) > maxEntryBytes {
		p.fail(p.place(1, 1), issue{code: "too-long",
			message: fmt.Sprintf("the file has %d bytes; an entry may have %d", len(source), maxEntryBytes)})
		return nil, p.sorted()
	}
	source, ok := p.cleanText(source)
	if !ok {
		return nil, p.sorted()
	}
	found, ok := p.splitFrontMatter(source)
	if !ok {
		return nil, p.sorted()
	}
	p.before = found.before
	tree := p.parseYAML(found.yaml)
	if HasErrors(p.problems) {
		return nil, p.sorted()
	}
	entry := &Entry{Path: path, Source: source}
	reader := &entryReader{page: p, entry: entry, settings: settings}
	reader.read(tree)
	p.readMarkdown(entry, found.body)
	reader.checkStill()
	if entry.Title == "" {
		entry.Title = entry.Date.String()
	}
	return entry, p.sorted()
}

// entryReader fills an entry from its front matter.
type entryReader struct {
	*page
	entry    *Entry
	settings *Settings
	tankless bool // the entry's tanks are in doubt; that was reported
}

func (r *entryReader) read(tree ast.Node) {
	keys, ok := r.keysOf(tree, issue{code: "not-a-mapping", message: "between the hyphens stand no keys",
		hint: "write a key, a colon, a space and the value: date: 2026-03-14"})
	if !ok {
		return
	}
	words, named := entryWords, dayOfName(r.path)
	dated := func(c child) bool { return c.name == "date" && !isEmptyNode(c.value) }
	if named != 0 && !slices.ContainsFunc(keys, dated) {
		words = slices.Clone(entryWords)
		find(words, "date").Example = named.String()
	}
	found := r.readMapping(keys, words, &context{owner: entryOwner, settings: r.settings, today: reckoned{named, "the name of the file"}})
	r.requireKeys(found, words, r.place(max(r.before, 1), 1), "the entry")
	r.entry.Places = found.places()
	r.entry.Date = found.day("date")
	r.checkName(named)
	r.entry.Title = found.text("title")
	r.entry.Topics = found.names("topics")
	// In doubt an entry is private: a slip of the pen must not publish what was meant to stay at home.
	r.entry.Private = found.text("visibility") == "private" || (found.written("visibility") != nil && found.get("visibility") == nil)
	r.readTanksOf(found)
	if water := found.get("water"); water != nil {
		r.addEvents(&happened{kind: &waterTest, found: r.rename(water), at: water.key})
	}
	if events := found.get("events"); events != nil {
		r.readEvents(events)
	}
}

// readTanksOf sets the default tanks of the entry.
func (r *entryReader) readTanksOf(found *values) {
	written := found.written("tank")
	switch {
	case written != nil && !written.good, written == nil && slices.Contains(found.meant, "tank"):
		r.tankless = true
	case written != nil:
		r.entry.Tanks = written.words
	case r.settings == nil:
		r.tankless = true
	case len(r.settings.Tanks) == 1:
		r.entry.Tanks = []string{r.settings.Tanks[0].ID}
	}
}

// rename returns the water shortcut of an entry as the values of a water event.
func (r *entryReader) rename(water *value) *values {
	copied := *water
	copied.word = &waterTest.Word
	return &values{page: r.page, list: []value{copied}}
}
