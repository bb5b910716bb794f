package photo

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"

	"golang.org/x/image/webp"
)

// MaxPixels is the largest photo that is read: 60 megapixels.
const MaxPixels = 60_000_000

// maxMemory is the most that decoding one photo may take, in bytes.
const maxMemory = 400_000_000

// kind is a format that can be read.
type kind struct {
	name   string
	magic  string
	at     int // where magic stands
	config func([]byte) (image.Config, error)
	decode func([]byte) (image.Image, error)
	notes  func([]byte) notes
}

// notes is what Make uses of a photo's metadata.
type notes struct {
	orientation int    // of EXIF, 1 to 8
	profile     []byte // ICC, or nil
}

// kinds lists what Make reads.
var kinds = [...]kind{
	{
		name: "JPEG", magic: "\xff\xd8\xff",
		config: func(b []byte) (image.Config, error) { return jpeg.DecodeConfig(bytes.NewReader(b)) },
		decode: func(b []byte) (image.Image, error) { return jpeg.Decode(bytes.NewReader(b)) },
		notes:  jpegNotes,
	},
	{
		name: "PNG", magic: "\x89PNG\r\n\x1a\n",
		config: func(b []byte) (image.Config, error) { return png.DecodeConfig(bytes.NewReader(b)) },
		decode: func(b []byte) (image.Image, error) { return png.Decode(bytes.NewReader(b)) },
		notes:  pngNotes,
	},
	{
		name: "WebP", magic: "WEBP", at: 8,
		config: func(b []byte) (image.Config, error) { return webp.DecodeConfig(bytes.NewReader(b)) },
		decode: func(b []byte) (image.Image, error) { return webp.Decode(bytes.NewReader(b)) },
		notes:  webpNotes,
	},
}

// foreign are formats that keepers hand in by mistake, by their first bytes.
var foreign = [...]struct{ name, magic string }{
	{"a PDF", "%PDF"}, {"a GIF", "GIF8"}, {"a BMP", "BM"}, {"a TIFF or camera raw file", "II*\x00"},
	{"a TIFF or camera raw file", "MM\x00*"}, {"a zip archive", "PK\x03\x04"}, {"an SVG", "<svg"}, {"an SVG or XML file", "<?xml"},
	{"a web page", "<!DOCTYPE"}, {"a web page", "<!doctype"}, {"a web page", "<html"},
}

// sniff tells the kind of a file by its first bytes.
func sniff(source []byte) (kind, error) {
	if len(source) == 0 {
		return kind{}, errors.New("the file is empty (0 bytes)")
	}
	for _, k := range kinds {
		if len(source) >= k.at && bytes.HasPrefix(source[k.at:], []byte(k.magic)) {
			return k, nil
		}
	}

	const allowed = "; photos are JPEG, PNG or WebP"
	for _, f := range foreign {
		if bytes.HasPrefix(source, []byte(f.magic)) {
			return kind{}, errors.New("the file is " + f.name + allowed)
		}
	}
	if len(source) >= 12 && string(source[4:8]) == "ftyp" {
		return kind{}, errors.New("the file is an HEIC or AVIF photo or a film" + allowed)
	}
	return kind{}, errors.New("the file is no photo that can be read" + allowed)
}

// weigh refuses a photo by its header alone, before any memory is taken for it, and returns about how many bytes
// decoding it takes.
func (k kind) weigh(source []byte) (memory int64, err error) {
	config, err := k.config(source)
	if err != nil {
		return 0, fmt.Errorf("the header of the %s cannot be read: %w", k.name, err)
	}
	if config.Width <= 0 || config.Height <= 0 {
		return 0, fmt.Errorf("the %s has no size (%d × %d pixels)", k.name, config.Width, config.Height)
	}
	pixels := int64(config.Width) * int64(config.Height)
	if pixels > MaxPixels {
		return 0, fmt.Errorf("the photo has %d × %d pixels; at most %d million can be read", config.Width,
			config.Height, MaxPixels/1_000_000)
	}

	memory = pixels * 4
	switch config.ColorModel {
	case color.RGBA64Model, color.NRGBA64Model:
		memory = pixels * 8
	}
	if samples := progressive(source); samples > 0 && k.name == "JPEG" {
		// The decoder keeps each coefficient as 4 bytes until the last scan.
		memory = int64(float64(pixels) * samples * 5)
	}
	if memory > maxMemory {
		return 0, fmt.Errorf("the photo has %d × %d pixels in a form that takes %d MB of memory; save it smaller", config.Width, config.Height, memory/1_000_000)
	}
	return memory, nil
}

// safely decodes a photo. A decoder that panics on a broken file must not take the site down.
func (k kind) safely(source []byte) (picture image.Image, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("%v", p)
		}
	}()
	return k.decode(source)
}
