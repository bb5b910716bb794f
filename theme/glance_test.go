package theme

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"pleopod/journal/forecast"
)

// In the first lines of the first page stand whose shrimp these are, what comes next, whether something presses, and
// how many there are with how sure that is.
func TestGlanceStandsFirst(t *testing.T) {
	first := visible(t, site(t, "full").Files["index.html"])
	at := 0
	for _, want := range []string{
		"The diary of three tanks of cherry shrimp (Neocaridina davidi), kept by Wren Adeyemi since 12 January 2025. ",
		"Due next ", "Anything wrong? ", "How many North shelf about ", " 9 times in 10 the truth lies in the range.",
		"Due next ",
	} {
		i := strings.Index(first[at:], want)
		if i < 0 {
			t.Fatalf("the first page lacks %q after %q", want, first[:at])
		}
		at += i + len(want)
	}
}

// What presses is named; what does not is counted.
func TestAlarm(t *testing.T) {
	notice := func(grade, severity, headline string) NoticeItem {
		return NoticeItem{Grade: grade, Severity: severity, Headline: headline}
	}
	look, soon := notice("look", "Have a look", "Few adults"), notice("soon", "Soon", "Nitrite above zero")
	for _, test := range []struct {
		name    string
		notices []NoticeItem
		want    string
	}{
		{"none", nil, "Nothing in the record is unusual."},
		{"one to look at", []NoticeItem{look}, "Nothing presses. One notice may be worth a look."},
		{"two to look at", []NoticeItem{look, look}, "Nothing presses. Two notices may be worth a look."},
		{"one that presses", []NoticeItem{soon}, "Soon: Nitrite above zero."},
		{"one that presses among others", []NoticeItem{soon, look, look}, "Soon: Nitrite above zero; and two more."},
	} {
		if got := plain((&pen{book: &book{Forecast: &forecast.Forecast{}}}).alarm(test.notices)); got != test.want {
			t.Errorf("%s: %q, want %q", test.name, got, test.want)
		}
	}
}

// A brood that is late without being unusual is named, so that the first page does not pass over what is overdue below.
func TestAlarmNamesWhatIsLate(t *testing.T) {
	b := *shelfBook(t)
	late := *b.Forecast
	late.Broods = slices.Clone(late.Broods)
	i := slices.IndexFunc(late.Broods, func(x forecast.Brood) bool { return x.ID == "flint" })
	late.Broods[i].State = forecast.Overdue
	b.Forecast = &late
	if got, want := plain(b.pen("index.html").alarm(nil)), "Nothing presses. The eggs of flint are late, though not enough for a notice."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// A tank's page says what is due before it tells of the past, and does not name the tank again at each thing.
func TestTankSaysWhatIsDueFirst(t *testing.T) {
	page := site(t, "full").Files["tanks/north-shelf.html"]
	due, past := bytes.Index(page, []byte(`id="due"`)), bytes.Index(page, []byte(`id="broods"`))
	if due < 0 || past < due {
		t.Fatalf("what is due stands at %d, the timeline at %d", due, past)
	}
	if bytes.Contains(page[due:past], []byte(`<span class="where">`)) {
		t.Error("the tank's page names its own tank at what is due")
	}
}

// On a phone the days ahead can be told from one another: icons of 12 pixels and more, today and two weeks in view.
func TestDaysAheadOnAPhone(t *testing.T) {
	needBrowser(t)
	b := openTab(t, site(t, "full"))
	if err := chromedp.Do(b.ctx, chromedp.EmulateViewport(360, 740)); err != nil {
		t.Fatal(err)
	}
	for _, page := range []string{"index.html", "due.html"} {
		b.open(page)
		b.see(`(() => {
			const strip = document.querySelector(".tape").getBoundingClientRect();
			const today = document.querySelector(".tape .today").getBoundingClientRect();
			const ruler = document.querySelector(".tape .ruler").getBoundingClientRect();
			const icons = [...document.querySelectorAll(".tape .icon")].map((i) => i.width.baseVal.value);
			return Math.min(...icons) * ruler.width / 720 >= 12 && today.left > strip.left && today.left + 14 * ruler.width / 42 < strip.right;
		})()`, "true")
		b.see(`((strip) => { strip.scrollLeft = 9999; return strip.scrollLeft > 0; })(document.querySelector(".tape"))`, "true")
	}
	b.quiet()
}

// Between a phone and a desk, or with larger text, the ruler of days is whole, and no figure is a phone's made large.
func TestTabletsShowTheWholeRuler(t *testing.T) {
	needBrowser(t)
	b := openTab(t, site(t, "full"))
	for _, width := range []int64{640, 700, 768, 900} {
		if err := chromedp.Do(b.ctx, chromedp.EmulateViewport(width, 900)); err != nil {
			t.Fatal(err)
		}
		b.open("index.html")
		b.see(`(() => {
			const strip = document.querySelector(".tape").getBoundingClientRect();
			const ruler = document.querySelector(".tape .ruler").getBoundingClientRect();
			return Math.abs(ruler.left - strip.left) < 1 && Math.abs(ruler.right - strip.right) < 1;
		})()`, "true")
		b.open("tanks/north-shelf.html")
		b.see(`getComputedStyle(document.querySelector(".fig-narrow")).display`, "none")
	}
	b.quiet()
}

// The newest readings are read on a phone without moving the table.
func TestNewestReadingsFitOnAPhone(t *testing.T) {
	needBrowser(t)
	b := openTab(t, site(t, "full"))
	if err := chromedp.Do(b.ctx, chromedp.EmulateViewport(360, 740)); err != nil {
		t.Fatal(err)
	}
	b.open("tanks/north-shelf.water.html")
	b.see(`((box) => box.querySelectorAll("tbody tr").length > 3 && box.scrollWidth - box.clientWidth)(document.querySelector(".readings").parentElement)`, "0")
	b.quiet()
}
