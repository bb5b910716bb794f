package theme

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	ics "github.com/arran4/golang-ical"

	"pleopod/journal/care"
	"pleopod/journal/forecast"
)

// What to look for this week stands once on the first page, at what it is about.
func TestWeekOnTheFirstPage(t *testing.T) {
	b := shelfBook(t)
	home := b.pen("index.html").homePage().(*HomePage)
	advised, due := 0, map[string]int{}
	for _, item := range home.Due {
		due[item.key]++
		if len(item.Look) > 0 {
			advised++
		}
	}
	week := 0
	for _, i := range care.Week(b.tasks, b.asOf) {
		keys := []string{i.Key(), "eyes " + i.Brood, "hatch " + i.Brood, "young " + i.Brood, "Sexable " + i.Brood}
		if i.Likely >= b.asOf+care.Days {
			continue
		}
		week++
		if !slices.ContainsFunc(keys, func(key string) bool { return due[key] == 1 }) {
			t.Errorf("this week: %q does not stand once among what is due", i.Words)
		}
	}
	if week == 0 || advised == 0 {
		t.Errorf("%d things this week, %d with advice", week, advised)
	}
	text := visible(t, site(t, "full").Files["index.html"])
	if strings.Contains(text, "This week") || strings.Count(text, "Look whether flint has hatched") != 1 {
		t.Errorf("the first page has two lists, or no advice: %s", text)
	}
}

// TestAdviceGivesAReasonOnce holds that the second item with the same reason does not repeat it.
func TestAdviceGivesAReasonOnce(t *testing.T) {
	b := shelfBook(t)
	item := func(brood string) care.Item {
		return care.Item{Task: care.Hatch, Brood: brood, From: b.asOf, To: b.asOf + 30, Words: "Look.", Why: "A reason."}
	}
	b.tasks = []care.Item{item("one"), item("other")}
	items := []DueItem{{key: "hatch one"}, {key: "hatch other"}, {key: "hatch third"}}
	b.pen("index.html").advise(items)
	if plain(items[0].Look) != "Look. A reason." || plain(items[1].Look) != "Look." || items[2].Look != nil {
		t.Errorf("%+v", items)
	}
}

// TestCalendarKeepsItsNames makes the calendar on two days, two months apart, and holds that a count, a test
// and a saddle keep the identifiers under which a phone knows them.
func TestCalendarKeepsItsNames(t *testing.T) {
	names := func(b *book) (uids []string) {
		cal, err := ics.ParseCalendar(bytes.NewReader(b.calendar()))
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range cal.Events() {
			uids = append(uids, e.Id())
		}
		if sorted := slices.Sorted(slices.Values(uids)); len(slices.Compact(sorted)) != len(uids) {
			t.Errorf("an identifier stands twice: %q", uids)
		}
		return uids
	}
	b := shelfBook(t)
	first := names(b)
	kept := 0
	later := names(newBook(public(asOfLater(t)), nil))
	for _, uid := range first {
		if slices.Contains(later, uid) {
			kept++
		}
	}
	for _, label := range []string{"-count@", "-water-test@"} {
		if !slices.ContainsFunc(first, func(uid string) bool { return strings.Contains(uid, label) && slices.Contains(later, uid) }) {
			t.Errorf("no identifier with %s is kept: %q, then %q", label, first, later)
		}
	}
	if kept < 3 {
		t.Errorf("%d of %d identifiers are kept", kept, len(first))
	}
}

// asOfLater is the full journal two months after its as-of day, when counts and tests are overdue.
func asOfLater(t *testing.T) *forecast.Forecast {
	t.Helper()
	files := folderOf(t, "full")
	yaml := string(files["journal.yaml"].Data)
	day := foretold(t, "full").Colony.AsOf
	moved := strings.Replace(yaml, "as-of: "+day.String(), "as-of: "+(day+60).String(), 1)
	if moved == yaml {
		t.Fatal("the journal has no as-of day to move")
	}
	files["journal.yaml"].Data = []byte(moved)
	return told(t, files)
}
