package journal_test

import (
	"fmt"
	"io/fs"
	"maps"
	"sync"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"pleopod/journal"
)

// opened counts how often each file of a folder is opened. The reader opens several at once.
type opened struct {
	fstest.MapFS
	lock  *sync.Mutex
	times map[string]int
}

func (o opened) Open(name string) (fs.File, error) {
	o.lock.Lock()
	o.times[name]++
	o.lock.Unlock()
	return o.MapFS.Open(name)
}

func TestReaderOpensOnlyWhatMayHaveChanged(t *testing.T) {
	entry := func(n int) *fstest.MapFile {
		return &fstest.MapFile{Data: fmt.Appendf(nil, "---\ndate: 2026-03-14\n---\nText %d.\n", n)}
	}
	files := opened{fstest.MapFS{
		"journal.yaml": {Data: []byte("title: A\naddress: https://example.org/\ntanks: {north: {volume: 30 L}}\n")},
		"entries/a.md": entry(1), "entries/b.md": entry(2), "entries/c.md": entry(3),
	}, new(sync.Mutex), map[string]int{}}
	var reader journal.Reader
	first := reader.Read(files)
	if len(first.Entries) != 3 {
		t.Fatalf("%d entries, %v", len(first.Entries), first.Problems)
	}
	clear(files.times)

	files.MapFS["entries/b.md"] = entry(20)
	files.MapFS["entries/c.md"] = &fstest.MapFile{Data: []byte("---\ndate: nonsense\n---\n")}
	files.MapFS["entries/d.md"] = entry(4)
	second := reader.ReadChanged(files, []string{"entries/b.md", "entries/c.md", "entries/d.md", "entries/gone.md"})
	if files.times["entries/a.md"] != 0 || files.times["entries/b.md"] != 1 || files.times["entries/d.md"] != 1 {
		t.Errorf("opened %v", files.times)
	}
	if len(second.Entries) != 3 || second.Entries[0] != first.Entries[0] || second.Entries[1].Reading() == first.Entries[1].Reading() || len(second.Problems) != 1 {
		t.Errorf("%d entries, %v", len(second.Entries), second.Problems)
	}
	clear(files.times)

	// the problem of a file that did not change is told again, and Read trusts nobody
	if third := reader.ReadChanged(files, nil); len(third.Problems) != 1 || files.times["entries/c.md"] != 0 {
		t.Errorf("opened %v, problems %v", files.times, third.Problems)
	}
	files.MapFS["entries/a.md"] = entry(10)
	if fourth := reader.Read(files); fourth.Entries[0] == first.Entries[0] {
		t.Error("a changed file was not read")
	}
	// another journal.yaml may change what every entry means
	files.MapFS["journal.yaml"] = &fstest.MapFile{Data: []byte("title: A\naddress: https://example.org/\ntanks: {south: {volume: 30 L}}\n")}
	if fifth := reader.ReadChanged(files, []string{"journal.yaml"}); fifth.Entries[1] == second.Entries[1] {
		t.Error("entries were kept under other settings")
	}
}

// TestReadChangedReadsWhatReadReads lets files of every kind come, change and go. A Reader that is told which must find
// what one that looks everywhere finds.
func TestReadChangedReadsWhatReadReads(t *testing.T) {
	contents := []*fstest.MapFile{
		nil, // no such file
		{Data: []byte("---\ndate: 2026-03-14\n---\nOne. ![It](../photos/a.png)\n")},
		{Data: []byte("---\ndate: 2026-03-15\ntank: norht\n---\nTwo. [One](a.md)\n")},
		{Data: []byte("\x89PNG\r\n\x1a\n")},
		{Data: []byte("../notes.txt"), Mode: fs.ModeSymlink},
		{Data: make([]byte, 2<<20)}, // too large for an entry
	}
	names := rapid.SampledFrom([]string{"entries/a.md", "entries/2026/b.md", "entries/.c.md", "entries/.bin/d.md", "entries/a.png",
		"photos/a.png", "photos/b.md", "readings/log.csv", "entries/2026/sub/e.md"})
	rapid.Check(t, func(t *rapid.T) {
		files := fstest.MapFS{"notes.txt": {Data: []byte("Buy moss.\n")}, "journal.yaml": {Data: []byte("title: A\ntanks: {north: {volume: 30 L, temperature-log: readings/log.csv}}\n")}}
		var reader journal.Reader
		reader.Read(files)
		for range rapid.IntRange(1, 6).Draw(t, "saves") {
			changed := rapid.SliceOfNDistinct(names, 0, 4, rapid.ID).Draw(t, "changed")
			for _, name := range changed {
				if content := contents[rapid.IntRange(0, len(contents)-1).Draw(t, "content")]; content != nil {
					files[name] = content
				} else {
					delete(files, name)
				}
			}
			got, want := reader.ReadChanged(files, changed), journal.Read(maps.Clone(files))
			if diff := cmp.Diff(want.Problems, got.Problems); diff != "" {
				t.Fatalf("problems (-anew +changed):\n%s", diff)
			}
			if diff := cmp.Diff(paths(want), paths(got)); diff != "" {
				t.Fatalf("entries (-anew +changed):\n%s", diff)
			}
		}
	})
}

func paths(j *journal.Journal) (all []string) {
	for _, e := range j.Entries {
		all = append(all, e.Path+" "+string(e.Source))
	}
	return all
}
