package main

import (
	"math"
	"math/rand/v2"
)

// greens run from the shade of a cushion to its lit tips.
var greens = []RGB{hex(0x12261a), hex(0x1f4326), hex(0x356b2f), hex(0x5c9638), hex(0x93bf4f), hex(0xc6dd7d)}

// tone picks a green between shade (0) and light (1).
func tone(t float64) RGB {
	f := clamp(t, 0, .999) * float64(len(greens)-1)
	return mix(greens[int(f)], greens[int(f)+1], f-math.Floor(f))
}

// frond paints one moss shoot with side shoots; lit goes from 0 in the shade to 1.
func frond(c *Canvas, r *rand.Rand, from Vec, dir Vec, lit float64) {
	bend := (r.Float64() - .5) * .9
	main := curve(24, from, from.Add(dir.Mul(.55)), from.Add(dir.Turn(bend)))
	shoot(c, r, main, dir.Len()*.055, lit)
	for i := 5; i < 22; i += 3 {
		side := float64(1 - 2*(i%2))
		ahead := main[i+1].Sub(main[i]).Unit()
		long := dir.Len() * .42 * (1.15 - float64(i)/24)
		out := ahead.Turn(side * (.6 + .3*r.Float64())).Mul(long)
		tip := main[i].Add(out.Turn(-side * .35))
		shoot(c, r, curve(12, main[i], main[i].Add(out.Mul(.5)), tip), dir.Len()*.05, lit+.06)
	}
}

// shoot paints a thin line set with small overlapping leaves on both sides.
func shoot(c *Canvas, r *rand.Rand, line []Vec, size, lit float64) {
	c.Paint(shape(stroke(line, taper(size*.22+.35))), cover, flat(tone(lit).scale(.75), .9))
	for i := 1; i < len(line)-1; i++ {
		ahead := line[i+1].Sub(line[i]).Unit()
		for _, side := range []float64{-1, 1} {
			tip := line[i].Add(ahead.Turn(side * (.5 + .4*r.Float64())).Mul(size * (1.4 - .6*float64(i)/float64(len(line)))))
			shade := tone(lit + (r.Float64()-.5)*.2 + .14*float64(i)/float64(len(line)))
			c.Paint(shape(stroke([]Vec{line[i], line[i].Add(tip).Mul(.5), tip}, leaf(size*.2, .4))), cover,
				flat(shade, .9))
		}
	}
}

// Cushion is a mound of moss.
type Cushion struct {
	At     Vec     // middle of its foot
	Wide   float64 // half width, px
	High   float64 // px
	Frond  float64 // length of a shoot, px
	Count  int
	Bright float64 // 0 to 1
}

// moss paints a cushion from its dark inside to its lit tips.
func moss(c *Canvas, r *rand.Rand, m Cushion) {
	dome := oval(m.At.Add(Vec{0, -m.High * .35}), m.Wide*.9, m.High*.62, 0)
	n := Noise(r.Uint32())
	c.Paint(shape(dome).blurred(m.Frond*.5), cover, func(p Vec) (RGB, float64) {
		up := (m.At.Y - p.Y) / m.High
		return tone(.04 + .3*smooth(.2, 1, up)*n.cloud(p.Mul(3/m.Frond))), .96
	})
	for i := range m.Count {
		f := float64(i) / float64(m.Count)
		angle := math.Pi * (r.Float64()*1.16 - .08)
		rim := Vec{math.Cos(angle) * m.Wide, -math.Sin(angle) * m.High}
		depth := math.Sqrt(r.Float64()) * (1.02 - .45*f)
		from := m.At.Add(rim.Mul(depth))
		out := Vec{rim.X / m.Wide, rim.Y/m.High - .35}.Unit()
		up := out.Turn((r.Float64() - .5) * 1.5).Mul(m.Frond * (.55 + .6*r.Float64()))
		height := -rim.Y / m.High * depth
		frond(c, r, from, up, clamp(.1+.45*f+.35*height*m.Bright+.1*(r.Float64()-.5), .02, .98)*(.55+.45*m.Bright))
	}
}

// Stem is a plant with opposite leaves.
type Stem struct {
	Foot, Tip Vec
	Leaf      float64 // length, px
	Color     RGB
	Lit       float64
}

// stem paints one plant from the ground up.
func stem(c *Canvas, r *rand.Rand, s Stem) {
	up := s.Tip.Sub(s.Foot)
	line := curve(60, s.Foot, s.Foot.Add(up.Mul(.5)).Add(up.Left().Mul((r.Float64()-.5)*.16)), s.Tip)
	c.Paint(shape(stroke(line, func(t float64) float64 { return s.Leaf * .045 * (1.2 - t) })), cover,
		flat(s.Color.scale(.7), .95))
	step := max(3, int(s.Leaf*.55/up.Len()*60))
	for i := step; i <= 60; i += step {
		f := float64(i) / 60
		ahead := line[i].Sub(line[i-1]).Unit()
		size := s.Leaf * (1.1 - .6*f*f) * (.8 + .4*r.Float64())
		for _, side := range []float64{-1, 1} {
			dir := ahead.Turn(side * (.75 + .5*r.Float64()))
			tip := line[i].Add(dir.Mul(size)).Add(Vec{0, size * .12})
			blade := shape(stroke(curve(14, line[i], line[i].Add(dir.Mul(size*.5)).Add(Vec{0, -size * .06}), tip), leaf(size*.16, .5)))
			light := s.Lit * (.55 + .6*f) * (.85 + .3*r.Float64())
			c.Paint(blade, cover, flat(mix(s.Color.scale(.55), hex(0xd9e58a), .75*light), .93))
			c.Paint(blade.ring(size*.06+1), glaze, flat(hex(0x2f4a22), .45))
		}
	}
}

// ribbon paints a long grass-like leaf that bends with the water.
func ribbon(c *Canvas, r *rand.Rand, foot, tip Vec, width float64) {
	up := tip.Sub(foot)
	sway := up.Left().Mul((r.Float64() - .5) * .3)
	line := curve(50, foot, foot.Add(up.Mul(.5)).Add(sway), tip,
		tip.Add(Vec{up.Len() * .12 * (r.Float64() - .5), up.Len() * .05}))
	m := shape(stroke(line, leaf(width, .35)))
	lit := .3 + .5*r.Float64()
	c.Paint(m, cover, func(p Vec) (RGB, float64) {
		f := (foot.Y - p.Y) / math.Max(1, foot.Y-tip.Y)
		return tone(lit*.55 + .35*f), .93
	})
	c.Paint(m.ring(width*.3+1), glaze, flat(hex(0x2a4a26), .4))
}

// litter paints a fallen leaf with its veins.
func litter(c *Canvas, r *rand.Rand, at Vec, size, angle float64) {
	dir := Vec{1, 0}.Turn(angle)
	line := curve(30, at.Sub(dir.Mul(size)), at.Add(dir.Left().Mul(size*.12)), at.Add(dir.Mul(size)))
	m := shape(stroke(line, leaf(size*.42, .5)))
	n := Noise(r.Uint32())
	c.Paint(m.blurred(size*.06), glaze, flat(hex(0x2c2a1c), .4))
	c.Paint(m, cover, func(p Vec) (RGB, float64) {
		return mix(hex(0x6d4420), hex(0xb98245), n.cloud(p.Mul(6/size))).scale(.85 + .3*n.cloud(p.Mul(30/size))), .95
	})
	c.Paint(m.ring(size*.05+1), glaze, flat(hex(0x4a2c12), .6))
	for i := 3; i < 28; i += 3 {
		for _, side := range []float64{-1, 1} {
			vein := curve(6, line[i], line[i].Add(dir.Turn(side*.9).Mul(size*.34)))
			c.Paint(shape(stroke(vein, taper(size*.012+.4))).clipped(m), glaze, flat(hex(0x5a3517), .55))
		}
	}
	c.Paint(shape(stroke(line, taper(size*.022+.5))), cover, flat(hex(0x55331a), .8))
}
