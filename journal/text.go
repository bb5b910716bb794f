package journal

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
)

// markdown is CommonMark with tables, strike-through, task lists, footnotes and automatic links. It is safe for use by
// several goroutines and never changed.
var markdown = goldmark.New(
	goldmark.WithExtensions(extension.GFM, extension.Footnote),
	goldmark.WithParserOptions(parser.WithAutoHeadingID()),
)

// readText parses the Markdown below the front matter and lists its pictures.
func (p *page) readText(entry *Entry, body int) {
	entry.BodyOffset = body
	if !p.guardText(entry.Source, body) {
		return
	}
	// The parser is given the whole file with the front matter blanked, so that its segments point into Source.
	blanked := bytes.Clone(entry.Source)
	for i := range blanked[:body] {
		if blanked[i] != '\n' {
			blanked[i] = ' '
		}
	}
	entry.Text = markdown.Parser().Parse(text.NewReader(blanked))
	_ = ast.Walk(entry.Text, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if image, ok := n.(*ast.Image); ok && entering {
			p.readImage(entry, image)
		}
		return ast.WalkContinue, nil
	})
}

// guardText refuses, at its line, text that would keep the Markdown parser busy for seconds: it is faster than linear
// nowhere and much slower on marks that never pair up, and a conversion cannot be stopped.
func (p *page) guardText(source []byte, body int) bool {
	line := bytes.Count(source[:body], []byte("\n")) + 1
	marks := 0
	for _, text := range bytes.Split(source[body:], []byte("\n")) {
		trimmed := bytes.TrimLeft(text, " \t")
		if len(trimmed) == 0 {
			marks = 0
		}
		for _, c := range trimmed {
			if strings.IndexByte("*_[]!`<~\\&", c) >= 0 {
				marks++
			}
		}
		if marks > maxMarksPerBlock {
			p.fail(p.place(line, 1), issue{code: "too-many-marks", message: fmt.Sprintf("more than %d marks such as * and [ in one block of text", maxMarksPerBlock), hint: "put an empty line between paragraphs"})
			return false
		}
		if nesting(trimmed) > maxBlockNesting {
			p.fail(p.place(line, 1), issue{code: "too-many-marks", message: fmt.Sprintf("quotes and lists inside each other more than %d deep", maxBlockNesting)})
			return false
		}
		line++
	}
	return true
}

// nesting counts the quote and list marks that open a line.
func nesting(line []byte) int {
	depth := 0
	for _, c := range line {
		switch c {
		case '>', '-', '+', '*':
			depth++
		case ' ', '\t':
		default:
			return depth
		}
	}
	return 0 // a rule or an underline: marks and nothing after them
}

// readImage adds one picture of the text to the entry, with the problems that need no look at the disk.
func (p *page) readImage(entry *Entry, image *ast.Image) {
	line, column := lineColumn(entry.Source, imageStart(entry.Source, image))
	found := Image{Position: p.place(line, column), Alt: strings.TrimSpace(plainText(image, entry.Source))}
	destination := string(image.Destination)
	var problem issue
	found.Path, found.Remote, problem = imagePath(entry.Path, destination)
	if problem.code != "" {
		problem.message = "the picture " + quote(destination) + ": " + problem.message
		p.fail(found.Position, problem)
		return
	}
	if found.Alt == "" {
		p.warn(found.Position, issue{code: "photo-without-alt", message: "the picture " + quote(destination) + " has no words for those who cannot see it", hint: "write them between the square brackets: ![Ruby and her eggs](" + destination + ")"})
	}
	entry.Images = append(entry.Images, found)
}

// imageStart returns the offset of the mark that opens a picture: the parser keeps places of text only, so it is
// looked for from the text before it, else from the start of its block.
func imageStart(source []byte, image *ast.Image) int {
	from := 0
	if before := lastText(image.PreviousSibling()); before != nil {
		from = before.Segment.Stop
	} else if first := firstText(image); first != nil {
		if at := bytes.LastIndex(source[:first.Segment.Start], []byte("![")); at >= 0 {
			return at
		}
	} else {
		for n := image.Parent(); n != nil; n = n.Parent() {
			if n.Type() == ast.TypeBlock && n.Lines().Len() > 0 {
				from = n.Lines().At(0).Start
				break
			}
		}
	}
	if at := bytes.Index(source[from:], []byte("![")); at >= 0 {
		return from + at
	}
	return from
}

func firstText(n ast.Node) *ast.Text {
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		if t, ok := c.(*ast.Text); ok {
			return t
		}
		if t := firstText(c); t != nil {
			return t
		}
	}
	return nil
}

func lastText(n ast.Node) *ast.Text {
	for ; n != nil; n = n.LastChild() {
		if t, ok := n.(*ast.Text); ok {
			return t
		}
	}
	return nil
}

// plainText returns the words below a node without marks.
func plainText(n ast.Node, source []byte) string {
	var words strings.Builder
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		switch c := c.(type) {
		case *ast.Text:
			words.Write(c.Segment.Value(source))
			if c.SoftLineBreak() || c.HardLineBreak() {
				words.WriteByte(' ')
			}
		case *ast.String:
			words.Write(c.Value)
		default:
			words.WriteString(plainText(c, source))
		}
	}
	return words.String()
}

// firstHeading returns the words of the first heading of an entry's text, or "".
func firstHeading(entry *Entry) string {
	if entry.Text == nil {
		return ""
	}
	for n := entry.Text.FirstChild(); n != nil; n = n.NextSibling() {
		if n.Kind() == ast.KindHeading {
			return strings.Join(strings.Fields(plainText(n, entry.Source)), " ")
		}
	}
	return ""
}
