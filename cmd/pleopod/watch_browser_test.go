package main

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// tab is a browser page on what watch serves.
type tab struct {
	*watching
	ctx context.Context
}

// openTab opens a page in Chromium. It skips the test loudly where there is none, and fails it where one is required.
func openTab(s *watching, page string) *tab {
	s.Helper()
	if _, err := exec.LookPath("chromium"); err != nil {
		if os.Getenv("PLEOPOD_BROWSER") == "required" {
			s.Fatal("no Chromium, and PLEOPOD_BROWSER says that one is required")
		}
		s.Skip("NOT TESTED: no Chromium on this machine, so no page was opened")
	}
	ctx, stop := context.WithTimeout(context.Background(), 5*time.Minute)
	s.Cleanup(stop)
	ctx, cancel := chromedp.NewContext(ctx)
	s.Cleanup(cancel)
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(1280, 900), chromedp.Navigate(s.address+"/"+page)); err != nil {
		s.Fatal(err)
	}
	return &tab{s, ctx}
}

// see waits until an expression gives what is wanted.
func (b *tab) see(expression, want string) {
	b.Helper()
	got := ""
	b.until(fmt.Sprintf("%s is %s", expression, want), func() bool {
		var err error
		got, err = chromedp.Run(b.ctx, chromedp.Evaluate[string]("String("+expression+")"))
		if err != nil && !strings.Contains(err.Error(), "navigated") { // asked while one page gives way to the next
			b.Fatalf("%s: %v", expression, err)
		}
		return got == want
	})
}

// mark leaves a word in the page that a reload would wipe out.
func (b *tab) mark() { b.see(`window.stays = "yes"`, "yes") }

// stayed fails when the page was loaded again since mark.
func (b *tab) stayed() { b.see("window.stays", "yes") }

// TestOpenPageFollowsTheKeeper looks at one long entry in a browser while the keeper works.
func TestOpenPageFollowsTheKeeper(t *testing.T) {
	const (
		first = "entries/a.md"
		body  = `(document.querySelector("main")?.textContent ?? "")`
		note  = `document.querySelector(".preview-note")?.textContent ?? ""`
	)
	long := stockedEntry + strings.Repeat("\nOne more evening with nothing to tell.\n", 200)
	second := "---\ndate: 2026-03-16\ntitle: Second\n---\nAll quiet.\n"
	dir := smallJournal(t)
	at := &watching{TB: t, dir: dir}
	at.write("journal.yaml", smallSettings+"look: own\n")
	at.write("own/style.css", "main { color: rgb(1, 2, 3) }")
	at.write(first, long)
	at.write("entries/b.md", second)
	s := watch(t, dir, time.Now, "--as-of", "2026-03-21")
	s.shows("diary/2026-03-14-first.html", "One more evening")
	b := openTab(s, "diary/2026-03-14-first.html")
	b.see(`(scrollTo(0, 700), scrollY)`, "700")
	b.see(`history.scrollRestoration = "manual"`, "manual") // some browsers do not restore it by themselves
	b.mark()

	// a save: the page is loaded again, and stands where it stood
	long = strings.Replace(long, "Ten of them.", "Ten, and lively.", 1)
	s.write(first, long)
	b.see(body+`.includes("Ten, and lively.")`, "true")
	b.see("window.stays", "undefined")
	b.see("scrollY", "700")
	b.mark()

	// a style is swapped in the page that is open
	s.write("own/style.css", "main { color: rgb(4, 5, 6) }")
	b.see(`getComputedStyle(document.querySelector("main")).color`, "rgb(4, 5, 6)")
	b.see(`[...document.querySelectorAll('link[href*="style.css"]')].length`, "1")
	b.see("scrollY", "700")
	b.stayed()

	// a mistake stands in the page until it is mended
	s.write(first, strings.Replace(long, "stocked", "stoked", 1))
	for _, want := range []string{"One thing to mend", "entries/a.md:5:5", `unknown event "stoked"`, "  - stoked: {females: 6, males: 4}", `did you mean "stocked"?`} {
		b.see(fmt.Sprintf("(%s).includes(%q)", note, want), "true")
	}
	b.see(body+`.includes("Ten, and lively.")`, "true")
	s.write(first, "---\ndate: 2026-03-14\n")
	b.see(fmt.Sprintf("(%s).includes(%q)", note, "put a line of three hyphens"), "true")
	s.write(first, long)
	b.see(note, "")
	b.stayed()

	// another entry changes other pages only
	s.write("entries/b.md", second+"\nStill quiet.\n")
	s.shows("diary/2026-03-16-second.html", "Still quiet.")
	s.write("entries/b.md", "---\ndate: 2026-03-16\ndate: 2026-03-17\n---\n") // told after all that
	b.see(fmt.Sprintf("(%s).includes(%q)", note, "entries/b.md:3:1"), "true")
	s.write("entries/b.md", second)
	b.see(note, "")
	b.see("scrollY", "700")
	b.stayed()
}
