package main

import (
	"math"
	"math/rand/v2"
)

// depth paints soft water with plants out of focus behind.
func depth(c *Canvas, r *rand.Rand, l Light) {
	w, h := float64(c.W), float64(c.H)
	all := everywhere(c)
	water(c, all, l, Noise(r.Uint32()))
	for range 26 {
		x := w * r.Float64()
		ribbon(c, r, Vec{x, h * 1.02}, Vec{x + (r.Float64()-.5)*w*.16, h * (.1 + .5*r.Float64())}, 10+16*r.Float64())
	}
	for range 5 {
		moss(c, r, Cushion{Vec{w * r.Float64(), h * 1.02}, w * .2, h * (.2 + .25*r.Float64()), 70, 130, .8})
	}
	c.Soften(17)
	c.Wash(cover, func(p Vec) (RGB, float64) { return mix(l.Mid, l.Low, p.Y/h), .3 })
	bokeh(c, r, 26, hex(0xe9f0b4), hex(0xbfe0c4), hex(0xfff3cf))
}

// perch is the near ground of moss that a portrait sits on; it ends about at the given height.
func perch(c *Canvas, r *rand.Rand, top float64) {
	w, h := float64(c.W), float64(c.H)
	for i := range 9 {
		x := w * (float64(i)/8 + .06*(r.Float64()-.5))
		moss(c, r, Cushion{Vec{x, h * 1.04}, w * .13, (h*1.04 - top) * (.82 + .3*r.Float64()), w * .05, 170, .95})
	}
}

// inFront lays a few large dark shoots across the foot of the picture.
func inFront(c *Canvas, r *rand.Rand) {
	w, h := float64(c.W), float64(c.H)
	for range 34 {
		x := w * r.Float64()
		frond(c, r, Vec{x, h + 20}, Vec{(r.Float64() - .5) * 110, -h * (.07 + .13*r.Float64())}, .12+.4*r.Float64())
	}
}

// portrait paints one shrimp on moss.
func portrait(s Shrimp, l Light) func(c *Canvas, r *rand.Rand) {
	return func(c *Canvas, r *rand.Rand) {
		depth(c, r, l)
		perch(c, r, s.At.Y+s.px(21))
		s.Draw(c)
		inFront(c, r)
		caustics(c, everywhere(c), Noise(r.Uint32()), .16)
		vignette(c, .34)
	}
}

// vignette darkens the corners.
func vignette(c *Canvas, strength float64) {
	w, h := float64(c.W), float64(c.H)
	c.Wash(glaze, func(p Vec) (RGB, float64) {
		d := math.Hypot((p.X-w/2)/w, (p.Y-h/2)/h)
		return hex(0x27352f), strength * smooth(.35, .78, d)
	})
}
