package manual

import (
	"fmt"
	"go/doc/comment"
	"slices"
	"strings"
	"unicode"

	"pleopod/journal"
)

// otherwise answers a word that is none of the format: the words that are written instead, and the passages of the manual
// that hold it. It is "" when there is neither.
func otherwise(word string) string {
	var parts []string
	names := meant(word)
	if len(names) > 0 {
		parts = append(parts, fmt.Sprintf("For %q the format has: %s\n", word, strings.Join(names, ", ")))
	}
	for _, name := range names {
		parts = append(parts, exactly(name))
	}
	parts = append(parts, passages(word)...)
	if codes := problemsOf(word); len(codes) > 0 {
		parts = append(parts, fmt.Sprintf("Problems about it, each explained in the same way: %s\n", strings.Join(codes, ", ")))
	}
	return strings.Join(parts, "\n")
}

// problemsOf lists the kinds of problems with a word in their name.
func problemsOf(word string) []string {
	var codes []string
	for _, e := range journal.Explanations() {
		if holds(strings.ReplaceAll(e.Code, "-", " "), word) {
			codes = append(codes, e.Code)
		}
	}
	return codes
}

// meant lists the words of the format for which people write another: the ones they are known to write, else the ones that
// begin alike; for several words that are no term together, what the single ones stand for.
func meant(word string) []string {
	for _, alike := range []func(a, b string) bool{same, beginAlike} {
		if names := namesLike(word, alike); len(names) > 0 {
			return names
		}
	}
	var names []string
	if parts := strings.Fields(word); len(parts) > 1 {
		for _, part := range parts {
			names = append(names, meant(part)...)
		}
	}
	return names
}

// namesLike lists the words of the format of which the name, another name or a value is like the given one.
func namesLike(word string, alike func(a, b string) bool) []string {
	var names []string
	for _, group := range groups() {
		for _, w := range group.words {
			others := slices.Concat([]string{w.Name}, w.Also, w.Allowed)
			if !slices.Contains(names, w.Name) && slices.ContainsFunc(others, func(other string) bool { return alike(word, other) }) {
				names = append(names, w.Name)
			}
		}
	}
	return names
}

// same reports whether two words are one, spelled the British or the American way.
func same(a, b string) bool { return spelling(a) == spelling(b) }

// beginAlike reports whether one word is the other with an ending, such as "cull" and "culled".
func beginAlike(a, b string) bool {
	const fewest = 4 // letters, so that "ph" is not the beginning of "photo"
	a, b = spelling(a), spelling(b)
	return min(len(a), len(b)) >= fewest && (strings.HasPrefix(a, b) || strings.HasPrefix(b, a))
}

// spelling takes away what differs between British and American spelling, and capitals.
func spelling(word string) string {
	return strings.NewReplacer("ou", "o", "tre", "ter", "is", "iz").Replace(strings.ToLower(word))
}

// passages returns what of the manual holds a word, each below the heading where it stands. An example belongs to the
// paragraph before it.
func passages(word string) []string {
	var found []string
	heading, before := "", ""
	content := parse().Content
	for i, block := range content {
		switch block := block.(type) {
		case *comment.Heading:
			heading = "# " + headingText(block) + "\n\n"
		case *comment.List:
			items := slices.DeleteFunc(slices.Clone(block.Items), func(item *comment.ListItem) bool { return !holds(printed(item.Content...), word) })
			if len(items) > 0 {
				found = append(found, heading+printed(&comment.List{Items: items}))
			}
		case *comment.Paragraph:
			if i+1 < len(content) && isExample(content[i+1]) {
				before = printed(block) + "\n"
			} else if text := printed(block); holds(text, word) {
				found = append(found, heading+text)
			}
		case *comment.Code:
			if text := before + printed(block); holds(text, word) {
				found = append(found, heading+text)
			}
			before = ""
		}
	}
	return found
}

func isExample(block comment.Block) bool {
	_, example := block.(*comment.Code)
	return example
}

func printed(blocks ...comment.Block) string {
	return string(printer().Text(&comment.Doc{Content: blocks}))
}

// holds reports whether a text holds a word, or several words in a row, in the singular or the plural.
func holds(text, word string) bool {
	return strings.Contains(singular(text), singular(word))
}

// singular writes the words of a text with a space around each, spelled one way and without the s at the end.
func singular(text string) string {
	words := strings.FieldsFunc(spelling(text), func(r rune) bool { return r != '-' && !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	for i := range words {
		words[i] = strings.TrimSuffix(words[i], "s")
	}
	return " " + strings.Join(words, " ") + " "
}
