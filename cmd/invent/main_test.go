package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pleopod/journal"
)

// TestAnInventedJournalHasNoMistake holds also that nobody's folder is written over.
func TestAnInventedJournalHasNoMistake(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "made")
	if err := run([]string{"40", dir}); err != nil {
		t.Fatal(err)
	}
	j := journal.Read(os.DirFS(dir))
	if len(j.Entries) != 40 || len(j.Problems) > 0 {
		t.Errorf("%d entries and %v, want 40 without a problem", len(j.Entries), j.Problems)
	}
	for _, row := range []struct {
		args []string
		want string
	}{
		{[]string{"40", dir}, "is not empty"}, {[]string{"0", dir + "2"}, "no number of entries"}, {[]string{"many", dir + "2"}, "no number of entries"}, {[]string{"40"}, "usage"},
	} {
		if err := run(row.args); err == nil || !strings.Contains(err.Error(), row.want) {
			t.Errorf("invent %v: %v, want %q", row.args, err, row.want)
		}
	}
	if _, err := os.Stat(dir + "2"); err == nil {
		t.Error("a refused run left a folder")
	}
}
