package main

import (
	"bytes"
	"image"
	"image/png"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/google/go-cmp/cmp"
)

// remembered is a journal with everything that a site can rest on.
func remembered(t *testing.T) (dir string) {
	t.Helper()
	dir = t.TempDir()
	for name, text := range map[string]string{
		"journal.yaml":       "title: One shelf\nlook: my-look\ntanks:\n  shelf: {volume: 38 L, temperature-log: readings/shelf.csv, cover: photos/tank.png}\n",
		"entries/a.md":       "---\ndate: 2026-02-01\ntank: shelf\nevents:\n  - stocked: 10\n---\nTen at last. ![The tank](../photos/tank.png)\n",
		"entries/2026/b.md":  "---\ndate: 2026-03-01\ntank: shelf\nevents:\n  - berried: 1\n---\nOne carries eggs.\n",
		"readings/shelf.csv": "time,temperature\n2026-02-01T08:00,23.0\n2026-02-02T08:00,23.2\n",
	} {
		put(t, filepath.Join(dir, name), text)
	}
	template, err := fs.ReadFile(os.DirFS("../../theme"), "page/cautions.tmpl")
	if err != nil {
		t.Fatal(err)
	}
	put(t, filepath.Join(dir, "my-look/page/cautions.tmpl"), string(template))
	put(t, filepath.Join(dir, "photos/tank.png"), picture(t, 40))
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

func put(t *testing.T, name, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// TestPublishAgain changes one thing after the other. A run that remembers the last must give what one into a
// new folder, which remembers nothing, gives, and must not look any closer where nothing has changed.
func TestPublishAgain(t *testing.T) {
	dir, out, cache := remembered(t), filepath.Join(t.TempDir(), "site"), t.TempDir()
	now := time.Date(2026, 3, 20, 12, 0, 0, 0, time.UTC)
	publish := func(out string) string {
		t.Helper()
		var printed bytes.Buffer
		w := &world{stdout: &printed, stderr: &printed, getenv: func(string) string { return "" },
			now: func() time.Time { return now }, cache: cacheFolder(cache)}
		if code := run(t.Context(), []string{"publish", dir, "--out", out}, w); code != exitDone {
			t.Fatalf("publish: %d\n%s", code, &printed)
		}
		return printed.String()
	}
	stands := func() bool {
		t.Helper()
		c := publishCommand{place: place{Journal: dir}, Out: out}
		memory, err := c.memory(&world{getenv: func(string) string { return "" }, now: func() time.Time { return now }, cache: cacheFolder(cache)}, out)
		if err != nil {
			t.Fatal(err)
		}
		site, _ := memory.standing(os.DirFS(dir), out)
		return site != nil
	}
	in := func(name, text string) func() { return func() { put(t, filepath.Join(dir, name), text) } }
	changes := []struct {
		name   string
		change func()
		stands bool
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
		{"a page", func() { put(t, filepath.Join(out, "due.html"), "mine") }, false},
		{"a page gone", func() { os.Remove(filepath.Join(out, "due.html")) }, false},
		{"a run cut off", func() { put(t, filepath.Join(out, ".pleopod-stage/1"), "half") }, false},
		{"the memory", func() {
			all, _ := filepath.Glob(filepath.Join(cache, "sites", "*"))
			for _, name := range all {
				put(t, name, "spoilt")
			}
		}, false},
	}
	publish(out)
	for _, step := range changes {
		if !stands() {
			t.Fatalf("before %s: the last site is not recognised", step.name)
		}
		step.change()
		if got := stands(); got != step.stands {
			t.Errorf("%s changed: the last site still stands: %v", step.name, got)
		}
		said := publish(out)
		if step.stands != strings.Contains(said, "; 0 files written") && step.name != "a run cut off" && step.name != "the memory" {
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

// TestWitness asks a folder everything, changes one thing after the other, and sees the witness withdraw.
func TestWitness(t *testing.T) {
	folder := func() fstest.MapFS {
		return fstest.MapFS{
			"a.md":     {Data: []byte("ten at last")},
			"long":     {Data: []byte("a head and a tail")},
			"link":     {Data: []byte("a.md"), Mode: fs.ModeSymlink},
			"sub/b.md": {Data: []byte("b")},
		}
	}
	files := folder()
	w := newWitness(files)
	_, _ = fs.ReadFile(w, "a.md")
	_, _ = fs.ReadFile(w, "absent")
	_, _ = w.ReadLink("link")
	_, _ = w.Stat("link")
	entries, _ := w.ReadDir("sub")
	_, _ = entries[0].Info()
	long, err := w.Open("long")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := io.ReadFull(long, make([]byte, 6)); err != nil {
		t.Fatal(err)
	}
	if err := long.Close(); err != nil {
		t.Fatal(err)
	}
	if !newWitness(folder()).confirms(w.heard) {
		t.Error("the same folder is not confirmed")
	}
	tests := map[string]struct {
		change   func(fstest.MapFS)
		confirms bool
	}{
		"a text of the same length":   {func(f fstest.MapFS) { f["a.md"].Data = []byte("ten at dusk") }, false},
		"a longer text":               {func(f fstest.MapFS) { f["a.md"].Data = []byte("ten at last!") }, false},
		"a file where there was none": {func(f fstest.MapFS) { f["absent"] = &fstest.MapFile{} }, false},
		"where a link leads":          {func(f fstest.MapFS) { f["link"].Data = []byte("long") }, false},
		"a new file in a list":        {func(f fstest.MapFS) { f["sub/c.md"] = &fstest.MapFile{} }, false},
		"a new kind in a list":        {func(f fstest.MapFS) { f["sub/b.md"].Mode = fs.ModeSymlink }, false},
		"a size that was asked for":   {func(f fstest.MapFS) { f["sub/b.md"].Data = []byte("bb") }, false},
		"the head of a file":          {func(f fstest.MapFS) { f["long"].Data = []byte("A head and a tail") }, false},
		"its tail, never read":        {func(f fstest.MapFS) { f["long"].Data = []byte("a head and a TAIL") }, true},
		"a file gone":                 {func(f fstest.MapFS) { delete(f, "a.md") }, false},
		"a time":                      {func(f fstest.MapFS) { f["a.md"].ModTime = time.Unix(9, 0) }, true},
		"a file that was not read":    {func(f fstest.MapFS) { f["new"] = &fstest.MapFile{} }, true},
	}
	for name, test := range tests {
		changed := folder()
		test.change(changed)
		if got := newWitness(changed).confirms(w.heard); got != test.confirms {
			t.Errorf("%s changed: confirmed %v", name, got)
		}
	}
	files["a.md"].Data = []byte("another")
	_, _ = fs.ReadFile(w, "a.md")
	if newWitness(files).confirms(w.heard) || newWitness(folder()).confirms(w.heard) {
		t.Error("a file that changed while it was read is confirmed")
	}
}
