package theme

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"path"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	ics "github.com/arran4/golang-ical"
	"github.com/chromedp/chromedp"
	"golang.org/x/net/html"
)

// extremes are journals at the edge of what keepers write, each with what its site must show.
var extremes = []struct {
	name  string
	files func(t *testing.T) fstest.MapFS
	check func(t *testing.T, s *Site)
	pages []string // to open in the browser
}{
	{"an entry of nearly 1 MiB", longEntry, checkLongEntry, []string{"diary/2026-03-01-all-of-it.html"}},
	{"300 photos on one page", manyPhotos, checkManyPhotos, []string{"diary/2026-03-01-a-day-with-the-camera.html", "tanks/shelf.html"}},
	{"titles in many scripts", scripts, checkScripts, []string{"diary/2026.html", "index.html", "diary/2026-03-01.html"}},
	{"ten years on one timeline", decade, checkDecade, []string{"tanks/shelf.html", "tanks/shelf.years.html", "broods.html"}},
	{"a tank without any brood", broodless, checkBroodless, []string{"tanks/shelf.html", "index.html"}},
	{"an address and no entry", func(*testing.T) fstest.MapFS { return journalOf(oneTank) }, checkNothing, []string{"index.html", "tanks/shelf.html"}},
	{"three tables in one entry", tables, checkLandmarks, []string{"diary/2026-03-01.html"}},
	{"names of 200 characters", longNames, checkLongNames, []string{"index.html", "tanks/shelf.html", "due.html", "broods.html", "shrimp.html", "topics.html", "diary/2026.html"}},
}

// journalOf is a journal of one tank with these entries after its day and tank.
func journalOf(settings string, entries ...string) fstest.MapFS {
	files := fstest.MapFS{"journal.yaml": {Data: []byte("title: Edges\naddress: https://example.org/\nas-of: 2026-04-01\n" + settings)}}
	for i, text := range entries {
		files[fmt.Sprintf("entries/%03d.md", i)] = &fstest.MapFile{Data: []byte("---\n" + text)}
	}
	return files
}

const oneTank = "tanks: {shelf: {name: The shelf, volume: 38 L, heater: 23 C}}\n"

func longEntry(t *testing.T) fstest.MapFS {
	line := "They came out at dusk, all of them, and I counted until my eyes gave up, line after line after line.\n\n"
	return journalOf(oneTank, "date: 2026-03-01\ntitle: All of it\n---\n"+strings.Repeat(line, 1<<20/len(line)-1)+"And that was the end.\n")
}

func checkLongEntry(t *testing.T, s *Site) {
	page := s.Files["diary/2026-03-01-all-of-it.html"]
	if len(page) < 1<<20 || !bytes.Contains(page, []byte("And that was the end.")) {
		t.Errorf("the page of the long entry has %d bytes", len(page))
	}
	if n := len(s.Files["index.html"]); n > 50_000 {
		t.Errorf("the first page has %d bytes", n)
	}
}

func manyPhotos(t *testing.T) fstest.MapFS {
	var text strings.Builder
	text.WriteString("date: 2026-03-01\ntitle: A day with the camera\ntank: shelf\nevents:\n  - stocked: 10\n---\n")
	files := journalOf(oneTank, "")
	for i := range 300 {
		fmt.Fprintf(&text, "![Photo %d](../photos/%d.png)\n\n", i, i)
		img := image.NewNRGBA(image.Rect(0, 0, 60, 40))
		for j := range img.Pix {
			img.Pix[j] = uint8(i + j%7)
		}
		img.SetNRGBA(i%60, i%40, color.NRGBA{255, 0, 0, 255})
		var out bytes.Buffer
		if err := png.Encode(&out, img); err != nil {
			t.Fatal(err)
		}
		files[fmt.Sprintf("photos/%d.png", i)] = &fstest.MapFile{Data: out.Bytes()}
	}
	files["entries/000.md"].Data = []byte("---\n" + text.String())
	return files
}

func checkManyPhotos(t *testing.T, s *Site) {
	for _, name := range []string{"diary/2026-03-01-a-day-with-the-camera.html", "tanks/shelf.html"} {
		root, err := html.Parse(bytes.NewReader(s.Files[name]))
		if err != nil {
			t.Fatal(err)
		}
		photos := map[string]bool{}
		for n := range root.Descendants() {
			if n.Type != html.ElementNode || n.Data != "img" {
				continue
			}
			if attribute(n, "alt") != "" { // without words it stands beside a link that has them
				photos[attribute(n, "src")] = true
			}
			if attribute(n, "loading") != "lazy" || attribute(n, "width") == "" || attribute(n, "height") == "" {
				t.Errorf("%s: %v is no lazy photo with size and words", name, n.Attr)
			}
		}
		if len(photos) != 300 {
			t.Errorf("%s shows %d photos", name, len(photos))
		}
	}
}

// scriptTitles are a title in Arabic, in Chinese, of signs alone, and in two directions.
var scriptTitles = []string{"ماء جديد للروبيان", "樱桃虾抱卵了", "🦐🥚", "الروبيان and Ruby"}

func scripts(t *testing.T) fstest.MapFS {
	var entries []string
	for i, title := range scriptTitles {
		entries = append(entries, fmt.Sprintf("date: 2026-03-%02d\ntitle: %s\ntank: shelf\ntopics: [%q]\nevents:\n  - counted: %d\n---\n%s\n", i+1, title, title, 10+i, title))
	}
	return journalOf("tanks: {shelf: {name: 水族箱 🦐, volume: 38 L}}\n", entries...)
}

func checkScripts(t *testing.T, s *Site) {
	year := visible(t, s.Files["diary/2026.html"])
	for _, title := range scriptTitles {
		if !strings.Contains(year, title) || !bytes.Contains(s.Files["feed.xml"], []byte(title)) || !bytes.Contains(s.Files[searchPath], []byte(title)) {
			t.Errorf("%q is not in the year, the feed and the search", title)
		}
	}
	for _, name := range s.Pages {
		if strings.HasPrefix(name, "diary/2026-") && !bytes.Contains(s.Files[name], []byte(`<h1 dir="auto">`)) {
			t.Errorf("%s does not let its title choose the direction", name)
		}
	}
}

func decade(t *testing.T) fstest.MapFS {
	var entries []string
	for year := 2016; year < 2026; year++ {
		for month := 4; month <= 10; month += 2 {
			entries = append(entries, fmt.Sprintf("date: %d-%02d-01\ntank: shelf\nwater: {temperature: 23 C}\nevents:\n  - berried: 1\n    brood: b%d-%d\n---\n", year, month, year, month),
				fmt.Sprintf("date: %d-%02d-23\ntank: shelf\nevents:\n  - hatched: b%d-%d\n    shrimplets: 20\n---\n", year, month, year, month))
		}
	}
	return journalOf(oneTank, entries...)
}

func checkDecade(t *testing.T, s *Site) {
	years := s.Files["tanks/shelf.years.html"]
	for year := 2016; year <= 2026; year++ {
		if !bytes.Contains(years, fmt.Appendf(nil, `id="plot-timeline-%d"`, year)) {
			t.Errorf("the year %d has no timeline", year)
		}
	}
	for _, brood := range []string{"b2016-4", "b2025-10"} {
		if !bytes.Contains(years, []byte(brood)) {
			t.Errorf("the timelines lack %s", brood)
		}
	}
	_, timeline, _ := bytes.Cut(s.Files["tanks/shelf.html"], []byte(`id="plot-timeline"`))
	timeline, _, ok := bytes.Cut(timeline, []byte("</figure>"))
	if !ok || bytes.Contains(timeline, []byte("broods/b2016-4.html")) || !bytes.Contains(timeline, []byte("broods/b2025-10.html")) {
		t.Error("the tank's own page draws other broods than the last")
	}
}

func broodless(t *testing.T) fstest.MapFS {
	return journalOf(oneTank, "date: 2026-03-01\ntank: shelf\nwater: {temperature: 23 C}\nevents:\n  - stocked: 10\n---\nTen.\n")
}

func checkBroodless(t *testing.T, s *Site) {
	if _, ok := s.Files["broods.html"]; ok {
		t.Error("a page of broods without any")
	}
	tank := visible(t, s.Files["tanks/shelf.html"])
	if !strings.Contains(tank, "Timeline of The shelf") || strings.Contains(tank, "NaN") {
		t.Errorf("the tank's page says %s", tank)
	}
	if strings.Contains(visible(t, s.Files["index.html"]), "Broods") {
		t.Error("the navigation leads to broods")
	}
}

func longNames(t *testing.T) fstest.MapFS {
	long := strings.Repeat("unbreakable", 18) + "xy" // 200 letters
	entry := fmt.Sprintf("date: 2026-03-10\ntitle: %s\ntank: shelf\ntopics: [%s]\nwater: {temperature: 23 C}\nevents:\n  - stocked: 10\n    source: %s\n    line: %s\n  - berried: [%s]\n    brood: %s\n    note: %s\n---\n# %s\n%s\n",
		long, long[:60], long, long, long[:60], long[:60], long, long, long)
	return journalOf("keeper: "+long+"\ntanks: {shelf: {name: "+long+", volume: 38 L, heater: 23 C}}\n", entry)
}

func checkLongNames(t *testing.T, s *Site) {
	for name := range s.Files {
		for _, part := range strings.Split(name, "/") {
			if len(part) > 120 {
				t.Errorf("the file name %s has %d letters", part, len(part))
			}
		}
	}
	if !bytes.Contains(s.Files["broods.html"], []byte(strings.Repeat("unbreakable", 18)+"xy")) {
		t.Error("the page of broods cuts the name")
	}
}

// checkNothing: each page can be reached, and a calendar of nothing still holds a component (RFC 5545, 3.6).
func checkNothing(t *testing.T, s *Site) {
	checkReached(t, s)
	calendar, err := ics.ParseCalendar(bytes.NewReader(s.Files["calendar.ics"]))
	if err != nil || len(calendar.Components) != 1 || len(calendar.Events()) != 0 {
		t.Errorf("calendar %s: %v", s.Files["calendar.ics"], err)
	}
}

// A page that is only there when the record has something for it must be linked then too.
func TestEveryPageIsReached(t *testing.T) { checkReached(t, site(t, "full")) }

func checkReached(t *testing.T, s *Site) {
	t.Helper()
	reached := map[string]bool{"index.html": true, "404.html": true}
	for at, p := range parsed(t, s) {
		for n := range p.root.Descendants() {
			if n.Type == html.ElementNode && n.Data == "a" {
				reached[path.Join(path.Dir(at), attribute(n, "href"))] = true
			}
		}
	}
	for _, page := range s.Pages {
		if !reached[page] {
			t.Errorf("no page leads to %s: link it in newFrame (frame.go), or from a page that is reached", page)
		}
	}
}

func tables(*testing.T) fstest.MapFS {
	return journalOf(oneTank, "date: 2026-03-01\ntank: shelf\nevents:\n  - stocked: 10\n---\n"+strings.Repeat("| a | b |\n| - | - |\n| 1 | 2 |\n\nNext.\n\n", 3))
}

// checkLandmarks: whoever jumps from part to part of a page by ear hears each name once.
func checkLandmarks(t *testing.T, s *Site) {
	for at, p := range parsed(t, s) {
		heard := map[string]int{}
		for n := range p.root.Descendants() {
			if n.Type != html.ElementNode || !slices.Contains([]string{"section", "aside", "nav"}, n.Data) {
				continue
			}
			name := attribute(n, "aria-label")
			for other := range p.root.Descendants() {
				if id := attribute(other, "id"); id != "" && id == attribute(n, "aria-labelledby") {
					name = textOf(other)
				}
			}
			if heard[name]++; name != "" && heard[name] > 1 {
				t.Errorf("%s: two parts are called %q", at, name)
			}
		}
	}
}

// textOf is the text of an element.
func textOf(n *html.Node) string {
	var b strings.Builder
	for child := range n.Descendants() {
		if child.Type == html.TextNode {
			b.WriteString(child.Data)
		}
	}
	return strings.TrimSpace(b.String())
}

func TestLandmarksOfEveryStory(t *testing.T) {
	for _, name := range append([]string{"water"}, stories...) {
		t.Run(name, func(t *testing.T) { checkLandmarks(t, site(t, name)) })
	}
}

// At the edges too every reference leads somewhere, and no page moves sideways on a phone.
func TestExtremes(t *testing.T) {
	for _, x := range extremes {
		t.Run(x.name, func(t *testing.T) {
			files := x.files(t)
			s, err := Draw(told(t, files), files, Options{})
			if err != nil {
				t.Fatal(err)
			}
			checkReferences(t, s)
			x.check(t, s)
			b := openTab(t, s)
			for _, page := range x.pages {
				if s.Files[page] == nil {
					t.Errorf("there is no %s among %q", page, s.Pages)
					continue
				}
				b.open(page)
				for _, width := range []int64{320, 1280} {
					if err := chromedp.Do(b.ctx, chromedp.EmulateViewport(width, 700)); err != nil {
						t.Fatal(err)
					}
					b.see(fmt.Sprintf(`document.documentElement.scrollWidth <= %d`, width), "true")
				}
			}
			b.quiet()
		})
	}
}
