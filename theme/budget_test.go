package theme

import (
	"bytes"
	"compress/gzip"
	"testing"
)

// packed is the size of a text as it travels.
func packed(t *testing.T, text []byte) int {
	t.Helper()
	var out bytes.Buffer
	w := gzip.NewWriter(&out)
	if _, err := w.Write(text); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Len()
}

// What a reader's phone loads stays small: sizes in bytes, packed with gzip.
func TestSizes(t *testing.T) {
	s := site(t, "full")
	for name, most := range map[string]int{"style.css": 12_000, "script.js": 8_000} {
		if got := packed(t, s.Files[name]); got >= most || got < 1000 {
			t.Errorf("%s has %d bytes, at most %d are allowed", name, got, most)
		}
	}
	first := 0
	for _, name := range []string{"index.html", "style.css", "script.js", "icon.svg"} {
		first += packed(t, s.Files[name])
	}
	if first >= 60_000 {
		t.Errorf("the first page has %d bytes with all that it loads, at most 60000 are allowed", first)
	}
	for name, text := range s.Files {
		if got := packed(t, text); len(name) > 5 && name[len(name)-5:] == ".html" && got > 60_000 {
			t.Errorf("%s has %d bytes", name, got)
		}
	}
}
