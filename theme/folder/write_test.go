package folder

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// tree returns all files below a folder, by their paths with slashes.
func tree(t testing.TB, dir string) map[string]string {
	t.Helper()
	found := map[string]string{}
	err := fs.WalkDir(os.DirFS(dir), ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		content, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(name)))
		found[name] = string(content)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return found
}

// site makes the files of a site from pairs of names and contents.
func site(pairs ...string) map[string][]byte {
	files := map[string][]byte{}
	for i := 0; i < len(pairs); i += 2 {
		files[pairs[i]] = []byte(pairs[i+1])
	}
	return files
}

// write runs Write and fails the test on an error.
func write(t testing.TB, dir string, files map[string][]byte) Report {
	t.Helper()
	report, err := Write(dir, files)
	if err != nil {
		t.Fatalf("Write: %v", err)
	}
	return report
}

// plant puts a file of somebody else into a folder.
func plant(t testing.TB, dir, name, content string) {
	t.Helper()
	place := filepath.Join(dir, filepath.FromSlash(name))
	if err := errors.Join(os.MkdirAll(filepath.Dir(place), 0o755), os.WriteFile(place, []byte(content), 0o644)); err != nil {
		t.Fatal(err)
	}
}

func TestWriteCounts(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new", "site")
	steps := []struct {
		name  string
		files map[string][]byte
		want  Report
	}{
		{"first", site("index.html", "home", "entries/a.html", "a", "style.css", "s"), Report{Written: 3}},
		{"again", site("index.html", "home", "entries/a.html", "a", "style.css", "s"), Report{Unchanged: 3}},
		{"one changed, one new", site("index.html", "house", "entries/a.html", "a", "style.css", "s", "b.html", "b"), Report{Written: 2, Unchanged: 2}},
		{"one gone, with its folder", site("index.html", "house", "style.css", "s", "b.html", "b"), Report{Unchanged: 3, Removed: 1}},
		{"a file becomes a folder", site("index.html", "house", "style.css", "s", "b.html/c", "c"), Report{Written: 1, Unchanged: 2, Removed: 1}},
		{"a folder becomes a file", site("index.html", "house", "style.css", "s", "b.html", "b"), Report{Written: 1, Unchanged: 2, Removed: 1}},
		{"an empty file", site("index.html", "", "style.css", "s", "b.html", "b"), Report{Written: 1, Unchanged: 2}},
		{"nothing", site(), Report{Removed: 3}},
	}
	for _, step := range steps {
		if diff := cmp.Diff(step.want, write(t, dir, step.files)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", step.name, diff)
		}
		found := tree(t, dir)
		delete(found, listName)
		want := map[string]string{}
		for name, content := range step.files {
			want[name] = string(content)
		}
		if diff := cmp.Diff(want, found); diff != "" {
			t.Errorf("%s: folder (-want +got):\n%s", step.name, diff)
		}
	}
	if _, err := os.Stat(filepath.Join(dir, "entries")); err == nil {
		t.Error("the empty folder of a removed page is still there")
	}
}
