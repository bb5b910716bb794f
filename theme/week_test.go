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

func TestWeekOnTheFirstPage(t *testing.T) {
	b := shelfBook(t)
	p := b.pen("index.html")
	home := p.homePage().(*HomePage)
	if len(home.Week) != len(care.Week(b.tasks, b.asOf)) || len(home.Week) == 0 {
		t.Fatalf("%d things this week", len(home.Week))
	}
	reasons := map[string]bool{}
	for _, item := range home.Week {
		if item.Why != "" && reasons[item.Why] {
			t.Errorf("said twice: %s", item.Why)
		}
		reasons[item.Why] = true
		if item.Icon == "" || item.Label == "" || len(item.Words) == 0 || item.Days == "" || item.Tank.Text == "" {
			t.Errorf("it lacks something: %+v", item)
		}
	}
	text := visible(t, site(t, "full").Files["index.html"])
	if !strings.Contains(text, "What to look for from "+home.WeekDays) {
		t.Error("the first page does not say of which days")
	}
	for _, item := range home.Due {
		if item.chore {
			t.Errorf("%q stands among what is due next", plain(item.What))
		}
	}
}

// TestCalendarKeepsItsNames makes the calendar on two days, a week apart, and holds that a count, a test and a saddle
// keep the identifiers under which a phone knows them.
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
	if kept < 4 {
		t.Errorf("%d of %d identifiers are kept", kept, len(first))
	}
}

// asOfLater is the full journal a week after its as-of day.
func asOfLater(t *testing.T) *forecast.Forecast {
	t.Helper()
	files := folderOf(t, "full")
	yaml := string(files["journal.yaml"].Data)
	day := foretold(t, "full").Colony.AsOf
	moved := strings.Replace(yaml, "as-of: "+day.String(), "as-of: "+(day+7).String(), 1)
	if moved == yaml {
		t.Fatal("the journal has no as-of day to move")
	}
	files["journal.yaml"].Data = []byte(moved)
	return told(t, files)
}
