package folder

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// tree returns all files below a folder, by their paths with slashes.
func tree(t testing.TB, dir string) map[string]string {
	t.Helper()
	found := map[string]string{}
	err := fs.WalkDir(os.DirFS(dir), ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || !entry.Type().IsRegular() {
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
	report, err := Write(dir, Files(files))
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

// TestWriteTouchesOnlyWhatChanged compares the times of files before and after.
func TestWriteTouchesOnlyWhatChanged(t *testing.T) {
	dir := t.TempDir()
	write(t, dir, site("index.html", "home", "a.html", "a"))
	old := time.Now().Add(-time.Hour)
	for _, name := range []string{"index.html", "a.html", listName} {
		if err := os.Chtimes(filepath.Join(dir, name), old, old); err != nil {
			t.Fatal(err)
		}
	}
	touched := func() []string {
		var names []string
		for _, name := range []string{"a.html", "index.html", listName} {
			if info, err := os.Stat(filepath.Join(dir, name)); err != nil || info.ModTime().After(old.Add(time.Minute)) {
				names = append(names, name)
			}
		}
		return names
	}

	write(t, dir, site("index.html", "home", "a.html", "a"))
	if got := touched(); got != nil {
		t.Errorf("the same site again touched %q", got)
	}
	write(t, dir, site("index.html", "home", "a.html", "b"))
	if diff := cmp.Diff([]string{"a.html", listName}, touched()); diff != "" {
		t.Errorf("one page changed (-want +got):\n%s", diff)
	}
}

// TestWriteRepairs damages the folder behind Write's back; the next one must give the clean site again.
func TestWriteRepairs(t *testing.T) {
	files := site("index.html", "home", "entries/a.html", "a", "style.css", "s")
	clean := t.TempDir()
	write(t, clean, files)
	tests := []struct {
		name   string
		damage func(dir string) error
	}{
		{"a page of the same length", func(dir string) error { return os.WriteFile(filepath.Join(dir, "index.html"), []byte("hole"), 0o644) }},
		{"a page cut off", func(dir string) error { return os.Truncate(filepath.Join(dir, "index.html"), 2) }},
		{"a page removed", func(dir string) error { return os.Remove(filepath.Join(dir, "index.html")) }},
		{"a folder removed", func(dir string) error { return os.RemoveAll(filepath.Join(dir, "entries")) }},
		{"a page made a link", func(dir string) error {
			place := filepath.Join(dir, "index.html")
			return errors.Join(os.Remove(place), os.Symlink("style.css", place))
		}},
		{"a stage left over", func(dir string) error {
			return errors.Join(os.Mkdir(filepath.Join(dir, stageName), 0o755), os.WriteFile(filepath.Join(dir, stageName, "7"), []byte("x"), 0o644))
		}},
		{"a draft of the list left over", func(dir string) error { return os.WriteFile(filepath.Join(dir, listDraft), []byte("ple"), 0o644) }},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			dir := t.TempDir()
			write(t, dir, files)
			if err := test.damage(dir); err != nil {
				t.Fatal(err)
			}
			write(t, dir, files)
			if diff := cmp.Diff(tree(t, clean), tree(t, dir)); diff != "" {
				t.Errorf("after the repair (-want +got):\n%s", diff)
			}
		})
	}
}

// TestOthersStay puts files of somebody else into the site's folder.
func TestOthersStay(t *testing.T) {
	dir := t.TempDir()
	write(t, dir, site("index.html", "home", "entries/a.html", "a"))
	plant(t, dir, "CNAME", "shrimp.example")
	plant(t, dir, "entries/mine.txt", "keep")
	plant(t, dir, "entries/a.html", "edited by hand")

	report := write(t, dir, site("index.html", "home"))
	if diff := cmp.Diff(Report{Unchanged: 1, Kept: []string{"entries/a.html"}}, report); diff != "" {
		t.Errorf("report (-want +got):\n%s", diff)
	}
	found := tree(t, dir)
	for name, want := range map[string]string{"CNAME": "shrimp.example", "entries/mine.txt": "keep", "entries/a.html": "edited by hand"} {
		if found[name] != want {
			t.Errorf("%s holds %q, want %q", name, found[name], want)
		}
	}
	// The kept page is somebody else's from now on.
	if report := write(t, dir, site("index.html", "home")); report.Kept != nil {
		t.Errorf("the next report keeps %q", report.Kept)
	}
}

// TestWriteRefuses checks that nothing changes where Write cannot go on.
func TestWriteRefuses(t *testing.T) {
	tests := []struct {
		name   string
		before func(t *testing.T, dir string)
		files  map[string][]byte
		want   string
	}{
		{"a folder of somebody else", func(t *testing.T, dir string) { plant(t, dir, "thesis.txt", "years") }, site("index.html", "x"), "not empty"},
		{"a file of somebody else", func(t *testing.T, dir string) {
			write(t, dir, site("index.html", "home"))
			plant(t, dir, "about.html", "mine")
		}, site("about.html", "ours", "index.html", "new"), `"about.html" is in the way`},
		{"a file where a folder shall be", func(t *testing.T, dir string) {
			write(t, dir, site("index.html", "home"))
			plant(t, dir, "entries", "mine")
		}, site("entries/a.html", "ours"), `"entries" is in the way`},
		{"a folder of somebody else where a page shall be", func(t *testing.T, dir string) {
			write(t, dir, site("index.html", "home"))
			plant(t, dir, "about.html/note", "mine")
		}, site("about.html", "ours"), `"about.html/note" is in the way`},
		{"a link out of the site where a folder shall be", func(t *testing.T, dir string) {
			write(t, dir, site("index.html", "home"))
			if err := os.Symlink(t.TempDir(), filepath.Join(dir, "entries")); err != nil {
				t.Fatal(err)
			}
		}, site("entries/a.html", "ours"), `"entries" is in the way`},
		{"a list of another kind", func(t *testing.T, dir string) { plant(t, dir, listName, "pleopod site 2\n") }, site("a", "a"), "not a list that this version"},
		{"a broken list", func(t *testing.T, dir string) { plant(t, dir, listName, listTitle+"\n12 a\n") }, site("a", "a"), "cannot be read"},
		{"a list that leads out", func(t *testing.T, dir string) {
			plant(t, dir, listName, listTitle+"\n"+strings.Repeat("0", 64)+" ../../secret\n")
		}, site("a", "a"), "cannot be read"},
		{"a path that leads out", nil, site("../x", "x"), "not a path inside"},
		{"an absolute path", nil, site("/x", "x"), "not a path inside"},
		{"our own names", nil, site(listName, "x"), "keeps for itself"},
		{"a stream of another system", nil, site("a:b", "x"), "character"},
		{"two capitals", nil, site("A.html", "x", "a.html", "x"), "one file on some systems"},
		{"a file that is a folder", nil, site("a", "x", "a/b", "x"), "also a folder"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			dir := t.TempDir()
			if test.before != nil {
				test.before(t, dir)
			}
			before := tree(t, dir)
			_, err := Write(dir, Files(test.files))
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("Write: %v, want an error with %q", err, test.want)
			}
			if diff := cmp.Diff(before, tree(t, dir)); diff != "" {
				t.Errorf("folder (-before +after):\n%s", diff)
			}
		})
	}
}

// TestListIsDeterministic writes the same site in two orders of history.
func TestListIsDeterministic(t *testing.T) {
	one, two := t.TempDir(), t.TempDir()
	write(t, one, site("a.html", "a", "b/c.html", "c"))
	write(t, two, site("old.html", "x", "b/c.html", "y"))
	write(t, two, site("a.html", "a", "b/c.html", "c"))
	if diff := cmp.Diff(tree(t, one), tree(t, two)); diff != "" {
		t.Errorf("(-one +two):\n%s", diff)
	}
}

func openRoot(t testing.TB, dir string) *os.Root {
	t.Helper()
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { root.Close() })
	return root
}

// TestWriteEndsWithThePour breaks off while files are handed over: the folder stays as it was, even when it was not there.
func TestWriteEndsWithThePour(t *testing.T) {
	broken := errors.New("no ink")
	pour := func(put func(string, []byte) error) error {
		return errors.Join(put("index.html", []byte("new home")), put("z.html", []byte("z")), broken)
	}
	parent := t.TempDir()
	dir := filepath.Join(parent, "site")
	if _, err := Write(dir, pour); !errors.Is(err, broken) || strings.Contains(err.Error(), dir) {
		t.Errorf("Write into a new folder: %v, want only %q", err, broken)
	}
	if _, err := os.Lstat(dir); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("the new folder is there: %v", err)
	}
	write(t, dir, site("index.html", "home", "a.html", "a"))
	before := tree(t, dir)
	if _, err := Write(dir, pour); !errors.Is(err, broken) {
		t.Errorf("Write: %v, want %q", err, broken)
	}
	if diff := cmp.Diff(before, tree(t, dir)); diff != "" {
		t.Errorf("after the error (-before +after):\n%s", diff)
	}
}

// TestWriteTwice hands a file over twice, as two places that show one photo do, and two files under one name.
func TestWriteTwice(t *testing.T) {
	pour := func(second string) Pour {
		return func(put func(string, []byte) error) error {
			return errors.Join(put("photo.jpg", []byte("ruby")), put("photo.jpg", []byte(second)))
		}
	}
	if report, err := Write(t.TempDir(), pour("ruby")); err != nil || report.Written != 1 {
		t.Errorf("one file twice: %+v, %v", report, err)
	}
	if _, err := Write(t.TempDir(), pour("olive")); err == nil || !strings.Contains(err.Error(), `two files of the site are called "photo.jpg"`) {
		t.Errorf("two files under one name: %v", err)
	}
}
