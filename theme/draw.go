package theme

import (
	"bytes"
	"fmt"
	"io/fs"
	"slices"
	"sync"

	"pleopod/journal/forecast"
	"pleopod/journal/parallel"
	"pleopod/theme/figure"
	"pleopod/theme/photo"
)

// Options says how a site is drawn. The zero value is the usual choice.
type Options struct {
	// Look is the parsed look; nil parses the built-in one.
	Look *Look
	// Photos keeps the pictures made of photos between runs; the zero value keeps none.
	Photos photo.Cache
	// Shelf keeps the previews of tanks between runs, each under a checksum of what it shows and of Version, which names the
	// program; nil keeps none.
	Shelf   forecast.Shelf
	Version string
	// Pictured is told how many of all photos are done, at each; nil asks for nothing. Several goroutines may call it at once.
	Pictured func(done, all int)
	// Early is given pages that a keeper is likely to look at after a save, as soon as they are drawn and before all others:
	// those of entries that have changed since a Press drew them last, then what stands now. nil asks for none.
	Early func(pages map[string][]byte)
}

// Site is a finished site in memory.
type Site struct {
	// Files holds the content of each file by its slash-separated path in the site, such as "tanks/north-shelf.html".
	Files map[string][]byte
	// Pages are the paths of the pages among Files, in the order in which a reader would meet them.
	Pages []string
}

// Draw makes the site of a forecast. files is the journal's folder; only photos and the chart runtime are read from it.
// The same forecast, files and options give the same site, however many cores draw it. A photo that cannot be shown
// gives a *Broken with its place in the journal.
func Draw(f *forecast.Forecast, files fs.FS, opt Options) (*Site, error) {
	return new(Press).Draw(f, files, opt)
}

// Pour draws the site that Draw makes, and hands over each file as soon as it is there, so that the site is never in
// memory as a whole. It returns the paths of the pages. put is called from several goroutines at once, and must not keep
// the content, whose place the next page takes; its first error ends the drawing.
func Pour(f *forecast.Forecast, files fs.FS, opt Options, put Put) (pages []string, err error) {
	return (*Press)(nil).pour(f, files, opt, put)
}

// Put takes a finished file of a site by its slash-separated path.
type Put = func(path string, content []byte) error

// Draw makes the site as the function Draw does.
func (p *Press) Draw(f *forecast.Forecast, files fs.FS, opt Options) (*Site, error) {
	var site Site
	var err error
	site.Files, err = collected(func(put Put) (err error) {
		site.Pages, err = p.pour(f, files, opt, put)
		return err
	})
	if err != nil {
		return nil, err
	}
	return &site, nil
}

// pour draws the site: first what pages refer to, then the pages and what other programs read.
func (p *Press) pour(f *forecast.Forecast, files fs.FS, opt Options, put Put) (pages []string, err error) {
	look := opt.Look
	if look == nil {
		if look, err = ParseLook(nil); err != nil {
			return nil, err
		}
	}
	p.turn(look)
	b := newBook(public(f), p)
	if err := b.assets(look, files, put); err != nil {
		return nil, err
	}
	if err := b.showPhotos(files, opt, put); err != nil {
		return nil, err
	}
	cards := b.showPreviews(look.files["style.css"], opt)
	if err := b.drawEarly(look, opt.Early); err != nil {
		return nil, err
	}
	for _, job := range b.jobs {
		pages = append(pages, job.path)
	}
	extras := append(cards, b.standards(pages, look)...)
	return pages, parallel.Try(len(extras)+len(b.jobs), func(i int) error {
		if i < len(extras) {
			return extras[i].putInto(put)
		}
		return b.putInto(put, b.jobs[i-len(extras)], look)
	})
}

// mostEarly is how many pages of changed entries are drawn before the others: more than one keeper writes at once.
const mostEarly = 20

// drawEarly draws what a keeper who has just saved looks at, and hands it over: first the pages of the entries whose text
// is new to the press, then the pages of what stands now. The first drawing of a press has nothing that is early.
func (b *book) drawEarly(look *Look, early func(pages map[string][]byte)) error {
	if early == nil || b.press.isNew() {
		return nil
	}
	var texts, front []job
	for _, i := range b.press.changed(b.entries) {
		texts = append(texts, b.entryJob(i))
	}
	if len(texts) > mostEarly {
		texts = nil
	}
	for _, j := range b.jobs {
		if slices.Contains([]string{"home", "due", "tank", "notices"}, j.template) {
			front = append(front, j)
		}
	}
	for _, batch := range [][]job{texts, front} {
		pages, err := collected(func(put Put) error {
			return parallel.Try(len(batch), func(i int) error { return b.putInto(put, batch[i], look) })
		})
		if err != nil {
			return err
		}
		if len(pages) > 0 {
			early(pages)
		}
	}
	return nil
}

// collected returns everything that is put, by its path.
func collected(pour func(Put) error) (map[string][]byte, error) {
	files := map[string][]byte{}
	var mu sync.Mutex
	err := pour(func(path string, content []byte) error {
		mu.Lock()
		defer mu.Unlock()
		files[path] = content
		return nil
	})
	return files, err
}

// job is one page to draw: where, with which template, filled by what.
type job struct {
	path, template string
	fill           func(*pen) page
}

// sheet is a drawn page with the script of its charts, if it has any. The page lies in the draft that it was written into,
// unless a press keeps it.
type sheet struct{ page, charts []byte }

// putInto draws a page and hands over its files.
func (b *book) putInto(put Put, j job, look *Look) error {
	draft := drafts.Get().(*bytes.Buffer)
	defer drafts.Put(draft)
	drawn, err := b.draw(draft, j, look)
	if err != nil {
		return err
	}
	if err := put(j.path, drawn.page); err != nil || drawn.charts == nil {
		return err
	}
	return put(optionsPath(j.path), drawn.charts)
}

// draw fills a page, and renders it into the draft unless the press has drawn the same before.
func (b *book) draw(draft *bytes.Buffer, j job, look *Look) (sheet, error) {
	p := b.pen(j.path)
	content := j.fill(p)
	if p.err != nil {
		return sheet{}, fmt.Errorf("%s: %w", j.path, p.err)
	}
	p.finish(content.frame())
	return b.press.sheet(j, content, p.figures, func() (sheet, error) { return p.render(draft, j, content, look) })
}

// render writes a filled page into a draft.
func (p *pen) render(draft *bytes.Buffer, j job, content page, look *Look) (sheet, error) {
	set := look.pages[j.template]
	if set == nil {
		return sheet{}, fmt.Errorf("the look has no template page/%s.tmpl", j.template)
	}
	draft.Reset()
	if err := set.ExecuteTemplate(draft, "frame.tmpl", content); err != nil {
		return sheet{}, fmt.Errorf("%s: %w", j.path, err)
	}
	charts, err := p.charts()
	return sheet{page: draft.Bytes(), charts: charts}, err
}

// drafts are buffers for pages that are being written.
var drafts = sync.Pool{New: func() any { return new(bytes.Buffer) }}

// assets hands over the files of the look, and the chart runtime where the journal has its own.
func (b *book) assets(look *Look, files fs.FS, put Put) error {
	for name, text := range look.files {
		if name == "style.css" {
			text = append([]byte(figure.Style()), text...)
		}
		if err := put(name, text); err != nil {
			return err
		}
	}
	b.runtime = pinned
	if b.set.ChartRuntime == "" {
		return nil
	}
	text, err := fs.ReadFile(files, b.set.ChartRuntime)
	if err != nil {
		return err
	}
	b.runtime = chartProgram{path: "charts-" + fingerprint(text) + ".js"}
	return put(b.runtime.path, text)
}
