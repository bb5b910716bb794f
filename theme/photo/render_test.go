package photo

import (
	"image"
	"image/color"
	"math"
	"testing"
)

// TestHalvingIsAveraging compares the fast way for JPEGs with the plain mean of 2 × 2 pixels, in all forms of colour
// planes and at odd edges.
func TestHalvingIsAveraging(t *testing.T) {
	ratios := []image.YCbCrSubsampleRatio{
		image.YCbCrSubsampleRatio444, image.YCbCrSubsampleRatio422, image.YCbCrSubsampleRatio420,
		image.YCbCrSubsampleRatio440, image.YCbCrSubsampleRatio411, image.YCbCrSubsampleRatio410,
	}
	for _, ratio := range ratios {
		for _, size := range []image.Point{{64, 48}, {65, 47}, {33, 1}, {1, 1}} {
			p := image.NewYCbCr(image.Rectangle{Max: size}, ratio)
			for y := range size.Y {
				for x := range size.X {
					p.Y[p.YOffset(x, y)] = byte(60 + 2*x)
					p.Cb[p.COffset(x, y)] = byte(100 + y)
					p.Cr[p.COffset(x, y)] = byte(160 - x/2)
				}
			}
			got, want := halve(p), average(p, 2)
			if got.Rect != want.Bounds() {
				t.Fatalf("%v of %v becomes %v, want %v", ratio, size, got.Rect, want.Bounds())
			}
			for y := range got.Rect.Dy() {
				for x := range got.Rect.Dx() {
					a, b := color.RGBAModel.Convert(got.At(x, y)).(color.RGBA), want.At(x, y).(color.RGBA)
					// Coarse colour planes blur over up to eight pixels.
					if math.Abs(float64(a.R)-float64(b.R)) > 9 || math.Abs(float64(a.G)-float64(b.G)) > 9 || math.Abs(float64(a.B)-float64(b.B)) > 9 {
						t.Fatalf("%v of %v at %d, %d: %v, want %v", ratio, size, x, y, a, b)
					}
				}
			}
		}
	}
}

// TestSmallerKeepsTheColour shrinks a flat picture by every way there is; no edge may darken.
func TestSmallerKeepsTheColour(t *testing.T) {
	tone := color.RGBA{120, 80, 60, 255}
	planes := image.NewYCbCr(image.Rect(0, 0, 4003, 37), image.YCbCrSubsampleRatio420)
	y, cb, cr := color.RGBToYCbCr(tone.R, tone.G, tone.B)
	fill := func(plane []byte, v byte) {
		for i := range plane {
			plane[i] = v
		}
	}
	fill(planes.Y, y)
	fill(planes.Cb, cb)
	fill(planes.Cr, cr)
	plain := image.NewNRGBA(planes.Rect)
	for i := 0; i < len(plain.Pix); i += 4 {
		copy(plain.Pix[i:], []byte{tone.R, tone.G, tone.B, 255})
	}
	grey := image.NewGray16(image.Rect(0, 0, 50, 3400))
	for i := range grey.Pix {
		grey.Pix[i] = 0x55
	}
	for _, p := range []image.Image{planes, plain, grey} {
		want := color.RGBAModel.Convert(p.At(0, 0)).(color.RGBA)
		sizes, err := render(p, notes{orientation: 1})
		if err != nil {
			t.Fatal(err)
		}
		for _, size := range sizes {
			got := open(t, size)
			for y := range size.Height {
				for x := range size.Width {
					c := color.RGBAModel.Convert(got.At(x, y)).(color.RGBA)
					if math.Abs(float64(c.R)-float64(want.R)) > 3 || math.Abs(float64(c.G)-float64(want.G)) > 3 || math.Abs(float64(c.B)-float64(want.B)) > 3 {
						t.Fatalf("%T at %d, %d of %d × %d: %v, want %v", p, x, y, size.Width, size.Height, c, want)
					}
				}
			}
		}
	}
}
