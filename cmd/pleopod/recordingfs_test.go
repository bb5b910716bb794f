package main

import (
	"io"
	"io/fs"
	"testing"
	"testing/fstest"
	"time"
)

// TestAFolderThatChangedAnswersOtherwise asks a folder everything, and changes one thing after the other.
func TestAFolderThatChangedAnswersOtherwise(t *testing.T) {
	folder := func() fstest.MapFS {
		return fstest.MapFS{
			"a.md":     {Data: []byte("ten at last")},
			"long":     {Data: []byte("a head and a tail")},
			"link":     {Data: []byte("a.md"), Mode: fs.ModeSymlink},
			"sub/b.md": {Data: []byte("b")},
		}
	}
	files := folder()
	r := newRecordingFS(files)
	_, _ = fs.ReadFile(r, "a.md")
	_, _ = fs.ReadFile(r, "absent")
	_, _ = r.ReadLink("link")
	_, _ = r.Stat("link")
	entries, _ := r.ReadDir("sub")
	_, _ = entries[0].Info()
	long, err := r.Open("long")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := io.ReadFull(long, make([]byte, 6)); err != nil {
		t.Fatal(err)
	}
	if err := long.Close(); err != nil {
		t.Fatal(err)
	}
	if !newRecordingFS(folder()).stillAnswers(r.answers) {
		t.Error("the same folder is not confirmed")
	}
	tests := map[string]struct {
		change   func(fstest.MapFS)
		confirms bool
	}{
		"a text of the same length":   {func(f fstest.MapFS) { f["a.md"].Data = []byte("ten at dusk") }, false},
		"a longer text":               {func(f fstest.MapFS) { f["a.md"].Data = []byte("ten at last!") }, false},
		"a file where there was none": {func(f fstest.MapFS) { f["absent"] = &fstest.MapFile{} }, false},
		"where a link leads":          {func(f fstest.MapFS) { f["link"].Data = []byte("long") }, false},
		"a new file in a list":        {func(f fstest.MapFS) { f["sub/c.md"] = &fstest.MapFile{} }, false},
		"a new kind in a list":        {func(f fstest.MapFS) { f["sub/b.md"].Mode = fs.ModeSymlink }, false},
		"a size that was asked for":   {func(f fstest.MapFS) { f["sub/b.md"].Data = []byte("bb") }, false},
		"the head of a file":          {func(f fstest.MapFS) { f["long"].Data = []byte("A head and a tail") }, false},
		"its tail, never read":        {func(f fstest.MapFS) { f["long"].Data = []byte("a head and a TAIL") }, true},
		"a file gone":                 {func(f fstest.MapFS) { delete(f, "a.md") }, false},
		"a time":                      {func(f fstest.MapFS) { f["a.md"].ModTime = time.Unix(9, 0) }, true},
		"a file that was not read":    {func(f fstest.MapFS) { f["new"] = &fstest.MapFile{} }, true},
	}
	for name, test := range tests {
		changed := folder()
		test.change(changed)
		if got := newRecordingFS(changed).stillAnswers(r.answers); got != test.confirms {
			t.Errorf("%s changed: confirmed %v", name, got)
		}
	}
	files["a.md"].Data = []byte("another")
	_, _ = fs.ReadFile(r, "a.md")
	if newRecordingFS(files).stillAnswers(r.answers) || newRecordingFS(folder()).stillAnswers(r.answers) {
		t.Error("a file that changed while it was read is confirmed")
	}
}
