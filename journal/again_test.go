package journal_test

import (
	"fmt"
	"io/fs"
	"sync"
	"testing"
	"testing/fstest"

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
	second := reader.ReadChanged(files, []string{"entries/b.md", "entries/c.md", "entries/gone.md"})
	if files.times["entries/a.md"] != 0 || files.times["entries/b.md"] != 1 || files.times["entries/d.md"] != 1 {
		t.Errorf("opened %v", files.times)
	}
	if len(second.Entries) != 3 || second.Entries[0] != first.Entries[0] || second.Entries[1].Text == first.Entries[1].Text || len(second.Problems) != 1 {
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
