package theme

import (
	"fmt"
	"html/template"
	"strings"

	"github.com/yuin/goldmark/util"
)

// gallery holds the published pictures by their path in the journal.
type gallery map[string]picture

// picture is one photo in the sizes that were made of it, the smallest first.
type picture struct{ sizes []size }

// size is one file of a picture.
type size struct {
	path          string // in the site
	width, height int    // pixels
}

func (p picture) large() string { return p.sizes[len(p.sizes)-1].path }

// Photo is a picture on a page.
type Photo struct {
	Src, SrcSet, Large string
	Width, Height      int
	Alt, Caption       string
	Page               Link // where it was published, in a gallery
}

// photo returns a picture as a page at root shows it.
func (p picture) photo(root, alt string) Photo {
	middle := p.sizes[min(1, len(p.sizes)-1)]
	out := Photo{Src: root + middle.path, Width: middle.width, Height: middle.height, Alt: alt, Large: root + p.large()}
	if len(p.sizes) > 1 {
		var set []string
		for _, s := range p.sizes {
			set = append(set, fmt.Sprintf("%s%s %dw", root, s.path, s.width))
		}
		out.SrcSet = strings.Join(set, ", ")
	}
	return out
}

// photo returns a published picture by its path in the journal, and an empty Photo when there is none.
func (p *pen) photo(path, alt string) Photo {
	if found, ok := p.photos[path]; ok {
		return found.photo(p.root, alt)
	}
	return Photo{}
}

// sizes tells the browser how wide a photo in the text is shown.
const sizes = "(min-width: 46rem) 43rem, 94vw"

// writeTo writes the photo as HTML: as a figure where it stands alone, else in the line. It leads to its largest
// size unless it is part of a link already.
func (p Photo) writeTo(w util.BufWriter, alone, linked bool) {
	esc := template.HTMLEscapeString
	img := fmt.Sprintf(`<img src="%s" alt="%s" width="%d" height="%d" loading="lazy" decoding="async"`, esc(p.Src), esc(p.Alt), p.Width, p.Height)
	if p.SrcSet != "" {
		img += fmt.Sprintf(` srcset="%s" sizes="%s"`, esc(p.SrcSet), sizes)
	}
	img += ">"
	if !linked {
		name := ""
		if p.Alt == "" {
			name = ` aria-label="Photo in full size"`
		}
		img = `<a href="` + esc(p.Large) + `"` + name + ">" + img + "</a>"
	}
	if alone {
		img = `<figure class="photo">` + img
		if p.Caption != "" {
			img += `<figcaption dir="auto">` + esc(p.Caption) + "</figcaption>"
		}
		img += "</figure>\n"
	}
	_, _ = w.WriteString(img)
}
