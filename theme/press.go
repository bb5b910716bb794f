package theme

import (
	"bytes"
	"html/template"
	"iter"
	"slices"
	"sync"

	"pleopod/journal"
	"pleopod/journal/digest"
	"pleopod/theme/figure"
)

// Press draws the site of a journal again and again, and draws only what has changed. Whatever it keeps, it keeps under
// a checksum of everything that it was made from: a page under its filled struct, its figures and its template, a figure under
// its numbers. So a page cannot forget what it depends on. The zero Press is ready. One Press serves one goroutine at a time.
//
// The site is the one that Draw would draw, byte for byte.
type Press struct {
	look   digest.Sum // of the templates that the sheets were drawn with
	sheets kept[string, printed]
	svgs   kept[digest.Sum, engraving]
	cards  kept[digest.Sum, []byte]
	texts  kept[textKey, rendering]
	words  kept[string, indexed]
}

// printed is a drawn page and the checksum of what it was drawn from.
type printed struct {
	sum   digest.Sum
	sheet sheet
}

// engraving is a figure as SVG, or why it cannot be drawn.
type engraving struct {
	svg template.HTML
	err error
}

// textKey names the rendered text of an entry. The reading of its file is as good as its content.
type textKey struct {
	reading *byte
	root    string
}

// rendering is the text of an entry as HTML, with what it rests on besides the entry.
type rendering struct {
	html  template.HTML
	err   error
	asked []answer
}

// indexed is the words of a text.
type indexed struct {
	text  string
	words []string
}

// turn begins a new drawing and forgets what the last one did not use.
func (p *Press) turn(look *Look) {
	if p == nil {
		return
	}
	if p.look != look.sum {
		p.look, p.sheets = look.sum, kept[string, printed]{}
	}
	p.sheets.turn()
	p.svgs.turn()
	p.cards.turn()
	p.texts.turn()
	p.words.turn()
}

// sheet returns a page as it was drawn last, where its template, its content and its figures are still the same.
func (p *Press) sheet(j job, content page, figures []figure.Figure, draw func() (sheet, error)) (sheet, error) {
	if p == nil {
		return draw()
	}
	var err error
	sum := digest.Of(j.template, content, figures)
	made := p.sheets.get(j.path, func() (made printed) {
		made.sum = sum
		made.sheet, err = draw()
		made.sheet.page = bytes.Clone(made.sheet.page)
		return made
	}, func(old printed) bool { return old.sum == sum })
	return made.sheet, err
}

// svg draws a figure.
func (p *Press) svg(f figure.Figure) (template.HTML, error) {
	if p == nil {
		return f.SVG()
	}
	made := p.svgs.get(digest.Of(f), func() (d engraving) {
		d.svg, d.err = f.SVG()
		return d
	}, nil)
	return made.svg, made.err
}

// card draws a figure as the picture of a preview.
func (p *Press) card(f figure.Figure, title string, colours map[string]string, opt Options) (card []byte, err error) {
	if p == nil {
		return opt.card(f, title, colours)
	}
	card = p.cards.get(digest.Of(f, title, colours), func() (made []byte) {
		made, err = opt.card(f, title, colours)
		return made
	}, func(made []byte) bool { return made != nil })
	return card, err
}

// text renders the text of an entry.
func (p *Press) text(entry *journal.Entry, root string, b *book) (template.HTML, error) {
	s := newScribe(b, entry, root)
	defer s.rest()
	if p == nil {
		return s.render()
	}
	made := p.texts.get(textKey{entry.Reading(), root}, func() (r rendering) {
		r.html, r.err = s.render()
		r.asked = s.asked
		return r
	}, func(old rendering) bool {
		return !slices.ContainsFunc(old.asked, func(a answer) bool { return !a.equal(s.ask(a.destination)) })
	})
	return made.html, made.err
}

// aboveDiary leads from the page of an entry to the site's root.
const aboveDiary = "../"

// isNew reports whether nothing has been drawn before.
func (p *Press) isNew() bool { return p == nil || len(p.sheets.last) == 0 }

// changed returns the places of the entries whose page did not show the same text at the last drawing.
func (p *Press) changed(entries []*journal.Entry) []int {
	var changed []int
	for i, entry := range entries {
		if _, had := p.texts.last[textKey{entry.Reading(), aboveDiary}]; !had {
			changed = append(changed, i)
		}
	}
	return changed
}

// searchWords goes through the words of a page that can be found.
func (p *Press) searchWords(one findable) iter.Seq[string] {
	if p == nil {
		return searchWords(one.text)
	}
	made := p.words.get(one.doc[0], func() indexed {
		words := slices.Collect(searchWords(one.text))
		slices.Sort(words)
		return indexed{one.text, slices.Clip(slices.Compact(words))}
	}, func(old indexed) bool { return old.text == one.text })
	return slices.Values(made.words)
}

// kept holds values by what they were made from. Many goroutines may ask at once. What nobody asked for between two turns
// is forgotten.
type kept[K comparable, V any] struct {
	mu        sync.Mutex
	last, now map[K]V
}

func (k *kept[K, V]) turn() { k.last, k.now = k.now, map[K]V{} }

// get returns the value under a key that holds, and makes it where there is none. holds may be nil: then every value does.
func (k *kept[K, V]) get(key K, make func() V, holds func(V) bool) V {
	k.mu.Lock()
	value, found := k.now[key]
	if !found {
		value, found = k.last[key]
	}
	k.mu.Unlock()
	if !found || holds != nil && !holds(value) {
		value = make()
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.now != nil {
		k.now[key] = value
	}
	return value
}
