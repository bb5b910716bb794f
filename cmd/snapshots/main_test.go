package main

import (
	"bytes"
	"fmt"
	"image/png"
	"os"
	"strings"
	"testing"

	"pleopod/theme"
)

// The pictures of the README are those that this program takes, in the size that it takes them.
func TestPicturesOfTheReadme(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	if shown := strings.Count(string(text), "(sample-journal/pictures/"); shown != len(ofReadme(nil)) {
		t.Errorf("the README shows %d pictures, %d are taken", shown, len(ofReadme(nil)))
	}
	for _, s := range ofReadme(nil) {
		path := fmt.Sprintf("sample-journal/pictures/%s.png", s.name)
		if !strings.Contains(string(text), "]("+path+")") {
			t.Errorf("the README does not show %s", path)
		}
		file, err := os.ReadFile("../../" + path)
		if err != nil {
			t.Error(err)
			continue
		}
		if config, err := png.DecodeConfig(bytes.NewReader(file)); err != nil || int64(config.Width) != s.width || int64(config.Height) != s.height {
			t.Errorf("%s has %d x %d pixels: %v", path, config.Width, config.Height, err)
		}
	}
}

func TestEveryKindIsTaken(t *testing.T) {
	site := &theme.Site{
		Pages: []string{"index.html", "tanks/a.html", "tanks/bb.html", "tanks/a.water.html", "diary/2026.html",
			"diary/2026-01-02-rain.html"},
		Files: map[string][]byte{"tanks/bb.html": []byte("longer")},
	}
	taken := map[string]string{}
	for _, s := range everyKind(site) {
		taken[s.name] = s.page
	}
	if len(taken) != 5*4 || taken["tanks-phone-night"] != "tanks/bb.html" || taken["year-screen-day"] != "diary/2026.html" || taken["tanks-water-phone-day"] != "tanks/a.water.html" {
		t.Errorf("taken: %v", taken)
	}
}
