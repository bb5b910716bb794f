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

// TestWeekGivesAReasonOnce holds that the second item with the same reason does not repeat it.
func TestWeekGivesAReasonOnce(t *testing.T) {
	b := shelfBook(t)
	one := care.Item{Task: care.Hatch, Tank: "north-shelf", From: b.asOf, To: b.asOf + 30, Words: "Look.",
		Why: "A reason."}
	other := one
	other.Task, other.Why = care.Test, "Another."
	b.tasks = []care.Item{one, one, other}
	week := b.pen("index.html").week()
	if len(week) != 3 || week[0].Why != "A reason." || week[1].Why != "" || week[2].Why != "Another." || week[0].Days != "all week" {
		t.Errorf("%+v", week)
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
