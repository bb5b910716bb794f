package theme

import (
	"bytes"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
)

// writtenElements and writtenAttributes are all that the text of an entry may become.
var (
	writtenElements = strings.Fields("p a img figure figcaption h2 h3 h4 h5 h6 em strong del ul ol li blockquote code pre hr br " +
		"table thead tbody tr th td section div sup span")
	writtenAttributes = strings.Fields("href src srcset sizes alt title id class dir loading decoding width height role " +
		"aria-label scope tabindex start")
)

// textSeeds are links, pictures and marks as keepers and attackers write them.
var textSeeds = []string{
	"[a](javascript:alert(1)) [b](JaVaScRiPt:alert(1)) [c](data:text/html,x) [d](&#106;avascript:x) [e](java\tscript:x) [f](java%0ascript:x)",
	"[a](//example.com/x) [b](///x) [c](http:javascript:x) [d](mailto:a@example.com?body=x) [e](<a b>) [f](\\x) [g]()",
	"![x](../photos/ruby.jpg \"t\" )\n*caption*\n", "![x](../photos/../photos/ruby.jpg) ![](https://example.com/x.png)",
	"[![x](../photos/ruby.jpg)](javascript:x)", "[a](b.md#c) [b](./b.md) [c](../entries/b.md#c)", "<javascript:x> <a@b> <http://x/\">",
	"[r]: javascript:x '\"><script>'\n[r] [r][r] ![r]", "x[^1]\n\n[^1]: <script>\n", "<script>x</script>\n\n<b onclick=x>y</b>",
	"| a | b |\n|:-:|--:|\n| <i> | ![](../photos/ruby.jpg) |\n", "# a {#x onclick=y}\n## a\n- [ ] x\n- [x] y\n", "`</code><script>` \\<b> &lt;script&gt; &#0; &#x1F990;",
	"www.example.com http://a.b/\"'<x> ftp://a.b mailto:x@y.z", "http://[::1]:80/%zz [a](http://%41:b@c/) [b](https:)",
}

// FuzzLinks writes any text of an entry as HTML. Only elements and attributes of ours may come of it, and only
// addresses that lead to the site or are of a known scheme; the time is bounded, and twice gives the same.
func FuzzLinks(f *testing.F) {
	for _, seed := range textSeeds {
		f.Add(seed)
	}
	samples, err := filepath.Glob("../sample-journal/entries/*/*.md")
	if err != nil || len(samples) == 0 {
		f.Fatalf("no entries of the sample journal: %v", err)
	}
	for _, name := range samples {
		source, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		_, text, _ := strings.Cut(string(source), "\n---\n")
		f.Add(text)
	}
	b := quietBook(f)
	f.Fuzz(func(t *testing.T, text string) {
		start := time.Now()
		entry, _ := journal.ParseEntry("entries/e.md", []byte("---\ndate: 2026-03-14\n---\n"+text), b.set)
		if entry == nil {
			return
		}
		first, err := b.html(entry, "../")
		if err != nil {
			t.Fatal(err)
		}
		if again, _ := b.html(entry, "../"); again != first {
			t.Errorf("%q is written in two ways", text)
		}
		checkWritten(t, string(first))
		if took := time.Since(start); took > 5*time.Second {
			t.Errorf("%q took %v", text, took)
		}
	})
}

// quietBook is the record of a journal with one picture and one entry, without any forecast.
func quietBook(t testing.TB) *book {
	t.Helper()
	settings, problems := journal.ParseSettings([]byte("title: T\ntanks: {a: {volume: 38 L}}\n"))
	if settings == nil {
		t.Fatal(problems)
	}
	entry, problems := journal.ParseEntry("entries/b.md", []byte("---\ndate: 2026-03-13\n---\n# c\n"), settings)
	if entry == nil {
		t.Fatal(problems)
	}
	c := colony.Replay(&journal.Journal{Settings: *settings, Entries: []*journal.Entry{entry}}, entry.Date)
	b := newBook(&forecast.Forecast{Colony: c}, nil)
	b.photos = gallery{"photos/ruby.jpg": {[]size{{"photos/ruby-480.jpg", 480, 360},
		{"photos/ruby-960.jpg", 960, 720}}}}
	return b
}

// checkWritten looks at every element and attribute of a text that became HTML.
func checkWritten(t *testing.T, text string) {
	t.Helper()
	nodes, err := html.ParseFragment(bytes.NewReader([]byte(text)),
		&html.Node{Type: html.ElementNode, Data: "div", DataAtom: atom.Div})
	if err != nil {
		t.Fatal(err)
	}
	for _, top := range nodes {
		checkNode(t, top)
		for n := range top.Descendants() {
			checkNode(t, n)
		}
	}
}

func checkNode(t *testing.T, n *html.Node) {
	t.Helper()
	if n.Type == html.CommentNode || n.Type == html.ElementNode && !slices.Contains(writtenElements, n.Data) {
		t.Errorf("the text became %q", n.Data)
	}
	for _, a := range n.Attr {
		if !slices.Contains(writtenAttributes, a.Key) {
			t.Errorf("the text became the attribute %s=%q", a.Key, a.Val)
		}
		switch a.Key {
		case "href":
			checkAddress(t, a.Val)
		case "src":
			if !strings.HasPrefix(a.Val, "../photos/ruby-") {
				t.Errorf("a picture of %q", a.Val)
			}
		}
	}
}

// checkAddress holds what a browser would follow: control signs and spaces around it are cut off before it looks.
func checkAddress(t *testing.T, address string) {
	t.Helper()
	clean := strings.Map(func(r rune) rune {
		if r <= ' ' {
			return -1
		}
		return r
	}, address)
	u, err := url.Parse(clean)
	switch {
	case err != nil:
		t.Errorf("a link to %q: %v", address, err)
	case slices.Contains([]string{"http", "https", "mailto"}, u.Scheme):
	case u.Scheme != "":
		t.Errorf("a link to %q", address)
	case strings.HasPrefix(clean, "#"), strings.HasPrefix(clean, "../photos/ruby-"),
		strings.HasPrefix(clean, "../diary/"):
	default:
		t.Errorf("a link to %q, which is no page of the site", address)
	}
}
