// Package manual answers what the format says, whole or about one word, for "pleopod manual". It is made from
// one source: the comment of package journal, its vocabulary and its explanations; it has no text of its own.
// Its test makes the page MANUAL.md beside that package from the same.
package manual

import (
	"fmt"
	"go/doc/comment"
	"slices"
	"strings"

	"pleopod/journal"
)

// Text returns the whole manual for a terminal.
func Text() string {
	var out strings.Builder
	out.Write(printer().Text(parse()))
	out.WriteString("\n# Every word\n")
	for _, group := range groups() {
		fmt.Fprintf(&out, "\n%s\n\n", group.title)
		for _, word := range group.words {
			fmt.Fprintf(&out, "    %-16s %s\n", word.Name, about(word))
		}
	}
	out.WriteString("\n# Every problem\n")
	for _, e := range journal.Explanations() {
		out.WriteString("\n" + explained(e))
	}
	return out.String()
}

// On returns what the manual says about a word: a key, an event, a reading, a kind of problem or a section. For a word
// that is none of them it says which one is written instead, and shows where the manual uses it. When it says nothing,
// near is the word that was probably meant, or "".
func On(word string) (text, near string) {
	if text := exactly(word); text != "" {
		return text, ""
	}
	if text := otherwise(word); text != "" {
		return text, ""
	}
	return "", journal.Nearest(word, Topics())
}

// exactly returns what the manual says about one of its topics, or "".
func exactly(word string) string {
	var parts []string
	for _, group := range groups() {
		for _, w := range group.words {
			if strings.EqualFold(w.Name, word) {
				parts = append(parts, wordText(group.title, w))
			}
		}
	}
	for _, kind := range journal.Words().Kinds {
		if strings.EqualFold(kind.Name, word) {
			parts = append(parts, attributesText(kind))
		}
	}
	for _, e := range journal.Explanations() {
		if e.Code == strings.ToLower(word) {
			parts = append(parts, explained(e))
		}
	}
	if text := section(word); text != "" {
		parts = append(parts, text)
	}
	return strings.Join(parts, "\n")
}

// Topics lists every word that On explains, sorted.
func Topics() []string {
	var all []string
	for _, group := range groups() {
		for _, w := range group.words {
			all = append(all, w.Name)
		}
	}
	for _, e := range journal.Explanations() {
		all = append(all, e.Code)
	}
	for _, block := range parse().Content {
		if heading, ok := block.(*comment.Heading); ok {
			all = append(all, strings.ToLower(headingText(heading)))
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// parse reads the comment of package journal, without its first paragraph, which is for programmers.
func parse() *comment.Doc {
	doc := new(comment.Parser).Parse(journal.Manual())
	doc.Content = doc.Content[1:]
	return doc
}

func printer() *comment.Printer { return &comment.Printer{TextWidth: 100} }

func headingText(heading *comment.Heading) string {
	var out strings.Builder
	for _, part := range heading.Text {
		if plain, ok := part.(comment.Plain); ok {
			out.WriteString(string(plain))
		}
	}
	return out.String()
}

// section returns the section of the manual with a heading, or "".
func section(title string) string {
	found := &comment.Doc{}
	for _, block := range parse().Content {
		heading, begins := block.(*comment.Heading)
		switch {
		case begins && len(found.Content) > 0:
			return string(printer().Text(found))
		case begins && strings.EqualFold(strings.TrimPrefix(headingText(heading), "An "), title),
			begins && strings.EqualFold(headingText(heading), title):
			found.Content = append(found.Content, block)
		case !begins && len(found.Content) > 0:
			found.Content = append(found.Content, block)
		}
	}
	if len(found.Content) == 0 {
		return ""
	}
	return string(printer().Text(found))
}
