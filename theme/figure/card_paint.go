package figure

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"strconv"
	"strings"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"
)

// lines reads the data of a path as pen.go writes it, as places on the card. A closed piece ends where it began.
func (c *canvas) lines(d string) [][]spot {
	var pieces [][]spot
	var at spot
	put := func() {
		last := &pieces[len(pieces)-1]
		*last = append(*last, spot{c.left + at.x*c.scale, c.top + at.y*c.scale})
	}
	for _, command := range splitPath(d) {
		n := command.numbers
		switch command.letter {
		case 'M':
			at = spot{n[0], n[1]}
			pieces = append(pieces, nil)
			put()
		case 'l':
			for i := 0; i+1 < len(n); i += 2 {
				at = spot{at.x + n[i], at.y + n[i+1]}
				put()
			}
		case 'H':
			at.x = n[0]
			put()
		case 'V':
			at.y = n[0]
			put()
		case 'h':
			at.x += n[0]
			put()
		case 'a': // half a circle to a place beside it, against the clock
			const steps = 12
			middle := spot{at.x + n[5]/2, at.y}
			for i := 1; i <= steps; i++ {
				angle := math.Pi * float64(i) / steps
				at = spot{middle.x - n[5]/2*math.Cos(angle), middle.y + n[5]/2*math.Sin(angle)}
				put()
			}
		case 'Z':
			last := pieces[len(pieces)-1]
			pieces[len(pieces)-1] = append(last, last[0])
		}
	}
	return pieces
}

// pathCommand is a letter of a path with its numbers.
type pathCommand struct {
	letter  byte
	numbers []float64
}

// splitPath reads path data. Only what pen.go writes is understood.
func splitPath(d string) []pathCommand {
	var commands []pathCommand
	for i := 0; i < len(d); {
		switch b := d[i]; {
		case b == ' ':
			i++
		case b >= 'A':
			commands = append(commands, pathCommand{letter: b})
			i++
		default:
			end, point := i+1, b == '.'
			for end < len(d) && (d[end] >= '0' && d[end] <= '9' || d[end] == '.' && !point) {
				point = point || d[end] == '.'
				end++
			}
			if n, err := strconv.ParseFloat(d[i:end], 64); err == nil && len(commands) > 0 {
				last := &commands[len(commands)-1]
				last.numbers = append(last.numbers, n)
			}
			i = end
		}
	}
	return commands
}

// bounds returns the pixels that pieces touch.
func bounds(pieces [][]spot) image.Rectangle {
	x, y := nothing, nothing
	for _, piece := range pieces {
		for _, p := range piece {
			x, y = x.with(p.x), y.with(p.y)
		}
	}
	if x.empty() {
		return image.Rectangle{}
	}
	return image.Rect(int(math.Floor(x.low)), int(math.Floor(y.low)), int(math.Ceil(x.high))+1,
		int(math.Ceil(y.high))+1)
}

// fill paints the inside of pieces.
func (c *canvas) fill(pieces [][]spot, ink color.NRGBA, clip image.Rectangle) {
	area := bounds(pieces).Intersect(clip)
	if area.Empty() {
		return
	}
	r := vector.NewRasterizer(area.Dx(), area.Dy())
	for _, piece := range pieces {
		for i, p := range piece {
			x, y := float32(p.x-float64(area.Min.X)), float32(p.y-float64(area.Min.Y))
			if i == 0 {
				r.MoveTo(x, y)
				continue
			}
			r.LineTo(x, y)
		}
		r.ClosePath()
	}
	mask := image.NewAlpha(image.Rect(0, 0, area.Dx(), area.Dy()))
	r.Draw(mask, mask.Bounds(), image.Opaque, image.Point{})
	draw.DrawMask(c.Image, area, image.NewUniform(ink), image.Point{}, mask, image.Point{}, draw.Over)
}

// stroke paints pieces as lines: a bar for each stretch and a disc for each corner, all turned the same way so that
// they add up.
func (c *canvas) stroke(pieces [][]spot, l look, clip image.Rectangle) {
	half := max(l.width*c.scale, 1) / 2
	var parts [][]spot
	for _, piece := range dashed(pieces, l.dashes, c.scale) {
		for i := 1; i < len(piece); i++ {
			a, b := piece[i-1], piece[i]
			length := math.Hypot(b.x-a.x, b.y-a.y)
			if length < half {
				parts = append(parts, disc(a, half)) // a dot
				continue
			}
			nx, ny := -(b.y-a.y)/length*half, (b.x-a.x)/length*half
			parts = append(parts, []spot{{a.x + nx, a.y + ny}, {a.x - nx, a.y - ny}, {b.x - nx, b.y - ny},
				{b.x + nx, b.y + ny}})
			if i > 1 && half > 0.8 {
				parts = append(parts, disc(a, half))
			}
		}
	}
	c.fill(parts, fade(l.stroke, l.opacity), clip)
}

// disc returns a round corner, turned as the bars are.
func disc(middle spot, r float64) []spot {
	const corners = 10
	points := make([]spot, corners)
	for i := range points {
		angle := 2 * math.Pi * float64(i) / corners
		points[i] = spot{middle.x + r*math.Cos(angle), middle.y + r*math.Sin(angle)}
	}
	return points
}

// dashed cuts pieces into strokes and gaps.
func dashed(pieces [][]spot, lengths []float64, scale float64) [][]spot {
	if len(lengths) == 0 {
		return pieces
	}
	var cut [][]spot
	for _, piece := range pieces {
		cut = append(cut, strokes(piece, lengths, scale)...)
	}
	return cut
}

// strokes cuts one piece, beginning with a stroke.
func strokes(piece []spot, lengths []float64, scale float64) (cut [][]spot) {
	at, left := 0, lengths[0]*scale
	for i := 1; i < len(piece); i++ {
		a, b := piece[i-1], piece[i]
		length := math.Hypot(b.x-a.x, b.y-a.y)
		for done := 0.0; done < length; {
			step := min(left, length-done)
			if at%2 == 0 {
				cut = append(cut, []spot{along(a, b, done/length), along(a, b, (done+step)/length)})
			}
			done, left = done+step, left-step
			if left <= 1e-9 {
				at++
				left = lengths[at%len(lengths)] * scale
			}
		}
	}
	return cut
}

// along returns the place at a share of the way from a to b.
func along(a, b spot, share float64) spot {
	return spot{a.x + share*(b.x-a.x), a.y + share*(b.y-a.y)}
}

// face is a font, and letters are one in a size.
type (
	face    struct{ font *opentype.Font }
	letters struct{ font.Face }
)

func openFace(data []byte) face {
	parsed, err := opentype.Parse(data)
	if err != nil {
		panic("figure: a font of golang.org/x/image cannot be read: " + err.Error())
	}
	return face{parsed}
}

// at returns the letters of a size in pixels.
func (f face) at(size float64) letters {
	made, err := opentype.NewFace(f.font, &opentype.FaceOptions{Size: size, DPI: 72, Hinting: font.HintingNone})
	if err != nil {
		panic("figure: a font of golang.org/x/image has no size: " + err.Error())
	}
	return letters{made}
}

// known returns the text without what the letters lack.
func (l letters) known(text string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		if _, ok := l.GlyphAdvance(r); !ok {
			return -1
		}
		return r
	}, text))
}

// Drawable returns a text without the letters that a card cannot show, because the Go fonts lack them.
func Drawable(text string) string { return openFace(goregular.TTF).at(textSize).known(clean(text)) }

func (l letters) width(text string) float64 {
	return float64(font.MeasureString(l.Face, text)) / 64
}

// fit cuts a text to a width in pixels.
func fit(l letters, text string, width float64) string {
	text = l.known(clean(text))
	if l.width(text) <= width {
		return text
	}
	runes := []rune(text)
	for len(runes) > 0 && l.width(string(runes)+"…") > width {
		runes = runes[:len(runes)-1]
	}
	return string(runes) + "…"
}

// write puts a text with its left end at x on the line y.
func (c *canvas) write(l letters, text string, x, y float64, ink color.NRGBA) {
	drawer := font.Drawer{
		Dst: c.Image, Src: image.NewUniform(ink), Face: l.Face,
		Dot: fixed.Point26_6{X: fixed.Int26_6(math.Round(x * 64)), Y: fixed.Int26_6(math.Round(y * 64))},
	}
	drawer.DrawString(l.known(text))
}
