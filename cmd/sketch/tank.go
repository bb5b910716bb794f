package main

import (
	"math"
	"math/rand/v2"
)

// Glass is a tank seen from the front; its corners are in pixels.
type Glass struct {
	X0, Y0, X1, Y1 float64
	Surface        float64 // height of the water, px
	Ground         float64 // top of the gravel, px
	Light          Light
	Tone           RGB // of the gravel
}

// inside is the mask of the water.
func (g Glass) inside() *Mask { return shape(rect(g.X0+7, g.Surface, g.X1-7, g.Y1-9)) }

// clipTo runs a painter on a copy of the canvas and takes over what falls inside the mask.
func clipTo(c *Canvas, m *Mask, paint func(copy *Canvas)) {
	layer := &Canvas{W: c.W, H: c.H, Pix: append([]RGB(nil), c.Pix...)}
	paint(layer)
	c.Paint(m, cover, func(p Vec) (RGB, float64) { return layer.Pix[int(p.Y)*c.W+int(p.X)], 1 })
}

// fill paints the water, the ground and whatever grows or swims in the tank.
func (g Glass) fill(c *Canvas, r *rand.Rand, plant func(c *Canvas, r *rand.Rand)) {
	m := g.inside()
	clipTo(c, m, func(c *Canvas) {
		water(c, m, g.Light, Noise(r.Uint32()))
		for range 9 {
			x := g.X0 + (g.X1-g.X0)*r.Float64()
			ribbon(c, r, Vec{x, g.Ground + 10},
				Vec{x + 60*(r.Float64()-.5), g.Surface + (g.Ground-g.Surface)*(.2+.5*r.Float64())}, 9)
		}
		c.Paint(m, cover, func(p Vec) (RGB, float64) { return mix(g.Light.Mid, g.Light.Low, .4), .45 })
		gravel(c, r, m, ground{g.Ground, g.Y1, g.Tone})
		plant(c, r)
		caustics(c, m, Noise(r.Uint32()), .13)
	})
}

// panes paints the glass itself: edges, the bright line of the surface, a slanting reflection.
func (g Glass) panes(c *Canvas, r *rand.Rand) {
	edge := hex(0x20342f)
	for _, line := range [][]Vec{
		rect(g.X0, g.Y0, g.X0+7, g.Y1), rect(g.X1-7, g.Y0, g.X1, g.Y1), rect(g.X0, g.Y1-9, g.X1, g.Y1),
	} {
		c.Paint(shape(line), cover, flat(mix(edge, hex(0x9fc6b8), .3), .8))
		c.Paint(shape(line).ring(2), glow, flat(hex(0xd7efe4), .35))
	}
	c.Paint(shape(rect(g.X0, g.Y0, g.X1, g.Surface)), glow, flat(hex(0xdfeee6), .18))
	c.Paint(shape(rect(g.X0, g.Y0, g.X1, g.Y0+5)), cover, flat(hex(0xe3efe8), .75))
	c.Paint(shape(rect(g.X0+7, g.Surface-3, g.X1-7, g.Surface+3)).blurred(2), glow, flat(hex(0xf6fff2), .75))
	for range 3 {
		x := g.X0 + (g.X1-g.X0)*(.05+.8*r.Float64())
		wide := 20 + 50*r.Float64()
		lean := (g.Y1 - g.Y0) * .5
		band := shape([]Vec{{x + lean, g.Y0}, {x + lean + wide, g.Y0}, {x + wide, g.Y1}, {x, g.Y1}}).clipped(shape(rect(g.X0, g.Y0, g.X1, g.Y1)))
		c.Paint(band.blurred(6).clipped(shape(rect(g.X0, g.Y0, g.X1, g.Y1))), glow, flat(hex(0xeaf5ee), .09))
	}
}

// sponge paints a sponge filter with its riser and bubbles; size is its height.
func sponge(c *Canvas, r *rand.Rand, foot Vec, size, surface float64) {
	riser := rect(foot.X-size*.07, surface+12, foot.X+size*.07, foot.Y-size*.6)
	c.Paint(shape(riser), cover, flat(hex(0x9db4ac), .6))
	c.Paint(shape(riser).ring(2), glaze, flat(hex(0x39504a), .6))
	body := shape(wobbly(Noise(r.Uint32()), rect(foot.X-size*.34, foot.Y-size, foot.X+size*.34, foot.Y), 5))
	n := Noise(r.Uint32())
	c.Paint(body, cover, func(p Vec) (RGB, float64) {
		round := (p.X - foot.X) / (size * .34)
		hole := smooth(.5, .36, n.cloud(p.Mul(.19)))
		return mix(hex(0x4e5648), hex(0x1d221d), hole).scale(1.15 - .5*round*round + .25*(n.cloud(p.Mul(.03))-.5)), 1
	})
	c.Paint(body.ring(3), glaze, flat(hex(0x16201a), .6))
	bubbles(c, r, Vec{foot.X, surface + 40}, 36, 7)
	bubbles(c, r, Vec{foot.X + size*.1, foot.Y - size}, foot.Y-size-surface, 5)
}

// troop scatters small shrimp over the ground, the moss and the glass.
func troop(c *Canvas, r *rand.Rand, at []Vec, size float64, grade func() float64) {
	for _, p := range at {
		s := Shrimp{At: p, Size: size * (.7 + .45*r.Float64()), Angle: (r.Float64() - .5) * .5,
			Flip: r.IntN(2) == 0, Grade: clamp(grade(), 0, 1), Arch: .5 + .8*r.Float64(), Seed: r.Uint64()}
		if r.IntN(6) == 0 {
			s.Eggs = 16
		}
		s.Draw(c)
	}
}

// wood covers a mask with planks that run along it.
func wood(c *Canvas, m *Mask, color RGB, n Noise) {
	h := float64(m.Box.Dy())
	c.Paint(m, cover, func(p Vec) (RGB, float64) {
		plank := math.Floor((p.Y - float64(m.Box.Min.Y)) / (h / 3))
		warp := n.cloud(Vec{p.X / 500, p.Y / 60}) * 3
		grain := n.cloud(Vec{p.X/260 + plank*7, p.Y/5 + warp})
		ring := .5 + .5*math.Sin((p.Y/7+9*n.cloud(Vec{p.X/300 + plank*3, p.Y / 30}))*1.3)
		return color.scale(.72 + .3*grain + .12*ring + .06*math.Mod(plank, 2)), 1
	})
}

// plaster covers a mask with an old wall.
func plaster(c *Canvas, m *Mask, color RGB, n Noise) {
	c.Paint(m, cover, func(p Vec) (RGB, float64) {
		patch := n.cloud(p.Mul(1.0/260)) - .5
		fine := n.cloud(p.Mul(1.0/14)) - .5
		return color.scale(1 + .22*patch + .07*fine), 1
	})
}
