package journal

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/adrg/frontmatter"
)

// fence is the line that opens and closes the front matter.
const fence = "---"

// cleanText returns the text of a file with LF line ends and without a byte-order mark, or reports the place where it
// is no UTF-8. YAML positions are right with LF only.
func (p *page) cleanText(source []byte) ([]byte, bool) {
	if bytes.HasPrefix(source, []byte("\xff\xfe")) || bytes.HasPrefix(source, []byte("\xfe\xff")) {
		p.fail(p.place(1, 1), issue{code: "not-utf-8", message: "the file is UTF-16 text; it must be UTF-8",
			hint: "save it again with the encoding UTF-8"})
		return nil, false
	}
	source = bytes.TrimPrefix(source, []byte("\ufeff"))
	if bytes.IndexByte(source, '\r') >= 0 {
		source = bytes.ReplaceAll(source, []byte("\r\n"), []byte("\n"))
		source = bytes.ReplaceAll(source, []byte("\r"), []byte("\n"))
	}
	if bytes.IndexByte(source, 0) < 0 && utf8.Valid(source) {
		p.text = source
		return source, true
	}
	line, column := 1, 1
	for rest := source; len(rest) > 0; column++ {
		r, size := utf8.DecodeRune(rest)
		switch {
		case r == utf8.RuneError && size == 1:
			p.fail(p.place(line, column),
				issue{code: "not-utf-8", message: "from here on the file is not saved as UTF-8",
					hint: "save the file again with the encoding UTF-8"})
			return nil, false
		case r == 0:
			p.fail(p.place(line, column), issue{code: "not-utf-8", message: "this is no text file"})
			return nil, false
		case r == '\n':
			line, column = line+1, 0
		}
		rest = rest[size:]
	}
	return source, true
}

// matter is the two parts of an entry.
type matter struct {
	yaml   []byte
	before int // lines above the YAML
	body   int // where the text below begins
}

// splitFrontMatter finds the YAML of an entry. The splitter takes an unclosed block as text and an indented fence as
// the end, both without a word: those are found here.
func (p *page) splitFrontMatter(source []byte) (matter, bool) {
	var found matter
	keep := func(data []byte, _ any) error {
		found.yaml = bytes.Clone(data)
		return nil
	}
	split := func(text []byte) (body []byte, err error) {
		return frontmatter.MustParse(bytes.NewReader(text), nil, frontmatter.NewFormat(fence, fence, keep))
	}
	head := upToFence(source)
	body, err := split(head) // which the splitter copies
	if err != nil && len(head) < len(source) {
		head = source
		body, err = split(head)
	}
	opening, text := firstWritten(source)
	if err != nil {
		p.noFrontMatter(err, opening, text)
		return matter{}, false
	}
	found.before = opening
	found.body = len(head) - len(body)
	closing := opening + bytes.Count(found.yaml, []byte("\n")) + 1
	if lineAt(source, opening) != fence {
		p.fail(p.place(opening, 1), issue{code: "front-matter",
			message: "the three hyphens at the top are indented", hint: "put them at the start of the line"})
		return matter{}, false
	}
	if raw := lineAt(source, closing); !strings.HasPrefix(raw, fence) {
		p.fail(p.place(closing, 1+len(raw)-len(strings.TrimLeft(raw, " \t"))), issue{code: "front-matter",
			message: "indented hyphens end the keys here",
			hint:    "put --- at the start of the line; inside a text, put the text in quotes"})
		return matter{}, false
	}
	if len(found.yaml) > maxFrontMatterBytes {
		p.fail(p.place(opening, 1), issue{code: "too-long",
			message: fmt.Sprintf("the keys at the top have %d bytes; at most %d are read", len(found.yaml),
				maxFrontMatterBytes)})
		return matter{}, false
	}
	return found, true
}

// upToFence returns the source up to the second line that opens with a fence, or all of it.
func upToFence(source []byte) []byte {
	end := bytes.Index(source, []byte("\n"+fence))
	if end >= 0 && len(bytes.TrimSpace(source[:end])) == 0 { // empty lines above the first
		if next := bytes.Index(source[end+1:], []byte("\n"+fence)); next >= 0 {
			end += 1 + next
		}
	}
	if end < 0 {
		return source
	}
	line := bytes.IndexByte(source[end+1:], '\n')
	if line < 0 {
		return source
	}
	return source[:end+1+line+1]
}

func (p *page) noFrontMatter(err error, opening int, text string) {
	if !errors.Is(err, frontmatter.ErrNotFound) {
		p.fail(p.place(1, 1), issue{code: "front-matter",
			message: "the top of the file cannot be read: " + err.Error()})
		return
	}
	switch trimmed := strings.TrimSpace(text); {
	case strings.HasPrefix(trimmed, `{\rtf`):
		p.fail(p.place(1, 1), issue{code: "front-matter",
			message: "this is a document with fonts, not plain text", hint: "in its editor choose plain text as the format, and save it again"})
	case trimmed == fence && p.badEnd(opening):
	case trimmed == fence:
		p.fail(p.place(opening, 1), issue{code: "front-matter",
			message: "the keys that begin here are never ended",
			hint:    "put a line of three hyphens (---) below its last key"})
	case strings.HasPrefix(trimmed, fence):
		p.fail(p.place(opening, 1), issue{code: "front-matter",
			message: quote(trimmed) + " does not begin the keys", hint: "write exactly three hyphens: ---"})
	case trimmed != "" && strings.Trim(trimmed, "-–—―−") == "":
		p.fail(p.place(opening, 1), issue{code: "front-matter",
			message: quote(trimmed) + " does not begin the keys",
			hint:    "an editor joins hyphens into a long dash; write three hyphens: ---"})
	default:
		p.fail(p.place(max(opening, 1), 1),
			issue{code: "front-matter", message: "the entry does not begin with three hyphens and a date", hint: p.fenceHint(opening)})
	}
}

// fenceHint says where the two lines of hyphens belong, in an entry that has none.
func (p *page) fenceHint(opening int) string {
	first, last, number := "", "", 0
	for line := range bytes.Lines(p.text) {
		if number++; number < opening {
			continue
		}
		m := keyLine.FindSubmatch(bytes.TrimRight(line, "\n"))
		if m == nil || !formWord(string(m[3])) {
			break
		}
		if last = string(m[3]); first == "" {
			first = last
		}
	}
	if first != "" {
		return "put a line --- above " + quote(first) + " and another below " + quote(last)
	}
	return "begin the file with three lines: ---, date: " + or(dayOfName(p.path).String(), "2026-03-14") + ", ---"
}

// badEnd reports the line that was meant to close the front matter, where there is one.
func (p *page) badEnd(opening int) bool {
	number := 0
	for line := range bytes.Lines(p.text) {
		number++
		if text := strings.TrimSuffix(string(line), "\n"); number > opening && looseFence.MatchString(text) {
			p.badLine(text, number)
			return true
		}
	}
	return false
}

// firstWritten returns the number and text of the first line that is not blank; the number is 0 when there is none.
func firstWritten(source []byte) (int, string) {
	number := 0
	for line := range bytes.Lines(source) {
		number++
		if len(bytes.TrimSpace(line)) > 0 {
			return number, string(bytes.TrimRight(line, "\n"))
		}
	}
	return 0, ""
}

// lineAt returns one line of the source, counted from 1, without its end and without spaces after its text.
func lineAt(source []byte, number int) string {
	for line := range bytes.Lines(source) {
		if number--; number == 0 {
			return strings.TrimRight(string(line), " \t\n")
		}
	}
	return ""
}
