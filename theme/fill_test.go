package theme

import (
	"bytes"
	"io/fs"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	ics "github.com/arran4/golang-ical"
	"github.com/mmcdole/gofeed"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
)

// shelfBook is the public record of the full journal.
func shelfBook(t *testing.T) *book {
	t.Helper()
	return newBook(public(foretold(t, "full")), nil)
}

func TestStockedShrimpAreOfTheAgeThatIsSaid(t *testing.T) {
	p := shelfBook(t).pen("index.html")
	months, length := journal.Maybe[float64]{Value: 91, Known: true}, journal.Maybe[float64]{Value: 18, Known: true}
	for _, test := range []struct {
		what journal.Stocked
		want string
	}{
		{journal.Stocked{Age: months, Length: length}, "about 3 months old, 18\u00a0mm long"},
		{journal.Stocked{Length: length}, "18\u00a0mm long; age not known, taken from the length"},
		{journal.Stocked{}, "10 shrimp joined; age not known, taken as 3 to 7 months"},
	} {
		test.what.Shrimp.Total = 10
		w := new(phrase)
		p.stocked(w, &test.what)
		if got := plain(*w); !strings.HasSuffix(got, test.want) {
			t.Errorf("%q does not end in %q", got, test.want)
		}
	}
}

func TestEventWords(t *testing.T) {
	b := shelfBook(t)
	p := b.pen("index.html")
	said := map[string]string{}
	for _, e := range b.entries {
		for _, line := range p.lines(e) {
			said[line.Label] += "|" + strings.ReplaceAll(plain(line.Words), wording.Joined, " ")
		}
	}
	for label, want := range map[string]string{
		"Stocked":      "10 shrimp (4 females, 3 males, 3 unsexed) joined, from a neighbour, line red, about 3 months old, 18 mm long",
		"Berried":      "Ruby carrying eggs: amber, about 28 eggs, last seen without on 28 February 2025",
		"Eyed eggs":    "eyes visible in the eggs of amber",
		"Hatched":      "14 shrimplets seen, amber hatched, still carried on 21 March 2025",
		"Eggs dropped": "6 eggs lost of birch-2",
		"Young seen":   "5 shrimplets seen of amber",
		"Count":        "31 shrimp (8 females, 7 males, 16 juveniles), counted carefully",
		"Measured":     "female: Ruby 23.5 mm",
		"Graded":       "3 pale, 8 even and 2 deep (female) of amber",
		"Died":         "1 shrimp found dead: failed moult",
		"Left":         "4 shrimp sold, to a club friend",
		"Moved":        "6 shrimp moved from North shelf to Window tank",
		"Moult":        "2 shed shells found",
		"Saddled":      "Ruby with eggs in the ovaries",
		"Courting":     "males swimming restlessly through the tank",
		"Water change": "20 % of the water changed, new water at 22 °C, new water: GH 6 dGH, TDS 150 ppm|4 L of water changed",
		"Dosed":        "2 ml minerals",
		"Fed":          "blanched nettle",
		"Water test":   "temperature 23.1 °C, pH 7.4, GH 8 dGH, KH 4 dKH, TDS 210 ppm, conductivity 420 µS/cm, ammonia below 0.05 mg/L, nitrite 0 mg/L, nitrate 10 mg/L, oxygen 8.2 mg/L",
	} {
		if !strings.Contains(said[label], want) {
			t.Errorf("%s says %q, want %q", label, said[label], want)
		}
	}
	icons, err := fs.ReadFile(FS, "piece/icons.tmpl")
	if err != nil {
		t.Fatal(err)
	}
	style, err := fs.ReadFile(FS, "style.css")
	if err != nil {
		t.Fatal(err)
	}
	inked := []string{"courting", "counted", "graded", "measured", "moved", "stocked"} // plain on purpose
	for _, kind := range journal.Words().Kinds {
		label := labels[kind.Name]
		if coloured := bytes.Contains(style, []byte(".icon-"+kind.Name+" ")) || bytes.Contains(style, []byte(".icon-"+kind.Name+",")); coloured == slices.Contains(inked, kind.Name) {
			t.Errorf("%s: style.css gives its icon a colour: %v", kind.Name, coloured)
		}
		if said[label] == "" {
			t.Errorf("%s: the label is %q, and testdata/full.txtar says nothing under it", kind.Name, label)
		}
		if !bytes.Contains(icons, []byte("eq . \""+kind.Name+"\"")) {
			t.Errorf("%s: there is no icon in piece/icons.tmpl", kind.Name)
		}
	}
}

func TestBroodDays(t *testing.T) {
	b := shelfBook(t)
	p := b.pen("broods/flint.html")
	var order []string
	for _, d := range p.broodDays(b.broods["flint"]) {
		order = append(order, d.Label)
	}
	if got, want := strings.Join(order, ", "), "Berried, Eyes, Window opens, Likeliest, Window closes, Young in sight"; got != want {
		t.Errorf("key days %s, want %s", got, want)
	}
	// The same brood, had she outlasted the window: no opening and closing days that pass one by one.
	late := *b.broods["flint"]
	late.State, late.LateFrom = forecast.Overdue, late.Hatch.P50-1
	order = nil
	for _, d := range p.broodDays(&late) {
		order = append(order, d.Label)
	}
	if got, want := strings.Join(order, ", "), "Berried, Eyes, Window closed"; got != want {
		t.Errorf("key days of a late brood %s, want %s", got, want)
	}
	if sure := p.howSure(&late); len(sure) != 1 || !strings.Contains(plain(sure[0].Words), "should have hatched before "+wording.Date(late.LateFrom)) {
		t.Errorf("a late brood is said to be sure: %v", sure)
	}
	// Nobody wrote how it ended.
	late.State = forecast.Unseen
	if days := p.broodDays(&late); len(days) != 3 || days[2].Label != "Hatched unseen" || days[2].Day != moment(late.Foreseen.P50) || days[2].Sure {
		t.Errorf("key days of a brood that nobody ended: %v", days)
	}
	if due := p.broodDue(&late); len(due) != 0 {
		t.Errorf("eggs that are taken as hatched are due: %v", due)
	}
	row := p.eggRow(b.broods["flint"])
	filled := 0
	for _, egg := range row.Eggs {
		if egg.Form == "eyed" {
			filled++
		}
	}
	if len(row.Eggs) != eggs || filled != whole(b.broods["flint"].Progress*eggs) {
		t.Errorf("%d of %d eggs filled at %v", filled, len(row.Eggs), b.broods["flint"].Progress)
	}
}

func TestDueIsSortedAndAhead(t *testing.T) {
	b := shelfBook(t)
	items := b.pen("due.html").due(366)
	if len(items) < 3 {
		t.Fatalf("only %d things are due", len(items))
	}
	seen := map[string]bool{}
	for i, item := range items {
		if i > 0 && item.likely < items[i-1].likely {
			t.Errorf("%q comes after %q", plain(item.What), plain(items[i-1].What))
		}
		if item.to < b.asOf {
			t.Errorf("%q is over", plain(item.What))
		}
		if item.key == "" || seen[item.key] {
			t.Errorf("%q has no key of its own", plain(item.What))
		}
		seen[item.key] = true
	}
}

func TestAquariumHoldsItsShrimp(t *testing.T) {
	for shown := 1; shown <= swimmers; shown++ {
		for i := range shown {
			if x, y := place(i, shown); x < 20 || x > 220 || y < 24 || y > 108 {
				t.Errorf("shrimp %d of %d swims at %d, %d", i, shown, x, y)
			}
		}
	}
}

// Two independent readers understand the feed and the calendar.
func TestFeedAndCalendarAreRead(t *testing.T) {
	s := site(t, "full")
	feed, err := gofeed.NewParser().Parse(bytes.NewReader(s.Files["feed.xml"]))
	if err != nil {
		t.Fatal(err)
	}
	b := shelfBook(t)
	if len(feed.Items) != len(b.entries) || feed.FeedLink != "https://example.org/shrimp/feed.xml" || feed.Link != "https://example.org/shrimp/" {
		t.Errorf("%d items, self %q, alternate %q", len(feed.Items), feed.FeedLink, feed.Link)
	}
	ids := map[string]bool{}
	for _, item := range feed.Items {
		if ids[item.GUID] || item.Link == "" || item.UpdatedParsed == nil {
			t.Errorf("item %+v", item)
		}
		ids[item.GUID] = true
	}
	if newest := b.entries[len(b.entries)-1].Date; !feed.UpdatedParsed.Equal(newest.Time()) {
		t.Errorf("the feed is of %v, its newest entry of %s", feed.UpdatedParsed, newest)
	}
	look, err := ParseLook(nil)
	if err != nil {
		t.Fatal(err)
	}
	renamed := *b.entries[0]
	renamed.Title = "Another title"
	if item, err := b.feedEntry(&renamed, look); err != nil || !ids[item.ID] {
		t.Errorf("with another title the oldest item is %q, %v: readers would see it twice", item.ID, err)
	}
	last := feed.Items[len(feed.Items)-1].Content
	for _, want := range []string{"They came in a bag", "https://example.org/shrimp/photos/", "https://example.org/shrimp/diary/2025-03-02-first-eggs.html"} {
		if !strings.Contains(last, want) {
			t.Errorf("the oldest item lacks %q", want)
		}
	}
	calendar, err := ics.ParseCalendar(bytes.NewReader(s.Files["calendar.ics"]))
	if err != nil {
		t.Fatal(err)
	}
	due := b.pen("calendar.ics").due(366)
	if len(calendar.Events()) != len(due) {
		t.Fatalf("%d events for %d things due", len(calendar.Events()), len(due))
	}
	for i, e := range calendar.Events() { // the end is the day after the last (RFC 5545, 3.6.1)
		start, err1 := e.GetAllDayStartAt()
		end, err2 := e.GetAllDayEndAt()
		from, after := due[i].from.Time(), (due[i].to + 1).Time()
		if err1 != nil || err2 != nil || start.Format(time.DateOnly) != from.Format(time.DateOnly) || end.Format(time.DateOnly) != after.Format(time.DateOnly) {
			t.Errorf("%s is from %v to %v, want %v to %v", plain(due[i].What), start, end, from, after)
		}
	}
}

func TestLookOfOnesOwn(t *testing.T) {
	own := fstest.MapFS{"page/missing.tmpl": {Data: []byte(`{{define "sheet"}}<h1>Gone fishing</h1>{{end}}`)},
		"README": {Data: []byte("mine")}}
	look, err := ParseLook(own)
	if err != nil {
		t.Fatal(err)
	}
	files := folderOf(t, "empty")
	s, err := Draw(foretold(t, "empty"), files, Options{Look: look})
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Contains(s.Files["404.html"], []byte("Gone fishing")) {
		t.Error("the page of the keeper's look is not used")
	}
	for name, c := range map[string]struct{ text, want string }{
		"page/mising.tmpl": {"x", "page/mising.tmpl replaces nothing"},
		"page/home.tmpl":   {"{{define \"sheet\"}}\n{{if}}\n{{end}}", "page/home.tmpl:2"},
		"page/due.tmpl":    {"{{define \"sheets\"}}{{end}}", `page/due.tmpl has no {{define "sheet"}}`},
		"piece/day.tmpl":   {"\n\n{{.ISO", "piece/day.tmpl:3"},
	} {
		if _, err := ParseLook(fstest.MapFS{name: {Data: []byte(c.text)}}); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want %q", name, err, c.want)
		}
	}
	look, err = ParseLook(fstest.MapFS{"page/missing.tmpl": {Data: []byte("{{define \"sheet\"}}\n{{.Nonsense}}{{end}}")}})
	if err != nil {
		t.Fatal(err)
	}
	if _, err = Draw(foretold(t, "empty"), files, Options{Look: look}); err == nil || !strings.Contains(err.Error(), "page/missing.tmpl:2") {
		t.Errorf("a template that fails while drawing gives %v", err)
	}
}

func TestBrokenPhotoNamesItsPlace(t *testing.T) {
	files := folderOf(t, "full")
	f := foretold(t, "full")
	files["photos/ruby.png"] = &fstest.MapFile{Data: files["photos/ruby.png"].Data[:200]}
	_, err := Draw(f, files, Options{})
	if err == nil || !strings.HasPrefix(err.Error(), "entries/2025/03-02.md:15:15: \"photos/ruby.png\" cannot be shown: ") {
		t.Errorf("error %v", err)
	}
}
