package main

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"pleopod/journal"
	"pleopod/journal/colony"
)

// TestTheManualShowsTheDocumentOfCheck reads the example of the manual, and writes what it is about.
func TestTheManualShowsTheDocumentOfCheck(t *testing.T) {
	_, rest, found := strings.Cut(journal.Manual(), "\n\t{\n")
	example, _, closed := strings.Cut(rest, "\n\t}\n")
	if !found || !closed {
		t.Fatal("the manual shows no document")
	}
	var shown checkDocument
	decoder := json.NewDecoder(strings.NewReader("{" + example + "}"))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(&shown); err != nil {
		t.Fatal(err)
	}
	settings, _ := journal.ParseSettings([]byte("title: T\ntanks: {north-shelf: {}}\n"))
	_, problems := journal.ParseEntry("entries/2026-03-14.md",
		[]byte("---\ndate: 2026-03-14\ntitle: First berried female\ntank: north-shelf\nevents:\n  - bered: 2\n---\n"), settings)
	made := new(checkCommand).document(loadedJournal{problems: problems,
		colony: &colony.Colony{AsOf: journal.NewDay(2026, 3, 20)}})
	if diff := cmp.Diff(made, shown); diff != "" {
		t.Errorf("check --json and the manual differ (-made +shown):\n%s", diff)
	}
}
