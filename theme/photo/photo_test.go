package photo

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"testing"
)

// quarters is a picture of four flat quarters: red, green, blue, yellow.
func quarters(width, height int) *image.RGBA {
	p := image.NewRGBA(image.Rect(0, 0, width, height))
	tones := [4]color.RGBA{{200, 30, 30, 255}, {30, 200, 30, 255}, {30, 30, 200, 255}, {200, 200, 30, 255}}
	for y := range height {
		for x := range width {
			i := 0
			if x >= width/2 {
				i = 1
			}
			if y >= height/2 {
				i += 2
			}
			p.SetRGBA(x, y, tones[i])
		}
	}
	return p
}

func jpegOf(t testing.TB, p image.Image) []byte {
	t.Helper()
	var file bytes.Buffer
	if err := jpeg.Encode(&file, p, &jpeg.Options{Quality: 90}); err != nil {
		t.Fatal(err)
	}
	return file.Bytes()
}

func TestSizesGoByTheLongEdge(t *testing.T) {
	tests := []struct {
		width, height int
		want          []image.Point
		source        string
	}{
		{4000, 3000, []image.Point{{480, 360}, {960, 720}, {1600, 1200}}, "arithmetic"},
		{3000, 4000, []image.Point{{360, 480}, {720, 960}, {1200, 1600}}, "symmetry"},
		{1000, 500, []image.Point{{480, 240}, {960, 480}, {1000, 500}}, "never larger than the source"},
		{480, 300, []image.Point{{480, 300}}, "limit case"},
		{100, 80, []image.Point{{100, 80}}, "never larger than the source"},
		{2001, 1, []image.Point{{480, 1}, {960, 1}, {1600, 1}}, "limit case: at least one pixel"},
	}
	for _, test := range tests {
		picture, err := Make(jpegOf(t, quarters(test.width, test.height)))
		if err != nil {
			t.Fatalf("Make of %d × %d: %v", test.width, test.height, err)
		}
		var got []image.Point
		for _, size := range picture.Sizes {
			config, _, err := image.DecodeConfig(bytes.NewReader(size.Data))
			if err != nil || config.Width != size.Width || config.Height != size.Height {
				t.Errorf("%d × %d: file of %d × %d is %v, %v", test.width, test.height, size.Width, size.Height, config, err)
			}
			got = append(got, image.Pt(size.Width, size.Height))
		}
		if len(got) != len(test.want) {
			t.Errorf("Make of %d × %d gives %v, want %v", test.width, test.height, got, test.want)
			continue
		}
		for i := range got {
			if got[i] != test.want[i] {
				t.Errorf("Make of %d × %d gives %v, want %v", test.width, test.height, got, test.want)
			}
		}
	}
}
