package theme

import (
	"bytes"
	"strings"
	"testing"
	"testing/fstest"
)

// newJournal is a journal as "start" makes it, with entries.
func newJournal(entries map[string]string) fstest.MapFS {
	files := fstest.MapFS{"journal.yaml": {Data: []byte("title: New tank\nas-of: 2026-04-01\naddress: https://example.org/\ntanks: {desk: {}}\n")}}
	for name, text := range entries {
		files["entries/"+name] = &fstest.MapFile{Data: []byte(text)}
	}
	return files
}

// An entry with a title and comments alone, as "pleopod entry" leaves it, is nowhere on the site until something is written.
func TestAnEntryThatTellsNothingIsNotThere(t *testing.T) {
	files := newJournal(map[string]string{
		"bare.md":  "---\ndate: 2026-03-30\ntitle: Unwritten words\n# water: {ph: 7}\nevents:\n  # - stocked: 10\n---\n",
		"blank.md": "---\ndate: 2026-03-31\ntitle: Unwritten too\n---\n\n",
	})
	s, err := Draw(told(t, files), files, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range s.Files {
		if strings.HasPrefix(name, "diary") || strings.Contains(strings.ToLower(string(text)), "unwritten") {
			t.Errorf("%s tells of an entry that tells nothing", name)
		}
	}
	files["entries/bare.md"].Data = append(files["entries/bare.md"].Data, "# All quiet\n"...)
	if s, err = Draw(told(t, files), files, Options{}); err != nil {
		t.Fatal(err)
	}
	if s.Files["diary/2026-03-30-unwritten-words.html"] == nil || s.Files["diary/2026-03-31-unwritten-too.html"] != nil {
		t.Error("a line of text does not bring its entry, or brings another")
	}
	if lead := visible(t, s.Files["diary.html"]); !strings.Contains(lead, "One entry.") || strings.Contains(lead, "in one year") {
		t.Errorf("the diary says %q", lead)
	}
}

// After months without a word the numbers are said to be a guess, and since when.
func TestNumbersOfASilentDiaryAreAGuess(t *testing.T) {
	for asOf, want := range map[string]bool{"2026-03-31": false, "2026-07-01": true} {
		files := newJournal(map[string]string{"a.md": "---\ndate: 2026-03-30\nevents:\n  - stocked: 10\n---\n"})
		files["journal.yaml"].Data = bytes.Replace(files["journal.yaml"].Data, []byte("2026-04-01"), []byte(asOf), 1)
		s, err := Draw(told(t, files), files, Options{})
		if err != nil {
			t.Fatal(err)
		}
		first := visible(t, s.Files["index.html"])
		if strings.Contains(first, "the diary tells nothing of it since 30 March 2026") != want || strings.Contains(first, ", a guess") != want {
			t.Errorf("as of %s a guess: %v, want %v", asOf, !want, want)
		}
		if strings.Contains(visible(t, s.Files["tanks/desk.html"]), "count first") != want {
			t.Errorf("as of %s nobody should leave on a guess: %v, want %v", asOf, !want, want)
		}
	}
}

// The first page of a colony of which nothing is known says what to do first, and claims nothing.
func TestFirstPageOfANewJournal(t *testing.T) {
	for name, entries := range map[string]map[string]string{
		"no entry":    nil,
		"words alone": {"a.md": "---\ndate: 2026-03-31\n---\nI bought a tank.\n"},
	} {
		files := newJournal(entries)
		s, err := Draw(told(t, files), files, Options{})
		if err != nil {
			t.Fatal(err)
		}
		first := visible(t, s.Files["index.html"])
		next, tank := strings.Index(first, "What to do next"), strings.Index(first, "Nothing is written about this tank yet.")
		if next < 0 || tank < next {
			t.Errorf("%s: what to do next stands at %d, the tank at %d", name, next, tank)
		}
		for _, want := range []string{"journal.yaml", "pleopod entry", "stocked: 10"} {
			if !strings.Contains(first, want) {
				t.Errorf("%s: the first page lacks %q", name, want)
			}
		}
		for _, wrong := range []string{"How many", "desk 0", "good news", "This week", "in 1 year"} {
			if strings.Contains(first, wrong) {
				t.Errorf("%s: the first page says %q", name, wrong)
			}
		}
		if about := visible(t, s.Files["tanks/desk.html"]); strings.Contains(about, "Heater") {
			t.Errorf("%s: nobody wrote of a heater: %s", name, about)
		}
	}
	files := newJournal(map[string]string{"a.md": "---\ndate: 2026-03-31\nwater: {ph: 7}\n---\n"})
	s, err := Draw(told(t, files), files, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if first := visible(t, s.Files["index.html"]); !strings.Contains(first, "How many None yet") || strings.Contains(first, "desk 0") {
		t.Errorf("water without shrimp: %s", first)
	}
	files = newJournal(map[string]string{"a.md": "---\ndate: 2026-03-01\nevents: [{stocked: 3}, {berried: 1}]\n---\n",
		"b.md": "---\ndate: 2026-03-20\nevents: [{dropped: true}, {removed: 3}, {counted: 0, method: emptied}]\n---\n"})
	if s, err = Draw(told(t, files), files, Options{}); err != nil {
		t.Fatal(err)
	}
	if first := visible(t, s.Files["index.html"]); !strings.Contains(first, "How many None now") {
		t.Errorf("a tank taken down: %s", first)
	}
	if broods := visible(t, s.Files["broods.html"]); !strings.Contains(broods, "One brood, none of them carried now.") {
		t.Errorf("a brood that was lost: %s", broods)
	}
}
