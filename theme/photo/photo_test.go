package photo

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// open decodes one size of a picture.
func open(t testing.TB, size Size) image.Image {
	t.Helper()
	p, _, err := image.Decode(bytes.NewReader(size.Data))
	if err != nil {
		t.Fatalf("the %d × %d picture cannot be read: %v", size.Width, size.Height, err)
	}
	if p.Bounds() != image.Rect(0, 0, size.Width, size.Height) {
		t.Fatalf("the %d × %d picture is %v", size.Width, size.Height, p.Bounds())
	}
	return p
}

// mustMake runs Make and fails the test on an error.
func mustMake(t testing.TB, source []byte) Picture {
	t.Helper()
	picture, err := Make(source)
	if err != nil {
		t.Fatalf("Make: %v", err)
	}
	return picture
}

// largest returns the largest size of a picture.
func largest(p Picture) Size { return p.Sizes[len(p.Sizes)-1] }

func TestSizesGoByTheLongEdge(t *testing.T) {
	tests := []struct {
		width, height int
		want          []image.Point
		source        string
	}{
		{4000, 500, []image.Point{{480, 60}, {736, 92}, {1600, 200}}, "arithmetic"},
		{500, 4000, []image.Point{{60, 480}, {92, 736}, {200, 1600}}, "symmetry"},
		{1000, 200, []image.Point{{480, 96}, {736, 147}, {1000, 200}}, "never larger than the source"},
		{480, 300, []image.Point{{480, 300}}, "limit case"},
		{100, 80, []image.Point{{100, 80}}, "never larger than the source"},
		{2001, 1, []image.Point{{480, 1}, {736, 1}, {1600, 1}}, "limit case: at least one pixel"},
		{1, 1, []image.Point{{1, 1}}, "limit case"},
	}
	for _, test := range tests {
		picture := mustMake(t, jpegOf(t, quarters(test.width, test.height)))
		var got []image.Point
		for _, size := range picture.Sizes {
			open(t, size)
			got = append(got, image.Pt(size.Width, size.Height))
		}
		if diff := cmp.Diff(test.want, got); diff != "" {
			t.Errorf("Make of %d × %d (-want +got):\n%s", test.width, test.height, diff)
		}
	}
}

// stored returns an upright picture as a camera stores it with an EXIF orientation.
// Source: CIPA DC-008-2019, 4.6.4 A, tag 0x0112, "the 0th row is at the visual … and the 0th column at the visual …".
func stored(p *image.RGBA, orientation int) *image.RGBA {
	sides := [9]string{"", "top left", "top right", "bottom right", "bottom left", "left top", "right top",
		"right bottom", "left bottom"}
	row, column, _ := strings.Cut(sides[orientation], " ")
	width, height := p.Rect.Dx(), p.Rect.Dy()
	size := image.Pt(width, height)
	if row == "left" || row == "right" {
		size = image.Pt(height, width)
	}
	out := image.NewRGBA(image.Rectangle{Max: size})
	for r := range size.Y {
		for c := range size.X {
			at := image.Point{}
			for side, n := range map[string]int{row: r, column: c} {
				switch side {
				case "top":
					at.Y = n
				case "bottom":
					at.Y = height - 1 - n
				case "left":
					at.X = n
				case "right":
					at.X = width - 1 - n
				}
			}
			out.SetRGBA(c, r, p.RGBAAt(at.X, at.Y))
		}
	}
	return out
}

// TestOrientation stores one picture in all eight ways and three formats; the result must be upright, pixel by pixel.
func TestOrientation(t *testing.T) {
	profile := profileOf(false)
	for _, shape := range []image.Point{{64, 40}, {1700, 60}} {
		upright := quarters(shape.X, shape.Y)
		want := open(t, largest(mustMake(t, pngOf(t, upright))))
		for orientation := 1; orientation <= 8; orientation++ {
			p := stored(upright, orientation)
			sources := map[string][]byte{
				"JPEG, big end first":    jpegWith(jpegOf(t, p), binary.BigEndian, orientation, profile),
				"JPEG, little end first": jpegWith(jpegOf(t, p), binary.LittleEndian, orientation, profile),
				"PNG":                    pngWith(pngOf(t, p), orientation, profile),
				"WebP":                   webpWith(webpOf(p), p.Rect.Dx(), p.Rect.Dy(), orientation, profile),
			}
			for name, source := range sources {
				got := open(t, largest(mustMake(t, source)))
				if bad := differing(want, got); bad > 0 {
					t.Errorf("%s of %v, orientation %d: %d pixels differ", name, shape, orientation, bad)
				}
			}
		}
	}
}

// differing counts the pixels of two pictures that differ by more than a JPEG may; all, where their sizes differ.
func differing(a, b image.Image) int {
	if a.Bounds() != b.Bounds() {
		return max(1, a.Bounds().Dx()*a.Bounds().Dy())
	}
	bad := 0
	for y := range a.Bounds().Dy() {
		for x := range a.Bounds().Dx() {
			p, q := color.RGBAModel.Convert(a.At(x, y)).(color.RGBA), color.RGBAModel.Convert(b.At(x, y)).(color.RGBA)
			const most = 40
			if math.Abs(float64(p.R)-float64(q.R)) > most || math.Abs(float64(p.G)-float64(q.G)) > most || math.Abs(float64(p.B)-float64(q.B)) > most {
				bad++
			}
		}
	}
	// At the borders of the quarters, the two codings may blur differently.
	if bad <= a.Bounds().Dx()/8 {
		return 0
	}
	return bad
}

// TestMetadataIsGone looks for what every made photo holds in many places.
func TestMetadataIsGone(t *testing.T) {
	p, profile := quarters(500, 300), profileOf(false)
	light := image.NewNRGBA(p.Rect)
	for i := range light.Pix {
		light.Pix[i] = byte(i)
	}
	sources := map[string][]byte{
		"JPEG":             jpegWith(jpegOf(t, p), binary.BigEndian, 6, profile),
		"PNG":              pngWith(pngOf(t, p), 6, profile),
		"PNG with alpha":   pngWith(pngOf(t, light), 6, profile),
		"WebP":             webpWith(webpOf(p), 500, 300, 6, profile),
		"data at the end":  append(jpegOf(t, p), secret...),
		"profile of a TIF": jpegWith(jpegOf(t, p), binary.LittleEndian, 1, []byte(secret+secret)),
	}
	allowed := map[byte]bool{0xdb: true, 0xc0: true, 0xc4: true, 0xe2: true}
	for name, source := range sources {
		if !bytes.Contains(source, []byte(secret)) {
			t.Fatalf("%s: the source has nothing to hide", name)
		}
		for i, size := range mustMake(t, source).Sizes {
			for _, word := range []string{secret, secret[:8], "Exif", "GPS", "photoshop", "ns.adobe"} {
				if bytes.Contains(size.Data, []byte(word)) {
					t.Errorf("%s, size %d: the picture holds %q", name, i, word)
				}
			}
			segments(size.Data, func(marker byte, _ []byte) bool {
				if size.Format == JPEG && !allowed[marker] {
					t.Errorf("%s, size %d: a segment ff%x", name, i, marker)
				}
				return true
			})
		}
	}
}

// TestProfileStays compares the colours of the profile before and after.
func TestProfileStays(t *testing.T) {
	p, profile := quarters(500, 300), profileOf(true)
	light := image.NewNRGBA(p.Rect)
	want := profileTags(profile)
	tests := []struct {
		name   string
		source []byte
		read   func([]byte) notes
	}{
		{"JPEG", jpegWith(jpegOf(t, p), binary.BigEndian, 1, profile), jpegNotes},
		{"PNG", pngWith(pngOf(t, p), 1, profile), jpegNotes},
		{"PNG with alpha", pngWith(pngOf(t, light), 1, profile), pngNotes},
		{"WebP", webpWith(webpOf(p), 500, 300, 1, profile), jpegNotes},
	}
	for _, test := range tests {
		for _, size := range mustMake(t, test.source).Sizes {
			got := test.read(size.Data).profile
			if got == nil {
				t.Errorf("%s: the profile is gone", test.name)
				continue
			}
			for _, hole := range [][2]int{{4, 8}, {40, 56}, {80, profileHeader}} {
				if part := got[hole[0]:hole[1]]; !bytes.Equal(part, make([]byte, len(part))) {
					t.Errorf("%s: the header tells %q", test.name, part)
				}
			}
			if diff := cmp.Diff(want, profileTags(got)); diff != "" {
				t.Errorf("%s: colours (-want +got):\n%s", test.name, diff)
			}
		}
	}
	// A profile for grey or printed pictures would be wrong on an RGB one.
	for _, space := range []string{"GRAY", "CMYK"} {
		other := bytes.Clone(profile)
		copy(other[16:], space)
		if got := colours(other); got != nil {
			t.Errorf("a %s profile is kept", space)
		}
	}
}

func TestTransparencyStays(t *testing.T) {
	p := image.NewNRGBA(image.Rect(0, 0, 2000, 200))
	for i := 0; i < len(p.Pix); i += 4 {
		p.Pix[i], p.Pix[i+3] = 255, 128
	}
	picture := mustMake(t, pngOf(t, p))
	for _, size := range picture.Sizes {
		if size.Format != PNG {
			t.Fatalf("the %d px picture is %s", size.Width, size.Format)
		}
		r, g, b, a := open(t, size).At(size.Width/2, size.Height/2).RGBA()
		if a>>8 != 128 || r>>8 != 128 || g != 0 || b != 0 {
			t.Errorf("the middle of the %d px picture is %x %x %x %x, want a half red", size.Width, r, g, b, a)
		}
	}
	for i := 3; i < len(p.Pix); i += 4 {
		p.Pix[i] = 255
	}
	if got := largest(mustMake(t, pngOf(t, p))).Format; got != JPEG {
		t.Errorf("a PNG without transparency becomes %s, want jpg", got)
	}
}
