package theme

import (
	"cmp"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"testing/fstest"

	"pleopod/journal"
)

func sortEntries(j *journal.Journal) {
	slices.SortStableFunc(j.Entries, func(a, b *journal.Entry) int {
		return cmp.Or(cmp.Compare(a.Date, b.Date), cmp.Compare(a.Path, b.Path))
	})
}

func TestDraw(t *testing.T) {
	site, err := Draw(fullYear(t).forecast("2026-04-01"), fstest.MapFS{}, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if dir := os.Getenv("THEME_OUT"); dir != "" {
		for name, text := range site.Files {
			path := filepath.Join(dir, name)
			_ = os.MkdirAll(filepath.Dir(path), 0o755)
			if err := os.WriteFile(path, text, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}
