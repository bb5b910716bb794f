package theme

import (
	"crypto/sha512"
	"encoding/base64"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/chromedp/cdproto/fetch"
	"github.com/chromedp/chromedp"
)

// chartRuntime is the pinned chart program. It comes from outside the repository: .ci/run fetches the package and names
// the file.
func chartRuntime(t *testing.T) []byte {
	t.Helper()
	path := os.Getenv("PLEOPOD_ECHARTS")
	if path == "" {
		t.Skip("NOT TESTED: PLEOPOD_ECHARTS does not name dist/echarts.common.min.js of the npm package echarts 5.6.0, so no larger chart was opened")
	}
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	sum := sha512.Sum384(text)
	if got := "sha384-" + base64.StdEncoding.EncodeToString(sum[:]); got != pinned.integrity {
		t.Fatalf("%s has the integrity %s, pinned is %s", path, got, pinned.integrity)
	}
	return text
}

// chartPages are pages whose figures are of all kinds.
var chartPages = []string{"tanks/north-shelf.html", "broods/amber.html", "track-record.html", "shrimp/ruby.html"}

// A journal that names a chart program of its own has it in its site, and asks nobody else.
func TestExploreFromTheSite(t *testing.T) {
	files := folderOf(t, "full")
	files["assets/charts.js"] = &fstest.MapFile{Data: chartRuntime(t)}
	settings := files["journal.yaml"]
	settings.Data = append([]byte("charts: {runtime: assets/charts.js}\n"), settings.Data...)
	s, err := Draw(told(t, files), files, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for name, page := range s.Files {
		if strings.HasSuffix(name, ".html") && strings.Contains(string(page), pinned.address) {
			t.Fatalf("%s names the public copy", name)
		}
	}
	b := openTab(t, s)
	for _, path := range chartPages {
		b.open(path)
		b.see(`document.querySelector("script[src*='charts']")`, "null")
		b.exploreAll()
	}
	b.quiet()
}

// Without one, the pinned copy is asked for when a reader clicks, and not before.
func TestExploreFromThePinnedAddress(t *testing.T) {
	text := chartRuntime(t)
	b := openTab(t, site(t, "full"))
	asked := b.answer(pinned.address, text)
	for _, path := range chartPages {
		b.open(path)
		b.see(`performance.getEntriesByType("resource").filter((e) => new URL(e.name).host != location.host).length`, "0")
		b.see(`document.querySelector(".explore").textContent.includes("Zoom and read values loads a script from cdn.jsdelivr.net")`, "true")
		b.exploreAll()
	}
	if n := len(asked()); n < 1 || n > len(chartPages) {
		t.Errorf("%d pages asked %d times", len(chartPages), n)
	}
	b.quiet()
}

// A program that is not the pinned one never runs, and the figure stays.
func TestExploreRefusesAnotherProgram(t *testing.T) {
	b := openTab(t, site(t, "full"))
	b.answer(pinned.address, []byte(`document.title = "taken over"`))
	b.open("tanks/north-shelf.html")
	b.see(`document.querySelector("#plot-timeline .explore").click() ?? "clicked"`, "clicked")
	b.see(`document.querySelector("#plot-timeline .explore").textContent`, "The script of the chart could not be loaded. Online? Try again")
	b.see(`document.title.includes("taken") + " " + document.querySelectorAll("#plot-timeline .fig svg").length`, "false 2")
}

// answer gives the browser a text for one address elsewhere and returns the addresses that were asked for. Everything
// else elsewhere fails, so that a test never leaves the machine.
func (b *tab) answer(address string, text []byte) func() []string {
	b.t.Helper()
	paused := chromedp.Events(b.ctx, fetch.RequestPaused)
	patterns := []*fetch.RequestPattern{{URLPattern: "https://*"}}
	if _, err := chromedp.Call(b.ctx, fetch.Enable, fetch.EnableParams{Patterns: patterns}); err != nil {
		b.t.Fatal(err)
	}
	var asked []string
	go func() {
		for event, err := range paused {
			if err != nil {
				return
			}
			b.mu.Lock()
			asked = append(asked, event.Request.URL)
			b.mu.Unlock()
			reply := fetch.FulfillRequestParams{RequestID: event.RequestID, ResponseCode: 404}
			if event.Request.URL == address {
				reply.ResponseCode, reply.Body = 200, text
				reply.ResponseHeaders = []*fetch.HeaderEntry{{Name: "Content-Type", Value: "text/javascript"},
					{Name: "Access-Control-Allow-Origin", Value: "*"}}
			}
			if _, err := chromedp.Call(b.ctx, fetch.FulfillRequest, reply); err != nil {
				return
			}
		}
	}()
	return func() []string {
		b.mu.Lock()
		defer b.mu.Unlock()
		return append([]string(nil), asked...)
	}
}

// exploreAll opens every figure of a page as a larger chart, and looks closer at each that has a calendar.
func (b *tab) exploreAll() {
	b.t.Helper()
	b.see(`[...document.querySelectorAll(".explore:not([hidden])")].map((e) => e.click()).length > 0`, "true")
	b.see(`document.querySelectorAll(".explore:not([hidden])").length`, "0")
	b.see(`document.querySelectorAll(".chart svg path").length > 10`, "true")
	b.see(`[...document.querySelectorAll(".chart")].filter((box) => !box.querySelector("svg")).length`, "0")
	// A month, a season, a year and all of it, each as long as it says.
	for i, days := range []string{"31", "92", "366"} {
		b.see(`[...document.querySelectorAll(".zooms")].map((z) => z.querySelectorAll("button")[`+string(rune('0'+i))+`].click()).length >= 0`, "true")
		b.see(`[...document.querySelectorAll(".zooms + .chart")].filter((box) => {
			const chart = echarts.getInstanceByDom(box), zoom = chart.getOption().dataZoom[0];
			const all = chart.getModel().getComponent("xAxis", 0).axis.scale.getExtent();
			const days = (zoom.endValue - zoom.startValue) / 864e5;
			return Math.abs(days - `+days+`) > 1.5 && days > `+days+`;
		}).length`, "0")
	}
}

// The readout of a larger chart tells what the row holds on that day, and the water below it.
func TestExploreReadout(t *testing.T) {
	text := chartRuntime(t)
	b := openTab(t, site(t, "full"))
	b.answer(pinned.address, text)
	b.open("tanks/north-shelf.html")
	b.see(`document.querySelector("#plot-population .explore").click() ?? "clicked"`, "clicked")
	b.see(`document.querySelectorAll("#plot-population .chart svg").length`, "1")
	b.see(`echarts.getInstanceByDom(document.querySelector("#plot-population .chart")).dispatchAction({ type: "showTip", seriesIndex: 0, dataIndex: 1 }) ?? "shown"`, "shown")
	b.see(`/9 in 10: \d+ – \d+/.test(document.querySelector("#plot-population .chart").textContent)`, "true")
	b.see(`/\d{4}-\d\d-\d\d/.test(document.querySelector("#plot-population .chart").textContent)`, "true")
	// A row of the timeline tells its spans, the part below it the day, what is on it, and the water.
	b.see(`document.querySelector("#plot-timeline .explore").click() ?? "clicked"`, "clicked")
	b.see(`document.querySelectorAll("#plot-timeline .chart svg").length`, "1")
	tip := func(grid, row string) {
		b.see(`(() => {
			const box = document.querySelector("#plot-timeline .chart"), chart = echarts.getInstanceByDom(box);
			const option = chart.getOption(), row = `+row+`;
			const x = (option.xAxis[0].min ? Date.parse(option.xAxis[0].max) : 0) - 60 * 864e5;
			const [px, py] = chart.convertToPixel({ gridIndex: `+grid+` }, [x, row]);
			return chart.dispatchAction({ type: "showTip", x: px, y: py }) ?? "shown";
		})()`, "shown")
	}
	tip("0", "1")
	b.see(`/^birch|amber|flint/.test([...document.querySelectorAll("#plot-timeline .chart > div")].at(-1).textContent) && / – \d{4}-\d\d-\d\d: /.test([...document.querySelectorAll("#plot-timeline .chart > div")].at(-1).textContent)`, "true")
	tip("1", "option.yAxis[1].min + 1")
	b.see(`/^\d{4}-\d\d-\d\d.*daily mean: [\d.]+ °C/.test([...document.querySelectorAll("#plot-timeline .chart > div")].at(-1).textContent)`, "true")
	b.see(`document.querySelector("#plot-timeline .chart").textContent.includes("series")`, "false")
	b.quiet()
}
