package figure

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// cardOf returns the card of a figure as a picture.
func cardOf(t testing.TB, f Figure, colours map[string]string) image.Image {
	t.Helper()
	data, err := f.Card("A diary of small shrimp", colours)
	if err != nil {
		t.Fatalf("Card of %s: %v", f.ID, err)
	}
	p, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatalf("Card of %s: %v", f.ID, err)
	}
	return p
}

// count returns how many pixels of a part have just this colour.
func count(p image.Image, part image.Rectangle, c color.NRGBA) int {
	found := 0
	for y := part.Min.Y; y < part.Max.Y; y++ {
		for x := part.Min.X; x < part.Max.X; x++ {
			if color.NRGBAModel.Convert(p.At(x, y)) == c {
				found++
			}
		}
	}
	return found
}

func TestCards(t *testing.T) {
	sheet, err := readStyle(style, nil)
	if err != nil {
		t.Fatal(err)
	}
	paper, ink := sheet.colours["paper"], sheet.colours["ink"]
	for _, f := range append(samples(), hostile()) {
		p := cardOf(t, f, nil)
		if p.Bounds() != image.Rect(0, 0, CardWidth, CardHeight) {
			t.Fatalf("%s is %v", f.ID, p.Bounds())
		}
		for _, edge := range []image.Rectangle{{image.Pt(0, 0), image.Pt(CardWidth, 30)}, {image.Pt(0, 0), image.Pt(40, CardHeight)}, {image.Pt(CardWidth-30, 0), image.Pt(CardWidth, CardHeight)}, {image.Pt(0, CardHeight-30), image.Pt(CardWidth, CardHeight)}} {
			if got := count(p, edge, paper); got != edge.Dx()*edge.Dy() {
				t.Errorf("%s: the edge %v is not empty", f.ID, edge)
			}
		}
		title := image.Rect(cardMargin, cardMargin, CardWidth-cardMargin, cardMargin+cardTitle)
		if count(p, title, ink) < 300 {
			t.Errorf("%s: there is no title", f.ID)
		}
	}
}

// TestCardShowsTheTones looks for the colours of the growth figure, and for those that replace them.
func TestCardShowsTheTones(t *testing.T) {
	all := image.Rect(0, 0, CardWidth, CardHeight)
	shrimp, pink, night := color.NRGBA{0xb2, 0x3f, 0x2a, 255}, color.NRGBA{0xff, 0, 0xff, 255},
		color.NRGBA{0x10, 0x10, 0x10, 255}
	plain := cardOf(t, growth(), nil)
	changed := cardOf(t, growth(), map[string]string{"shrimp": "#f0f", "paper": "#101010"})
	if count(plain, all, shrimp) < 300 || count(plain, all, pink) > 0 {
		t.Error("the line of the females is not shrimp")
	}
	if count(changed, all, pink) < 300 || count(changed, all, shrimp) > 0 || count(changed, all, night) < 100_000 {
		t.Error("the colours were not replaced")
	}
	if _, err := growth().Card("", map[string]string{"ink": "red"}); err == nil || !strings.Contains(err.Error(), `the colour ink: "red"`) {
		t.Errorf("a colour by name: %v", err)
	}
	if _, err := (Figure{}).Card("", nil); err == nil {
		t.Error("a figure without an ID has a card")
	}
}

func TestCardIsTheSameEachTime(t *testing.T) {
	one, _ := fan().Card("x", nil)
	two, _ := fan().Card("x", nil)
	if !bytes.Equal(one, two) {
		t.Error("two cards of one figure differ")
	}
}

// TestLooks compares what the card reads with the style sheet, by hand.
func TestLooks(t *testing.T) {
	sheet, err := readStyle(style, nil)
	if err != nil {
		t.Fatal(err)
	}
	water, ink := sheet.colours["water"], sheet.colours["ink"]
	tests := []struct {
		class        string
		fill, stroke color.NRGBA
		width        float64
		dashes       int
	}{
		{"fig-line fig-water", color.NRGBA{}, water, 2, 0},
		{"fig-line fig-water fig-dotted", color.NRGBA{}, water, 2, 2},
		{"fig-mark fig-water", water, sheet.colours["paper"], 1.2, 0},
		{"fig-mark fig-ring fig-water", sheet.colours["paper"], water, 1.6, 0},
		{"fig-band fig-water fig-faint", water, color.NRGBA{}, 1, 0},
		{"fig-base", color.NRGBA{}, ink, 1.25, 0},
		{"fig-key", ink, color.NRGBA{}, 1, 0},
		{"fig-axis", sheet.colours["quiet"], color.NRGBA{}, 1, 0},
	}
	for _, test := range tests {
		got := sheet.look(test.class)
		if got.fill != test.fill || got.stroke != test.stroke || got.width != test.width || len(got.dashes) != test.dashes {
			t.Errorf("look of %q is %+v, want %+v", test.class, got, test)
		}
	}
	if got := sheet.look("fig-band fig-faint").opacity; got != (Band{Faint: true}).opacity() {
		t.Errorf("a faint band has the opacity %v", got)
	}
	if got := sheet.look("fig-band").opacity; got != (Band{}).opacity() {
		t.Errorf("a band has the opacity %v", got)
	}
}

// TestPathsReadBack writes random lines as a path and reads them again.
func TestPathsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		place := rapid.Custom(func(t *rapid.T) spot {
			return spot{rapid.Float64Range(-50, 800).Draw(t, "x"), rapid.Float64Range(-50, 800).Draw(t, "y")}
		})
		var o outline
		lines := rapid.SliceOfN(rapid.SliceOfN(place, 2, 20), 1, 4).Draw(t, "lines")
		for _, line := range lines {
			o.run(line)
		}
		c := canvas{scale: 1}
		for i, read := range c.lines(string(o.data)) {
			if d := deviation(lines[i], append(read, read[len(read)-1])); d > 0.08 {
				t.Fatalf("%s is %v beside the line", o.data, d)
			}
		}
	})
}

// TestStrokesCoverLengthTimesWidth measures painted lines, with corners.
func TestStrokesCoverLengthTimesWidth(t *testing.T) {
	ink := color.NRGBA{0, 0, 0, 255}
	tests := []struct {
		name   string
		lines  [][]spot
		dashes []float64
		want   float64 // pixels
		source string
	}{
		{"level", [][]spot{{{10, 50}, {90, 50}}}, nil, 80 * 6, "length times width"},
		{"slanted back", [][]spot{{{80, 80}, {20, 10}}}, nil, math.Hypot(60, 70) * 6, "length times width"},
		{"corner", [][]spot{{{20, 20}, {80, 20}, {80, 80}}}, nil, 120*6 + (math.Pi/4-1)*9, "two bars that share a square of half the width, and a quarter of a disc at the corner"},
		{"there and back", [][]spot{{{20, 20}, {80, 20}, {20, 20}}}, nil, 60*6 + math.Pi*9/2, "one bar and half a disc"},
		{"dashes", [][]spot{{{0, 50}, {100, 50}}}, []float64{10, 10}, 50 * 6, "half of it"},
	}
	for _, test := range tests {
		c := canvas{Image: image.NewRGBA(image.Rect(0, 0, 100, 100)), scale: 1}
		c.stroke(test.lines, look{stroke: ink, width: 6, opacity: 1, dashes: test.dashes}, c.Image.Bounds())
		sum := 0.0
		for i := 3; i < len(c.Image.Pix); i += 4 {
			sum += float64(c.Image.Pix[i]) / 255
		}
		if math.Abs(sum-test.want) > 0.015*test.want {
			t.Errorf("%s: %.1f pixels are painted, want %.1f", test.name, sum, test.want)
		}
	}
}

// TestTextsFit cuts titles and leaves out what the font lacks.
func TestTextsFit(t *testing.T) {
	f := fan()
	f.Title = strings.Repeat("A very long title ", 20)
	cardOf(t, f, nil)
	f.Title = "小虾"
	p := cardOf(t, f, nil)
	if got := count(p, image.Rect(cardMargin, cardMargin, CardWidth, cardMargin+50), color.NRGBA{0x2c, 0x2f, 0x2a, 255}); got > 0 {
		t.Errorf("%d pixels of a title in a script that the font lacks", got)
	}
}

func BenchmarkCard(b *testing.B) {
	for b.Loop() {
		if _, err := fan().Card("x", nil); err != nil {
			b.Fatal(err)
		}
	}
}
