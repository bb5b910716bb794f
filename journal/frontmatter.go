package journal

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/adrg/frontmatter"
)

// clean returns the text of a file with LF line ends and without a byte-order mark, or reports why it is no text.
func (p *page) clean(source []byte, most int) ([]byte, bool) {
	if len(source) > most {
		p.fail(p.place(1, 1), issue{code: "too-long", message: fmt.Sprintf("the file has %d bytes; at most %d are read", len(source), most)})
		return nil, false
	}
	source = bytes.TrimPrefix(source, []byte("\xef\xbb\xbf"))
	if bytes.HasPrefix(source, []byte("\xff\xfe")) || bytes.HasPrefix(source, []byte("\xfe\xff")) {
		p.fail(p.place(1, 1), issue{code: "not-utf-8", message: "the file is saved as UTF-16; it must be UTF-8", hint: "save it again with the encoding UTF-8"})
		return nil, false
	}
	source = bytes.ReplaceAll(bytes.ReplaceAll(source, []byte("\r\n"), []byte("\n")), []byte("\r"), []byte("\n"))
	for i := 0; i < len(source); {
		r, size := utf8.DecodeRune(source[i:])
		if (r == utf8.RuneError && size == 1) || r == 0 {
			line, column := lineColumn(source, i)
			p.fail(p.place(line, column), issue{code: "not-utf-8", message: fmt.Sprintf("the byte 0x%02x is no text in UTF-8", source[i]), hint: "save the file again with the encoding UTF-8"})
			return nil, false
		}
		i += size
	}
	return source, true
}

// lineColumn returns the place of a byte offset, with columns in code points.
func lineColumn(source []byte, offset int) (line, column int) {
	offset = min(offset, len(source))
	start := bytes.LastIndexByte(source[:offset], '\n') + 1
	return bytes.Count(source[:start], []byte("\n")) + 1, utf8.RuneCount(source[start:offset]) + 1
}

// split is a file taken apart at its fences.
type split struct {
	yaml  []byte
	above int // lines of the file above the YAML
	body  int // offset of the text below the front matter
}

const fence = "---"

// splitFrontMatter separates the YAML between the two fences from the text below. The library does the splitting; the
// fences are checked here because it takes an unclosed block for text and an indented fence for the end, in silence.
func (p *page) splitFrontMatter(source []byte) (split, bool) {
	above := 0
	for rest := source; len(rest) > 0; above++ {
		line, after, _ := bytes.Cut(rest, []byte("\n"))
		if len(bytes.TrimSpace(line)) > 0 {
			if strings.TrimRight(string(line), " \t") != fence {
				p.fail(p.place(above+1, 1), issue{code: "no-front-matter", message: fmt.Sprintf("the entry begins with %s; it must begin with a line of three hyphens, then its date", quote(string(line))),
					hint: "put these lines at the top: --- / date: 2026-03-14 / ---"})
				return split{}, false
			}
			break
		}
		rest = after
	}
	var found split
	closed := false
	// The split function is given the YAML; its decoder only keeps it.
	keep := func(yaml []byte, _ any) error { found.yaml, closed = bytes.Clone(yaml), true; return nil }
	body, err := frontmatter.MustParse(bytes.NewReader(source), new(struct{}), frontmatter.NewFormat(fence, fence, keep))
	if len(bytes.TrimSpace(source)) == 0 {
		p.fail(p.place(1, 1), issue{code: "empty-entry", message: "the entry is empty; it needs a date at least", hint: "put these lines at the top: --- / date: 2026-03-14 / ---"})
		return split{}, false
	}
	if err != nil || !closed {
		p.fail(p.place(above+1, 1), issue{code: "unclosed-front-matter", message: "the front matter opened here is never closed; put a line of three hyphens below its last key"})
		return split{}, false
	}
	found.above = above + 1
	found.body = len(source) - len(body)
	return found, p.checkFence(source, found)
}

// checkFence makes sure that what closed the front matter is a fence of its own line and at its start.
func (p *page) checkFence(source []byte, found split) bool {
	if len(found.yaml) > maxFrontMatterBytes {
		p.fail(p.place(found.above, 1), issue{code: "too-long", message: fmt.Sprintf("the front matter has %d bytes; at most %d are read", len(found.yaml), maxFrontMatterBytes)})
		return false
	}
	lines := strings.Split(string(source), "\n")
	for i := found.above; i < len(lines); i++ {
		if strings.TrimSpace(lines[i]) != fence {
			continue
		}
		if strings.HasPrefix(lines[i], fence) {
			return true
		}
		p.fail(p.place(i+1, 1+len(lines[i])-len(strings.TrimLeft(lines[i], " \t"))), issue{code: "indented-fence",
			message: "an indented line of three hyphens ends the front matter here", hint: "start the line at the margin, or put other marks into the text"})
		return false
	}
	return true
}
