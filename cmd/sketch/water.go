package main

import (
	"math"
	"math/rand/v2"
)

// Light is the mood of the water in a picture.
type Light struct {
	Top, Mid, Low RGB     // colours of the water from the surface down
	Beam          float64 // strength of the beams from above, 0 to 1
	Lean          float64 // how far the beams lean, as a share of the height
}

var (
	dayLight   = Light{hex(0xcfe3cf), hex(0x86b3a0), hex(0x3c6a5c), .5, .25}
	warmLight  = Light{hex(0xf0e2b6), hex(0xb0b482), hex(0x55664a), .55, .2}
	coolLight  = Light{hex(0xd6e6ea), hex(0x8fb4bd), hex(0x416873), .6, .5}
	nightLight = Light{hex(0x1d3142), hex(0x142534), hex(0x0a141f), .25, -.3}
)

// water fills a mask with a lit depth of water.
func water(c *Canvas, m *Mask, l Light, n Noise) {
	h := float64(m.Box.Dy())
	top := float64(m.Box.Min.Y)
	c.Paint(m, cover, func(p Vec) (RGB, float64) {
		y := (p.Y-top)/h + .12*(n.cloud(p.Mul(1/(h*.4)))-.5)
		if y < .45 {
			return mix(l.Top, l.Mid, smooth(0, .45, y)), 1
		}
		return mix(l.Mid, l.Low, smooth(.45, 1, y)), 1
	})
	c.Paint(m, glow, func(p Vec) (RGB, float64) {
		y := (p.Y - top) / h
		x := p.X/h - l.Lean*y
		beam := smooth(.48, .8, (n+77).cloud(Vec{x * 5, y * .35})) * (1 - smooth(.1, .95, y))
		return hex(0xfff4d2), l.Beam * beam * .6
	})
}

// caustics lays the dancing net of light on whatever is there.
func caustics(c *Canvas, m *Mask, n Noise, strength float64) {
	h := float64(c.H)
	c.Paint(m, glow, func(p Vec) (RGB, float64) {
		return hex(0xfff0c8), strength * n.ripple(Vec{p.X / h * 7, p.Y / h * 13})
	})
}

// bokeh scatters soft discs of light and leaf far behind.
func bokeh(c *Canvas, r *rand.Rand, count int, colors ...RGB) {
	for range count {
		at := Vec{r.Float64() * float64(c.W), r.Float64() * float64(c.H) * .85}
		size := (18 + 60*r.Float64()) * float64(c.W) / 1600
		m := shape(oval(at, size, size*.94, 0)).blurred(5 + size*.12)
		c.Paint(m, glow, flat(colors[r.IntN(len(colors))], .1+.14*r.Float64()))
	}
}

// ground is a strip of the picture's height, and the colour of its stones.
type ground struct {
	top, bottom float64
	tone        RGB
}

// gravel covers a strip of ground with small stones, larger towards the viewer.
func gravel(c *Canvas, r *rand.Rand, clip *Mask, g ground) {
	left, right := float64(clip.Box.Min.X), float64(clip.Box.Max.X)
	unit := float64(c.W) / 1600
	c.Paint(shape(rect(left, g.top, right, g.bottom)).clipped(clip), cover, flat(g.tone.scale(.55), .95))
	for y := g.top; y < g.bottom; {
		near := (y - g.top) / (g.bottom - g.top)
		size := (2.5 + 8*near) * unit
		for x := left; x < right; x += size * 1.5 {
			at := Vec{x + (r.Float64()-.5)*size*2, y + (r.Float64()-.5)*size}
			shade := g.tone.scale(.6 + .65*r.Float64())
			stone(c, r, clip, stoneLook{at, size * (.7 + .6*r.Float64()), size * (.5 + .4*r.Float64()),
				mix(shade, hex(0xcdbb9a), r.Float64()*.35)})
		}
		y += size * .9
	}
}

// stoneLook is where a stone lies, its half axes, and its colour.
type stoneLook struct {
	at     Vec
	rx, ry float64
	color  RGB
}

// stone paints one rounded stone, lit from above.
func stone(c *Canvas, r *rand.Rand, clip *Mask, look stoneLook) {
	m := shape(pebble(r, look.at, look.rx, look.ry)).clipped(clip)
	n := Noise(r.Uint32())
	c.Paint(m, cover, func(p Vec) (RGB, float64) {
		y := (p.Y - look.at.Y) / look.ry
		x := (p.X - look.at.X) / look.rx
		light := 1.15 - .45*smooth(-.8, 1, y+.3*x)
		speck := n.cloud(p.Mul(3/math.Sqrt(look.rx))) - .5
		return look.color.scale(light * (1 + .35*speck)), 1
	})
	c.Paint(m.ring(2+look.rx*.05), glaze, flat(hex(0x2c2a22), .5))
}

// bubbles rise in a wavering string from a place to a height.
func bubbles(c *Canvas, r *rand.Rand, from Vec, up, size float64) {
	for y := 0.0; y < up; y += size * (1.2 + 2*r.Float64()) {
		k := size * (.4 + .6*r.Float64()) * (.7 + .5*y/up)
		at := from.Add(Vec{(r.Float64() - .5) * size * (2 + 3*y/up), -y})
		m := shape(oval(at, k, k*.9, 0))
		c.Paint(m, glow, flat(hex(0xdff2f2), .12))
		c.Paint(m.ring(k*.3+1), glow, flat(hex(0xeefaff), .6))
		c.Paint(shape(oval(at.Add(Vec{-k * .35, -k * .35}), k*.2, k*.16, 0)), cover, flat(hex(0xffffff), .8))
	}
}
