package theme

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
	"pleopod/journal/notice"
)

// folderOf reads a journal of testdata, whose files stand one after the other, into memory. Pictures named in
// it are drawn.
func folderOf(t testing.TB, name string) fstest.MapFS {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", name+".txtar"))
	if err != nil {
		t.Fatal(err)
	}
	files := fstest.MapFS{}
	for _, part := range strings.Split("\n"+string(text), "\n-- ")[1:] {
		file, content, _ := strings.Cut(part, " --\n")
		files[file] = &fstest.MapFile{Data: []byte(content + "\n")}
	}
	for _, photo := range []string{"shelf", "ruby", "secretphoto"} {
		if strings.Contains(string(text), photo+".png") {
			files["photos/"+photo+".png"] = &fstest.MapFile{Data: drawn(t, 640, 480)}
		}
	}
	return files
}

// drawn is a small picture as PNG.
func drawn(t testing.TB, width, height int) []byte {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, width, height))
	for x := range width {
		for y := range height {
			img.Set(x, y, color.RGBA{uint8(x), uint8(y), 120, 255})
		}
	}
	var out bytes.Buffer
	if err := png.Encode(&out, img); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// told reads, replays and predicts a journal that must be without mistakes.
func told(t testing.TB, files fs.FS) *forecast.Forecast {
	t.Helper()
	j := journal.Read(files)
	c := colony.Replay(j, j.Settings.AsOf)
	for _, p := range append(j.Problems, c.Problems...) {
		if p.Severity == journal.Error {
			t.Fatal(p)
		}
	}
	f := forecast.Make(c)
	f.Notices, f.Ended = notice.Weigh(f)
	return f
}

// sites and forecasts keep what was made of a journal: predicting takes most of the time.
var sites, forecasts sync.Map

// foretold predicts a journal of testdata.
func foretold(t testing.TB, name string) *forecast.Forecast {
	t.Helper()
	if f, ok := forecasts.Load(name); ok {
		return f.(*forecast.Forecast)
	}
	f := told(t, folderOf(t, name))
	forecasts.Store(name, f)
	return f
}

// site draws a journal of testdata.
func site(t testing.TB, name string) *Site {
	t.Helper()
	if s, ok := sites.Load(name); ok {
		return s.(*Site)
	}
	files := folderOf(t, name)
	s, err := Draw(foretold(t, name), files, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if dir := os.Getenv("THEME_OUT"); dir != "" {
		write(t, filepath.Join(dir, name), s)
	}
	sites.Store(name, s)
	return s
}

// write puts a site into a folder, to be looked at.
func write(t testing.TB, dir string, s *Site) {
	t.Helper()
	for name, text := range s.Files {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}
