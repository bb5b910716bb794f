package saves

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"sync/atomic"
	"testing"
	"time"
)

// story watches a folder while do changes it, and returns everything that was told.
type story struct {
	t       *testing.T
	dir     string
	changes <-chan []string
}

// begin watches a folder that holds the files.
func begin(t *testing.T, options Options, files ...string) *story {
	t.Helper()
	s := prepare(t, files...)
	s.watch(options)
	return s
}

func prepare(t *testing.T, files ...string) *story {
	t.Helper()
	s := &story{t: t, dir: filepath.Join(t.TempDir(), "journal")}
	for _, name := range files {
		s.write(name, "first")
	}
	return s
}

func (s *story) watch(options Options) {
	if options.Rescan == 0 {
		options.Rescan = 300 * time.Millisecond
	}
	ctx, stop := context.WithCancel(s.t.Context())
	s.t.Cleanup(stop)
	s.changes = Watch(ctx, s.dir, options)
}

func (s *story) write(name, text string) {
	s.t.Helper()
	full := filepath.Join(s.dir, filepath.FromSlash(name))
	if err := os.MkdirAll(filepath.Dir(full), 0o755); err != nil {
		s.t.Fatal(err)
	}
	if err := os.WriteFile(full, []byte(text), 0o644); err != nil {
		s.t.Fatal(err)
	}
}

// told waits until every wanted path has been told, and fails when one is missing after five seconds.
func (s *story) told(want ...string) {
	s.t.Helper()
	missing := slices.Clone(want)
	deadline := time.After(5 * time.Second)
	for len(missing) > 0 {
		select {
		case changed := <-s.changes:
			missing = slices.DeleteFunc(missing, func(name string) bool { return slices.Contains(changed, name) })
		case <-deadline:
			s.t.Fatalf("never told of %q", missing)
		}
	}
}

// silent fails when anything is told within a moment.
func (s *story) silent() {
	s.t.Helper()
	select {
	case changed := <-s.changes:
		s.t.Fatalf("told of %q", changed)
	case <-time.After(700 * time.Millisecond):
	}
}

// notifiedOnly leaves what notifications miss untold: the rescan would come in an hour.
var notifiedOnly = Options{Rescan: time.Hour}

func TestEveryWayOfSavingIsTold(t *testing.T) {
	for name, options := range map[string]Options{"notified": notifiedOnly, "polled": {Poll: true}} {
		t.Run(name, func(t *testing.T) {
			s := begin(t, options, "journal.yaml", "entries/a.md")
			s.write("entries/a.md", "second text")
			s.told("entries/a.md")

			s.write("entries/.a.md.new", "third")
			s.rename("entries/.a.md.new", "entries/a.md")
			s.told("entries/a.md")

			s.write("entries/deep/er/b.md", "new folders")
			s.told("entries/deep/er/b.md")
			s.write("entries/deep/er/c.md", "into a folder made a moment ago")
			s.told("entries/deep/er/c.md")

			s.write("entries/a.md", "older") // as from a copy that was kept aside, or with a clock that was set back
			s.date("entries/a.md", time.Date(2001, 1, 1, 0, 0, 0, 1, time.UTC))
			s.told("entries/a.md")
			s.write("entries/a.md", "still")
			s.date("entries/a.md", time.Date(2000, 1, 1, 0, 0, 0, 1, time.UTC))
			s.told("entries/a.md")

			s.rename("entries/deep", "entries/renamed")
			s.told("entries/deep/er/b.md", "entries/renamed/er/b.md")
			s.write("entries/renamed/er/b.md", "in the renamed folder")
			s.told("entries/renamed/er/b.md")

			if err := os.Remove(filepath.Join(s.dir, "entries", "a.md")); err != nil {
				t.Fatal(err)
			}
			s.told("entries/a.md")
		})
	}
}

func (s *story) rename(from, to string) {
	s.t.Helper()
	if err := os.Rename(filepath.Join(s.dir, filepath.FromSlash(from)), filepath.Join(s.dir, filepath.FromSlash(to))); err != nil {
		s.t.Fatal(err)
	}
}

// date sets the time of a file.
func (s *story) date(name string, at time.Time) {
	s.t.Helper()
	if err := os.Chtimes(filepath.Join(s.dir, filepath.FromSlash(name)), at, at); err != nil {
		s.t.Fatal(err)
	}
}

// TestSavedTwiceInOneSecond, on a disk that counts whole seconds, and to the same size: the second save is told too.
func TestSavedTwiceInOneSecond(t *testing.T) {
	s := begin(t, Options{}, "entries/a.md")
	second := time.Now().Truncate(time.Second).Add(time.Second) // not too long ago, however slow this machine is
	s.write("entries/a.md", "4 seen")
	s.date("entries/a.md", second)
	s.told("entries/a.md")
	s.write("entries/a.md", "5 seen")
	s.date("entries/a.md", second)
	s.told("entries/a.md")
}

// TestMoreEventsThanTheQueueHolds: while nobody asks for changes, more happens than the system remembers (16,384 events
// on Linux).
func TestMoreEventsThanTheQueueHolds(t *testing.T) {
	s := begin(t, notifiedOnly, "entries/a.md", "entries/b.md")
	s.write("entries/c.md", "a change that nobody asks for yet")
	time.Sleep(500 * time.Millisecond)
	var files [2]*os.File
	for i, name := range []string{"a.md", "b.md"} {
		file, err := os.OpenFile(filepath.Join(s.dir, "entries", name), os.O_WRONLY|os.O_APPEND, 0)
		if err != nil {
			t.Fatal(err)
		}
		defer file.Close()
		files[i] = file
	}
	for i := range 20_000 { // by turns, since the system counts equal events once
		if _, err := files[i%2].WriteString("x"); err != nil {
			t.Fatal(err)
		}
	}
	s.write("entries/last/d.md", "after the queue was full")
	s.told("entries/c.md", "entries/a.md", "entries/b.md", "entries/last/d.md")
	s.write("entries/last/d.md", "and after that")
	s.told("entries/last/d.md")
}

func TestFolderDeletedAndMadeAgain(t *testing.T) {
	s := begin(t, Options{}, "journal.yaml")
	if err := os.RemoveAll(s.dir); err != nil {
		t.Fatal(err)
	}
	s.told("journal.yaml")
	s.write("journal.yaml", "again")
	s.told("journal.yaml")
	s.write("entries/a.md", "and more")
	s.told("entries/a.md")
}

func TestWhatIsNoneOfTheJournalsBusiness(t *testing.T) {
	s := begin(t, Options{Skip: func(name string) bool { return name == "published" }}, "journal.yaml", "published/index.html")
	s.write("published/index.html", "written by us")
	s.write("published/new/page.html", "written by us")
	s.write(".git/index", "x")
	s.write("entries/a.md~", "x")
	s.write("entries/.a.md.swp", "x")
	s.silent()
}

func TestTruncatedThenWrittenIsToldOnceWhole(t *testing.T) {
	s := begin(t, Options{Quiet: 400 * time.Millisecond}, "entries/a.md")
	s.write("entries/a.md", "")
	time.Sleep(600 * time.Millisecond) // more than one quiet moment, less than two
	s.write("entries/a.md", "whole again")
	changed := <-s.changes
	text, err := os.ReadFile(filepath.Join(s.dir, changed[0]))
	if err != nil || string(text) != "whole again" {
		t.Fatalf("told of %q while it held %q, %v", changed, text, err)
	}
	s.silent()
}

// TestFileThatComesBetweenWalkAndWatch: into a new folder that was read already and is not yet watched.
func TestFileThatComesBetweenWalkAndWatch(t *testing.T) {
	var s *story
	var once sync.Once
	options := notifiedOnly
	options.Skip = func(name string) bool {
		if _, err := os.Stat(filepath.Join(s.dir, "entries", "new")); err == nil && name == "z.md" { // the last of the walk
			once.Do(func() { s.write("entries/new/late.md", "late") })
		}
		return false
	}
	s = prepare(t, "entries/a.md", "z.md")
	s.watch(options)
	s.write("entries/new/b.md", "the first in a new folder")
	s.told("entries/new/b.md", "entries/new/late.md")
}

// TestFolderMovedAway: what happens in it afterwards wakes nobody up.
func TestFolderMovedAway(t *testing.T) {
	var walked atomic.Int64
	options := notifiedOnly
	options.Skip = func(name string) bool {
		walked.Add(1)
		return false
	}
	s := begin(t, options, "entries/old/deep/a.md", "entries/b.md")
	away := filepath.Join(t.TempDir(), "old")
	if err := os.Rename(filepath.Join(s.dir, "entries", "old"), away); err != nil {
		t.Fatal(err)
	}
	s.told("entries/old/deep/a.md")
	s.silent()
	before := walked.Load()
	if err := os.WriteFile(filepath.Join(away, "deep", "a.md"), []byte("elsewhere"), 0o644); err != nil {
		t.Fatal(err)
	}
	s.silent()
	if after := walked.Load(); after != before {
		t.Errorf("the folder was walked again, %d names after %d", after, before)
	}
}

func TestManyFilesAtOnce(t *testing.T) {
	s := begin(t, notifiedOnly, "journal.yaml")
	var want []string
	for i := range 500 {
		name := fmt.Sprintf("entries/%d/%d.md", i%7, i)
		s.write(name, "x")
		want = append(want, name)
	}
	s.told(want...)
}

func TestEndsWithItsContext(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	changes := Watch(ctx, t.TempDir(), Options{})
	stop()
	if _, open := <-changes; open {
		t.Error("a change after the end")
	}
}
