package theme

import (
	"bytes"
	"fmt"
	"io/fs"
	"runtime"
	"sync"

	"pleopod/journal/forecast"
	"pleopod/theme/figure"
	"pleopod/theme/photo"
)

// Options says how a site is drawn. The zero value is the usual choice.
type Options struct {
	// Look is the parsed look; nil parses the built-in one.
	Look *Look
	// Photos keeps the pictures made of photos between runs; the zero value keeps none.
	Photos photo.Cache
	// Early is given the pages of entries that have changed since a Press drew them last, as soon as they are drawn and
	// before all others, where there are few of them; nil asks for none.
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
	return (*Press)(nil).Draw(f, files, opt)
}

// Draw makes the site as the function Draw does.
func (p *Press) Draw(f *forecast.Forecast, files fs.FS, opt Options) (*Site, error) {
	look := opt.Look
	if look == nil {
		var err error
		if look, err = ParseLook(nil); err != nil {
			return nil, err
		}
	}
	p.turn(look)
	b := newBook(public(f), p)
	site := &Site{Files: map[string][]byte{}}
	if err := b.assets(site, look, files); err != nil {
		return nil, err
	}
	if err := b.showPhotos(site, files, opt.Photos); err != nil {
		return nil, err
	}
	if err := b.showPreviews(site, look.files["style.css"]); err != nil {
		return nil, err
	}
	if err := b.drawEarly(look, opt.Early); err != nil {
		return nil, err
	}
	jobs := b.jobs()
	for _, job := range jobs {
		site.Pages = append(site.Pages, job.path)
	}
	extras := b.standards(site.Pages, look)
	drawn := make([]sheet, len(jobs))
	written := make([][]byte, len(extras))
	if err := each(len(extras)+len(jobs), func(i int) (err error) {
		if i < len(extras) {
			written[i], err = extras[i].write()
			return err
		}
		i -= len(extras)
		drawn[i], err = b.draw(jobs[i], look)
		return err
	}); err != nil {
		return nil, err
	}
	for i, extra := range extras {
		site.Files[extra.path] = written[i]
	}
	for i, job := range jobs {
		drawn[i].putInto(site.Files, job.path)
	}
	return site, nil
}

// mostEarly is how many pages are drawn before the others: more than one keeper writes at once.
const mostEarly = 20

// drawEarly draws the pages of the entries whose text is new to the press, and hands them over.
func (b *book) drawEarly(look *Look, early func(pages map[string][]byte)) error {
	changed := b.press.changed(b.entries)
	if early == nil || len(changed) == 0 || len(changed) > mostEarly {
		return nil
	}
	pages := map[string][]byte{}
	for _, i := range changed {
		job := b.entryJob(i)
		drawn, err := b.draw(job, look)
		if err != nil {
			return err
		}
		drawn.putInto(pages, job.path)
	}
	early(pages)
	return nil
}

// job is one page to draw: where, with which template, filled by what.
type job struct {
	path, template string
	fill           func(*pen) page
}

// sheet is a drawn page with the script of its charts, if it has any.
type sheet struct{ page, charts []byte }

// putInto adds the files of a page that lies at path.
func (s sheet) putInto(files map[string][]byte, path string) {
	files[path] = s.page
	if s.charts != nil {
		files[optionsPath(path)] = s.charts
	}
}

// draw fills a page, and renders it unless the press has drawn the same before.
func (b *book) draw(j job, look *Look) (sheet, error) {
	p := b.pen(j.path)
	content := j.fill(p)
	if p.err != nil {
		return sheet{}, fmt.Errorf("%s: %w", j.path, p.err)
	}
	p.finish(content.frame())
	return b.press.sheet(j, content, p.figures, func() (sheet, error) { return p.render(j, content, look) })
}

// render writes a filled page.
func (p *pen) render(j job, content page, look *Look) (sheet, error) {
	set := look.pages[j.template]
	if set == nil {
		return sheet{}, fmt.Errorf("the look has no template page/%s.tmpl", j.template)
	}
	var out bytes.Buffer
	if err := set.ExecuteTemplate(&out, "frame.tmpl", content); err != nil {
		return sheet{}, fmt.Errorf("%s: %w", j.path, err)
	}
	charts, err := p.charts()
	return sheet{page: bytes.Clone(out.Bytes()), charts: charts}, err
}

// each calls work for 0 to n-1 on all cores and returns the error of the lowest number that failed.
func each(n int, work func(i int) error) error {
	errs := make([]error, n)
	next := make(chan int)
	var crew sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		crew.Go(func() {
			for i := range next {
				errs[i] = work(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	crew.Wait()
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// assets puts the files of the look, and the chart runtime where the journal has its own, into the site.
func (b *book) assets(site *Site, look *Look, files fs.FS) error {
	for name, text := range look.files {
		site.Files[name] = text
	}
	site.Files["style.css"] = append([]byte(figure.Style()), look.files["style.css"]...)
	b.runtime = pinned
	if b.set.ChartRuntime == "" {
		return nil
	}
	text, err := fs.ReadFile(files, b.set.ChartRuntime)
	if err != nil {
		return err
	}
	b.runtime = chartProgram{path: "charts-" + fingerprint(text) + ".js"}
	site.Files[b.runtime.path] = text
	return nil
}
