//go:build unix

package main

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"
)

// TestWatchWithoutPermission runs as a user for whom permissions hold.
func TestWatchWithoutPermission(t *testing.T) {
	if os.Geteuid() == 0 {
		if err := syscall.Seteuid(65534); err != nil {
			t.Skipf("SKIPPED, NOT TESTED: permissions do not hold for this user: %v", err)
		}
		t.Cleanup(func() {
			if err := syscall.Seteuid(0); err != nil {
				t.Fatal(err)
			}
		})
	}
	s := watch(t, smallJournal(t), time.Now, "--as-of", "2026-03-21")
	s.shows("diary/2026-03-14-first.html", "Ten of them.")
	for _, name := range []string{"entries/a.md", "entries", "journal.yaml"} {
		file := filepath.Join(s.dir, name)
		info, err := os.Stat(file)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.Chmod(file, 0); err != nil {
			t.Fatal(err)
		}
		s.announces("permission denied")
		s.shows("diary/2026-03-14-first.html", "Ten of them.")
		if err := os.Chmod(file, info.Mode()); err != nil {
			t.Fatal(err)
		}
		s.announces(`"mistakes":null`)
	}
}
