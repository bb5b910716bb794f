package theme

import (
	"fmt"
	"html/template"
	"io/fs"
	"strings"
	"sync/atomic"

	"github.com/yuin/goldmark/util"

	"pleopod/journal"
	"pleopod/journal/parallel"
	"pleopod/theme/photo"
)

// Broken is the error of Draw when photos that the journal refers to cannot be shown.
type Broken struct {
	Problems []journal.Problem // one for each photo, at the place that refers to it first
}

// Error lists the problems, one a line.
func (b *Broken) Error() string {
	var lines []string
	for _, p := range b.Problems {
		lines = append(lines, p.Error())
	}
	return strings.Join(lines, "\n")
}

// reference is a picture file and the first place that refers to it.
type reference struct {
	path string
	at   journal.Position
}

// references lists the pictures of public entries and of tanks, each once.
func (b *book) references() []reference {
	var out []reference
	seen := map[string]bool{"": true}
	add := func(path string, at journal.Position) {
		if !seen[path] {
			seen[path] = true
			out = append(out, reference{path, at})
		}
	}
	for _, e := range b.entries {
		for _, image := range e.Images {
			add(image.Path, image.Position)
		}
	}
	for i := range b.set.Tanks {
		add(b.set.Tanks[i].Cover, b.set.Tanks[i].Position)
	}
	return out
}

// showPhotos makes the pictures of the site and hands them over.
func (b *book) showPhotos(files fs.FS, opt Options, put Put) error {
	refs := b.references()
	made := make([]picture, len(refs))
	failed := make([]error, len(refs))
	var done atomic.Int64
	if err := parallel.Try(len(refs), func(i int) error {
		source, err := fs.ReadFile(files, refs[i].path)
		var photo photo.Picture
		if err == nil {
			photo, err = opt.Photos.Make(source)
		}
		failed[i] = err
		for n, s := range photo.Sizes {
			name := "photos/" + photo.Name(refs[i].path, n)
			made[i].sizes = append(made[i].sizes, size{name, s.Width, s.Height})
			if err := put(name, s.Data); err != nil {
				return err
			}
		}
		if opt.Pictured != nil {
			opt.Pictured(int(done.Add(1)), len(refs))
		}
		return nil
	}); err != nil {
		return err
	}
	var broken Broken
	b.photos = gallery{}
	for i, ref := range refs {
		if failed[i] != nil {
			broken.Problems = append(broken.Problems,
				journal.Problem{Position: ref.at, Code: "broken-photo",
					Message: fmt.Sprintf("%q cannot be shown: %v", ref.path, failed[i])})
			continue
		}
		b.photos[ref.path] = made[i]
	}
	if len(broken.Problems) > 0 {
		journal.SortProblems(broken.Problems)
		return &broken
	}
	return nil
}

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
	Sizes              string // how wide it is shown, where it stands in the text
	Width, Height      int
	Alt, Caption       string
	Page               Link // where it was published, in a gallery
}

// photo returns a picture as a page at root shows it.
func (p picture) photo(root, alt string) Photo {
	middle := p.sizes[min(1, len(p.sizes)-1)]
	out := Photo{Src: root + middle.path, Width: middle.width, Height: middle.height, Alt: alt,
		Large: root + p.large(), Sizes: sizes}
	if len(p.sizes) > 1 {
		var set []string
		for _, s := range p.sizes {
			set = append(set, fmt.Sprintf("%s%s %dw", root, s.path, s.width))
		}
		out.SrcSet = strings.Join(set, ", ")
	}
	return out
}

// thumb returns the smallest size of a picture, for a list where its alt text stands elsewhere.
func (p picture) thumb(root string) Photo {
	s := p.sizes[0]
	return Photo{Src: root + s.path, Width: s.width, Height: s.height}
}

// photo returns a published picture by its path in the journal, and an empty Photo when there is none.
func (p *pen) photo(path, alt string) Photo {
	if found, ok := p.photos[path]; ok {
		return found.photo(p.root, alt)
	}
	return Photo{}
}

// sizes tells the browser how wide a photo in the text is shown.
const sizes = "(min-width: 60rem) 46rem, (min-width: 52rem) calc(100vw - 14rem), calc(100vw - 2.5rem)"

// writeTo writes the photo as HTML: as a figure where it stands alone, else in the line. It leads to its largest
// size unless it is part of a link already.
func (p Photo) writeTo(w util.BufWriter, alone, linked bool) {
	esc := template.HTMLEscapeString
	img := fmt.Sprintf(`<img src="%s" alt="%s" width="%d" height="%d" loading="lazy" decoding="async"`,
		esc(p.Src), esc(p.Alt), p.Width, p.Height)
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
