package folder

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestOrderOfPlacing(t *testing.T) {
	dir := t.TempDir()
	write(t, dir, site("old.html", "x"))
	r := run{root: openRoot(t, dir), old: list{}, files: named(site("index.html", "x", "2026/index.html", "x", "entries/a.html", "x", "style.css", "x", "photos/a.jpg", "x",
		"feed.xml", "x", "calendar.ics", "x", "sitemap.xml", "x", "data/broods.csv", "x"))}
	changed, err := r.changed()
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"data/broods.csv", "photos/a.jpg", "style.css", "entries/a.html",
		"2026/index.html", "calendar.ics", "feed.xml", "index.html", "sitemap.xml"}
	if diff := cmp.Diff(want, changed); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// named are the files of a run.
func named(files map[string][]byte) map[string]*file {
	all := map[string]*file{}
	for name := range files {
		all[name] = &file{}
	}
	return all
}

// TestAnyHistoryGivesTheCleanSite writes random sites one after the other into one folder; each time it must hold just
// what a new folder would.
func TestAnyHistoryGivesTheCleanSite(t *testing.T) {
	name := rapid.SampledFrom([]string{"a", "a/b", "a/b/c", "a.html", "d/e", "d/f.html", "index.html", "d/index.html", "g", "h/i/j/k"})
	rapid.Check(t, func(rt *rapid.T) {
		dir := t.TempDir()
		for range rapid.IntRange(1, 5).Draw(rt, "sites") {
			files := map[string][]byte{}
			for _, n := range rapid.SliceOfN(name, 0, 6).Draw(rt, "names") {
				files[n] = rapid.SliceOfN(rapid.Byte(), 0, 3).Draw(rt, "content")
			}
			if r := (run{files: named(files)}); r.checkNames() != nil {
				continue
			}
			clean := t.TempDir()
			if _, err := Write(clean, Files(files)); err != nil {
				rt.Fatal(err)
			}
			if _, err := Write(dir, Files(files)); err != nil {
				rt.Fatal(err)
			}
			if diff := cmp.Diff(tree(t, clean), tree(t, dir)); diff != "" {
				rt.Fatalf("(-clean +got):\n%s", diff)
			}
		}
	})
}

// FuzzList reads any text as a list; what is read must print and read back the same.
func FuzzList(f *testing.F) {
	f.Add([]byte(list{"a/b.html": {{1}, {2}}, "index.html": {{}}}.encode()))
	for _, text := range []string{"", "\n00 ../x\n", "\n00 /etc/passwd\n", "\n0 a\n0 a\n", "\nzz a\n", "\n" + strings.Repeat("0", 66), "\n00 a\\b\n00 con\n00 .pleopod-x\n"} {
		f.Add([]byte(listTitle + text))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		l, err := decodeList(text)
		if err != nil {
			return
		}
		again, err := decodeList(l.encode())
		if err != nil {
			t.Fatalf("a list of ours cannot be read: %v", err)
		}
		if diff := cmp.Diff(l.encode(), again.encode()); diff != "" {
			t.Errorf("(-first +second):\n%s", diff)
		}
	})
}

// BenchmarkWrite changes 10 of 5,000 pages.
func BenchmarkWrite(b *testing.B) {
	files := map[string][]byte{}
	for i := range 5000 {
		page := make([]byte, 3200)
		for j := range page {
			page[j] = 'a' + byte(rand.IntN(26))
		}
		files[fmt.Sprintf("entries/%d.html", i)] = page
	}
	dir := b.TempDir()
	if _, err := Write(dir, Files(files)); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		for i := range 10 {
			files[fmt.Sprintf("entries/%d.html", i)][0]++
		}
		if _, err := Write(dir, Files(files)); err != nil {
			b.Fatal(err)
		}
	}
}

func TestWriterTrustsWhatItWroteUntilSomebodyElseDid(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	var w Writer
	write := func(want Report, files map[string][]byte) {
		t.Helper()
		got, err := w.Write(dir, Files(files))
		if err != nil || got.Written != want.Written || got.Unchanged != want.Unchanged || got.Removed != want.Removed {
			t.Fatalf("%+v %v, want %+v", got, err, want)
		}
	}
	write(Report{Written: 2}, map[string][]byte{"a.html": []byte("a"), "b.html": []byte("b")})
	write(Report{Written: 1, Unchanged: 1}, map[string][]byte{"a.html": []byte("a"), "b.html": []byte("B")})
	write(Report{Unchanged: 1, Removed: 1}, map[string][]byte{"a.html": []byte("a")})

	// another run has written meanwhile
	if _, err := Write(dir, Files(map[string][]byte{"a.html": []byte("other"), "c.html": []byte("c")})); err != nil {
		t.Fatal(err)
	}
	write(Report{Written: 1, Removed: 1}, map[string][]byte{"a.html": []byte("a")})
	if text, err := os.ReadFile(filepath.Join(dir, "a.html")); err != nil || string(text) != "a" {
		t.Errorf("a.html holds %q, %v", text, err)
	}
	if err := os.RemoveAll(dir); err != nil {
		t.Fatal(err)
	}
	write(Report{Written: 1}, map[string][]byte{"a.html": []byte("a")})
	if text, err := os.ReadFile(filepath.Join(dir, "a.html")); err != nil || string(text) != "a" {
		t.Errorf("after the folder was deleted a.html holds %q, %v", text, err)
	}
}
