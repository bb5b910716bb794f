package journal

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestReadSmallJournal(t *testing.T) {
	journal := Read(small("date: 2026-03-14\nevents:\n  - berried: [ruby]\n    brood: amber\n"))
	if len(journal.Problems) > 0 {
		t.Fatalf("problems: %v", journal.Problems)
	}
	if len(journal.Entries) != 1 || len(journal.Entries[0].Events) != 1 {
		t.Fatalf("entries: %+v", journal.Entries)
	}
	event := journal.Entries[0].Events[0]
	want := &Berried{Shrimp: Who{Count: Count{Total: 1}, Names: []string{"ruby"}}, Broods: []string{"amber"}}
	if diff := cmp.Diff(want, event.What); diff != "" {
		t.Errorf("event (-want +got):\n%s", diff)
	}
	if event.Tank != "shelf" || event.Day.String() != "2026-03-14" || event.Position.String() != "entries/a.md:4:5" {
		t.Errorf("event in %q on %s at %s", event.Tank, event.Day, event.Position)
	}
}

func TestUnknownEventNamesTheNearest(t *testing.T) {
	journal := Read(small("date: 2026-03-14\ntitle: x\n\nevents:\n  - bered: 2\n"))
	want := `entries/a.md:6:5: unknown event "bered"; did you mean "berried"?`
	if len(journal.Problems) != 1 || journal.Problems[0].Error() != want {
		t.Errorf("problems %v, want %s", journal.Problems, want)
	}
}
