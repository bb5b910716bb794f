package colony_test

import (
	"testing"
	"testing/fstest"

	"pleopod/journal"
	"pleopod/journal/colony"
)

func TestRetellTakesTextsAndNothingElse(t *testing.T) {
	const (
		settings = "title: A\naddress: https://example.org/\ntanks: {north: {volume: 30 L, name: North}}\n"
		before   = "---\ndate: 2026-03-14\ntitle: Old\ntopics: [a]\nevents:\n  - stocked: 10\n    age: 4 months\n---\nOld words.\n"
	)
	tests := []struct {
		name, settings, entry string
		taken                 bool
	}{
		{"the same", settings, before, true},
		{"words", settings, before + "More words.\n", true},
		{"title", settings, "---\ndate: 2026-03-14\ntitle: New\ntopics: [a]\nevents:\n  - stocked: 10\n    age: 4 months\n---\nOld words.\n", true},
		{"topics", settings, "---\ndate: 2026-03-14\ntitle: Old\ntopics: [a, b]\nevents:\n  - stocked: 10\n    age: 4 months\n---\nOld words.\n", true},
		{"a line more above the events", settings, "---\ndate: 2026-03-14\ntitle: Old\ntopics:\n  - a\nevents:\n  - stocked: 10\n    age: 4 months\n---\nOld words.\n", false},
		{"a number", settings, "---\ndate: 2026-03-14\ntitle: Old\ntopics: [a]\nevents:\n  - stocked: 11\n    age: 4 months\n---\nOld words.\n", false},
		{"an attribute", settings, "---\ndate: 2026-03-14\ntitle: Old\ntopics: [a]\nevents:\n  - stocked: 10\n    age: 5 months\n---\nOld words.\n", false},
		{"the day", settings, "---\ndate: 2026-03-15\ntitle: Old\ntopics: [a]\nevents:\n  - stocked: 10\n    age: 4 months\n---\nOld words.\n", false},
		{"private", settings, "---\ndate: 2026-03-14\ntitle: Old\ntopics: [a]\nevents:\n  - stocked: 10\n    age: 4 months\nvisibility: private\n---\nOld words.\n", false},
		{"a later day", settings, "---\ndate: 2026-05-14\ntitle: Old\ntopics: [a]\nevents:\n  - stocked: 10\n    age: 4 months\n---\nOld words.\n", false},
		{"settings", "title: A\naddress: https://example.org/\ntanks: {north: {volume: 31 L, name: North}}\n", before, false},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			read := func(settings, entry string) *journal.Journal {
				j := journal.Read(fstest.MapFS{"journal.yaml": {Data: []byte(settings)}, "entries/a.md": {Data: []byte(entry)}})
				if journal.HasErrors(j.Problems) {
					t.Fatal(j.Problems)
				}
				return j
			}
			c := colony.Replay(read(settings, before), day("2026-04-01"))
			event, entry := c.Tanks[0].Events[0], c.Entries[0]
			after := read(test.settings, test.entry)
			if got := c.Retell(after); got != test.taken {
				t.Fatalf("taken: %v, want %v", got, test.taken)
			}
			want := before
			if test.taken {
				want = test.entry
			}
			if string(c.Entries[0].Source) != want || c.Entries[0] != entry || &c.Entries[0].Events[0] != event || event.Entry != entry {
				t.Errorf("the colony holds %q, and its event no longer stands in its entry", c.Entries[0].Source)
			}
		})
	}
}
