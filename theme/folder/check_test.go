package folder

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestCheck(t *testing.T) {
	base := t.TempDir()
	home := filepath.Join(base, "home", "keeper")
	journal := filepath.Join(home, "shrimp")
	for _, dir := range []string{"entries", "photos", "published"} {
		if err := os.MkdirAll(filepath.Join(journal, dir), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	t.Setenv("HOME", home)
	t.Setenv("USERPROFILE", home)
	made := filepath.Join(base, "made")
	write(t, made, site("index.html", "home"))
	plant(t, base, "full/thesis.txt", "years")
	plant(t, base, "file", "x")
	plant(t, made, "CNAME", "shrimp.example")
	link := func(name, to string) {
		if err := os.Symlink(to, filepath.Join(base, name)); err != nil {
			t.Fatal(err)
		}
	}
	link("link", made)
	link("way", journal)
	if err := os.Mkdir(filepath.Join(base, "void"), 0o755); err != nil {
		t.Fatal(err)
	}

	tests := []struct {
		dir  string
		want string // "" where the folder may be used
	}{
		{filepath.Join(base, "new"), ""},
		{filepath.Join(base, "new", "deep", "er"), ""},
		{filepath.Join(base, "void"), ""},
		{made, ""},
		{filepath.Join(journal, "published"), ""},
		{filepath.Join(journal, "published", "site"), ""},
		{filepath.Join(home, "site"), ""},
		{filepath.Join(base, "shrimp"), ""},
		{filepath.Join(home, "shrimp-site"), ""},
		{"", "no folder"},
		{filepath.Join(base, "full"), "not empty and was not made by pleopod"},
		{filepath.Join(base, "file"), "is a file"},
		{filepath.Join(base, "file", "site"), "cannot be looked at"},
		{filepath.Join(base, "link"), "symbolic link"},
		{filepath.VolumeName(base) + string(filepath.Separator), "root of a disk"},
		{home, "is your home folder"},
		{filepath.Join(home, "..", "keeper", "."), "is your home folder"},
		{filepath.Dir(home), "holds your home folder"},
		{journal, "the journal itself"},
		{filepath.Join(base, "way"), "symbolic link"},
		{filepath.Join(base, "way", "site"), "lies in the journal"},
		{filepath.Join(base, "way", "published"), ""},
		{filepath.Join(journal, "entries"), "lies in the journal"},
		{filepath.Join(journal, "new"), "lies in the journal"},
		{filepath.Join(journal, "published-too"), "lies in the journal"},
		{filepath.Join(journal, "published", "..", "entries"), "lies in the journal"},
		{filepath.Join(journal, "entries", "published"), "lies in the journal"},
	}
	for _, test := range tests {
		err := Check(test.dir, journal)
		switch {
		case test.want == "" && err != nil:
			t.Errorf("Check(%q): %v, want none", test.dir, err)
		case test.want != "" && (err == nil || !strings.Contains(err.Error(), test.want)):
			t.Errorf("Check(%q): %v, want an error with %q", test.dir, err, test.want)
		}
	}

	// The journal may lie outside the home folder, below the place of the site.
	if err := Check(filepath.Join(base, "outer"), filepath.Join(base, "outer", "journal")); err == nil || !strings.Contains(err.Error(), "holds the journal") {
		t.Errorf("a folder above the journal: %v", err)
	}
	if err := Check(filepath.Join(base, "new"), ""); err != nil {
		t.Errorf("without a journal: %v", err)
	}
}

// TestCheckPublishedLink makes the allowed folder a link to the entries, which must not be written to.
func TestCheckPublishedLink(t *testing.T) {
	journal := t.TempDir()
	if err := os.Mkdir(filepath.Join(journal, "entries"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("entries", filepath.Join(journal, "published")); err != nil {
		t.Fatal(err)
	}
	for _, dir := range []string{"published", "published/site"} {
		if err := Check(filepath.Join(journal, filepath.FromSlash(dir)), journal); err == nil {
			t.Errorf("Check(%q) allows a link into the journal", dir)
		}
	}
}

// TestCheckWithoutHome asks for a folder where no home is known.
func TestCheckWithoutHome(t *testing.T) {
	t.Setenv("HOME", "")
	t.Setenv("USERPROFILE", "")
	if err := Check(filepath.Join(t.TempDir(), "new"), ""); err != nil {
		t.Errorf("Check without a home folder: %v", err)
	}
}
