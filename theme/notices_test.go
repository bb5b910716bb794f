package theme

import (
	"strings"
	"testing"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/notice"
)

func TestNoticesStandInContext(t *testing.T) {
	s := site(t, "full")
	all := visible(t, s.Files["notices.html"])
	for _, want := range []string{
		"Ammonia above zero: 0.1", "mg/L is un-ionised", "In a settled tank a test shows zero", "What to check, in this order", "not veterinary advice",
		"On earlier days", "Nothing was written about Window tank for 25 weeks", "Medicines with copper kill shrimp",
	} {
		if !strings.Contains(all, want) {
			t.Errorf("the page of notices lacks %q", want)
		}
	}
	for _, kind := range notice.Kinds() {
		if !strings.Contains(all, kind.Name) || !strings.Contains(all, kind.Watches) {
			t.Errorf("the page of notices does not explain %q", kind.Word)
		}
	}
	for page, want := range map[string]string{
		"index.html":             "Ammonia above zero",
		"tanks/north-shelf.html": "Ammonia above zero",
		"tanks/window.html":      "Nothing was written about Window tank",
		"data/forecast.json":     `"kind": "no-record"`,
	} {
		text := string(s.Files[page])
		if strings.HasSuffix(page, ".html") {
			text = visible(t, s.Files[page])
		}
		if !strings.Contains(text, want) {
			t.Errorf("%s lacks %q", page, want)
		}
	}
	if entry := string(s.Files["diary/2026-03-12-ruby-again.html"]); !strings.Contains(entry, `notices.html#ammonia-north-shelf-2026-03-12`) {
		t.Error("the entry that a notice rests on does not lead to it")
	}
}

// What was made by hand here shows order, names of places, and what is private.
func TestNoticesByHand(t *testing.T) {
	f := *foretold(t, "full")
	private := &journal.Event{Entry: &journal.Entry{Private: true}}
	f.Notices = []forecast.Notice{
		{Kind: "copper", Severity: forecast.Look, Tank: "window", Since: f.Colony.AsOf - 3, Headline: "calm", Public: true},
		{Kind: "copper", Severity: forecast.Now, Tank: "north-shelf", Since: f.Colony.AsOf - 1, Headline: "pressing", Checks: []string{"look"}, Public: true},
		{Kind: "ph-change", Severity: forecast.Soon, Tank: "window", Since: f.Colony.AsOf - 2, Headline: "waiting", Public: true},
		{Kind: "nitrite", Severity: forecast.Now, Tank: "north-shelf", Since: f.Colony.AsOf, Headline: "hidden"},
		{Kind: "nitrite", Severity: forecast.Now, Tank: "window", Since: f.Colony.AsOf, Headline: "hidden", Public: true, Events: []*journal.Event{private}},
	}
	f.Ended = []forecast.Notice{
		{Kind: "hardness-change", Reading: "gh", Tank: "window", Since: f.Colony.AsOf - 30, Until: f.Colony.AsOf - 20, Headline: "older", Public: true},
		{Kind: "hardness-change", Reading: "kh", Tank: "window", Since: f.Colony.AsOf - 30, Until: f.Colony.AsOf - 10, Headline: "newer", Public: true},
		{Kind: "hardness-change", Tank: "window", Since: f.Colony.AsOf - 30, Until: f.Colony.AsOf - 9, Headline: "hidden"},
		{Kind: "hardness-change", Tank: "window", Since: f.Colony.AsOf - 30, Until: f.Colony.AsOf - 8, Headline: "hidden", Public: true, Ending: private},
	}
	b := newBook(public(&f), nil)
	p := b.pen("tanks/window.html")
	any := func(forecast.Notice) bool { return true }
	var order, ids []string
	for _, n := range append(p.notices(any), p.endedNotices(any)...) {
		order, ids = append(order, n.Headline), append(ids, n.ID)
	}
	if got := strings.Join(order, " "); got != "pressing waiting calm newer older" {
		t.Errorf("order %q", got)
	}
	if ids[3] == ids[4] || !strings.HasPrefix(p.notices(any)[0].Href, "../notices.html#copper-north-shelf-") {
		t.Errorf("places %q, %q", ids, p.notices(any)[0].Href)
	}
	calendar := string(b.calendar())
	day := func(d journal.Day) string { return d.Time().Format("20060102") }
	if dates := "DTSTART;VALUE=DATE:" + day(f.Colony.AsOf-1) + "\r\nDTEND;VALUE=DATE:" + day(f.Colony.AsOf) + "\r\nSUMMARY:Now: pressing"; !strings.Contains(calendar, dates) {
		t.Errorf("the calendar lacks %q", dates)
	}
	if !strings.Contains(calendar, "SUMMARY:Soon: waiting") || strings.Contains(calendar, "calm") || strings.Contains(calendar, "hidden") {
		t.Error("the calendar holds what presses, and nothing else")
	}
}
