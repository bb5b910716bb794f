package theme

import (
	"bytes"
	"context"
	"fmt"
	"maps"
	"testing"
	"testing/fstest"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
)

// pressed holds the site that a press draws after each edit of a journal against the one that is drawn anew.
type pressed struct {
	*testing.T
	press     Press
	reader    journal.Reader
	predictor forecast.Predictor
	files     fstest.MapFS
	asOf      journal.Day
	look      *Look
	early     map[string][]byte
	last      *Site
}

func newPressed(t *testing.T, name string) *pressed {
	t.Helper()
	look, err := ParseLook(nil)
	if err != nil {
		t.Fatal(err)
	}
	p := &pressed{T: t, files: fstest.MapFS{}, asOf: foretold(t, name).Colony.AsOf, look: look}
	maps.Copy(p.files, folderOf(t, name))
	p.same()
	return p
}

// same draws both ways and returns how many files of the site are other bytes than the last time.
func (p *pressed) same() (changed int) {
	p.Helper()
	read := p.reader.Read(p.files)
	if journal.HasErrors(read.Problems) {
		p.Fatal(read.Problems)
	}
	f := p.predictor.Make(context.Background(), colony.Replay(read, p.asOf))
	p.early = map[string][]byte{}
	got, err := p.press.Draw(f, p.files, Options{Look: p.look, Early: func(pages map[string][]byte) { maps.Copy(p.early, pages) }})
	if err != nil {
		p.Fatal(err)
	}
	want, err := Draw(f, p.files, Options{})
	if err != nil {
		p.Fatal(err)
	}
	for name := range want.Files {
		if !bytes.Equal(got.Files[name], want.Files[name]) {
			p.Errorf("%s is not what it is when drawn anew", name)
		}
	}
	if len(got.Files) != len(want.Files) || fmt.Sprint(got.Pages) != fmt.Sprint(want.Pages) {
		p.Errorf("%d files and %d pages, anew %d and %d", len(got.Files), len(got.Pages), len(want.Files), len(want.Pages))
	}
	for name, page := range p.early {
		if !bytes.Equal(page, want.Files[name]) {
			p.Errorf("%s was handed over early as something else", name)
		}
	}
	if p.last != nil {
		for name := range got.Files {
			if !bytes.Equal(got.Files[name], p.last.Files[name]) {
				changed++
			}
		}
	}
	p.last = got
	return changed
}

// write changes one file of the journal.
func (p *pressed) write(name, text string) { p.files[name] = &fstest.MapFile{Data: []byte(text)} }

func TestPressDrawsWhatDrawDraws(t *testing.T) {
	p := newPressed(t, "full")
	entry := func(title, words string) string {
		return "---\ndate: 2026-03-02\ntitle: " + title + "\ntank: north-shelf\n---\n" + words + "\n"
	}
	if len(p.early) > 0 {
		t.Errorf("%d pages of the first drawing are early", len(p.early))
	}
	if n := p.same(); n != 0 || p.early["index.html"] == nil || p.early["tanks/north-shelf.html"] == nil || len(p.early) > 15 {
		t.Errorf("%d files changed without an edit, %d early", n, len(p.early))
	}
	front := len(p.early)
	p.write("entries/zz.md", entry("A new page", "See [the other](yy.md)."))
	p.same()
	if len(p.early) != front+1 || p.early["diary/2026-03-02-a-new-page.html"] == nil {
		t.Errorf("%d pages early, want the new one and %d", len(p.early), front)
	}
	p.write("entries/yy.md", entry("The other", "# A place\n\nHere now."))
	p.same() // the link of the first page has come to life
	p.write("entries/zz.md", entry("A new page", "See [the other](yy.md#a-place), and more words."))
	if n := p.same(); n < 2 || n > 12 {
		t.Errorf("%d files changed with one text", n)
	}
	p.write("entries/yy.md", entry("Another name", "# Another place\n\nHere now."))
	p.same() // so has its address changed
	delete(p.files, "entries/yy.md")
	p.same()
	p.asOf++
	p.same()
	p.look, _ = ParseLook(fstest.MapFS{"page/entry.tmpl": {Data: []byte(`{{define "sheet"}}<h1>{{.Heading}}</h1>{{end}}`)}})
	got, err := p.press.Draw(foretold(t, "full"), p.files, Options{Look: p.look})
	if err != nil || len(got.Files) < 20 {
		t.Fatal(err)
	}
	if want, err := Draw(foretold(t, "full"), p.files, Options{Look: p.look}); err != nil || !maps.EqualFunc(got.Files, want.Files, bytes.Equal) {
		t.Errorf("another look changes nothing: %v", err)
	}
}
