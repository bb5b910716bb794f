package theme

import (
	"bytes"
	"encoding/json"
	"image"
	"image/png"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"

	"golang.org/x/net/html"

	"pleopod/journal/digest"
	"pleopod/theme/figure"
)

// metas returns the values of a page's meta elements of one property, in order.
func metas(p pageOf, property string) []string {
	var out []string
	for n := range p.root.Descendants() {
		if n.Type == html.ElementNode && attribute(n, "property") == property {
			out = append(out, attribute(n, "content"))
		}
	}
	return out
}

// Every page has pictures for its previews, each a file of the site with the size that the page says, and words for it.
func TestPreviewOfEveryPage(t *testing.T) {
	for _, name := range []string{"full", "private", "hostile"} {
		s, address := site(t, name), foretold(t, name).Colony.Settings.Address
		for at, p := range parsed(t, s) {
			pictures, alts := metas(p, "og:image"), metas(p, "og:image:alt")
			widths, heights := metas(p, "og:image:width"), metas(p, "og:image:height")
			if n := len(pictures); n == 0 || len(alts) != n || len(widths) != n || len(heights) != n {
				t.Fatalf("%s: %s: %d pictures, %d alts, %d widths, %d heights", name, at, n, len(alts),
					len(widths), len(heights))
			}
			for i, picture := range pictures {
				path, ok := strings.CutPrefix(picture, address)
				config, _, err := image.DecodeConfig(bytes.NewReader(s.Files[path]))
				if !ok || err != nil || strconv.Itoa(config.Width) != widths[i] || strconv.Itoa(config.Height) != heights[i] {
					t.Errorf("%s: %s: picture %s of %s x %s: %v", name, at, picture, widths[i], heights[i], err)
				}
			}
			last := pictures[len(pictures)-1]
			if !strings.HasPrefix(last, address+"previews/") || alts[len(alts)-1] == "" {
				t.Errorf("%s: %s: the last picture is %s, %q", name, at, last, alts)
			}
			if tank, ok := strings.CutPrefix(at, "tanks/"); ok {
				tank, _, _ = strings.Cut(tank, ".")
				if !strings.HasPrefix(last, address+"previews/"+tank+".") {
					t.Errorf("%s: %s shows the preview %s", name, at, last)
				}
			}
		}
	}
}

// A picture keeps its name when it changes, so that the pages that name it do not change with it.
func TestPreviewKeepsItsName(t *testing.T) {
	drawn := func(mutate func(*book)) (address string, picture []byte) {
		b := shelfBook(t)
		mutate(b)
		picture, err := b.showPreviews(nil, Options{})[0].write()
		if err != nil {
			t.Fatal(err)
		}
		return b.previews["north-shelf"].Address, picture
	}
	name, picture := drawn(func(*book) {})
	if name != "https://example.org/shrimp/previews/north-shelf.png" {
		t.Errorf("the picture is called %s", name)
	}
	if later, other := drawn(func(b *book) { b.asOf += 20 }); later != name || bytes.Equal(other, picture) {
		t.Errorf("twenty days later it is called %s, the same picture: %v", later, bytes.Equal(other, picture))
	}
}

// mapShelf is a shelf in memory.
type mapShelf map[string][]byte

func (s mapShelf) Get(name string) []byte          { return s[name] }
func (s mapShelf) Put(name string, content []byte) { s[name] = content }

func TestPreviewComesFromTheShelf(t *testing.T) {
	shelf := mapShelf{}
	b := shelfBook(t)
	drawn := func(version string) []byte {
		picture, err := b.showPreviews(nil, Options{Shelf: shelf, Version: version})[0].write()
		if err != nil {
			t.Fatal(err)
		}
		return picture
	}
	first := drawn("one")
	if len(shelf) != 1 {
		t.Fatalf("%d pictures on the shelf", len(shelf))
	}
	for name := range shelf {
		shelf[name] = digest.Seal([]byte("the picture"))
		if got := drawn("one"); string(got) != "the picture" {
			t.Error("the picture on the shelf is not taken")
		}
		shelf[name][0]++
		if !bytes.Equal(drawn("one"), first) {
			t.Error("a spoilt picture is taken")
		}
	}
	if b.asOf++; bytes.Equal(drawn("one"), first) || len(shelf) != 2 {
		t.Error("the picture of the day before is taken")
	}
	if drawn("two"); len(shelf) != 3 {
		t.Error("a picture of another program is taken")
	}
}

func TestNoPreviewWithoutAddress(t *testing.T) {
	files := folderOf(t, "full")
	yaml := files["journal.yaml"].Data
	files["journal.yaml"].Data = regexp.MustCompile(`(?m)^address: .*\n`).ReplaceAll(yaml, nil)
	if len(files["journal.yaml"].Data) == len(yaml) {
		t.Fatal("the journal has no address to take away")
	}
	s, err := Draw(told(t, files), files, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for at, p := range parsed(t, s) {
		if got := metas(p, "og:image"); got != nil {
			t.Errorf("%s: pictures %q without an address", at, got)
		}
	}
	for name := range s.Files {
		if strings.HasPrefix(name, "previews/") {
			t.Errorf("%s is made for nobody", name)
		}
	}
}

// The figure of a preview holds nothing of a private entry.
func TestPreviewKeepsPrivacy(t *testing.T) {
	b := newBook(public(foretold(t, "private")), nil)
	for i := range b.Tanks {
		option, err := b.previewFigure(&b.Tanks[i]).Option()
		if err != nil || !json.Valid(option) {
			t.Fatal(err)
		}
		for _, word := range []string{"secret", "27.77", "43 shrimp", "3 came"} {
			if strings.Contains(string(option), word) {
				t.Errorf("the preview of %s shows %q", b.Tanks[i].Tank.ID, word)
			}
		}
	}
}

// The newest broods are on the picture, however many there are, and a name that the picture cannot write has a
// stand-in.
func TestPreviewOfManyBroods(t *testing.T) {
	b := shelfBook(t)
	f := b.previewFigure(b.tanks["north-shelf"])
	if len(f.Lanes) == 0 || len(f.Lanes) > previewLanes || f.Title != "North shelf" {
		t.Errorf("%d rows under %q", len(f.Lanes), f.Title)
	}
	if newest := f.Lanes[len(f.Lanes)-1].Label; newest != b.tanks["north-shelf"].Tank.Broods[len(b.tanks["north-shelf"].Tank.Broods)-1].ID {
		t.Errorf("the last row is %s", newest)
	}
	b.set.Tank("north-shelf").Name = "北棚"
	defer func() { b.set.Tank("north-shelf").Name = "North shelf" }()
	card, err := b.previewFigure(b.tanks["north-shelf"]).Card("", nil)
	if err != nil {
		t.Fatal(err)
	}
	if p, err := png.Decode(bytes.NewReader(card)); err != nil || p.Bounds().Dx() != figure.CardWidth {
		t.Errorf("the card of a tank with a name in Chinese: %v", err)
	}
	if title := b.previewFigure(b.tanks["north-shelf"]).Title; title != "A tank of small shrimp" {
		t.Errorf("its title is %q", title)
	}
}

func TestFigureColours(t *testing.T) {
	got := figureColours(":root {\n --paper: #fff; --fig-paper: var(--paper); --fig-moss: #4b6a1c; --fig-ink: red; }\n@media print { :root { --fig-moss: #000; } }")
	if len(got) != 2 || got["paper"] != "#fff" || got["moss"] != "#4b6a1c" {
		t.Errorf("colours %v", got)
	}
	style, err := FS.ReadFile("style.css")
	if err != nil {
		t.Fatal(err)
	}
	if got := figureColours(string(style)); len(got) < 11 {
		t.Errorf("the built-in style gives only %v", got)
	}
}

// Whoever waits is told of every photo.
func TestPicturedCountsThePhotos(t *testing.T) {
	var mu sync.Mutex
	told := map[int]bool{}
	all := 0
	_, err := Draw(foretold(t, "full"), folderOf(t, "full"), Options{Pictured: func(done, of int) {
		mu.Lock()
		defer mu.Unlock()
		told[done], all = true, of
	}})
	if err != nil || all < 2 || len(told) != all || !told[all] {
		t.Errorf("told of %d of %d photos, %v", len(told), all, err)
	}
}
