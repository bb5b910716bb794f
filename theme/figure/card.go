package figure

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"strconv"
	"strings"

	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
)

// Size of a card in pixels: 1.91 : 1, the form that previews of links use (Open Graph, common practice).
const (
	CardWidth  = 1200
	CardHeight = 630
)

// cardMargin is the empty edge of a card, cardTitle the height of the title's row and cardFoot that of the last line.
const (
	cardMargin = 56
	cardTitle  = 84
	cardFoot   = 44
)

// cardPlot is the least height of a plot on a card, in units of the drawing.
const cardPlot = 80

// cardLanes is how many rows of lanes a card has room for.
const cardLanes = 9

// Card returns the figure as a PNG of CardWidth by CardHeight pixels, for the previews of links, with its title above
// and a line below it, such as the name of the site. It looks as Style says for light pages; colours replaces single
// ones by their name without --fig-, as "#rrggbb". Spans are tinted and not engraved. Letters that the Go fonts
// lack, such as those of Chinese, are left out. The error is that of SVG, or names a colour that cannot be read.
func (f Figure) Card(below string, colours map[string]string) ([]byte, error) {
	if err := f.check(); err != nil {
		return nil, err
	}
	sheet, err := readStyle(style, colours)
	if err != nil {
		return nil, fmt.Errorf("figure %s: %w", f.ID, err)
	}
	regular, bold := openFace(goregular.TTF), openFace(gobold.TTF)
	c := canvas{Image: image.NewRGBA(image.Rect(0, 0, CardWidth, CardHeight)), sheet: sheet, regular: regular,
		bold: bold}
	draw.Draw(c.Image, c.Image.Bounds(), image.NewUniform(sheet.colours["paper"]), image.Point{}, draw.Src)

	ink, quiet := sheet.colours["ink"], sheet.colours["quiet"]
	c.write(bold.at(44), fit(bold.at(44), f.Title, CardWidth-2*cardMargin), cardMargin, cardMargin+38, ink)
	c.write(regular.at(26), fit(regular.at(26), below, CardWidth-2*cardMargin), cardMargin,
		CardHeight-cardMargin+8, quiet)
	c.figure(f.forCard())

	var file bytes.Buffer
	if err := png.Encode(&file, c.Image); err != nil {
		return nil, fmt.Errorf("figure %s: %w", f.ID, err)
	}
	return file.Bytes(), nil
}

// room is the height that a card has for its drawing, in pixels.
const room = CardHeight - 2*cardMargin - cardTitle - cardFoot

// forCard returns the drawing of as much of the figure as a card can hold, in the form of the room for it.
func (f Figure) forCard() drawing {
	s := sheet{Name: "card", width: 720, beside: true, height: 1, perTick: 40}
	f.Lanes = f.Lanes[:min(len(f.Lanes), cardLanes)]
	f.Height = cardPlot
	const ratio = float64(CardWidth-2*cardMargin) / room
	height := f.draw(s).height()
	s.width = max(s.width, height*ratio)
	f.Height += max(0, int(s.width/ratio-height))
	return f.draw(s)
}

// height returns the height of a drawing as a number.
func (d drawing) height() float64 {
	height, err := strconv.ParseFloat(d.Height, 64)
	if err != nil {
		panic("figure: a drawing is " + d.Height + " high")
	}
	return height
}

// canvas is a card in the making.
type canvas struct {
	Image         *image.RGBA
	sheet         styleSheet
	regular, bold face
	scale         float64
	left, top     float64 // where the drawing begins
}

// figure paints a drawing into the room between title and last line, as large as it fits.
func (c *canvas) figure(d drawing) {
	c.scale = min((CardWidth-2*cardMargin)/d.width, room/d.height())
	c.left = cardMargin
	c.top = cardMargin + cardTitle + (room-d.height()*c.scale)/2

	all := c.Image.Bounds()
	clip := all
	if d.Clip != "" {
		clip = bounds(c.lines(d.Clip)).Intersect(all)
	}
	c.shapes(d.Back, all)
	c.shapes(d.Data, clip)
	c.shapes(d.Front, all)
	for _, it := range d.Items {
		c.shapes([]shape{it.shape}, all)
	}
	c.shapes(d.Over, all)
	for _, l := range d.Labels {
		c.label(l)
	}
}

// shapes paints shapes in their order.
func (c *canvas) shapes(shapes []shape, clip image.Rectangle) {
	for _, s := range shapes {
		look := c.sheet.look(s.Class)
		lines := c.lines(s.D)
		if fill := look.fill; fill.A > 0 {
			c.fill(lines, fade(fill, look.opacity), clip)
		}
		if s.Texture != "" {
			c.fill(lines, fade(look.stroke, 0.3), clip)
		}
		if look.stroke.A > 0 && look.width > 0 {
			c.stroke(lines, look, clip)
		}
	}
}

// label writes a text of the drawing.
func (c *canvas) label(l label) {
	look := c.sheet.look(l.Class)
	family := c.regular
	if look.bold {
		family = c.bold
	}
	letters := family.at(textSize * c.scale)
	at := c.lines("M" + l.X + " " + l.Y)[0][0]
	x, y := at.x, at.y
	width := letters.width(l.Text)
	switch {
	case strings.Contains(l.Class, "fig-mid"):
		x -= width / 2
	case strings.Contains(l.Class, "fig-end"):
		x -= width
	}
	if look.stroke.A > 0 { // a halo
		for _, d := range [...]spot{{-2, 0}, {2, 0}, {0, -2}, {0, 2}, {-1.4, -1.4}, {1.4, -1.4}, {-1.4, 1.4}, {1.4, 1.4}} {
			c.write(letters, l.Text, x+d.x, y+d.y, look.stroke)
		}
	}
	ink := look.fill
	if l.Link != "" {
		ink = c.sheet.colours["water"]
	}
	c.write(letters, l.Text, x, y, ink)
}

// fade returns a colour that lets light through.
func fade(c color.NRGBA, opacity float64) color.NRGBA {
	c.A = uint8(float64(c.A)*opacity + 0.5)
	return c
}
