package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const folder = "../../sample-journal/photos"

func TestEveryPhotoIsOurs(t *testing.T) {
	files, err := os.ReadDir(folder)
	if err != nil || len(files) == 0 {
		t.Fatalf("no photos in %s: %v", folder, err)
	}
	drawn := map[string]bool{}
	for _, p := range pictures() {
		drawn[p.Name] = true
		if _, err := os.Stat(filepath.Join(folder, p.Name+".jpg")); err != nil {
			t.Errorf("%s is drawn but not in the sample: %v", p.Name, err)
		}
	}
	for _, f := range files {
		info, err := f.Info()
		if err != nil {
			t.Fatal(err)
		}
		if !drawn[strings.TrimSuffix(f.Name(), ".jpg")] {
			t.Errorf("%s is in the sample and no picture of ours", f.Name())
		}
		if info.Size() > maxBytes {
			t.Errorf("%s has %d bytes, want at most %d", f.Name(), info.Size(), maxBytes)
		}
	}
}

func TestDrawingTwiceIsTheSame(t *testing.T) {
	small := Picture{"twice", 400, 270, portrait(Shrimp{At: Vec{200, 120}, Size: 230, Grade: .7, Arch: 1, Eggs: 9, Seed: 3}, dayLight)}
	first, err := small.encode()
	if err != nil {
		t.Fatal(err)
	}
	second, err := small.encode()
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(first, second) {
		t.Error("the same picture was drawn in two ways")
	}
	small.Name = "other"
	if third, err := small.encode(); err != nil || bytes.Equal(first, third) {
		t.Errorf("another name gave the same picture, or %v", err)
	}
}

func TestAnUnknownPictureIsRefused(t *testing.T) {
	if err := draw(t.TempDir(), []string{"polkka"}); err == nil {
		t.Error("no error for a picture that does not exist")
	}
}
