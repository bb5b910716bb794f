package theme

import (
	"context"
	"fmt"
	"mime"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// needBrowser skips a test loudly where there is no browser, and fails it where one is required.
func needBrowser(t *testing.T) {
	t.Helper()
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if _, err := exec.LookPath(name); err == nil {
			return
		}
	}
	if os.Getenv("PLEOPOD_BROWSER") == "required" {
		t.Fatal("no Chromium, and PLEOPOD_BROWSER says that one is required")
	}
	t.Skip("NOT TESTED: no Chromium on this machine, so no page was opened")
}

// tab is a browser page on a site served from memory below a sub-path.
type tab struct {
	t       *testing.T
	ctx     context.Context
	address string
	mu      sync.Mutex
	asked   []string // paths the browser asked for
	said    []string // console messages
}

// openTab serves a site and opens a browser.
func openTab(t *testing.T, s *Site) *tab {
	t.Helper()
	needBrowser(t)
	b := &tab{t: t}
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		b.mu.Lock()
		b.asked = append(b.asked, r.URL.Path)
		b.mu.Unlock()
		text, ok := s.Files[strings.TrimPrefix(r.URL.Path, "/shrimp/")]
		if !ok {
			http.NotFound(w, r)
			return
		}
		w.Header().Set("Content-Type", mime.TypeByExtension(path.Ext(r.URL.Path)))
		_, _ = w.Write(text)
	}))
	t.Cleanup(server.Close)
	ctx, cancel := chromedp.NewContext(context.Background())
	t.Cleanup(cancel)
	ctx, stop := context.WithTimeout(ctx, 5*time.Minute)
	t.Cleanup(stop)
	b.ctx, b.address = ctx, server.URL+"/shrimp/"
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(1280, 900)); err != nil {
		t.Fatal(err)
	}
	messages := chromedp.Console(ctx)
	go func() {
		for m, err := range messages {
			if err != nil {
				return
			}
			b.mu.Lock()
			b.said = append(b.said, m.String()+" at "+m.URL)
			b.mu.Unlock()
		}
	}()
	return b
}

func (b *tab) open(path string) {
	b.t.Helper()
	if err := chromedp.Do(b.ctx, chromedp.Navigate(b.address+path)); err != nil {
		b.t.Fatal(err)
	}
}

// keys presses keys on what has the focus.
func (b *tab) keys(text string) {
	b.t.Helper()
	if err := chromedp.Do(b.ctx, chromedp.KeyEvent(text)); err != nil {
		b.t.Fatal(err)
	}
}

// see waits until an expression gives what is wanted.
func (b *tab) see(expression, want string) {
	b.t.Helper()
	got := ""
	for range 100 {
		var err error
		got, err = chromedp.Run(b.ctx, chromedp.Evaluate[string]("String("+expression+")"))
		if err != nil && !strings.Contains(err.Error(), "navigated") { // asked while one page gives way to the next
			b.t.Fatalf("%s: %v", expression, err)
		}
		if got == want {
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	b.t.Errorf("%s is %q, want %q", expression, got, want)
}

// quiet fails when the console said anything.
func (b *tab) quiet() {
	b.t.Helper()
	b.mu.Lock()
	defer b.mu.Unlock()
	for _, line := range b.said {
		if !strings.Contains(line, "favicon") {
			b.t.Errorf("console: %s", line)
		}
	}
}

func (b *tab) askedFor(name string) bool {
	b.mu.Lock()
	defer b.mu.Unlock()
	for _, p := range b.asked {
		if strings.HasSuffix(p, name) {
			return true
		}
	}
	return false
}

func TestSearchInBrowser(t *testing.T) {
	b := openTab(t, site(t, "full"))
	b.open("tanks/north-shelf.html")
	if b.askedFor("search.js") {
		t.Error("the search index is loaded before anybody searches")
	}
	b.keys("/")
	b.see(`document.querySelector("dialog").open`, "true")
	b.keys("ruby ag")
	b.see(`document.querySelector("dialog [role=status]").textContent`, "1 page")
	b.see(`document.querySelector("dialog ol a").textContent`, "Ruby again")
	b.see(`document.querySelector("dialog ol span").textContent`, " 2026-03-12 · North shelf")
	b.keys(kb.Enter)
	b.see(`document.querySelector("h1")?.textContent`, "Ruby again")
	// Either spelling finds the same pages.
	b.see(`document.querySelector("dialog") !== null`, "true")
	b.keys("/")
	b.see(`document.querySelector("dialog").open`, "true")
	b.keys("moult")
	b.see(`/^[1-9]\d* pages?$/.test(window.found = document.querySelector("dialog [role=status]").textContent)`, "true")
	b.see(`(document.querySelector("#search-words").value = "molt", document.querySelector("#search-words").dispatchEvent(new Event("input")), document.querySelector("dialog [role=status]").textContent === window.found)`, "true")
	b.quiet()
}

func TestReadoutInBrowser(t *testing.T) {
	b := openTab(t, site(t, "full"))
	b.open("tanks/north-shelf.html")
	b.see(`document.querySelector("#plot-timeline .fig-wide").focus() ?? document.activeElement.tagName`, "svg")
	for range 3 {
		b.keys(kb.ArrowRight)
	}
	b.see(`document.querySelectorAll("#plot-timeline .fig-here").length > 0 && !document.querySelector("#plot-timeline .readout").hidden`, "true")
	b.see(`document.querySelector("#plot-timeline .readout").textContent.length > 5`, "true")
	b.keys(kb.Escape)
	b.see(`document.querySelector("#plot-timeline .readout").hidden`, "true")
	// A mark leads to its page on Enter.
	b.see(`[...document.querySelectorAll("#plot-timeline .fig-wide .fig-item")].findIndex((i) => i.getAttribute("href")) >= 0`, "true")
	b.see(`document.querySelector("#plot-population .fig-wide").focus() ?? "ok"`, "ok")
	b.keys(kb.ArrowRight)
	b.see(`document.querySelector("#plot-population .readout").hidden`, "false")
	b.quiet()
}

func TestDaysFromTodayInBrowser(t *testing.T) {
	b := openTab(t, site(t, "full"))
	b.open("due.html")
	b.see(`document.querySelectorAll("time[data-from-today]").length > 0 && document.querySelectorAll(".away").length == document.querySelectorAll("time[data-from-today]").length`, "true")
	// The words are those that the browser would choose, at any distance.
	b.see(`(() => {
		for (let days = -400; days <= 400; days += Math.abs(days) < 64 ? 1 : 7) {
			const now = new Date(), time = document.createElement("time");
			time.dateTime = new Date(Date.UTC(now.getFullYear(), now.getMonth(), now.getDate()) + days * 864e5).toISOString().slice(0, 10);
			time.dataset.fromToday = days;
			document.body.append(time, document.createElement("span"));
		}
		document.querySelector(".foot time").dateTime = new Date().toISOString().slice(0, 10);
		const again = document.createElement("script");
		again.src = "script.js";
		again.onload = () => document.body.dataset.again = "done";
		document.body.append(again);
		return "added";
	})()`, "added")
	b.see(`document.body.dataset.again`, "done")
	b.see(`(() => {
		const words = new Intl.RelativeTimeFormat("en", { numeric: "auto" });
		return [...document.querySelectorAll("time[data-from-today]:not([data-from-today=''])")].filter((time) => {
			const days = Number(time.dataset.fromToday);
			const want = Math.abs(days) < 60 ? words.format(days, "day") : words.format(Math.round(days / 30.44), "month");
			return time.nextElementSibling.textContent !== want;
		}).map((time) => time.dataset.fromToday).join(" ");
	})()`, "")
	b.see(`document.querySelectorAll("time[data-from-today]").length > 200`, "true")
	b.quiet()
}

// A page that is more than two weeks old says so once, above everything, and counts no days from today.
func TestAnOldPageSaysSo(t *testing.T) {
	b := openTab(t, site(t, "full"))
	for _, c := range []struct {
		days int
		want string
	}{{14, "0 lines, days counted"}, {15, "Made 15 days ago, for 1 April 2026, no days counted"}, {120, "Made 4 months ago, for 1 April 2026, no days counted"}} {
		b.open("due.html")
		b.see(fmt.Sprintf(`(() => {
			const now = new Date(), made = new Date(Date.UTC(now.getFullYear(), now.getMonth(), now.getDate()) - %d * 864e5);
			document.querySelector(".foot time").dateTime = made.toISOString().slice(0, 10);
			for (const old of document.querySelectorAll(".stale")) old.remove();
			for (const old of document.querySelectorAll(".away")) old.textContent = "";
			const again = document.createElement("script");
			again.src = "script.js";
			again.onload = () => document.body.dataset.again = "done";
			document.body.append(again);
			return "added";
		})()`, c.days), "added")
		b.see(`document.body.dataset.again`, "done")
		b.see(`((lines, away) => (lines.length === 1 ? lines[0].textContent : lines.length + " lines") + ", " + (away.every((a) => a.textContent) ? "days counted" : away.some((a) => a.textContent) ? "some" : "no days counted"))(
			[...document.querySelectorAll(".stale")], [...document.querySelectorAll(".away")])`, c.want)
	}
	// It takes no room from the page, so that nothing jumps, and lies on nothing.
	for _, width := range []int64{360, 1280} {
		if err := chromedp.Do(b.ctx, chromedp.EmulateViewport(width, 740)); err != nil {
			t.Fatal(err)
		}
		b.see(`document.querySelector(".stale").getBoundingClientRect().bottom <= document.querySelector(".head").firstElementChild.nextElementSibling.getBoundingClientRect().top`, "true")
	}
	b.quiet()
}
