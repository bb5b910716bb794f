package manual

import (
	"fmt"
	"go/doc/comment"
	"strings"
	"unicode/utf8"

	"pleopod/journal"
)

// markdown is the whole manual as a page: what MANUAL.md must say.
func markdown() string {
	var out strings.Builder
	out.WriteString("# The journal format\n\n")
	out.WriteString("How a keeper writes a colony journal. `pleopod manual` prints this page, and `pleopod manual WORD` what it says about one word. It is made from the comment of package journal, " +
		"the table of words that the reader uses, and the explanations of its problems; do not edit it.\n\n")
	printer := &comment.Printer{HeadingLevel: 2, HeadingID: func(*comment.Heading) string { return "" }}
	out.Write(printer.Markdown(parse()))
	out.WriteString("\n## Every word\n")
	for _, group := range groups() {
		fmt.Fprintf(&out, "\n### %s\n\n| word | takes | meaning | example |\n| --- | --- | --- | --- |\n", group.title)
		for _, word := range group.words {
			fmt.Fprintf(&out, "| `%s` | %s | %s | %s |\n", word.Name, cell(takes(word)), cell(about(word)),
				code(word.Example))
		}
	}
	out.WriteString("\n## Every problem\n")
	for _, e := range journal.Explanations() {
		fmt.Fprintf(&out, "\n### %s\n\n%s: %s\n\n- found for example in: %s\n- instead: %s\n", e.Code,
			upper(e.Title), plain(e.Meaning), code(e.Example), code(e.Fix))
	}
	return out.String()
}

// code writes a text of Markdown so that its marks stand as they are.
func code(text string) string {
	if text == "" {
		return ""
	}
	fence := "`"
	for strings.Contains(text, fence) {
		fence += "`"
	}
	return fence + cell(text) + fence
}

// cell writes a text so that it stays in its cell of a table.
func cell(text string) string { return strings.ReplaceAll(text, "|", `\|`) }

// plain writes a text so that Markdown takes none of it for a mark.
func plain(text string) string {
	return strings.NewReplacer("*", `\*`, "<", `\<`, "_", `\_`, "`", "\\`", "#", `\#`).Replace(text)
}

// upper begins a text with a capital letter.
func upper(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	return strings.ToUpper(string(first)) + text[size:]
}
