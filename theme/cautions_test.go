package theme

import (
	"slices"
	"strings"
	"testing"

	"pleopod/journal"
	"pleopod/journal/forecast"
)

// TestCautionsStandOnce holds that a caution stands beside what it is about, and once on a page. The foot of every page
// says once more that nothing is veterinary advice.
func TestCautionsStandOnce(t *testing.T) {
	f := *foretold(t, "water")
	f.Notices, f.Ended = nil, nil
	test := f.Tanks[0].Tank.Tests[0].Event
	for _, kind := range []string{"ammonia", "out-of-range"} {
		f.Notices = append(f.Notices, forecast.Notice{
			Kind: kind, Severity: forecast.Look, Tank: "shelf", Since: test.Day,
			Headline: "Something about " + kind, Seen: "that", Expected: "this",
			Checks: []string{"look"}, Events: []*journal.Event{test}, Public: true,
		})
	}
	s, err := Draw(&f, folderOf(t, "water"), Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range s.Pages {
		said := visible(t, s.Files[path])
		for _, caution := range []string{cautionCopper, cautionPower, cautionLeave} {
			if n := strings.Count(said, caution); n > 1 {
				t.Errorf("%s says %d times: %s", path, n, caution)
			}
		}
		want := 1
		if strings.Contains(said, "Something about") {
			want = 2
		}
		if n := strings.Count(said, "not veterinary advice"); n != want && path != "cautions.html" {
			t.Errorf("%s says %d times that it is not veterinary advice, want %d", path, n, want)
		}
	}
	for _, path := range []string{"index.html", "notices.html", "tanks/shelf.html", "tanks/shelf.water.html"} {
		if !strings.Contains(visible(t, s.Files[path]), "Something about") {
			t.Errorf("%s does not lead to the notices", path)
		}
	}
}

func TestCautionsFor(t *testing.T) {
	gone := func(reason journal.Reason) *journal.Event {
		return &journal.Event{What: &journal.Removed{Reason: reason}}
	}
	for _, row := range []struct {
		name   string
		events []*journal.Event
		want   []string
	}{
		{"a dose", []*journal.Event{{What: &journal.Dosed{}}, {What: &journal.Dosed{}}}, []string{cautionCopper}},
		{"a change, then a dose", []*journal.Event{{What: &journal.WaterChange{}}, {What: &journal.Dosed{}}}, []string{cautionPower, cautionCopper}},
		{"given away", []*journal.Event{gone(journal.Given)}, []string{cautionLeave}},
		{"sold", []*journal.Event{gone(journal.Sold)}, []string{cautionLeave}},
		{"moved out", []*journal.Event{gone(journal.MovedOut)}, nil},
		{"a test", []*journal.Event{{What: &journal.WaterTest{}}}, nil},
	} {
		if got := cautionsFor(row.events); !slices.Equal(got, row.want) {
			t.Errorf("%s: %q, want %q", row.name, got, row.want)
		}
	}
}
