package journal

import (
	"bytes"
	"fmt"
	"hash/fnv"
	"net/url"
	"path"
	"regexp"
	"strings"
	"unicode/utf8"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	east "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// FootnotePrefix is the key of a document's metadata whose text opens the ids of its footnotes, so that two entries
// on one page do not share ids. The reader sets it from the entry's path; a page may set its own before rendering.
const FootnotePrefix = "footnote-prefix"

// Markdown returns the Markdown of the diary: CommonMark with tables, strike-through, task lists, footnotes and
// automatic links. Raw HTML does not pass through. Options are added to the renderer, such as one of a page's own for
// pictures. What it returns may be used by several goroutines.
func Markdown(options ...renderer.Option) goldmark.Markdown {
	return goldmark.New(
		goldmark.WithExtensions(append(extensions(), extension.Linkify)...),
		goldmark.WithRendererOptions(append([]renderer.Option{html.WithXHTML()}, options...)...),
	)
}

// extensions are those of the diary but for automatic links.
func extensions() []goldmark.Extender {
	return []goldmark.Extender{extension.Table, extension.Strikethrough, extension.TaskList,
		extension.NewFootnote(extension.WithFootnoteIDPrefixFunction(footnotePrefix))}
}

// footnotePrefix returns what opens the footnote ids of the document that node is part of.
func footnotePrefix(node ast.Node) []byte {
	document := node.OwnerDocument()
	if document == nil {
		return nil
	}
	prefix, _ := document.Meta()[FootnotePrefix].(string)
	return []byte(prefix)
}

// diary parses the text of entries. linkless does so where no address stands in the text, which it need not look for at
// every space: that is a third of the time.
var (
	diary    = Markdown().Parser()
	linkless = goldmark.New(goldmark.WithExtensions(extensions()...)).Parser()
)

// mayLink reports whether an automatic link may stand in a text: each has one of these in it.
func mayLink(text []byte) bool {
	return bytes.Contains(text, []byte("://")) || bytes.Contains(text, []byte("www.")) || bytes.IndexByte(text, '@') >= 0
}

// Tree parses the text of the entry below its front matter; its segments point into Source. It does so at every call, and
// keeps nothing: the trees of years of entries would be the most that a journal takes in memory.
func (e *Entry) Tree() ast.Node {
	if e.Nodes == 0 {
		return ast.NewDocument()
	}
	return e.parse()
}

func (e *Entry) parse() ast.Node {
	reader := text.NewReader(e.Source)
	for range bytes.Count(e.Source[:e.BodyOffset], []byte("\n")) {
		reader.AdvanceLine()
	}
	parser := linkless
	if mayLink(e.Source[e.BodyOffset:]) {
		parser = diary
	}
	tree := parser.Parse(reader)
	tree.OwnerDocument().AddMeta(FootnotePrefix, pathMark(e.Path)+"-")
	return tree
}

// readMarkdown parses the text of an entry, which begins at the offset body, and finds its words and pictures.
func (p *page) readMarkdown(entry *Entry, body int) {
	entry.BodyOffset = body
	if !p.guardMarkdown(entry.Source, body) {
		return
	}
	tree := entry.parse()
	places := &counter{source: entry.Source, line: 1, column: 1}
	_ = ast.Walk(tree, func(node ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		entry.Nodes++
		switch node := node.(type) {
		case *ast.Heading:
			if entry.Title == "" {
				entry.Title = PlainText(node, entry.Source)
			}
		case *ast.Image:
			p.readImage(entry, node, places)
		}
		p.lostParts(entry, node, places)
		return ast.WalkContinue, nil
	})
	entry.Words = PlainText(tree, entry.Source)
	if first := tree.FirstChild(); first != nil && first.Kind() == ast.KindHeading {
		title := PlainText(first, entry.Source)
		if entry.Headed = title == singleSpaced(entry.Title); entry.Headed {
			entry.Words = strings.TrimSpace(strings.TrimPrefix(entry.Words, title))
		}
	}
}

// pathMark turns a path into a short mark that is the same on every machine and safe in an id.
func pathMark(name string) string {
	hash := fnv.New64a()
	_, _ = hash.Write([]byte(name))
	return fmt.Sprintf("e%010x", hash.Sum64()&0xffffffffff)
}

// PlainText returns the text below a node without any markup, with single spaces between its words and a semicolon between
// the rows of a table.
func PlainText(node ast.Node, source []byte) string {
	var out strings.Builder
	_ = ast.Walk(node, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			switch n.(type) {
			case *east.TableRow, *east.TableHeader:
				if n.NextSibling() != nil {
					out.WriteByte(';')
				}
			case *east.TableCell:
			default:
				if n.Type() == ast.TypeBlock {
					out.WriteByte(' ')
				}
			}
			return ast.WalkContinue, nil
		}
		switch n := n.(type) {
		case *east.TableCell:
			out.WriteByte(' ')
		case *ast.Text:
			out.Write(util.UnescapePunctuations(util.ResolveEntityNames(util.ResolveNumericReferences(n.Segment.Value(source)))))
			if n.SoftLineBreak() || n.HardLineBreak() {
				out.WriteByte(' ')
			}
		case *ast.String:
			out.Write(n.Value)
		case *ast.AutoLink:
			out.Write(n.Label(source))
		case *ast.FencedCodeBlock, *ast.CodeBlock:
			out.Write(n.Lines().Value(source))
		case *ast.RawHTML, *ast.HTMLBlock:
			return ast.WalkSkipChildren, nil
		}
		return ast.WalkContinue, nil
	})
	return singleSpaced(out.String())
}

// singleSpaced returns a text with one space between its words.
func singleSpaced(text string) string {
	var out strings.Builder
	out.Grow(len(text))
	for word := range strings.FieldsSeq(text) {
		if out.Len() > 0 {
			out.WriteByte(' ')
		}
		out.WriteString(word)
	}
	return out.String()
}

// readImage notes a picture of the text. Its file is looked for later.
func (p *page) readImage(entry *Entry, node *ast.Image, places *counter) {
	line, column := places.at(max(node.Pos(), 0))
	image := Image{Position: p.place(line, column), Alt: PlainText(node, entry.Source)}
	if image.Alt == "" {
		p.warn(image.Position, issue{code: "no-alt",
			message: "the picture has no words for people who cannot see it",
			hint:    "write them between the brackets: ![Ruby and her eggs](…)"})
	}
	target, remote, problem := resolveReference(path.Dir(entry.Path), string(node.Destination))
	if problem.code != "" {
		p.fail(image.Position, problem)
		return
	}
	image.Path, image.Remote = target, remote
	entry.Images = append(entry.Images, image)
}

// looseImage is a picture that Markdown does not take for one, because of a space in or before its path, of what stands
// behind the path, or of a bracket that is not closed.
var looseImage = regexp.MustCompile(`(?:^|[^\\])!\[([^\]\n]*)\]( *)\(([^()<>\n]+?\.(?i:jpe?g|png|webp|heic))( [^()\n]*)?(\)|$)`)

// lostImage warns of a picture that stayed text. A text of the tree is one that was not understood as anything else, so
// that what stands in code is passed over.
func (p *page) lostImage(source []byte, node *ast.Text, places *counter) {
	if bytes.IndexByte(node.Segment.Value(source), ']') < 0 || node.Parent().Kind() == ast.KindCodeSpan {
		return
	}
	start := bytes.LastIndexByte(source[:node.Segment.Start], '\n') + 1
	line, _, _ := bytes.Cut(source[start:], []byte("\n"))
	for _, m := range looseImage.FindAllSubmatchIndex(line, -1) {
		if closed := start + m[3]; closed < node.Segment.Start || closed >= node.Segment.Stop {
			continue
		}
		name := string(line[m[6]:m[7]])
		if strings.Contains(name, " ") {
			name = "<" + name + ">"
		}
		why, below := "a space", ""
		if m[10] == m[11] {
			why = "a bracket that is not closed"
		}
		if m[8] >= 0 {
			why, below = "what stands behind its path", ` "`+strings.Trim(string(line[m[8]:m[9]]), typographic+` "'‘’`)+`"`
		}
		at, column := places.at(start + m[2] - len("!["))
		p.warn(p.place(at, column), issue{code: "not-shown", message: why + " keeps this picture from being shown",
			hint: "write ![" + string(line[m[2]:m[3]]) + "](" + name + below + ")"})
	}
}

// resolveReference turns the address of a picture into a path inside the journal, or into a remote address.
func resolveReference(folder, address string) (target, remote string, found issue) {
	lower := strings.ToLower(address)
	if strings.HasPrefix(lower, "http://") || strings.HasPrefix(lower, "https://") || strings.HasPrefix(lower, "//") {
		return "", address, issue{}
	}
	decoded, err := url.PathUnescape(address)
	if err != nil {
		decoded = address
	}
	target, found = insidePath(folder, decoded)
	return target, "", found
}

// counter turns growing offsets into lines and columns.
type counter struct {
	source       []byte
	offset       int
	line, column int
}

// at returns the line and the column, in code points, of an offset.
func (c *counter) at(offset int) (line, column int) {
	if offset < c.offset {
		c.offset, c.line, c.column = 0, 1, 1
	}
	for c.offset < min(offset, len(c.source)) {
		r, size := utf8.DecodeRune(c.source[c.offset:])
		c.offset += size
		c.column++
		if r == '\n' {
			c.line, c.column = c.line+1, 1
		}
	}
	return c.line, c.column
}

// costly are the marks that the Markdown parser looks at more than once.
var costly = func() (marks [256]bool) {
	for _, c := range []byte("*_[]!()<`~&\\") {
		marks[c] = true
	}
	return marks
}()

// guardMarkdown refuses a block of text that would take the Markdown parser seconds. Its time grows with the square of
// the marks in one block and of the nesting of lists and quotes, and it cannot be stopped.
func (p *page) guardMarkdown(source []byte, body int) bool {
	line := 1 + bytes.Count(source[:body], []byte("\n"))
	start, marks := line, 0
	for text := range bytes.Lines(source[body:]) {
		if len(bytes.TrimSpace(text)) == 0 {
			marks, start = 0, line+1
		}
		if nesting(text) > maxBlockNesting {
			p.fail(p.place(line, 1), issue{code: "markdown-cost",
				message: fmt.Sprintf("quotes and lists inside each other more than %d deep", maxBlockNesting)})
			return false
		}
		for _, c := range text {
			if costly[c] {
				marks++
			}
		}
		if marks > maxMarksPerBlock {
			p.fail(p.place(start, 1), issue{code: "markdown-cost",
				message: fmt.Sprintf("more than %d marks of emphasis, links or code in one paragraph", maxMarksPerBlock), hint: "put blank lines between its parts"})
			return false
		}
		line++
	}
	return true
}

// nesting counts the quote and list marks that open a line.
func nesting(line []byte) int {
	depth := 0
	for i, c := range line {
		switch {
		case c == '>':
			depth++
		case (c == '-' || c == '*' || c == '+') && i+1 < len(line) && (line[i+1] == ' ' || line[i+1] == '\t'):
			depth++
		case c != ' ' && c != '\t' && (c < '0' || c > '9') && c != '.' && c != ')':
			return depth
		}
	}
	return depth
}
