package main

import (
	"image"
	"math"

	"golang.org/x/image/vector"
)

// Mask is how much of each pixel in a box a shape covers, from 0 to 1.
type Mask struct {
	Box image.Rectangle
	A   []float64
}

func (m *Mask) at(x, y int) float64 {
	return m.A[(y-m.Box.Min.Y)*m.Box.Dx()+x-m.Box.Min.X]
}

// everywhere covers a whole canvas.
func everywhere(c *Canvas) *Mask {
	m := &Mask{Box: image.Rect(0, 0, c.W, c.H), A: make([]float64, c.W*c.H)}
	for i := range m.A {
		m.A[i] = 1
	}
	return m
}

// shape covers the inside of a closed outline.
func shape(outline []Vec) *Mask {
	box := bounds(outline)
	m := &Mask{Box: box, A: make([]float64, box.Dx()*box.Dy())}
	if len(outline) < 3 || box.Empty() {
		return m
	}
	r := vector.NewRasterizer(box.Dx(), box.Dy())
	for i, p := range outline {
		x, y := float32(p.X-float64(box.Min.X)), float32(p.Y-float64(box.Min.Y))
		if i == 0 {
			r.MoveTo(x, y)
			continue
		}
		r.LineTo(x, y)
	}
	r.ClosePath()
	alpha := image.NewAlpha(image.Rect(0, 0, box.Dx(), box.Dy()))
	r.Draw(alpha, alpha.Bounds(), image.Opaque, image.Point{})
	for i, a := range alpha.Pix {
		m.A[i] = float64(a) / 255
	}
	return m
}

func bounds(outline []Vec) image.Rectangle {
	low, high := Vec{math.Inf(1), math.Inf(1)}, Vec{math.Inf(-1), math.Inf(-1)}
	for _, p := range outline {
		low = Vec{math.Min(low.X, p.X), math.Min(low.Y, p.Y)}
		high = Vec{math.Max(high.X, p.X), math.Max(high.Y, p.Y)}
	}
	if low.X > high.X {
		return image.Rectangle{}
	}
	return image.Rect(int(low.X)-2, int(low.Y)-2, int(high.X)+3, int(high.Y)+3)
}

// blurred returns the mask with soft edges.
func (m *Mask) blurred(radius float64) *Mask {
	out := m.padded(int(radius*2) + 2)
	out.blur(radius)
	return out
}

// blur softens the mask within its box: three box filters in a row are close to a Gaussian.
func (m *Mask) blur(radius float64) {
	w, h := m.Box.Dx(), m.Box.Dy()
	r := max(1, int(radius*.6))
	line := make([]float64, max(w, h))
	for range 3 {
		for y := range h {
			boxFilter(m.A[y*w:], 1, line[:w], r)
		}
		for x := range w {
			boxFilter(m.A[x:], w, line[:h], r)
		}
	}
}

// boxFilter replaces len(line) values, step apart, by the mean over r neighbours on each side; outside, the end
// value holds.
func boxFilter(values []float64, step int, line []float64, r int) {
	n := len(line)
	for i := range n {
		line[i] = values[i*step]
	}
	sum := 0.0
	for k := -r; k <= r; k++ {
		sum += line[min(max(k, 0), n-1)]
	}
	for i := range n {
		values[i*step] = sum / float64(2*r+1)
		sum += line[min(i+r+1, n-1)] - line[max(i-r, 0)]
	}
}

func (m *Mask) padded(pad int) *Mask {
	out := &Mask{Box: m.Box.Inset(-pad)}
	out.A = make([]float64, out.Box.Dx()*out.Box.Dy())
	w := m.Box.Dx()
	for y := range m.Box.Dy() {
		copy(out.A[(y+pad)*out.Box.Dx()+pad:], m.A[y*w:(y+1)*w])
	}
	return out
}

// clipped returns the mask without what lies outside another.
func (m *Mask) clipped(by *Mask) *Mask {
	out := &Mask{Box: m.Box.Intersect(by.Box)}
	out.A = make([]float64, out.Box.Dx()*out.Box.Dy())
	i := 0
	for y := out.Box.Min.Y; y < out.Box.Max.Y; y++ {
		for x := out.Box.Min.X; x < out.Box.Max.X; x++ {
			out.A[i] = m.at(x, y) * by.at(x, y)
			i++
		}
	}
	return out
}

// ring is the inner edge of a shape: where pigment gathers when a wash dries.
func (m *Mask) ring(radius float64) *Mask {
	soft := m.blurred(radius)
	out := &Mask{Box: m.Box, A: make([]float64, len(m.A))}
	i := 0
	for y := m.Box.Min.Y; y < m.Box.Max.Y; y++ {
		for x := m.Box.Min.X; x < m.Box.Max.X; x++ {
			out.A[i] = m.A[i] * clamp(1.6*(1-soft.at(x, y)), 0, 1)
			i++
		}
	}
	return out
}
