package theme

import (
	"bytes"
	"io/fs"
	"net/url"
	"os"
	"path"
	"runtime"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"
)

// stories are the journals that every page is drawn from.
var stories = []string{"full", "empty", "private", "hostile"}

func TestEveryTemplateIsUsed(t *testing.T) {
	look, err := ParseLook(nil)
	if err != nil {
		t.Fatal(err)
	}
	b := newBook(public(foretold(t, "full")), nil)
	used := map[string]bool{}
	for _, j := range b.jobs {
		used[j.template] = true
	}
	for name := range look.pages {
		if !used[name] {
			t.Errorf("no page of the full journal uses page/%s.tmpl", name)
		}
	}
	var all strings.Builder
	err = fs.WalkDir(FS, ".", func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			text, _ := FS.ReadFile(name)
			all.Write(text)
			if path.Ext(name) == ".tmpl" && !strings.HasPrefix(string(text), "{{- /* Data: ") {
				t.Errorf("%s does not open with its data type", name)
			}
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"style.css", "script.js", "icon.svg"} {
		if !strings.Contains(all.String(), "{{.Root}}"+name) {
			t.Errorf("the frame does not use %s", name)
		}
	}
	pieces, _ := fs.Glob(FS, "piece/*.tmpl")
	for _, name := range pieces {
		if !strings.Contains(all.String(), `{{template "`+name+`"`) && name != "piece/feed.tmpl" {
			t.Errorf("no template uses %s", name)
		}
	}
}

// pageOf is one parsed page.
type pageOf struct {
	root *html.Node
	ids  map[string]int
}

// parsed reads all pages of a site.
func parsed(t *testing.T, s *Site) map[string]pageOf {
	t.Helper()
	pages := map[string]pageOf{}
	for name, text := range s.Files {
		if path.Ext(name) != ".html" {
			continue
		}
		root, err := html.Parse(bytes.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		p := pageOf{root, map[string]int{}}
		for n := range root.Descendants() {
			if id := attribute(n, "id"); id != "" {
				p.ids[id]++
			}
		}
		pages[name] = p
	}
	if len(pages) == 0 {
		t.Fatal("a site without pages")
	}
	return pages
}

func attribute(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

// references are the attributes that lead to other files.
var references = []string{"href", "src", "srcset", "data-search", "data-charts", "data-runtime",
	"aria-labelledby", "aria-describedby"}

func TestEveryReferenceResolves(t *testing.T) {
	for _, name := range stories {
		t.Run(name, func(t *testing.T) { checkReferences(t, site(t, name)) })
	}
}

// checkReferences follows every reference of a site, and looks for names that stand twice on a page.
func checkReferences(t *testing.T, s *Site) {
	t.Helper()
	pages := parsed(t, s)
	checked := 0
	for at, p := range pages {
		for id, n := range p.ids {
			if n > 1 {
				t.Errorf("%s: id %q stands %d times", at, id, n)
			}
		}
		for n := range p.root.Descendants() {
			for _, key := range references {
				for _, ref := range split(key, attribute(n, key)) {
					checked++
					if !resolves(s, pages, at, ref) {
						t.Errorf("%s: %s=%q leads nowhere", at, key, ref)
					}
				}
			}
		}
	}
	if checked < 50 {
		t.Errorf("only %d references", checked)
	}
}

// split returns the references in the value of an attribute.
func split(key, value string) []string {
	switch {
	case value == "":
		return nil
	case key == "srcset":
		var out []string
		for _, one := range strings.Split(value, ", ") {
			out = append(out, strings.Fields(one)[0])
		}
		return out
	case strings.HasPrefix(key, "aria-"):
		var out []string
		for _, id := range strings.Fields(value) {
			out = append(out, "#"+id)
		}
		return out
	}
	return []string{value}
}

func resolves(s *Site, pages map[string]pageOf, at, ref string) bool {
	u, err := url.Parse(ref)
	if err != nil {
		return false
	}
	if u.IsAbs() || u.Host != "" {
		return slices.Contains([]string{"http", "https", "mailto"}, u.Scheme)
	}
	target := at
	if u.Path != "" {
		target = path.Join(path.Dir(at), u.Path)
	}
	if _, ok := s.Files[target]; !ok {
		return false
	}
	return u.Fragment == "" || pages[target].ids[u.Fragment] == 1
}

func TestReferencesAreRelative(t *testing.T) {
	for at, p := range parsed(t, site(t, "full")) {
		for n := range p.root.Descendants() {
			for _, key := range []string{"href", "src"} {
				if ref := attribute(n, key); strings.HasPrefix(ref, "/") {
					t.Errorf("%s: %s=%q would break below a sub-path", at, key, ref)
				}
			}
		}
	}
}

// Nothing but the reader's click may make a page ask another host, and no page may need an exception for inline code.
func TestPolicy(t *testing.T) {
	for at, p := range parsed(t, site(t, "full")) {
		policy := ""
		for n := range p.root.Descendants() {
			if attribute(n, "http-equiv") == "Content-Security-Policy" {
				policy = attribute(n, "content")
			}
			if n.Data == "script" && attribute(n, "src") == "" || n.Data == "style" || attribute(n, "style") != "" {
				t.Errorf("%s: inline script or style", at)
			}
			for _, a := range n.Attr {
				if strings.HasPrefix(a.Key, "on") {
					t.Errorf("%s: %s=%q", at, a.Key, a.Val)
				}
			}
		}
		if !strings.HasPrefix(policy, "default-src 'none'") || strings.Contains(policy, "unsafe") {
			t.Errorf("%s: policy %q", at, policy)
		}
		charts := slices.ContainsFunc(p.root.FirstChild.NextSibling.LastChild.Attr,
			func(a html.Attribute) bool { return a.Key == "data-charts" })
		if charts != strings.Contains(policy, "https://") {
			t.Errorf("%s: with charts %v, policy %q", at, charts, policy)
		}
	}
}

func TestSameSiteOnAnyMachine(t *testing.T) {
	files := folderOf(t, "full")
	draw := func(cores int) *Site {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(cores))
		s, err := Draw(foretold(t, "full"), files, Options{})
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	t.Setenv("TZ", "Pacific/Kiritimati")
	one := draw(1)
	t.Setenv("TZ", "America/Adak")
	four := draw(4)
	if len(one.Files) != len(four.Files) || !slices.Equal(one.Pages, four.Pages) {
		t.Fatalf("%d files and %d files", len(one.Files), len(four.Files))
	}
	for name, text := range one.Files {
		if !bytes.Equal(text, four.Files[name]) {
			t.Errorf("%s differs", name)
		}
	}
}

func TestPrivateWordsAppearNowhere(t *testing.T) {
	s := site(t, "private")
	for name, text := range s.Files {
		for _, hit := range []string{name, string(text)} {
			if at := strings.Index(strings.ToLower(hit), "secret"); at >= 0 {
				t.Errorf("%s: …%s…", name, hit[max(0, at-60):min(len(hit), at+60)])
			}
		}
		for _, number := range []string{"27.77", "27.8", "6.66", "17.17", "27.27", "2025-02-03", " 3 February 2025", "20 January", "39 shrimplets", "43 shrimp"} {
			if strings.HasSuffix(name, ".html") && strings.Contains(visible(t, text), number) {
				t.Errorf("%s shows %q of a private entry", name, number)
			}
		}
	}
	for _, name := range []string{"topics.html", "diary/2025-01-20.html"} {
		if _, ok := s.Files[name]; ok {
			t.Errorf("%s exists for private entries only", name)
		}
	}
	onyx := visible(t, s.Files["broods/onyx.html"])
	if !strings.Contains(onyx, "no longer followed here") {
		t.Error("a brood whose hatch is private does not say that it is no longer followed")
	}
	if document := s.Files["data/forecast.json"]; bytes.Contains(document, []byte(`"onyx"`)) || !bytes.Contains(document, []byte(`"plume"`)) {
		t.Error("the document follows a brood whose hatch is private, or none")
	}
	if !strings.Contains(visible(t, s.Files["shrimp/opal.html"]), "Lives in shelf") {
		t.Error("a private move shows in a public life")
	}
}

// visible returns the words of a page outside its figures.
func visible(t *testing.T, page []byte) string {
	t.Helper()
	root, err := html.Parse(bytes.NewReader(page))
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	var walk func(*html.Node)
	walk = func(n *html.Node) {
		switch n.Data {
		case "svg", "script", "style", "table":
			return
		}
		if n.Type == html.TextNode {
			b.WriteString(n.Data + " ")
		}
		for c := range n.ChildNodes() {
			walk(c)
		}
	}
	walk(root)
	return strings.Join(strings.Fields(b.String()), " ")
}

func TestEmptyJournalSaysWhatToDo(t *testing.T) {
	s := site(t, "empty")
	first := visible(t, s.Files["index.html"])
	for _, want := range []string{"New tank", "What to do next", "date: 2026-04-01", "stocked: 10"} {
		if !strings.Contains(first, want) {
			t.Errorf("the first page lacks %q", want)
		}
	}
	for _, name := range []string{"feed.xml", "calendar.ics", "sitemap.xml", "diary.html", "topics.html", "broods.html"} {
		if _, ok := s.Files[name]; ok {
			t.Errorf("%s exists in a journal without address and entries", name)
		}
	}
}

func TestSampleJournal(t *testing.T) {
	files := os.DirFS("../sample-journal")
	s, err := Draw(told(t, files), files, Options{})
	if err != nil {
		t.Fatal(err)
	}
	checkReferences(t, s)
}
