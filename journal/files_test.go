package journal

import (
	"bytes"
	"fmt"
	"hash/crc32"
	"image"
	"image/jpeg"
	"image/png"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
)

// picture returns a PNG of a size.
func picture(t testing.TB, width, height int) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := png.Encode(&out, image.NewGray(image.Rect(0, 0, width, height))); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// hugePNG is the header of a PNG of a size that was never drawn: the signature and the IHDR chunk of the PNG
// specification.
func hugePNG(width, height uint32) []byte {
	chunk := []byte("IHDR")
	for _, n := range []uint32{width, height} {
		chunk = append(chunk, byte(n>>24), byte(n>>16), byte(n>>8), byte(n))
	}
	chunk = append(chunk, 8, 0, 0, 0, 0)
	sum := crc32.ChecksumIEEE(chunk)
	out := append([]byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x0d"), chunk...)
	return append(out, byte(sum>>24), byte(sum>>16), byte(sum>>8), byte(sum))
}

// showing is a journal whose entry has some lines of text from line 4 on.
func showing(lines ...string) fstest.MapFS {
	return fstest.MapFS{
		"journal.yaml": {Data: []byte(titled + "tanks: {shelf: }\n")},
		"entries/a.md": {Data: []byte("---\ndate: 2026-03-14\n---\n" + strings.Join(lines, "\n") + "\n")},
	}
}

// told writes the problems of a journal one a line, with their files.
func told(journal *Journal) string {
	var out strings.Builder
	for _, p := range journal.Problems {
		fmt.Fprintf(&out, "%s:%s\n", p.File, brief(p))
	}
	return out.String()
}

func TestPhotos(t *testing.T) {
	fsys := showing("![Ruby](../photos/ruby.png) ![a b](<../photos/a b.jpg>) ![c](../photos/a%20b.jpg)", "",
		"![beside](beside.webp) ![far](https://example.org/x.png)",
		"![](../photos/none.png) ![x](../photos) ![x](../photos/huge.png) ![x](../photos/text.png) ![x](../photos/Ruby.png)", "![x](../../secret.png) ![x](/etc/passwd) ![x](..\\photos\\ruby.png) ![x](file:///etc/passwd) ![x](data:image/png;base64,x) ![x](.hidden.png)",
		"![heic](../photos/phone.jpg) ![gif](../photos/old.jpg)")
	var photo bytes.Buffer
	if err := jpeg.Encode(&photo, image.NewGray(image.Rect(0, 0, 40, 30)), nil); err != nil {
		t.Fatal(err)
	}
	fsys["photos/ruby.png"] = &fstest.MapFile{Data: picture(t, 12, 8)}
	fsys["photos/a b.jpg"] = &fstest.MapFile{Data: photo.Bytes()}
	// A lossless WebP of one pixel: container specification of WebP, written by hand.
	fsys["entries/beside.webp"] = &fstest.MapFile{Data: []byte("RIFF\x1a\x00\x00\x00WEBPVP8L\x0d\x00\x00\x00\x2f\x00\x00\x00\x10\x07\x10\x11\x11\x88\x88\xfe\x07\x00")}
	fsys["photos/huge.png"] = &fstest.MapFile{Data: hugePNG(10000, 6001)}
	fsys["photos/text.png"] = &fstest.MapFile{Data: []byte("no picture")}
	fsys["photos/spare.jpeg"] = &fstest.MapFile{Data: photo.Bytes()}
	fsys["photos/notes.txt"] = &fstest.MapFile{Data: []byte("ignored")}
	fsys["photos/phone.jpg"] = &fstest.MapFile{Data: []byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00")}
	fsys["photos/old.jpg"] = &fstest.MapFile{Data: []byte("GIF89a\x01\x00\x01\x00\x00\x00\x00")}
	fsys["photos/.trash/x.jpg"] = &fstest.MapFile{Data: photo.Bytes()}
	fsys["published/photos/x.jpg"] = &fstest.MapFile{Data: photo.Bytes()}
	journal := Read(fsys)
	want := `entries/a.md:7:1 no-alt: warning: the picture has no words for people who cannot see it | write them between the brackets: ![Ruby and her eggs](…)
entries/a.md:7:1 missing-file: there is no file "photos/none.png"
entries/a.md:7:25 not-a-file: "photos" is a folder; a file is needed
entries/a.md:7:41 photo-size: "photos/huge.png" has 61 megapixels; at most 60 are read | save a smaller copy
entries/a.md:7:66 not-a-picture: "photos/text.png" is not a JPEG, PNG or WebP picture
entries/a.md:7:91 missing-file: there is no file "photos/Ruby.png" | did you mean "../photos/ruby.png"?
entries/a.md:8:1 bad-path: "../../secret.png" is not inside the journal | copy the file into the journal, and write its path from the file that it stands in, such as ../photos/ruby.jpg
entries/a.md:8:24 bad-path: "/etc/passwd" is not inside the journal | write it from the file that it stands in, such as ../photos/ruby.jpg
entries/a.md:8:42 bad-path: "..\\photos\\ruby.png" has backslashes | write it with slashes: ../photos/ruby.png
entries/a.md:8:67 bad-path: "file:///etc/passwd" is not a path inside the journal | copy the file into the journal, and write its path from the file that it stands in, such as ../photos/ruby.jpg
entries/a.md:8:92 bad-path: "data:image/png;base64,x" is not a path inside the journal | copy the file into the journal, and write its path from the file that it stands in, such as ../photos/ruby.jpg
entries/a.md:8:122 bad-path: ".hidden.png" has a hidden part, ".hidden.png"
entries/a.md:9:1 not-a-picture: "photos/phone.jpg" is not a JPEG, PNG or WebP picture | it looks like a HEIC or AVIF picture of a phone; export it as JPEG
entries/a.md:9:30 not-a-picture: "photos/old.jpg" is not a JPEG, PNG or WebP picture | it is a GIF; save it as PNG or JPEG
photos/spare.jpeg:1:1 unused-photo: warning: no entry shows this picture, so it is not published
`
	if diff := cmp.Diff(want, told(journal)); diff != "" {
		t.Errorf("problems (-want +got):\n%s", diff)
	}
	photos := []Photo{{"entries/beside.webp", "webp", 1, 1}, {"photos/a b.jpg", "jpeg", 40, 30},
		{"photos/ruby.png", "png", 12, 8}}
	if diff := cmp.Diff(photos, journal.Photos); diff != "" {
		t.Errorf("photos (-want +got):\n%s", diff)
	}
	images := journal.Entries[0].Images
	if images[0].Path != "photos/ruby.png" || images[0].Alt != "Ruby" || images[0].Position.String() != "entries/a.md:4:1" {
		t.Errorf("first picture %+v", images[0])
	}
	if far := images[4]; far.Remote != "https://example.org/x.png" || far.Path != "" {
		t.Errorf("remote picture %+v", far)
	}
}

// TestLinks runs on a real folder, through a Root and through a file system that follows links out of it.
func TestLinks(t *testing.T) {
	dir, outside := t.TempDir(), t.TempDir()
	write := func(name string, data []byte) {
		t.Helper()
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	link := func(target, name string) {
		t.Helper()
		if err := os.Symlink(target, filepath.Join(dir, name)); err != nil {
			t.Skipf("this system makes no links: %v", err)
		}
	}
	for name, file := range showing("![a](../photos/inside.png) ![b](../photos/out.png) ![c](../photos/up.png) ![d](../photos/loop.png) ![e](../photos/folder/x.png) ![f](../photos/gone.png)") {
		write(filepath.Join(dir, name), file.Data)
	}
	write(filepath.Join(dir, "photos", "real.png"), picture(t, 3, 2))
	write(filepath.Join(outside, "x.png"), picture(t, 3, 2))
	write(filepath.Join(outside, "b.md"), []byte("---\ndate: 2026-03-15\n---\nsecret\n"))
	link("real.png", "photos/inside.png")
	link(filepath.Join(outside, "x.png"), "photos/out.png")
	link("../../"+filepath.Base(outside)+"/x.png", "photos/up.png")
	link("loop.png", "photos/loop.png")
	link(outside, "photos/folder")
	link("nowhere.png", "photos/gone.png")
	link(filepath.Join(outside, "b.md"), "entries/b.md")
	link("a.md", "entries/c.md")
	link(outside, "readings")
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	want := `entries/a.md:4:28 outside-journal: "photos/out.png" is a link that leads out of the journal | copy the file itself into the journal
entries/a.md:4:52 outside-journal: "photos/up.png" is a link that leads out of the journal | copy the file itself into the journal
entries/a.md:4:75 outside-journal: "photos/loop.png" is a link that leads out of the journal | copy the file itself into the journal
entries/a.md:4:100 outside-journal: "photos/folder/x.png" is a link that leads out of the journal | copy the file itself into the journal
entries/a.md:4:129 missing-file: there is no file "photos/gone.png"`
	for name, fsys := range map[string]fs.FS{"Root": root.FS(), "DirFS": os.DirFS(dir)} {
		journal := Read(fsys)
		got := told(journal)
		for line := range strings.SplitSeq(want, "\n") {
			if !strings.Contains(got, line) {
				t.Errorf("%s: no %q in\n%s", name, line, got)
			}
		}
		for _, line := range []string{`entries/b.md:1:1 outside-journal`, `readings:1:1 folder-link`} {
			if !strings.Contains(got, line) {
				t.Errorf("%s: no %q in\n%s", name, line, got)
			}
		}
		if len(journal.Entries) != 2 || journal.Entries[1].Path != "entries/c.md" {
			t.Errorf("%s: entries %v", name, journal.Entries)
		}
		if len(journal.Photos) != 1 || journal.Photos[0].Path != "photos/inside.png" {
			t.Errorf("%s: photos %v", name, journal.Photos)
		}
	}
}

// locked is a folder with a file that the system does not let one read.
type locked struct{ fstest.MapFS }

func (l locked) Open(name string) (fs.File, error) {
	if name == "entries/a.md" {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrPermission}
	}
	return l.MapFS.Open(name)
}

func TestAFileThatCannotBeReadIsReported(t *testing.T) {
	j := Read(locked{small("date: 2026-03-14\n")})
	want := "1:1 unreadable-file: \"entries/a.md\" cannot be read: permission denied\n"
	if got := briefs(j.Problems); got != want {
		t.Errorf("problems %s, want %s", got, want)
	}
}
