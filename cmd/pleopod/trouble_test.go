package main

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"pleopod/theme/preview"
)

var pasted = flag.Int("pasted", 300, "entries that TestWatchOutlivesTrouble pastes at once; 10000 is the full run")

// TestWatchOutlivesTrouble goes through what happens to the folder of a keeper who has watch open all evening.
func TestWatchOutlivesTrouble(t *testing.T) {
	const day = "--as-of=2026-03-21"
	s := watch(t, smallJournal(t), time.Now, day)
	s.shows("diary/2026-03-14-first.html", "Ten of them.")

	// a large file is dropped in: told at its name, and the site stays
	s.write("entries/large.md", strings.Repeat("x", 20<<20))
	s.announces(`"where":"entries/large.md:1:1"`)
	s.shows("diary/2026-03-14-first.html", "Ten of them.")
	if err := os.Remove(filepath.Join(s.dir, "entries", "large.md")); err != nil {
		t.Fatal(err)
	}
	s.announces(`"mistakes":null`)

	// many files are pasted at once, none missed
	for i := range *pasted {
		s.write(fmt.Sprintf("entries/pasted/%05d.md", i),
			fmt.Sprintf("---\ndate: 2026-03-15\ntitle: Pasted %d\n---\nText.\n", i))
	}
	s.becomesClean(day)

	// the whole folder goes, and comes back
	s.announces(`"mistakes":null,"note":""`)
	if err := os.Rename(s.dir, s.dir+".away"); err != nil {
		t.Fatal(err)
	}
	s.announces(`"where":"the site"`)
	s.shows("diary/2026-03-14-first.html", "Ten of them.")
	if err := os.Rename(s.dir+".away", s.dir); err != nil {
		t.Fatal(err)
	}
	s.announces(`"mistakes":null`)
	s.write("entries/a.md", strings.Replace(stockedEntry, "Ten of", "Back again, ten of", 1))
	s.shows("diary/2026-03-14-first.html", "Back again")

	// it is deleted, with the site in it, and made anew
	s.becomesClean(day)
	if err := os.Rename(s.dir, filepath.Join(t.TempDir(), "deleted")); err != nil { // at once, as a file manager does
		t.Fatal(err)
	}
	s.announces(`"where":"the site"`)
	s.write("journal.yaml", smallSettings)
	s.write("entries/a.md", strings.Replace(stockedEntry, "Ten of", "Begun anew, ten of", 1))
	s.shows("diary/2026-03-14-first.html", "Begun anew")
	s.becomesClean(day)
}

// TestWatchIsPatient: an entry is half-written for an hour, over midnight. The site of the day before stays as
// it is until the entry is mended.
func TestWatchIsPatient(t *testing.T) {
	var now atomic.Pointer[time.Time]
	at := func(day, hour, minute int) {
		moment := time.Date(2026, 4, day, hour, minute, 0, 0, time.Local)
		now.Store(&moment)
	}
	at(1, 23, 15)
	s := watch(t, smallJournal(t), func() time.Time { return *now.Load() })
	s.shows("", "2026-04-01")
	s.until("the site is written", func() bool { return len(contentsOf(filepath.Join(s.dir, "published"))) > 10 })
	s.becomesClean("--as-of=2026-04-01")
	before := contentsOf(filepath.Join(s.dir, "published"))

	const half = "---\ndate: 2026-04-01\ntitle: An evening\nevents:\n  - counted: 9"
	s.write("entries/b.md", half)
	s.announces(`"where":"entries/b.md:1:1"`)
	for _, minute := range []int{35, 55} {
		at(1, 23, minute)
		s.write("entries/b.md", half+strings.Repeat("\n", minute))
		s.write("entries/a.md", stockedEntry+strings.Repeat("\nMore.\n", minute))
		s.until("it was looked at", func() bool {
			return strings.Contains(s.printed.String(),
				fmt.Sprintf("23:%d:00: ", minute))
		})
	}
	at(2, 0, 15)
	s.write("entries/b.md", half+" ")
	s.until("it was looked at", func() bool { return strings.Contains(s.printed.String(), "00:15:00: ") })
	s.announces(`"where":"entries/b.md:1:1"`)
	if diff := cmp.Diff(before, contentsOf(filepath.Join(s.dir, "published"))); diff != "" {
		t.Errorf("the site has changed in the meantime (-before +after):\n%s", diff)
	}
	s.write("entries/b.md", half+"\n---\nDone.\n")
	s.shows("diary/2026-04-01-an-evening.html", "Done.")
	s.shows("diary/2026-03-14-first.html", "More.")
	s.shows("", "2026-04-02")
	s.announces(`"mistakes":null`)
}

// mounted mounts a small file system in memory, or skips where that is not allowed.
func mounted(t *testing.T, options string) string {
	t.Helper()
	dir := t.TempDir()
	if out, err := exec.Command("mount", "-t", "tmpfs", "-o", options, "tmpfs", dir).CombinedOutput(); err != nil {
		t.Skipf("no file system can be mounted here: %v %s", err, out)
	}
	t.Cleanup(func() { _ = exec.Command("umount", "-l", dir).Run() })
	return dir
}

// TestWatchOnAReadOnlyDisk: the site cannot be saved, but be looked at.
func TestWatchOnAReadOnlyDisk(t *testing.T) {
	dir := mounted(t, "size=4m")
	if err := os.CopyFS(dir, os.DirFS(smallJournal(t))); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command("mount", "-o", "remount,ro", dir).CombinedOutput(); err != nil {
		t.Skipf("cannot be mounted again: %v %s", err, out)
	}
	s := watch(t, dir, time.Now, "--as-of", "2026-03-21")
	s.shows("diary/2026-03-14-first.html", "Ten of them.")
	s.announces("was not saved")
}

// TestWatchOnAFullDisk: the site is shown and says that it was not saved; what was saved stays whole; when there is room
// again it is saved.
func TestWatchOnAFullDisk(t *testing.T) {
	const day = "--as-of=2026-03-21"
	dir := mounted(t, "size=4m")
	if err := os.CopyFS(dir, os.DirFS(smallJournal(t))); err != nil {
		t.Fatal(err)
	}
	s := watch(t, dir, time.Now, day)
	s.shows("diary/2026-03-14-first.html", "Ten of them.")
	s.becomesClean(day)
	before := contentsOf(filepath.Join(dir, "published"))

	filler := filepath.Join(dir, ".filler")
	if err := os.WriteFile(filler, make([]byte, 8<<20), 0o644); !errors.Is(err, syscall.ENOSPC) {
		t.Fatalf("the disk is not full: %v", err)
	}
	s.write("entries/a.md", strings.Replace(stockedEntry, "Ten of", "No room for ten of", 1))
	s.announces("was not saved: ")
	s.announces("the disk is full")
	s.shows("diary/2026-03-14-first.html", "No room for ten of them.")
	if diff := cmp.Diff(before, contentsOf(filepath.Join(dir, "published"))); diff != "" {
		t.Errorf("the saved site has changed (-before +after):\n%s", diff)
	}
	if err := os.Remove(filler); err != nil {
		t.Fatal(err)
	}
	s.announces(`"note":""`)
	s.becomesClean(day)
}

// TestWatchForgetsNoChange: the folder is away just when a change is looked at. The change is read when it is back.
func TestWatchForgetsNoChange(t *testing.T) {
	s := &watching{TB: t, dir: smallJournal(t)}
	env := &environment{stderr: &lockedBuffer{}, stdout: &lockedBuffer{}, getenv: os.Getenv, now: time.Now}
	server := preview.New()
	w := newWatcher(&watchCommand{journalFlags: journalFlags{Journal: s.dir}}, env, filepath.Join(s.dir, "published"), server)
	shows := func(word string) bool {
		return strings.Contains(string(w.site["diary/2026-03-14-first.html"]), word)
	}
	w.publish(t.Context(), nil)
	if !shows("Ten of them.") {
		t.Fatal("the first site lacks its text")
	}
	s.write("entries/a.md", strings.Replace(stockedEntry, "Ten of", "Twelve of", 1))
	if err := os.Rename(s.dir, s.dir+".away"); err != nil {
		t.Fatal(err)
	}
	w.publish(t.Context(), []string{"entries/a.md"})
	if w.retry == nil {
		t.Error("it is not tried again")
	}
	w.tryAgain(t.Context())
	if said := env.stderr.(*lockedBuffer).String(); strings.Count(said, "cannot be opened") != 1 {
		t.Errorf("it said so not once: %s", said)
	}
	if err := os.Rename(s.dir+".away", s.dir); err != nil {
		t.Fatal(err)
	}
	w.tryAgain(t.Context())
	if !shows("Twelve of them.") || w.retry != nil {
		t.Errorf("the change is lost: %s", w.site["diary/2026-03-14-first.html"])
	}
}

// TestWatchFollowsTheLook: a template outside of the journal is watched too.
func TestWatchFollowsTheLook(t *testing.T) {
	look := &watching{TB: t, dir: t.TempDir()}
	look.write("page/cautions.tmpl", `{{define "sheet"}}<h1>Take care</h1>{{end}}`)
	s := watch(t, smallJournal(t), time.Now, "--look", look.dir)
	s.shows("cautions.html", "<h1>Take care</h1>")
	look.write("page/cautions.tmpl", `{{define "sheet"}}<h1>Keep the lid on</h1>{{end}}`)
	s.shows("cautions.html", "<h1>Keep the lid on</h1>")
}

// TestPublishOnAFullDiskKeepsTheOldSite: the old site stays whole, and the error says why.
func TestPublishOnAFullDiskKeepsTheOldSite(t *testing.T) {
	disk, journalFolder := mounted(t, "size=1m"), smallJournal(t)
	out := filepath.Join(disk, "site")
	publish := func() (int, string) {
		printed := &lockedBuffer{}
		env := &environment{stdout: printed, stderr: printed, getenv: os.Getenv, now: time.Now}
		return run(t.Context(), []string{"publish", journalFolder, "--out", out, "--as-of", "2026-03-21"}, env),
			printed.String()
	}
	if code, text := publish(); code != exitDone {
		t.Fatal(text)
	}
	before := contentsOf(out)
	filler := strings.Repeat("Words and words. ", 50_000)
	s := &watching{TB: t, dir: journalFolder}
	s.write("entries/b.md", "---\ndate: 2026-03-15\n---\n"+filler)
	code, text := publish()
	if code != exitMistakes || !strings.Contains(text, "the disk is full") {
		t.Errorf("%d %s", code, text)
	}
	after := contentsOf(out)
	for name, content := range before {
		if !strings.HasPrefix(name, ".") && string(after[name]) != string(content) {
			t.Errorf("%s has changed", name)
		}
	}
}
