package theme

import (
	"bufio"
	"bytes"
	"fmt"
	"html/template"
	"net/url"
	"path"
	"slices"
	"strings"
	"sync"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	east "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/util"

	"pleopod/journal"
)

// scribe turns the text of one entry into HTML: photos for pictures, pages for links between entries, links only by
// known schemes, no raw HTML, no inline style, no heading above the page's own.
type scribe struct {
	renderer renderer.Renderer
	draft    bytes.Buffer
	out      *bufio.Writer // into the draft
	writing
}

// writing is what a scribe knows of the text at hand.
type writing struct {
	book  *book
	entry *journal.Entry
	title ast.Node // the heading that is the page's own, or nil
	root  string   // put before site paths
	level int      // of the last heading written
	boxes int      // tables written
	open  []bool   // whether each open link is written as one
	asked []answer
}

// html returns the rendered text of an entry. It is the only place that makes HTML from a keeper's words.
func (b *book) html(entry *journal.Entry, root string) (template.HTML, error) {
	return b.press.text(entry, root, b)
}

// scribes are those that have nothing to write just now.
var scribes = sync.Pool{New: func() any {
	s := new(scribe)
	s.out = bufio.NewWriter(&s.draft)
	s.renderer = renderer.NewRenderer(renderer.WithNodeRenderers(
		util.Prioritized(html.NewRenderer(), 1000),
		util.Prioritized(extension.NewTableHTMLRenderer(), 500),
		util.Prioritized(extension.NewStrikethroughHTMLRenderer(), 500),
		util.Prioritized(extension.NewFootnoteHTMLRenderer(extension.WithFootnoteBacklinkHTML([]byte("back to the text"))), 500),
		util.Prioritized(s, 100),
	))
	return s
}}

// newScribe returns a scribe for the text of an entry, as it is linked from a page or from elsewhere.
func newScribe(b *book, entry *journal.Entry, root string) *scribe {
	s := scribes.Get().(*scribe)
	s.writing = writing{book: b, entry: entry, root: root, level: 1}
	return s
}

// rest gives the scribe back.
func (s *scribe) rest() {
	s.writing = writing{}
	scribes.Put(s)
}

// render writes the text of the scribe's entry.
func (s *scribe) render() (template.HTML, error) {
	tree := s.entry.Tree()
	if s.entry.Headed {
		s.title = tree.FirstChild()
	}
	s.draft.Reset()
	s.out.Reset(&s.draft)
	if err := s.renderer.Render(s.out, s.entry.Source, tree); err != nil {
		return "", err
	}
	return template.HTML(s.draft.String()), nil
}

// answer is what the scribe was told about a destination, on which the rendered text rests besides the entry itself.
type answer struct {
	destination string
	target      string // where a link to it leads
	picture     picture
	shown       bool // as a picture
}

func (a answer) equal(b answer) bool {
	return a.destination == b.destination && a.target == b.target && a.shown == b.shown && slices.Equal(a.picture.sizes, b.picture.sizes)
}

// ask finds out about a destination.
func (s *scribe) ask(destination string) answer {
	a := answer{destination: destination, target: s.lookUp(destination)}
	a.picture, a.shown = s.book.photos[s.file(destination)]
	return a
}

// told asks about a destination and notes the answer.
func (s *scribe) told(destination string) answer {
	a := s.ask(destination)
	s.asked = append(s.asked, a)
	return a
}

// RegisterFuncs names the kinds of nodes that the scribe writes itself.
func (s *scribe) RegisterFuncs(reg renderer.NodeRendererFuncRegisterer) {
	reg.Register(ast.KindHeading, s.heading)
	reg.Register(ast.KindParagraph, s.paragraph)
	reg.Register(ast.KindImage, s.image)
	reg.Register(ast.KindEmphasis, s.emphasis)
	reg.Register(ast.KindLink, s.link)
	reg.Register(ast.KindAutoLink, s.autoLink)
	reg.Register(ast.KindRawHTML, nothing)
	reg.Register(ast.KindHTMLBlock, nothing)
	reg.Register(east.KindTable, s.table)
	reg.Register(east.KindTableCell, s.cell)
	reg.Register(east.KindTaskCheckBox, s.checkBox)
}

// nothing leaves a node and all in it out: raw HTML, and what a keeper put into a comment for herself.
func nothing(util.BufWriter, []byte, ast.Node, bool) (ast.WalkStatus, error) {
	return ast.WalkSkipChildren, nil
}

// heading writes a heading at most one level below the one before, so that no level is skipped.
func (s *scribe) heading(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if node == s.title {
		return ast.WalkSkipChildren, nil
	}
	if entering {
		s.level = min(s.level+1, max(2, node.(*ast.Heading).Level), 6)
		_, _ = w.WriteString("<h" + string(rune('0'+s.level)) + ` dir="auto">`)
		return ast.WalkContinue, nil
	}
	_, _ = w.WriteString("</h" + string(rune('0'+s.level)) + ">\n")
	return ast.WalkContinue, nil
}

// paragraph leaves out the paragraph around pictures that stand alone, because they are written as figures. A picture
// with one line in italics below it is a figure with a caption.
func (s *scribe) paragraph(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	open, shut := `<p dir="auto">`, "</p>\n"
	switch {
	case s.pictures(node):
		return ast.WalkContinue, nil
	case s.caption(node) != nil:
		open, shut = `<figure class="photo">`, "</figure>\n"
	}
	if entering {
		_, _ = w.WriteString(open)
	} else {
		_, _ = w.WriteString(shut)
	}
	return ast.WalkContinue, nil
}

// caption returns the line in italics that is all a paragraph holds beside one published picture above it, or nil.
func (s *scribe) caption(node ast.Node) ast.Node {
	first, last := node.FirstChild(), node.LastChild()
	image, ok := first.(*ast.Image)
	emphasis, italic := last.(*ast.Emphasis)
	if !ok || !italic || emphasis.Level != 1 {
		return nil
	}
	if _, published := s.photo(string(image.Destination)); !published {
		return nil
	}
	between, ok := first.NextSibling().(*ast.Text)
	if !ok || between.NextSibling() != last || len(bytes.TrimSpace(between.Segment.Value(s.entry.Source))) > 0 {
		return nil
	}
	return last
}

// emphasis writes the caption of a picture as such, and every other emphasis as emphasis.
func (s *scribe) emphasis(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	tag := map[int]string{1: "em", 2: "strong"}[node.(*ast.Emphasis).Level]
	open, shut := "<"+tag+">", "</"+tag+">"
	if node.Parent().Kind() == ast.KindParagraph && s.caption(node.Parent()) == node {
		open, shut = `<figcaption dir="auto">`, "</figcaption>"
	}
	if entering {
		_, _ = w.WriteString(open)
	} else {
		_, _ = w.WriteString(shut)
	}
	return ast.WalkContinue, nil
}

// pictures reports whether a paragraph holds published pictures and nothing else.
func (s *scribe) pictures(node ast.Node) bool {
	found := false
	for n := node.FirstChild(); n != nil; n = n.NextSibling() {
		switch n := n.(type) {
		case *ast.Image:
			if _, ok := s.photo(string(n.Destination)); !ok {
				return false
			}
			found = true
		case *ast.Text:
			if len(bytes.TrimSpace(n.Segment.Value(s.entry.Source))) > 0 {
				return false
			}
		default:
			return false
		}
	}
	return found
}

// photo returns the published form of a picture that the text refers to.
func (s *scribe) photo(destination string) (picture, bool) {
	a := s.told(destination)
	return a.picture, a.shown
}

// file resolves a relative reference to a path in the journal, and "" for what is none.
func (s *scribe) file(destination string) string {
	u, err := url.Parse(destination)
	if err != nil || u.IsAbs() || u.Host != "" || u.Path == "" || strings.HasPrefix(u.Path, "/") {
		return ""
	}
	return path.Join(path.Dir(s.entry.Path), u.Path)
}

// image writes a published photo; a picture elsewhere becomes a link, and is never loaded.
func (s *scribe) image(w util.BufWriter, source []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkSkipChildren, nil
	}
	n := node.(*ast.Image)
	alt := journal.PlainText(n, source)
	found, ok := s.photo(string(n.Destination))
	if !ok {
		label := "Picture"
		if alt != "" {
			label += ": " + alt
		}
		if target := s.target(string(n.Destination)); target != "" && len(s.open) == 0 {
			_, _ = w.WriteString(`<a href="` + template.HTMLEscapeString(target) + `">` + template.HTMLEscapeString(label) + "</a>")
		} else {
			_, _ = w.WriteString(template.HTMLEscapeString(label))
		}
		return ast.WalkSkipChildren, nil
	}
	alone := s.pictures(node.Parent()) && node.Parent().Kind() == ast.KindParagraph
	photo := found.photo(s.root, alt)
	photo.Caption = string(n.Title)
	photo.writeTo(w, alone, len(s.open) > 0)
	return ast.WalkSkipChildren, nil
}

// target returns where a link may lead: a page of the site, a place on the same page, or an address of a known
// scheme; "" for everything else, which is then written as plain words.
func (s *scribe) target(destination string) string { return s.told(destination).target }

// lookUp is target without a note of it.
func (s *scribe) lookUp(destination string) string {
	u, err := url.Parse(destination)
	switch {
	case err != nil:
		return ""
	case u.IsAbs():
		switch strings.ToLower(u.Scheme) {
		case "http", "https", "mailto":
			return u.String()
		}
		return ""
	case u.Host != "":
		u.Scheme = "https"
		return u.String()
	case u.Path == "":
		return ""
	}
	file := s.file(destination)
	if found, ok := s.book.photos[file]; ok {
		return s.root + found.large()
	}
	page := s.book.paths.source[file]
	if page == "" {
		return ""
	}
	return s.root + page
}

func (s *scribe) link(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	n := node.(*ast.Link)
	if !entering {
		last := len(s.open) - 1
		if s.open[last] {
			_, _ = w.WriteString("</a>")
		}
		s.open = s.open[:last]
		return ast.WalkContinue, nil
	}
	target := s.target(string(n.Destination))
	if journal.PlainText(n, s.entry.Source) == "" {
		target = "" // a link without words cannot be named
	}
	s.open = append(s.open, target != "")
	if target != "" {
		_, _ = w.WriteString(`<a href="` + template.HTMLEscapeString(target) + `"`)
		if len(n.Title) > 0 {
			_, _ = w.WriteString(` title="` + template.HTMLEscapeString(string(n.Title)) + `"`)
		}
		_ = w.WriteByte('>')
	}
	return ast.WalkContinue, nil
}

func (s *scribe) autoLink(w util.BufWriter, source []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	n := node.(*ast.AutoLink)
	address := string(n.URL(source))
	if n.AutoLinkType == ast.AutoLinkEmail && !strings.HasPrefix(strings.ToLower(address), "mailto:") {
		address = "mailto:" + address
	}
	label := template.HTMLEscapeString(string(n.Label(source)))
	if target := s.target(address); target != "" {
		label = `<a href="` + template.HTMLEscapeString(target) + `">` + label + "</a>"
	}
	_, _ = w.WriteString(label)
	return ast.WalkContinue, nil
}

// table puts a table into a box of its own that can be scrolled, so that a wide one never widens the page.
func (s *scribe) table(w util.BufWriter, _ []byte, _ ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		s.boxes++
		_, _ = fmt.Fprintf(w, `<section class="scroll" aria-label="Table %d" tabindex="0"><table>`+"\n", s.boxes)
	} else {
		_, _ = w.WriteString("</table></section>\n")
	}
	return ast.WalkContinue, nil
}

func (s *scribe) cell(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	n := node.(*east.TableCell)
	tag := "td"
	if n.Parent().Kind() == east.KindTableHeader {
		tag = "th"
	}
	if !entering {
		_, _ = w.WriteString("</" + tag + ">\n")
		return ast.WalkContinue, nil
	}
	_, _ = w.WriteString("<" + tag)
	if tag == "th" {
		_, _ = w.WriteString(` scope="col"`)
	}
	switch n.Alignment {
	case east.AlignRight:
		_, _ = w.WriteString(` class="right"`)
	case east.AlignCenter:
		_, _ = w.WriteString(` class="center"`)
	}
	_ = w.WriteByte('>')
	return ast.WalkContinue, nil
}

// checkBox writes the box of a task as a sign and a word, because a control that does nothing needs a name and
// a reason.
func (s *scribe) checkBox(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		if node.(*east.TaskCheckBox).IsChecked {
			_, _ = w.WriteString(`<span role="img" aria-label="done">☑</span> `)
		} else {
			_, _ = w.WriteString(`<span role="img" aria-label="to do">☐</span> `)
		}
	}
	return ast.WalkContinue, nil
}
