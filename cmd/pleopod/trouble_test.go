package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"
)

// TestWatchOutlivesTrouble goes through what happens to the folder of a keeper who has watch open all evening.
func TestWatchOutlivesTrouble(t *testing.T) {
	s := watch(t, smallJournal(t), time.Now, "--as-of", "2026-03-21")
	s.shows("diary/2026-03-14-first.html", "Ten of them.")

	// a large file is dropped in: told at its name, and the site stays
	s.write("entries/large.md", strings.Repeat("x", 20<<20))
	s.told(`"where":"entries/large.md:1:1"`)
	s.shows("diary/2026-03-14-first.html", "Ten of them.")
	if err := os.Remove(filepath.Join(s.dir, "entries", "large.md")); err != nil {
		t.Fatal(err)
	}
	s.told(`"kind":"mistakes","version"`)

	// a thousand files are pasted at once, none missed
	for i := range 1000 {
		s.write(fmt.Sprintf("entries/pasted/%04d.md", i), fmt.Sprintf("---\ndate: 2026-03-15\ntitle: Pasted %d\n---\nText.\n", i))
	}
	s.shows("diary/2026-03-15-pasted-999.html", "Text.")
	s.shows("diary/2026.html", "Pasted 500")

	// the whole folder goes, and comes back
	if err := os.Rename(s.dir, s.dir+".away"); err != nil {
		t.Fatal(err)
	}
	s.told(`"where":"the site"`)
	if err := os.Rename(s.dir+".away", s.dir); err != nil {
		t.Fatal(err)
	}
	s.told(`"kind":"mistakes","version"`)
	s.write("entries/a.md", strings.Replace(stockedEntry, "Ten of", "Back again, ten of", 1))
	s.shows("diary/2026-03-14-first.html", "Back again")
}

// TestWatchWithoutPermission needs a user for whom permissions hold.
func TestWatchWithoutPermission(t *testing.T) {
	if os.Geteuid() == 0 || runtime.GOOS == "windows" {
		t.Skip("permissions do not hold for this user")
	}
	s := watch(t, smallJournal(t), time.Now, "--as-of", "2026-03-21")
	s.shows("", "Small")
	file := filepath.Join(s.dir, "entries", "a.md")
	if err := os.Chmod(file, 0); err != nil {
		t.Fatal(err)
	}
	s.told("permission denied")
	if err := os.Chmod(file, 0o644); err != nil {
		t.Fatal(err)
	}
	s.told(`"kind":"mistakes","version"`)
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
	s.told("was not saved")
}

// TestFullDisk: the old site stays whole, and the error says why.
func TestFullDisk(t *testing.T) {
	disk, journalFolder := mounted(t, "size=1m"), smallJournal(t)
	out := filepath.Join(disk, "site")
	publish := func() (int, string) {
		printed := &paper{}
		w := &world{stdout: printed, stderr: printed, getenv: os.Getenv, now: time.Now}
		return run(t.Context(), []string{"publish", journalFolder, "--out", out, "--as-of", "2026-03-21"}, w), printed.String()
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
