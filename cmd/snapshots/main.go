// Command snapshots takes pictures of the sample journal's site with Chromium.
//
//	go run ./cmd/snapshots sample-journal/pictures     the three of the README
//	go run ./cmd/snapshots -all FOLDER                 a page of every kind, on a phone and a screen, by day and by night
//
// The site is made in memory and served on loopback; nothing else is asked. Pages take the day of the journal for
// today, so that the same journal gives the same words.
package main

import (
	"context"
	"flag"
	"fmt"
	"io/fs"
	"mime"
	"net/http"
	"net/http/httptest"
	"os"
	"path"
	"path/filepath"
	"strings"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
	"pleopod/journal/notice"
	"pleopod/theme"
)

func main() {
	all := flag.Bool("all", false, "take a page of every kind, in four forms")
	journal := flag.String("journal", "sample-journal", "folder of the journal")
	flag.Parse()
	if flag.NArg() != 1 {
		fmt.Fprintln(os.Stderr, "usage: snapshots [-all] [-journal DIR] FOLDER")
		os.Exit(2)
	}
	choose := ofReadme
	if *all {
		choose = everyKind
	}
	if err := run(*journal, flag.Arg(0), choose); err != nil {
		fmt.Fprintln(os.Stderr, "snapshots:", err)
		os.Exit(1)
	}
}

// shot is one picture to take.
type shot struct {
	name          string // of the file, without .png
	page          string // path in the site
	width, height int64  // CSS pixels; height 0 takes the whole page
	from          string // selector of what stands at the top; "" for the page's own top
	dark          bool
}

// ofReadme lists the pictures of README.md.
func ofReadme(*theme.Site) []shot {
	return []shot{
		{name: "home", page: "index.html", width: 1100, height: 1000},
		{name: "timeline", page: "tanks/workbench.html", width: 1000, height: 980, from: "#broods"},
		{name: "brood-phone-dark", page: "broods/first-watch.html", width: 500, height: 1100, dark: true},
	}
}

// run makes the site and takes the pictures that are chosen of it.
func run(folder, out string, choose func(*theme.Site) []shot) error {
	site, today, err := publish(os.DirFS(folder))
	if err != nil {
		return err
	}
	if err := os.MkdirAll(out, 0o755); err != nil {
		return err
	}
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { serve(site, w, r) }))
	defer server.Close()
	ctx, cancel := chromedp.NewContext(context.Background())
	defer cancel()
	if err := setToday(ctx, today); err != nil {
		return err
	}
	for _, s := range choose(site) {
		if _, ok := site.Files[s.page]; !ok {
			return fmt.Errorf("the site has no page %s for %s", s.page, s.name)
		}
		picture, err := take(ctx, server.URL+"/"+s.page, s)
		if err != nil {
			return fmt.Errorf("%s: %w", s.name, err)
		}
		if err := os.WriteFile(filepath.Join(out, s.name+".png"), picture, 0o644); err != nil {
			return err
		}
	}
	return nil
}

// publish makes the site of a journal in memory, as of the day that it names itself.
func publish(files fs.FS) (*theme.Site, journal.Day, error) {
	j := journal.Read(files)
	c := colony.Replay(j, j.Settings.AsOf)
	if journal.HasErrors(append(j.Problems, c.Problems...)) || j.Settings.AsOf == 0 {
		return nil, 0, fmt.Errorf("the journal has mistakes or no as-of day; pleopod check tells")
	}
	f := forecast.Make(c)
	f.Notices, f.Ended = notice.Weigh(f)
	site, err := theme.Draw(f, files, theme.Options{})
	return site, c.AsOf, err
}

// serve answers with a file of the site.
func serve(site *theme.Site, w http.ResponseWriter, r *http.Request) {
	text, ok := site.Files[strings.TrimPrefix(r.URL.Path, "/")]
	if !ok {
		http.NotFound(w, r)
		return
	}
	w.Header().Set("Content-Type", mime.TypeByExtension(path.Ext(r.URL.Path)))
	_, _ = w.Write(text)
}

// setToday makes every page believe that it is noon of a day.
func setToday(ctx context.Context, day journal.Day) error {
	noon := day.Time().Add(12 * time.Hour).UnixMilli()
	script := fmt.Sprintf(`{const Real = Date; Date = class extends Real { constructor(...a) { a.length ? super(...a) : super(%d); } static now() { return %d; } };}`, noon, noon)
	_, err := chromedp.Call(ctx, page.AddScriptToEvaluateOnNewDocument,
		page.AddScriptToEvaluateOnNewDocumentParams{Source: script})
	return err
}

// take opens a page and returns its picture.
func take(ctx context.Context, address string, s shot) ([]byte, error) {
	scheme := map[bool]string{true: "dark", false: "light"}[s.dark]
	features := []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme},
		{Name: "prefers-reduced-motion", Value: "reduce"}}
	if _, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: features}); err != nil {
		return nil, err
	}
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(s.width, max(s.height, 800)), chromedp.Navigate(address)); err != nil {
		return nil, err
	}
	height := s.height
	if height == 0 {
		whole, err := chromedp.Run(ctx, chromedp.Evaluate[int64](`for (const part of document.querySelectorAll(".part")) part.style.contentVisibility = "visible"; document.documentElement.scrollHeight`))
		if err != nil {
			return nil, err
		}
		height = min(whole, 16000)
	}
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(s.width, height)); err != nil {
		return nil, err
	}
	scroll := "scrollTo(0, 0)"
	if s.from != "" {
		scroll = fmt.Sprintf("document.querySelector(%q).closest('.part').scrollIntoView()", s.from)
	}
	if _, err := chromedp.Run(ctx, chromedp.Evaluate[any](scroll+"; null")); err != nil {
		return nil, err
	}
	if err := chromedp.Do(ctx, chromedp.Sleep(250*time.Millisecond)); err != nil {
		return nil, err
	}
	return chromedp.Run(ctx, chromedp.CaptureScreenshot())
}

// kindOf names the kind of a page by its path: what stands before the last dot of its name, or its folder.
func kindOf(name string) string {
	dir, file := path.Split(name)
	kind := strings.TrimSuffix(file, ".html")
	if dir == "" {
		return kind
	}
	kind = strings.TrimSuffix(dir, "/")
	if _, part, ok := strings.Cut(strings.TrimSuffix(file, ".html"), "."); ok {
		kind += "-" + part
	}
	if kind == "diary" && len(file) == len("2026.html") {
		kind = "year"
	}
	return kind
}

// everyKind lists a page of every kind in four forms: on a phone and on a screen, by day and by night. Of each kind
// it takes the page with most to show.
func everyKind(site *theme.Site) []shot {
	longest := map[string]string{}
	var kinds []string
	for _, name := range site.Pages {
		kind := kindOf(name)
		if longest[kind] == "" {
			kinds = append(kinds, kind)
		}
		if longest[kind] == "" || len(site.Files[name]) > len(site.Files[longest[kind]]) {
			longest[kind] = name
		}
	}
	var shots []shot
	for _, kind := range kinds {
		for form, width := range map[string]int64{"phone": 390, "screen": 1280} {
			for light, dark := range map[string]bool{"day": false, "night": true} {
				shots = append(shots, shot{name: kind + "-" + form + "-" + light, page: longest[kind],
					width: width, dark: dark})
			}
		}
	}
	return shots
}
