// Command sketch draws the pictures of the sample journal: go run ./cmd/sketch FOLDER [NAME…]
//
// Each picture depends on nothing but its own name, so that the same program draws the same file again.
package main

import (
	"bytes"
	"fmt"
	"hash/fnv"
	"image/jpeg"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
)

// Picture is one painting of the sample journal.
type Picture struct {
	Name string // of the file, without .jpg
	W, H int
	Draw func(c *Canvas, r *rand.Rand)
}

// maxBytes is the largest a finished picture may be.
const maxBytes = 350_000

func main() {
	if len(os.Args) < 2 {
		fmt.Fprintln(os.Stderr, "usage: sketch FOLDER [NAME…]")
		os.Exit(2)
	}
	if err := draw(os.Args[1], os.Args[2:]); err != nil {
		fmt.Fprintln(os.Stderr, "sketch:", err)
		os.Exit(1)
	}
}

// draw paints the named pictures, or all of them, into a folder.
func draw(folder string, names []string) error {
	all := pictures()
	for _, name := range names {
		if !slices.ContainsFunc(all, func(p Picture) bool { return p.Name == name }) {
			return fmt.Errorf("there is no picture %q", name)
		}
	}
	for _, p := range all {
		if len(names) > 0 && !slices.Contains(names, p.Name) {
			continue
		}
		file, err := p.encode()
		if err != nil {
			return fmt.Errorf("%s: %w", p.Name, err)
		}
		path := filepath.Join(folder, p.Name+".jpg")
		if err := os.WriteFile(path, file, 0o644); err != nil {
			return err
		}
		fmt.Println(path, len(file))
	}
	return nil
}

// encode paints the picture and returns it as JPEG, in the best quality that stays below maxBytes.
func (p Picture) encode() ([]byte, error) {
	img := p.paint().Image()
	for quality := 90; quality >= 50; quality -= 4 {
		var file bytes.Buffer
		if err := jpeg.Encode(&file, img, &jpeg.Options{Quality: quality}); err != nil {
			return nil, err
		}
		if file.Len() <= maxBytes {
			return file.Bytes(), nil
		}
	}
	return nil, fmt.Errorf("larger than %d bytes in any quality", maxBytes)
}

// paint draws the picture and finishes it as a sheet of paper.
func (p Picture) paint() *Canvas {
	hash := fnv.New64a()
	hash.Write([]byte(p.Name))
	seed := hash.Sum64()
	c := NewCanvas(p.W, p.H, hex(0xf3ead8))
	p.Draw(c, rand.New(rand.NewPCG(seed, 1)))
	paper(c, Noise(seed))
	return c
}
