package theme

import (
	"errors"
	"fmt"
	"html/template"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"

	"pleopod/journal/digest"
)

// Look is a parsed set of templates with the files beside them. It never changes and serves any number of sites.
type Look struct {
	pages map[string]*template.Template
	feed  *template.Template // the text of an entry in the feed
	files map[string][]byte
	sum   digest.Sum // of all templates
	once  repeats
}

// assets are the files of a look that go to the site as they are.
var assets = []string{"style.css", "script.js", "icon.svg"}

// ParseLook reads the built-in look with the files of own in their place; own may be nil. A file of own that
// replaces nothing is a mistake. The error of a broken template has its file and line.
func ParseLook(own fs.FS) (*Look, error) {
	names, err := fs.Glob(FS, "*/*.tmpl")
	if err != nil {
		return nil, err
	}
	names = append(names, "frame.tmpl")
	texts := map[string]string{}
	for _, name := range append(names, assets...) {
		text, err := pick(own, name)
		if err != nil {
			return nil, err
		}
		texts[name] = string(text)
	}
	if err := strangers(own, texts); err != nil {
		return nil, err
	}
	look := &Look{pages: map[string]*template.Template{}, files: map[string][]byte{}}
	templates := maps.Clone(texts)
	maps.DeleteFunc(templates, func(name, _ string) bool { return slices.Contains(assets, name) })
	look.sum = digest.Of(templates)
	for _, name := range assets {
		look.files[name] = []byte(texts[name])
	}
	return look, look.parse(names, texts)
}

// parse makes one set for each page: the frame, all pieces, and that page.
func (l *Look) parse(names []string, texts map[string]string) error {
	base := template.New("look").Funcs(template.FuncMap{"drawn": l.once.drawn})
	for _, name := range names {
		if strings.HasPrefix(name, "page/") {
			continue
		}
		if _, err := base.New(name).Parse(texts[name]); err != nil {
			return err
		}
	}
	l.feed = template.Must(base.Clone()).Lookup("piece/feed.tmpl")
	if err := l.once.replace(base); err != nil {
		return err
	}
	for _, name := range names {
		if !strings.HasPrefix(name, "page/") {
			continue
		}
		set, err := base.Clone()
		if err != nil {
			return err
		}
		if _, err := set.New(name).Parse(texts[name]); err != nil {
			return err
		}
		if set.Lookup("sheet") == nil {
			return fmt.Errorf(`%s has no {{define "sheet"}}`, name)
		}
		l.pages[strings.TrimSuffix(path.Base(name), ".tmpl")] = set
	}
	return nil
}

// pick reads a file of the look: the keeper's own where there is one, else the built-in.
func pick(own fs.FS, name string) ([]byte, error) {
	if own == nil {
		return FS.ReadFile(name)
	}
	text, err := fs.ReadFile(own, name)
	if errors.Is(err, fs.ErrNotExist) {
		return FS.ReadFile(name)
	}
	return text, err
}

// strangers fails for a template or style in the keeper's look that has no built-in counterpart: most likely a
// slip in its name.
func strangers(own fs.FS, known map[string]string) error {
	if own == nil {
		return nil
	}
	return fs.WalkDir(own, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || strings.HasPrefix(path.Base(name), ".") {
			return err
		}
		if _, ok := known[name]; ok {
			return nil
		}
		switch path.Ext(name) {
		case ".tmpl", ".css", ".js", ".svg":
			return fmt.Errorf("%s replaces nothing; a look may hold frame.tmpl, piece/*.tmpl, page/*.tmpl, %s",
				name, strings.Join(assets, ", "))
		}
		return nil
	})
}
