package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

var (
	stormEdits   = flag.Int("storm", 30, "random edits that watch must follow")
	stormEntries = flag.Int("storm-entries", 60, "entries of the journal that is edited")
)

// storm edits a journal at random, as editors, file managers and version control do.
type storm struct {
	*watching
	random *rand.Rand
	count  int
}

// styles are the ways in which files are saved.
var styles = []struct {
	name string
	save func(s *storm, file string)
}{
	{"write", func(s *storm, file string) { s.put(file, s.edited(file)) }},
	{"rename", func(s *storm, file string) {
		draft := filepath.Join(filepath.Dir(file), ".draft.tmp")
		s.put(draft, s.edited(file))
		s.rename(draft, file)
	}},
	{"swap", func(s *storm, file string) { // a swap file, a probe, the old file kept aside until the new one stands
		text := s.edited(file)
		s.put(file+".swp", nil)
		s.put(filepath.Join(filepath.Dir(file), "4913"), nil)
		s.remove(filepath.Join(filepath.Dir(file), "4913"))
		s.rename(file, file+"~")
		s.put(file, text)
		s.remove(file + "~")
		s.remove(file + ".swp")
	}},
	{"delete", func(s *storm, file string) {
		if !s.ofBrood(file) {
			s.remove(file)
		}
	}},
	{"move", func(s *storm, file string) {
		to := filepath.Join(s.dir, "entries", fmt.Sprintf("moved-%d", s.random.IntN(5)), fmt.Sprintf("%d.md", s.count))
		if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
			s.Fatal(err)
		}
		s.rename(file, to)
	}},
	{"checkout", func(s *storm, _ string) { // many files are removed and made again
		files := s.entries()
		for range min(len(files)/3, 500) {
			file := files[s.random.IntN(len(files))]
			text := s.edited(file)
			s.remove(file)
			s.put(file, text)
		}
	}},
}

func (s *storm) put(file string, text []byte) {
	if err := os.WriteFile(file, text, 0o644); err != nil {
		s.Fatal(err)
	}
}

func (s *storm) rename(from, to string) {
	if err := os.Rename(from, to); err != nil {
		s.Fatal(err)
	}
}

func (s *storm) remove(file string) {
	if err := os.Remove(file); err != nil {
		s.Fatal(err)
	}
}

// entries returns the files of the entries, in order.
func (s *storm) entries() []string {
	var files []string
	err := filepath.WalkDir(filepath.Join(s.dir, "entries"), func(name string, d fs.DirEntry, err error) error {
		if err == nil && strings.HasSuffix(name, ".md") {
			files = append(files, name)
		}
		return err
	})
	if err != nil {
		s.Fatal(err)
	}
	return files
}

// edited returns the text of an entry with another ending, now and then with an event or a mistake.
func (s *storm) edited(file string) []byte {
	text, err := os.ReadFile(file)
	if err != nil {
		s.Fatal(err)
	}
	s.count++
	text, _, _ = bytes.Cut(text, []byte("\nEdit "))
	text = bytes.Replace(text, []byte("datte:"), []byte("date:"), 1)
	text = fmt.Appendf(text, "\nEdit %d.\n", s.count)
	switch s.random.IntN(20) {
	case 0:
		return bytes.Replace(text, []byte("date:"), []byte("datte:"), 1)
	case 1:
		return bytes.Replace(text, []byte("moulted: 1"), []byte("moulted: 2"), 1)
	case 2:
		return bytes.Replace(text, []byte("method: glance"), []byte("method: careful"), 1)
	}
	return text
}

// ofBrood reports whether an entry is about a brood: without its beginning the rest would be a mistake.
func (s *storm) ofBrood(file string) bool {
	text, err := os.ReadFile(file)
	if err != nil {
		s.Fatal(err)
	}
	return bytes.Contains(text, []byte("brood: "))
}

// calm mends every mistake that the storm has left.
func (s *storm) calm() {
	for _, file := range s.entries() {
		text, err := os.ReadFile(file)
		if err != nil {
			s.Fatal(err)
		}
		if mended := bytes.Replace(text, []byte("datte:"), []byte("date:"), 1); !bytes.Equal(mended, text) {
			s.put(file, mended)
		}
	}
}

// TestStorm: after any number of edits the site is the one of a clean publish. Run with -storm 1000 -storm-entries 5000
// for the full test.
func TestStorm(t *testing.T) {
	edits := *stormEdits
	if testing.Short() {
		edits = min(edits, 12) // two of each style
	}
	for name, flags := range map[string][]string{"notified": nil, "polled": {"--poll"}} {
		t.Run(name, func(t *testing.T) {
			s := &storm{random: rand.New(rand.NewPCG(1, 2))}
			s.watching = watch(t, inventJournal(t, *stormEntries), time.Now, append(flags, "--timings")...)
			s.shows("", "An invented journal")
			counts := s.rage(edits)
			s.calm()
			s.becomesClean()
			drawn := strings.Count(s.printed.String(), "  draw the others\n")
			t.Logf("edits %v; the site was drawn %d times meanwhile", counts, drawn)
			if drawn <= edits/20 {
				t.Error("there were hardly any sites without a mistake, so this shows little")
			}
		})
	}
}

// rage edits so many times, in one style after the other, and mends what is wrong now and then. It returns how often in
// which style.
func (s *storm) rage(edits int) map[string]int {
	counts := map[string]int{}
	for n := range edits {
		style := styles[n%len(styles)]
		if files := s.entries(); len(files) > 10 {
			style.save(s, files[s.random.IntN(len(files))])
			counts[style.name]++
		}
		if n%3 == 0 {
			s.calm()
		}
		time.Sleep(time.Duration(s.random.IntN(200)) * time.Millisecond)
	}
	return counts
}

// becomesClean waits until the published site is the one that a clean publish of the journal gives.
func (s *watching) becomesClean(flags ...string) {
	s.Helper()
	clean := filepath.Join(s.TempDir(), "clean")
	env := &environment{stdout: io.Discard, stderr: s.printed, getenv: func(string) string { return "" }, now: time.Now}
	if code := run(context.Background(), append([]string{"publish", s.dir, "--out", clean}, flags...), env); code != exitDone {
		s.Fatalf("clean publish: %d\n%s", code, s.printed)
	}
	different := []string{"?"}
	for deadline := time.Now().Add(2 * time.Minute); len(different) > 0 && time.Now().Before(deadline); time.Sleep(200 * time.Millisecond) {
		different = differences(s.TB, clean, filepath.Join(s.dir, "published"))
	}
	if len(different) > 0 {
		s.Errorf("the site of watch differs from a clean one in %d files, such as %s", len(different), different[0])
	}
}

// differences returns the files of two sites that are not the same.
func differences(tb testing.TB, a, b string) []string {
	tb.Helper()
	one, other := contentsOf(a), contentsOf(b)
	var names []string
	for name, text := range one {
		if found, ok := other[name]; !ok || !bytes.Equal(found, text) {
			names = append(names, name)
		}
	}
	for name := range other {
		if _, ok := one[name]; !ok {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return names
}

// contentsOf reads what it can of a folder, without the names that a site keeps for itself while it is written.
func contentsOf(dir string) map[string][]byte {
	files := map[string][]byte{}
	root := os.DirFS(dir)
	_ = fs.WalkDir(root, ".", func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			files[name], _ = fs.ReadFile(root, name)
		}
		return nil
	})
	return files
}
