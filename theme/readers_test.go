package theme

import (
	"encoding/json"
	"os"
	"os/exec"
	"strings"
	"testing"
)

// understood is what testdata/readers.py prints.
type understood struct {
	Version, Fault, Title, ID, Product string
	Self, Faults                       []string
	Entries                            []struct {
		ID, Title, Link, Text, Type string
		Updated                     []int
	}
	Events []struct{ UID, Summary, Description, From, To, Stamp string }
}

// python is an interpreter that has the two readers. It skips the test loudly where there is none, and fails where they
// are required.
func python(t *testing.T) string {
	t.Helper()
	for _, name := range []string{"/usr/bin/python3", "python3"} {
		if exec.Command(name, "-c", "import feedparser, icalendar").Run() == nil {
			return name
		}
	}
	if os.Getenv("PLEOPOD_READERS") == "required" {
		t.Fatal("no Python with feedparser and icalendar, and PLEOPOD_READERS says that they are required")
	}
	t.Skip("NOT TESTED: no Python with Debian's python3-feedparser and python3-icalendar, so they did not read feed and calendar")
	return ""
}

// Readers that are not ours and not written in Go understand feed and calendar as they are meant.
func TestFeedAndCalendarInPython(t *testing.T) {
	interpreter := python(t)
	for _, name := range []string{"full", "private", "hostile"} {
		dir := t.TempDir()
		write(t, dir, site(t, name))
		out, err := exec.Command(interpreter, "testdata/readers.py", dir).Output()
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		var got understood
		if err := json.Unmarshal(out, &got); err != nil {
			t.Fatal(err)
		}
		b := newBook(public(foretold(t, name)), nil)
		checkFeed(t, b, got)
		checkCalendar(t, b, got)
	}
}

// checkFeed compares what the reader says of the feed with the record.
func checkFeed(t *testing.T, b *book, got understood) {
	t.Helper()
	address := b.set.Address
	if got.Version != "atom10" || got.Fault != "" || got.ID != address || strings.Join(got.Self, " ") != address+"feed.xml" {
		t.Errorf("%s: feed %s, fault %q, id %q, self %q", address, got.Version, got.Fault, got.ID, got.Self)
	}
	want := b.entries[max(0, len(b.entries)-feedLength):]
	if len(got.Entries) != len(want) {
		t.Fatalf("%s: %d entries read, %d written", address, len(got.Entries), len(want))
	}
	p, seen := b.pen("feed.xml"), map[string]bool{}
	for i, e := range got.Entries {
		from := want[len(want)-1-i]
		day := from.Date.Time()
		if e.Link != address+b.paths.entry[from] || e.ID == "" || seen[e.ID] || e.Type != "text/html" {
			t.Errorf("%s: entry %s: id %q, type %s", address, e.Link, e.ID, e.Type)
		}
		if strings.Join(strings.Fields(e.Title), " ") == "" && p.title(from) != "" {
			t.Errorf("%s: entry %s has no title", address, e.Link)
		}
		if len(e.Updated) != 3 || e.Updated[0] != day.Year() || e.Updated[1] != int(day.Month()) || e.Updated[2] != day.Day() {
			t.Errorf("%s: entry %s of %s was read as %v", address, e.Link, from.Date, e.Updated)
		}
		if first, _, _ := strings.Cut(from.Words, " "); !strings.Contains(e.Text, first) && !strings.ContainsAny(first, "<>&'\"") {
			t.Errorf("%s: entry %s lacks its text", address, e.Link)
		}
		seen[e.ID] = true
	}
}

// checkCalendar compares what the reader says of the calendar with what is due.
func checkCalendar(t *testing.T, b *book, got understood) {
	t.Helper()
	due := b.pen("calendar.ics").due(366)
	if len(got.Faults) > 0 || len(got.Events) != len(due) || got.Product == "" {
		t.Fatalf("%s: faults %q, %d events for %d things due", b.set.Address, got.Faults, len(got.Events), len(due))
	}
	seen := map[string]bool{}
	for i, e := range got.Events {
		item := due[i]
		if seen[e.UID] || !strings.HasSuffix(e.UID, "@"+b.host()) || e.Summary != oneLine(plain(item.What)) {
			t.Errorf("%s: event %q is called %q, want %q", b.set.Address, e.UID, e.Summary, oneLine(plain(item.What)))
		}
		if e.From != item.from.String() || e.To != (max(item.to, item.from)+1).String() || !strings.HasPrefix(e.Stamp, b.asOf.String()+"T00:00:00") {
			t.Errorf("%s: event %s from %s to %s, stamp %s", b.set.Address, e.UID, e.From, e.To, e.Stamp)
		}
		seen[e.UID] = true
	}
}
