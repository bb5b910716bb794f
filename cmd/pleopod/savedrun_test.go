package main

import (
	"bytes"
	"image"
	"image/png"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// fullJournal is a journal with everything that a site can rest on.
func fullJournal(t *testing.T) (dir string) {
	t.Helper()
	dir = t.TempDir()
	for name, text := range map[string]string{
		"journal.yaml":       "title: One shelf\nlook: my-look\ntanks:\n  shelf: {volume: 38 L, temperature-log: readings/shelf.csv, cover: photos/tank.png}\n",
		"entries/a.md":       "---\ndate: 2026-02-01\ntank: shelf\nevents:\n  - stocked: 10\n---\nTen at last. ![The tank](../photos/tank.png)\n",
		"entries/2026/b.md":  "---\ndate: 2026-03-01\ntank: shelf\nevents:\n  - berried: 1\n---\nOne carries eggs.\n",
		"readings/shelf.csv": "time,temperature\n2026-02-01T08:00,23.0\n2026-02-02T08:00,23.2\n",
	} {
		writeFile(t, filepath.Join(dir, name), text)
	}
	template, err := fs.ReadFile(os.DirFS("../../theme"), "page/cautions.tmpl")
	if err != nil {
		t.Fatal(err)
	}
	writeFile(t, filepath.Join(dir, "my-look/page/cautions.tmpl"), string(template))
	writeFile(t, filepath.Join(dir, "photos/tank.png"), picture(t, 40))
	return dir
}

func picture(t *testing.T, width int) string {
	t.Helper()
	var out bytes.Buffer
	if err := png.Encode(&out, image.NewGray(image.Rect(0, 0, width, 30))); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// TestPublishAgainGivesTheSiteOfACleanRun changes one thing after the other. A run that knows the last must give what one into a
// new folder, which knows none, gives, and must not look any closer where nothing has changed.
func TestPublishAgainGivesTheSiteOfACleanRun(t *testing.T) {
	dir, out, cache := fullJournal(t), filepath.Join(t.TempDir(), "site"), t.TempDir()
	now := time.Date(2026, 3, 20, 12, 0, 0, 0, time.UTC)
	publish := func(out string) string {
		t.Helper()
		var printed bytes.Buffer
		env := &environment{stdout: &printed, stderr: &printed, getenv: func(string) string { return "" },
			now: func() time.Time { return now }, cache: cacheFolder(cache)}
		if code := run(t.Context(), []string{"publish", dir, "--out", out}, env); code != exitDone {
			t.Fatalf("publish: %d\n%s", code, &printed)
		}
		return printed.String()
	}
	unchanged := func() bool {
		t.Helper()
		c := publishCommand{journalFlags: journalFlags{Journal: dir}, Out: out}
		runs, err := c.runCache(&environment{getenv: func(string) string { return "" }, now: func() time.Time { return now }, cache: cacheFolder(cache)}, out)
		if err != nil {
			t.Fatal(err)
		}
		run, _ := runs.unchanged(os.DirFS(dir), out)
		return run != nil
	}
	in := func(name, text string) func() { return func() { writeFile(t, filepath.Join(dir, name), text) } }
	changes := []struct {
		name      string
		change    func()
		unchanged bool
	}{
		{"nothing", func() {}, true},
		{"a file that nothing reads", in("shopping.txt", "moss"), true},
		{"a text", in("entries/a.md", "---\ndate: 2026-02-01\ntank: shelf\nevents:\n  - stocked: 10\n---\nTen at dusk. ![The tank](../photos/tank.png)\n"), false},
		{"a new entry", in("entries/2026/c.md", "---\ndate: 2026-03-10\ntank: shelf\n---\nAll well.\n"), false},
		{"an entry gone", func() { os.Remove(filepath.Join(dir, "entries/2026/c.md")) }, false},
		{"a reading of the logger", in("readings/shelf.csv", "time,temperature\n2026-02-01T08:00,23.0\n2026-02-02T08:00,21.2\n"), false},
		{"a photo", in("photos/tank.png", picture(t, 50)), false},
		{"the settings", in("journal.yaml", "title: Two shelves\nlook: my-look\ntanks:\n  shelf: {volume: 38 L, temperature-log: readings/shelf.csv, cover: photos/tank.png}\n"), false},
		{"a template", in("my-look/page/cautions.tmpl", `{{define "sheet"}}<h1>Take care</h1>{{end}}`), false},
		{"the day", func() { now = now.AddDate(0, 0, 1) }, false},
		{"a page", func() { writeFile(t, filepath.Join(out, "due.html"), "mine") }, false},
		{"a page gone", func() { os.Remove(filepath.Join(out, "due.html")) }, false},
		{"a run cut off", func() { writeFile(t, filepath.Join(out, ".pleopod-stage/1"), "half") }, false},
		{"what was kept", func() {
			all, _ := filepath.Glob(filepath.Join(cache, "sites", "*"))
			for _, name := range all {
				writeFile(t, name, "spoilt")
			}
		}, false},
	}
	publish(out)
	for _, step := range changes {
		if !unchanged() {
			t.Fatalf("before %s: the last run is not recognised", step.name)
		}
		step.change()
		if got := unchanged(); got != step.unchanged {
			t.Errorf("%s changed: the last run is taken for unchanged: %v", step.name, got)
		}
		said := publish(out)
		if step.unchanged != strings.Contains(said, "; 0 files written") && step.name != "a run cut off" && step.name != "what was kept" {
			t.Errorf("%s changed: %s", step.name, said)
		}
		clean := filepath.Join(t.TempDir(), "clean")
		anew := publish(clean)
		if diff := cmp.Diff(contentsOf(clean), contentsOf(out)); diff != "" {
			t.Errorf("%s changed (-clean +got):\n%s", step.name, diff)
		}
		if a, b := warnings(anew), warnings(said); a != b {
			t.Errorf("%s changed: it said %q, and anew %q", step.name, b, a)
		}
	}
}

// warnings are the lines that name a place in the journal.
func warnings(said string) string {
	var out strings.Builder
	for line := range strings.Lines(said) {
		if strings.Contains(line, ": warning: ") {
			out.WriteString(line)
		}
	}
	return out.String()
}
