package main

import (
	"bytes"
	"fmt"
	"html/template"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"

	"github.com/adrg/frontmatter"
	"github.com/goccy/go-yaml"
	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"

	"pleopod/theme"
)

// floor does with a journal what any publisher of Markdown must do at least, on all cores: it reads every entry, splits
// and decodes its front matter, converts its text, puts the site's frame around it and writes the page. It looks at
// nothing, checks nothing and draws no other page.
func floor(folder, out string) error {
	var entries []string
	err := filepath.WalkDir(filepath.Join(folder, "entries"), func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			entries = append(entries, name)
		}
		return err
	})
	if err != nil {
		return err
	}
	if err := os.MkdirAll(out, 0o755); err != nil {
		return err
	}
	press, err := newPress()
	if err != nil {
		return err
	}
	var crew sync.WaitGroup
	errs := make([]error, runtime.GOMAXPROCS(0))
	for worker := range errs {
		crew.Go(func() {
			for i := worker; i < len(entries) && errs[worker] == nil; i += len(errs) {
				errs[worker] = press.page(entries[i], filepath.Join(out, fmt.Sprintf("%d.html", i)))
			}
		})
	}
	crew.Wait()
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// press makes the pages of the floor.
type press struct {
	markdown goldmark.Markdown
	frame    *template.Template
}

func newPress() (*press, error) {
	frame, err := template.ParseFS(theme.FS, "frame.tmpl")
	if err != nil {
		return nil, err
	}
	_, err = frame.Parse(`{{define "sheet"}}<h1>{{.Title}}</h1>{{.Text}}{{end}}{{define "piece/icons.tmpl"}}{{end}}`)
	return &press{
		markdown: goldmark.New(goldmark.WithExtensions(extension.GFM, extension.Footnote), goldmark.WithParserOptions(parser.WithAutoHeadingID())),
		frame:    frame,
	}, err
}

// frontMatter is the least that a page needs to know.
type frontMatter struct {
	Date, Title, Tank string
	Topics            []string
	Water             map[string]any
	Events            []map[string]any
}

func (p *press) page(from, to string) error {
	source, err := os.ReadFile(from)
	if err != nil {
		return err
	}
	var front frontMatter
	format := frontmatter.NewFormat("---", "---", func(text []byte, into any) error { return yaml.Unmarshal(text, into) })
	body, err := frontmatter.MustParse(bytes.NewReader(source), &front, format)
	if err != nil {
		return err
	}
	var text, out bytes.Buffer
	if err := p.markdown.Convert(body, &text); err != nil {
		return err
	}
	page := &theme.EntryPage{Text: template.HTML(text.String())}
	page.Title, page.Site, page.Lang, page.Root = front.Title, "An invented journal", "en", "../"
	page.Description = "One page of the diary"
	for _, name := range strings.Fields("Now Due Diary Broods Shrimp Topics") {
		page.Nav = append(page.Nav, theme.NavItem{Text: name, Href: "../" + name + ".html"})
	}
	for _, name := range strings.Fields("Record Methods Data Cautions") {
		page.Foot = append(page.Foot, theme.NavItem{Text: name, Href: "../" + name + ".html"})
	}
	if err := p.frame.Execute(&out, page); err != nil {
		return err
	}
	return os.WriteFile(to, out.Bytes(), 0o644)
}
