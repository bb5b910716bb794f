package main

import (
	"image"
	"image/color"
	"math"
)

// Vec is a point or a direction on the canvas, in pixels; y grows downwards.
type Vec struct{ X, Y float64 }

// Add returns v + w.
func (v Vec) Add(w Vec) Vec { return Vec{v.X + w.X, v.Y + w.Y} }

// Sub returns v − w.
func (v Vec) Sub(w Vec) Vec { return Vec{v.X - w.X, v.Y - w.Y} }

// Mul returns v stretched by k.
func (v Vec) Mul(k float64) Vec { return Vec{v.X * k, v.Y * k} }

// Len returns the length of v.
func (v Vec) Len() float64 { return math.Hypot(v.X, v.Y) }

// Unit returns v with length 1; the zero vector stays as it is.
func (v Vec) Unit() Vec {
	if l := v.Len(); l > 0 {
		return v.Mul(1 / l)
	}
	return v
}

// Left returns v turned a quarter to its left hand as seen on the page.
func (v Vec) Left() Vec { return Vec{v.Y, -v.X} }

// Turn returns v turned by an angle in radians, clockwise on the page.
func (v Vec) Turn(angle float64) Vec {
	s, c := math.Sincos(angle)
	return Vec{v.X*c - v.Y*s, v.X*s + v.Y*c}
}

// RGB is a colour with channels from 0 to 1, as sRGB stores them.
type RGB struct{ R, G, B float64 }

// hex makes a colour of 0xRRGGBB.
func hex(v uint32) RGB {
	return RGB{float64(v>>16&255) / 255, float64(v>>8&255) / 255, float64(v&255) / 255}
}

// mix goes from a at 0 to b at 1.
func mix(a, b RGB, t float64) RGB {
	t = clamp(t, 0, 1)
	return RGB{a.R + (b.R-a.R)*t, a.G + (b.G-a.G)*t, a.B + (b.B-a.B)*t}
}

// scale makes a colour darker below 1 and lighter above.
func (c RGB) scale(k float64) RGB { return RGB{c.R * k, c.G * k, c.B * k} }

func clamp(v, low, high float64) float64 { return math.Max(low, math.Min(high, v)) }

// smooth rises from 0 at low to 1 at high without corners.
func smooth(low, high, v float64) float64 {
	t := clamp((v-low)/(high-low), 0, 1)
	return t * t * (3 - 2*t)
}

// bell is 1 at mid and falls to nothing over a few widths.
func bell(mid, width, v float64) float64 {
	d := (v - mid) / width
	return math.Exp(-d * d)
}

// Shader gives the paint at a pixel: its colour and how much of it, from 0 to 1.
type Shader func(p Vec) (RGB, float64)

// flat is one colour everywhere.
func flat(c RGB, amount float64) Shader {
	return func(Vec) (RGB, float64) { return c, amount }
}

// Canvas is the picture in floating point, so that many thin layers do not step.
type Canvas struct {
	W, H int
	Pix  []RGB
}

// NewCanvas returns a canvas in one colour.
func NewCanvas(w, h int, ground RGB) *Canvas {
	c := &Canvas{W: w, H: h, Pix: make([]RGB, w*h)}
	for i := range c.Pix {
		c.Pix[i] = ground
	}
	return c
}

// Blend is how a layer of paint meets what lies under it.
type Blend func(under, paint RGB) RGB

func cover(_, paint RGB) RGB { return paint }

func glaze(under, paint RGB) RGB {
	return RGB{under.R * paint.R, under.G * paint.G, under.B * paint.B}
}

func glow(under, paint RGB) RGB {
	return RGB{1 - (1-under.R)*(1-paint.R), 1 - (1-under.G)*(1-paint.G), 1 - (1-under.B)*(1-paint.B)}
}

// Paint lays a shader on the canvas where the mask is, as cover, glaze (transparent, darkens) or glow (lightens).
func (c *Canvas) Paint(m *Mask, blend Blend, shade Shader) {
	for y := max(m.Box.Min.Y, 0); y < min(m.Box.Max.Y, c.H); y++ {
		for x := max(m.Box.Min.X, 0); x < min(m.Box.Max.X, c.W); x++ {
			a := m.at(x, y)
			if a <= 0 {
				continue
			}
			paint, amount := shade(Vec{float64(x) + .5, float64(y) + .5})
			p := &c.Pix[y*c.W+x]
			*p = mix(*p, blend(*p, paint), a*amount)
		}
	}
}

// Wash lays a shader over the whole canvas.
func (c *Canvas) Wash(blend Blend, shade Shader) {
	c.Paint(everywhere(c), blend, shade)
}

// Soften blurs the whole canvas, for distance.
func (c *Canvas) Soften(radius float64) {
	channel := &Mask{Box: image.Rect(0, 0, c.W, c.H), A: make([]float64, c.W*c.H)}
	for k := range 3 {
		for i, p := range c.Pix {
			channel.A[i] = [3]float64{p.R, p.G, p.B}[k]
		}
		channel.blur(radius)
		for i, v := range channel.A {
			*[3]*float64{&c.Pix[i].R, &c.Pix[i].G, &c.Pix[i].B}[k] = v
		}
	}
}

// Image returns the canvas with eight bits a channel.
func (c *Canvas) Image() *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, c.W, c.H))
	for i, p := range c.Pix {
		img.SetRGBA(i%c.W, i/c.W, color.RGBA{eight(p.R), eight(p.G), eight(p.B), 255})
	}
	return img
}

func eight(v float64) uint8 { return uint8(clamp(v, 0, 1)*255 + .5) }
