package journal

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
)

// TestEntriesThatAreNotRead lays entries under other names and in other places, beside files that are none.
func TestEntriesThatAreNotRead(t *testing.T) {
	entry := &fstest.MapFile{Data: []byte("\ufeff---\r\ntank: shelf\r\ndate: 2026-03-14\r\n---\r\n")}
	fsys := showing()
	for _, name := range []string{"entries/b.md.txt", "entries/2026/c.TXT", "entries/d", "entries/e.markdown", "entries/.f.txt", "entries/g.MD", "h.md", "entrys/i.md", "photos/j.md", "published/k.md", ".trash/l.md", "a/b/m.md"} {
		fsys[name] = entry
	}
	for _, name := range []string{"entries/notes.txt", "read-me.md", "photos/list.md"} {
		fsys[name] = &fstest.MapFile{Data: []byte("# Notes\n\ndate: 2026-03-14\n---\n")}
	}
	const says = ":1:1 not-read: warning: this entry is not read, because "
	want := "entries/2026/c.TXT" + says + `the name of its file does not end in .md | rename it to "entries/2026/c.md"
entries/b.md.txt` + says + `the name of its file does not end in .md | rename it to "entries/b.md"
entries/d` + says + `the name of its file does not end in .md | rename it to "entries/d.md"
entries/e.markdown` + says + `the name of its file does not end in .md | rename it to "entries/e.md"
`
	read := Read(fsys)
	if diff := cmp.Diff(want, told(read)); diff != "" {
		t.Errorf("among the entries (-want +got):\n%s", diff)
	}
	want = "entrys/i.md" + says + `it lies outside the folder entries | move it to "entries/i.md"
h.md` + says + `it lies outside the folder entries | move it to "entries/h.md"
photos/j.md` + says + `it lies outside the folder entries | move it to "entries/j.md"
`
	read.Problems = Misplaced(fsys)
	SortProblems(read.Problems)
	if diff := cmp.Diff(want, told(read)); diff != "" {
		t.Errorf("elsewhere (-want +got):\n%s", diff)
	}
}

func TestSettingsUnderAnotherName(t *testing.T) {
	for _, name := range []string{"journal.yml", "journal.yaml.txt", "Journal.yaml"} {
		problems := Read(fstest.MapFS{name: {Data: []byte("title: T\n")}}).Problems
		want := `1:1 no-journal: there is no journal.yaml in this folder | rename "` + name + `" to journal.yaml`
		if got := strings.TrimSpace(briefs(problems)); got != want {
			t.Errorf("%s: got %s, want %s", name, got, want)
		}
	}
}

// TestPicturesThatStayText holds pictures that Markdown takes for words, and code that shows how to write one.
func TestPicturesThatStayText(t *testing.T) {
	got := told(Read(showing(
		"Her ![Ruby](../photos/my photo.jpg) and ![Pearl] (../photos/pearl.HEIC), *both ![x](a b.png)*.",
		"",
		"`![Ruby](../photos/my photo.jpg)` [a link](a.md) [x] ![a](no picture) \\![b](c d.jpg)",
		"",
		"    ![Ruby](../photos/my photo.jpg)",
		"",
		"~~~", "![Ruby](../photos/my photo.jpg)", "~~~")))
	const says = " not-shown: warning: a space keeps this picture from being shown | write "
	want := "entries/a.md:4:5" + says + "![Ruby](<../photos/my photo.jpg>)\n" +
		"entries/a.md:4:41" + says + "![Pearl](../photos/pearl.HEIC)\n" +
		"entries/a.md:4:80" + says + "![x](<a b.png>)\n"
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestDocumentWithFonts(t *testing.T) {
	_, problems := ParseEntry("e.md", []byte(`{\rtf1\ansi ---\par date: 2026-03-14\par ---}`), nil)
	want := "1:1 front-matter: this is a document with fonts, not plain text | in its editor choose plain text as the format, and save it again"
	if got := strings.TrimSpace(briefs(problems)); got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}
