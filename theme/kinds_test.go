package theme

import (
	"fmt"
	"net/url"
	"path"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	paper "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// pageKinds returns a page of every kind, the longest of each: pages of one kind lie in one folder and have the same
// word before their last dot.
func pageKinds(s *Site) []string {
	longest := map[string]string{}
	var kinds []string
	for _, name := range s.Pages {
		kind := name
		if dir, file := path.Split(name); dir != "" {
			kind = dir + strings.TrimLeft(path.Ext(strings.TrimSuffix(file, ".html")), ".")
		}
		if longest[kind] == "" {
			kinds = append(kinds, kind)
		}
		if len(s.Files[name]) >= len(s.Files[longest[kind]]) {
			longest[kind] = name
		}
	}
	pages := []string{"diary/2025.html"}
	for _, kind := range kinds {
		pages = append(pages, longest[kind])
	}
	return pages
}

// No page of any kind needs to be moved sideways, from the narrowest phone to a wide screen, with long names too.
func TestNoPageMovesSideways(t *testing.T) {
	for _, name := range []string{"full", "empty", "hostile"} {
		s := site(t, name)
		b := openTab(t, s)
		for _, page := range pageKinds(s) {
			if s.Files[page] == nil {
				continue
			}
			b.open(page)
			b.see(`[...document.querySelectorAll("details")].map((d) => d.open = true).length >= 0`, "true")
			for _, width := range []int64{320, 360, 768, 1280} {
				if err := chromedp.Do(b.ctx, chromedp.EmulateViewport(width, 700)); err != nil {
					t.Fatal(err)
				}
				b.see(fmt.Sprintf(`document.documentElement.scrollWidth <= %d`, width), "true")
			}
		}
		b.quiet()
	}
}

// emulate sets a media feature of the browser, such as the reader's colour scheme.
func (b *tab) emulate(name, value string) {
	b.t.Helper()
	features := []*emulation.MediaFeature{{Name: name, Value: value}}
	if _, err := chromedp.Call(b.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: features}); err != nil {
		b.t.Fatal(err)
	}
}

// By night paper is dark and ink is light on every kind of page, in figures too.
func TestDarkOnEveryKind(t *testing.T) {
	s := site(t, "full")
	b := openTab(t, s)
	brightness := `((c) => c.match(/\d+/g).slice(0, 3).reduce((sum, n) => sum + Number(n), 0) / 765)`
	for _, scheme := range []string{"light", "dark"} {
		b.emulate("prefers-color-scheme", scheme)
		for _, page := range pageKinds(s) {
			b.open(page)
			paper, ink := brightness+`(getComputedStyle(document.documentElement).backgroundColor)`,
				brightness+`(getComputedStyle(document.querySelector("main")).color)`
			b.see(fmt.Sprintf(`%s > %s`, paper, ink), fmt.Sprint(scheme == "light"))
			b.see(fmt.Sprintf(`[...document.querySelectorAll(".fig text")].every((e) => (%s(getComputedStyle(e).fill) < .5) == %v)`, brightness, scheme == "light"), "true")
		}
	}
	b.quiet()
}

// Nothing on a page moves by itself, also for a reader who does not mind.
func TestNoMotion(t *testing.T) {
	b := openTab(t, site(t, "full"))
	for _, value := range []string{"reduce", "no-preference"} {
		b.emulate("prefers-reduced-motion", value)
		b.open("index.html")
		b.see(`getComputedStyle(document.documentElement).scrollBehavior`, "auto")
		b.see(`document.getAnimations().length`, "0")
	}
}

// A printed page is made of lines and shades, not of pictures: it stays small.
func TestPrintedPagesAreSmall(t *testing.T) {
	s := site(t, "full")
	b := openTab(t, s)
	for _, name := range pageKinds(s) {
		b.open(name)
		printed, err := chromedp.Call(b.ctx, paper.PrintToPDF, paper.PrintToPDFParams{})
		if err != nil {
			t.Fatal(err)
		}
		if size := len(printed.Data); size < 10_000 || size > 2_000_000 {
			t.Errorf("%s takes %d kB on paper", name, size/1000)
		}
	}
}

// A section that is laid out late holds as much room as it will need.
func TestDeferredSectionsKeepTheirRoom(t *testing.T) {
	s := site(t, "full")
	b := openTab(t, s)
	for _, width := range []int64{360, 412} {
		if err := chromedp.Do(b.ctx, chromedp.EmulateViewport(width, 800)); err != nil {
			t.Fatal(err)
		}
		for _, page := range pageKinds(s) {
			b.open(page)
			b.see(`[...document.querySelectorAll(".drawn")].filter((part) => {
				const room = parseFloat(getComputedStyle(part).containIntrinsicHeight.replace("auto", ""));
				part.style.contentVisibility = "visible";
				return !(part.getBoundingClientRect().height <= room);
			}).map((part) => part.getAttribute("aria-labelledby")).join()`, "")
		}
	}
	b.quiet()
}

// A link into a page shows the place it names, though the figures above it are not laid out until they come near.
func TestLinksIntoAPage(t *testing.T) {
	b := openTab(t, site(t, "full"))
	for _, width := range []int64{360, 1280} {
		if err := chromedp.Do(b.ctx, chromedp.EmulateViewport(width, 700)); err != nil {
			t.Fatal(err)
		}
		for page, id := range map[string]string{"tanks/north-shelf.html": "water", "tanks/north-shelf.water.html": "plot-water-gh"} {
			b.open("index.html")
			b.open(page + "#" + id)
			// At the top, or below it where the page ends.
			b.see(fmt.Sprintf(`(() => {
				const top = document.getElementById(%q).getBoundingClientRect().top;
				const end = document.documentElement.scrollHeight - innerHeight - scrollY < 2;
				return Math.abs(top) < 2 || end && top > 0 && top < innerHeight;
			})()`, id), "true")
			b.see(`[...document.querySelectorAll(".drawn")].some((part) => getComputedStyle(part).contentVisibility === "auto")`, "true")
		}
	}
	b.quiet()
}

// Every stop of the Tab key shows where it is, and the first leads past the navigation.
func TestKeyboardOnEveryKind(t *testing.T) {
	s := site(t, "full")
	b := openTab(t, s)
	for _, page := range pageKinds(s) {
		b.open(page)
		b.keys(kb.Tab)
		b.see(`document.activeElement.className`, "skip")
		b.see(`document.activeElement.getBoundingClientRect().left >= 0`, "true")
		for range 25 {
			b.keys(kb.Tab)
			b.see(`(() => {
				const style = getComputedStyle(document.activeElement);
				return document.activeElement === document.body || style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2;
			})()`, "true")
		}
	}
	b.open("index.html")
	b.keys(kb.Tab)
	b.keys(kb.Enter)
	b.see(`location.hash`, "#page-text")
	b.quiet()
}

// The whole site works from a folder, opened as a file: links name their files, search and readouts have what
// they need.
func TestFromAFolder(t *testing.T) {
	dir := t.TempDir()
	s := site(t, "full")
	write(t, dir, s)
	b := openTab(t, s)
	b.address = (&url.URL{Scheme: "file", Path: filepath.ToSlash(dir) + "/"}).String()
	for _, page := range pageKinds(s) {
		b.open(page)
		b.see(`document.styleSheets.length > 0 && getComputedStyle(document.querySelector(".sheet")).maxWidth !== "none"`, "true")
		b.see(`[...document.images].filter((i) => i.complete && i.naturalWidth === 0 && i.loading !== "lazy").length`, "0")
		b.see(`[...document.querySelectorAll("a[href]")].filter((a) => a.protocol === "file:" && !/\.(html|csv|json|xml|ics|jpg|png)(#|$)/.test(a.href)).map((a) => a.getAttribute("href")).join(" ")`, "")
	}
	b.open("diary/2025.html")
	b.keys("/")
	b.keys("ruby ag")
	b.see(`document.querySelector("dialog [role=status]").textContent`, "1 page")
	b.keys(kb.Enter)
	b.see(`document.querySelector("h1")?.textContent`, "Ruby again")
	b.open("tanks/north-shelf.html")
	b.see(`document.querySelector("#plot-population .fig-wide").focus() ?? "ok"`, "ok")
	b.keys(kb.ArrowRight)
	b.see(`document.querySelector("#plot-population .readout").hidden`, "false")
	b.quiet()
}

// The timeline by keyboard: from mark to mark in both directions, to both ends, and on to the page behind a mark.
func TestTimelineByKeyboard(t *testing.T) {
	b := openTab(t, site(t, "full"))
	b.open("tanks/north-shelf.html")
	here := `[...document.querySelectorAll("#plot-timeline .fig-wide .fig-item")].findIndex((i) => i.classList.contains("fig-here"))`
	last := `(document.querySelectorAll("#plot-timeline .fig-wide .fig-item").length - 1)`
	b.see(`document.querySelector("#plot-timeline .fig-wide").focus() ?? "ok"`, "ok")
	for _, step := range []struct{ key, at string }{
		{kb.ArrowRight, "0"}, {kb.ArrowRight, "1"}, {kb.ArrowLeft, "0"}, {kb.End, last}, {kb.ArrowRight, "0"}, {kb.ArrowLeft, last}, {kb.Home, "0"},
	} {
		b.keys(step.key)
		b.see(here+" == "+step.at, "true")
		b.see(`document.querySelector("#plot-timeline .readout").textContent === document.querySelector("#plot-timeline .fig-here").getAttribute("aria-label")`, "true")
	}
	b.see(`document.querySelector("#plot-timeline .readout").getAttribute("aria-live")`, "polite")
	b.keys(kb.Enter)
	b.see(`location.pathname.includes("/diary/") || location.pathname.includes("/broods/")`, "true")
	b.quiet()
}

// By touch the first tap on a mark tells what it is, and the second follows it. By pointer, hovering is enough.
func TestReadoutByTouchAndPointer(t *testing.T) {
	b := openTab(t, site(t, "full"))
	b.open("tanks/north-shelf.html")
	at := `document.querySelector("#plot-timeline .fig-wide a.fig-item")`
	point := func(kind, pointer string) {
		b.see(`(() => {
			const item = `+at+`, r = item.getBoundingClientRect();
			return item.dispatchEvent(new PointerEvent("`+kind+`", { bubbles: true, cancelable: true, composed: true, pointerType: "`+pointer+`", clientX: r.x + r.width / 2, clientY: r.y + r.height / 2 })) ? "goes on" : "stays";
		})()`, map[bool]string{true: "stays", false: "goes on"}[kind == "click"])
	}
	point("pointerover", "touch")
	point("pointerdown", "touch")
	b.see(`document.querySelector("#plot-timeline .readout").hidden`, "false")
	point("click", "touch")
	b.see(`document.querySelector("#plot-timeline .readout").textContent === `+at+`.getAttribute("aria-label")`, "true")
	b.see(at+`.dispatchEvent(new PointerEvent("click", { bubbles: true, cancelable: true, pointerType: "touch" })) ? "goes on" : "stays"`, "goes on")
	b.see(`document.querySelector("h1") !== null && !location.pathname.includes("/tanks/")`, "true")
	b.open("tanks/north-shelf.html")
	point("pointerover", "mouse")
	point("pointermove", "mouse")
	b.see(`document.querySelector("#plot-timeline .readout").hidden`, "false")
	b.see(`document.querySelector("#plot-timeline .fig-wide").dispatchEvent(new PointerEvent("pointerleave", { pointerType: "mouse" })) && document.querySelector("#plot-timeline .readout").hidden`, "true")
	b.quiet()
}
