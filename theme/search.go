package theme

import (
	"encoding/json"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// searchPath is the script that holds the search index.
const searchPath = "search.js"

// searchDoc is one page that can be found: its path, title and day.
type searchDoc [3]string

// searchIndex returns a script with the pages that can be found and, for each word, the pages it stands on. It is a
// script so that it can be read from a folder, where a page may not fetch other files.
func (b *book) searchIndex() ([]byte, error) {
	var docs []searchDoc
	found := map[string][]int{}
	add := func(path, title, day, text string) {
		for _, word := range searchWords(title + " " + text) {
			found[word] = append(found[word], len(docs))
		}
		docs = append(docs, searchDoc{path, title, day})
	}
	p := b.pen(searchPath)
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
	for _, e := range slices.Backward(b.entries) {
		var text strings.Builder
		text.WriteString(b.plain[e] + " " + strings.Join(e.Topics, " "))
		for _, line := range p.lines(e) {
			text.WriteString(" " + line.Label + " " + plain(line.Words) + " " + line.Note)
		}
		for _, id := range tanksOf(e) {
			text.WriteString(" " + b.tankName(id))
		}
		add(b.paths.entry[e], p.title(e), e.Date.String(), text.String())
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
	text, err := json.Marshal(map[string]any{"docs": docs, "words": strings.Join(words, " "), "places": strings.Join(places, ";")})
	return slices.Concat([]byte("pleopodSearch("), text, []byte(");\n")), err
}

// gaps writes rising numbers as the steps between them, in base 36: shorter, and easily undone.
func gaps(numbers []int) string {
	var b strings.Builder
	last := -1
	for i, n := range numbers {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteString(strconv.FormatInt(int64(n-last), 36))
		last = n
	}
	return b.String()
}

// searchWords returns the words of a text in lower case, each once. In scripts without spaces every sign is a word.
func searchWords(text string) []string {
	var out []string
	seen := map[string]bool{}
	add := func(word string) {
		if word != "" && !seen[word] {
			seen[word] = true
			out = append(out, word)
		}
	}
	var word strings.Builder
	flush := func() {
		if word.Len() <= 40 {
			add(word.String())
		}
		word.Reset()
	}
	for _, r := range strings.ToLower(text) {
		switch {
		case unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana):
			flush()
			add(string(r))
		case unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.Is(unicode.M, r):
			word.WriteRune(r)
		default:
			flush()
		}
	}
	flush()
	return out
}
