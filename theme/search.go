package theme

import (
	"encoding/json"
	"iter"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"pleopod/journal"
)

// searchPath is the script that holds the search index.
const searchPath = "search.js"

// searchDoc is one page that can be found: its path, title and day, and what it is about: tanks, or what kind of page.
type searchDoc [4]string

// findable is one page that can be found, and the text in which it is found.
type findable struct {
	doc  searchDoc
	text string
}

// mostWords is how many different words can be found, those of the newest entries first. A diary of a hundred years has a
// tenth of them; without a bound, texts of random letters would fill the memory.
const mostWords = 500_000

// searchIndex returns a script with the pages that can be found and, for each word, the pages it stands on. It is a
// script so that it can be read from a folder, where a page may not fetch other files.
func (b *book) searchIndex() ([]byte, error) {
	fixed := b.findables()
	docs := make([]searchDoc, 0, len(fixed)+len(b.entries))
	found := map[string][]int32{}
	add := func(one findable) {
		for word := range b.press.searchWords(one) {
			places, known := found[word]
			switch {
			case !known && len(found) >= mostWords:
				continue
			case !known:
				word = strings.Clone(word) // the text it was cut from is not kept
			case places[len(places)-1] == int32(len(docs)):
				continue
			}
			found[word] = append(places, int32(len(docs)))
		}
		docs = append(docs, one.doc)
	}
	for _, one := range fixed {
		add(one)
	}
	p := b.pen(searchPath)
	for _, e := range slices.Backward(b.entries) {
		add(p.findable(e))
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
	add := func(path, title, day, about, text string) {
		all = append(all, findable{searchDoc{path, title, day, about}, title + " " + about + " " + text})
	}
	for i := range b.Tanks {
		id := b.Tanks[i].Tank.ID
		add(b.paths.tank[id], b.tankName(id), "", "tank", id)
	}
	for i := range b.Broods {
		x := &b.Broods[i]
		add(b.paths.brood[x.ID], b.broodTitle(x), x.Berried.String(), b.tankName(x.Tank()), "brood "+x.ID)
	}
	for _, s := range b.Colony.Shrimp {
		add(b.paths.shrimp[s.Name], s.Name, s.First.Day.String(), "shrimp", string(s.Sex))
	}
	return all
}

// findable gathers the words in which an entry is found.
func (p *pen) findable(e *journal.Entry) findable {
	var text strings.Builder
	title := p.title(e)
	text.WriteString(title + " " + e.Words + " " + strings.Join(e.Topics, " "))
	for _, line := range p.lines(e) {
		text.WriteString(" " + line.Label + " " + plain(line.Words) + " " + line.Note)
	}
	var tanks []string
	for _, id := range tanksOf(e) {
		tanks = append(tanks, p.tankName(id))
	}
	about := strings.Join(tanks, ", ")
	text.WriteString(" " + about)
	return findable{searchDoc{p.paths.entry[e], title, e.Date.String(), about}, text.String()}
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

// searchWords goes through the words of a text in lower case. In scripts without spaces every sign is a word.
func searchWords(text string) iter.Seq[string] {
	text = strings.ToLower(text)
	return func(yield func(string) bool) {
		from := 0 // where the word begins
		for at, r := range text {
			size, sign := wordEnd(r)
			if size == 0 {
				continue
			}
			if word := text[from:at]; word != "" && len(word) <= longestWord && !yield(word) {
				return
			}
			from = at + size
			if sign && !yield(text[at:from]) {
				return
			}
		}
		if word := text[from:]; word != "" && len(word) <= longestWord {
			yield(word)
		}
	}
}

// wordEnd returns how many bytes a letter takes that ends a word, and whether it is one of its own; 0 for one that is
// part of a word.
func wordEnd(r rune) (size int, sign bool) {
	switch {
	case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
		return 0, false
	case r < utf8.RuneSelf:
		return 1, false
	case unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana):
		return utf8.RuneLen(r), true
	case unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.Is(unicode.M, r):
		return 0, false
	}
	return utf8.RuneLen(r), false
}
