package theme

import (
	"encoding/json"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"pleopod/journal"
)

// searchPath is the script that holds the search index.
const searchPath = "search.js"

// searchDoc is one page that can be found: its path, title and day.
type searchDoc [3]string

// findable is one page that can be found, and the text in which it is found.
type findable struct {
	doc  searchDoc
	text string
}

// searchIndex returns a script with the pages that can be found and, for each word, the pages it stands on. It is a
// script so that it can be read from a folder, where a page may not fetch other files.
func (b *book) searchIndex() ([]byte, error) {
	fixed := b.findables()
	docs := make([]searchDoc, 0, len(fixed)+len(b.entries))
	found := map[string][]int32{}
	add := func(doc searchDoc, words []string) {
		for _, word := range words {
			places, known := found[word]
			if !known {
				word = strings.Clone(word) // the text it was cut from is not kept
			}
			found[word] = append(places, int32(len(docs)))
		}
		docs = append(docs, doc)
	}
	for _, one := range fixed {
		add(one.doc, b.press.searchWords(one))
	}
	p := b.pen(searchPath)
	for _, e := range slices.Backward(b.entries) {
		one := p.findable(e)
		add(one.doc, b.press.searchWords(one))
	}
	words := make([]string, 0, len(found))
	for word := range found {
		words = append(words, word)
	}
	slices.Sort(words)
	places := make([]string, len(words))
	for i, word := range words {
		places[i] = gaps(found[word])
	}
	text, err := json.Marshal(map[string]any{"docs": docs, "words": strings.Join(words, " "),
		"places": strings.Join(places, ";")})
	return slices.Concat([]byte("pleopodSearch("), text, []byte(");\n")), err
}

// findables lists the pages besides entries.
func (b *book) findables() []findable {
	var all []findable
	add := func(path, title, day, text string) {
		all = append(all, findable{searchDoc{path, title, day}, title + " " + text})
	}
	for i := range b.Tanks {
		id := b.Tanks[i].Tank.ID
		add(b.paths.tank[id], b.tankName(id), "", "tank "+id)
	}
	for i := range b.Broods {
		x := &b.Broods[i]
		add(b.paths.brood[x.ID], x.ID, x.Berried.String(), "brood "+b.tankName(x.Tank()))
	}
	for _, s := range b.Colony.Shrimp {
		add(b.paths.shrimp[s.Name], s.Name, s.First.Day.String(), "shrimp "+string(s.Sex))
	}
	return all
}

// findable gathers the words in which an entry is found.
func (p *pen) findable(e *journal.Entry) findable {
	var text strings.Builder
	title := p.title(e)
	text.WriteString(title + " " + p.plain[e] + " " + strings.Join(e.Topics, " "))
	for _, line := range p.lines(e) {
		text.WriteString(" " + line.Label + " " + plain(line.Words) + " " + line.Note)
	}
	for _, id := range tanksOf(e) {
		text.WriteString(" " + p.tankName(id))
	}
	return findable{searchDoc{p.paths.entry[e], title, e.Date.String()}, text.String()}
}

// gaps writes rising numbers as the steps between them, in base 36: shorter, and easily undone.
func gaps(numbers []int32) string {
	var b strings.Builder
	last := int32(-1)
	for i, n := range numbers {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteString(strconv.FormatInt(int64(n-last), 36))
		last = n
	}
	return b.String()
}

// longestWord is the most bytes of a word that can be found.
const longestWord = 40

// searchWords returns the words of a text in lower case, each once. In scripts without spaces every sign is a word.
func searchWords(text string) []string {
	var out []string
	seen := map[string]bool{}
	add := func(word string) {
		if word != "" && len(word) <= longestWord && !seen[word] {
			seen[word] = true
			out = append(out, word)
		}
	}
	text = strings.ToLower(text)
	from := 0 // where the word begins
	for at, r := range text {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
		case r < utf8.RuneSelf:
			add(text[from:at])
			from = at + 1
		case unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana):
			add(text[from:at])
			from = at + utf8.RuneLen(r)
			add(text[at:from])
		case unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.Is(unicode.M, r):
		default:
			add(text[from:at])
			from = at + utf8.RuneLen(r)
		}
	}
	add(text[from:])
	return out
}
