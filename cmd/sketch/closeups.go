package main

import (
	"math"
	"math/rand/v2"
)

// eyedEggs looks through a loupe at a clutch under the tail.
func eyedEggs(c *Canvas, r *rand.Rand) {
	w, h := float64(c.W), float64(c.H)
	depth(c, r, warmLight)
	belly := Shrimp{At: Vec{w * .52, h * -.02}, Size: 3900, Angle: .02, Grade: .8, Arch: .3, Seed: 21}
	belly.body(c)
	rows := []float64{.24, .38, .52, .65}
	for row, y := range rows {
		for i := range 9 {
			x := (.07 + .105*float64(i) + .052*float64(row%2)) * w
			sag := math.Sin(clamp((x/w-.05)/.9, 0, 1)*math.Pi)*.09 - .05
			at := Vec{x + (r.Float64()-.5)*46, h*(y+sag) + (r.Float64()-.5)*40}
			if math.Abs(x/w-.5) > .46-.09*float64(row) {
				continue
			}
			bigEgg(c, r, at, 88+14*r.Float64())
		}
	}
	for i := range 4 {
		x := w * (.14 + .25*float64(i))
		line := curve(40, Vec{x, h * .2}, Vec{x + 30, h * .5}, Vec{x + 130, h * .82})
		c.Paint(shape(stroke(line, leaf(34, .55))), cover, flat(hex(0xd0604a), .5))
		c.Paint(shape(stroke(line, leaf(34, .55))).ring(9), glaze, flat(hex(0x7b241c), .5))
	}
	loupe(c)
}

// bigEgg is one egg near enough to see the young one folded round the yolk.
func bigEgg(c *Canvas, r *rand.Rand, at Vec, radius float64) {
	turn := (r.Float64() - .5) * 1.6
	m := shape(oval(at, radius*1.1, radius*.93, turn))
	n := Noise(r.Uint32())
	c.Paint(m.blurred(9), glaze, flat(hex(0x4b4420), .35))
	yolk := at.Add(Vec{radius * .25, radius * .2}.Turn(turn))
	c.Paint(m, cover, func(p Vec) (RGB, float64) {
		d := p.Sub(at).Len() / radius
		y := p.Sub(yolk).Len() / radius
		clear := mix(hex(0xefe3b4), hex(0xc9b070), smooth(.3, 1.05, d))
		grain := n.cloud(p.Mul(.06))
		return mix(clear, mix(hex(0xd2b53a), hex(0x98851f), grain), 1-smooth(.45, .72, y)), .93
	})
	fold := curve(30, at.Add(Vec{-radius * .75, radius * .1}.Turn(turn)),
		at.Add(Vec{-radius * .2, -radius * .55}.Turn(turn)), at.Add(Vec{radius * .6, -radius * .4}.Turn(turn)),
		at.Add(Vec{radius * .85, radius * .25}.Turn(turn)))
	c.Paint(shape(stroke(fold, leaf(radius*.16, .5))).clipped(m), cover, flat(hex(0xc96f4a), .45))
	for _, side := range []float64{-.3, .34} {
		eye := at.Add(Vec{-radius * .42, radius * side}.Turn(turn))
		c.Paint(shape(oval(eye, radius*.2, radius*.15, turn+.5)), cover, flat(inkBrown, .93))
		c.Paint(shape(oval(eye.Add(Vec{-4, -5}), radius*.05, radius*.04, 0)), cover, flat(hex(0xffffff), .7))
	}
	c.Paint(m.ring(radius*.1), glaze, flat(hex(0x7d6a26), .55))
	c.Paint(shape(oval(at.Add(Vec{-radius * .3, -radius * .5}), radius*.3, radius*.13, -.5)).blurred(6), glow,
		flat(hex(0xffffff), .75))
}

// loupe darkens everything outside the round field of a lens.
func loupe(c *Canvas) {
	w, h := float64(c.W), float64(c.H)
	c.Wash(glaze, func(p Vec) (RGB, float64) {
		d := math.Hypot(p.X-w/2, p.Y-h/2) / (h * .5)
		return hex(0x2b2a26), .8 * smooth(.98, 1.06, d)
	})
	c.Wash(glow, func(p Vec) (RGB, float64) {
		d := math.Hypot(p.X-w/2, p.Y-h/2) / (h * .5)
		return hex(0xc9a860), .5 * bell(1.0, .012, d)
	})
}

// shrimplets are three newly hatched young in the moss.
func shrimplets(c *Canvas, r *rand.Rand) {
	w, h := float64(c.W), float64(c.H)
	depth(c, r, dayLight)
	for i := range 7 {
		moss(c, r, Cushion{Vec{w * (float64(i) / 6), h * 1.06}, w * .16, h * (.5 + .25*r.Float64()), w * .085, 120, 1})
	}
	for _, s := range []Shrimp{
		{At: Vec{520, 500}, Size: 250, Angle: .3, Grade: .1, Arch: 1, Seed: 2},
		{At: Vec{980, 420}, Size: 230, Angle: -.35, Flip: true, Grade: .16, Arch: .6, Seed: 8},
		{At: Vec{1180, 690}, Size: 245, Angle: .15, Grade: .06, Arch: 1.2, Seed: 5},
	} {
		s.Draw(c)
	}
	inFront(c, r)
	caustics(c, everywhere(c), Noise(r.Uint32()), .2)
	vignette(c, .35)
}

// shedShell is an empty shell on dark gravel.
func shedShell(c *Canvas, r *rand.Rand) {
	h := float64(c.H)
	water(c, everywhere(c), dayLight, Noise(r.Uint32()))
	c.Soften(10)
	gravel(c, r, everywhere(c), ground{h * .34, h * 1.05, hex(0x4c4a44)})
	c.Wash(cover, func(p Vec) (RGB, float64) { return dayLight.Low, .75 * smooth(.55, .3, p.Y/h) })
	moss(c, r, Cushion{Vec{180, 560}, 260, 170, 76, 150, .7})
	moss(c, r, Cushion{Vec{1450, 520}, 230, 150, 76, 140, .7})
	s := Shrimp{At: Vec{790, 640}, Size: 860, Angle: .12, Grade: .0, Arch: 1.9, Seed: 31}
	c.Paint(shape(oval(Vec{770, 730}, 400, 60, .1)).blurred(30), glaze, flat(hex(0x101410), .5))
	shell := &Canvas{W: c.W, H: c.H, Pix: append([]RGB(nil), c.Pix...)}
	s.Draw(shell)
	c.Wash(cover, func(p Vec) (RGB, float64) { // only a third of it is there at all
		over := shell.Pix[int(p.Y)*c.W+int(p.X)]
		return mix(over, hex(0xf2e2c0), .22), .62 * clamp(8*distance(over, c.Pix[int(p.Y)*c.W+int(p.X)]), 0, 1)
	})
	litter(c, r, Vec{1220, 860}, 150, -.3)
	caustics(c, everywhere(c), Noise(r.Uint32()), .2)
	vignette(c, .45)
}

// distance is how different two colours are, 0 to 1.
func distance(a, b RGB) float64 {
	return (math.Abs(a.R-b.R) + math.Abs(a.G-b.G) + math.Abs(a.B-b.B)) / 3
}

// fourGrades is the keeper's own scale as a column.
func fourGrades(c *Canvas, r *rand.Rand) {
	n := Noise(r.Uint32())
	c.Wash(cover, func(p Vec) (RGB, float64) {
		return mix(hex(0xe9e3cd), hex(0xc9d3c0), n.cloud(p.Mul(1.0/300))), 1
	})
	for i, grade := range []float64{.04, .36, .68, 1} {
		y := 160 + 300*float64(i)
		s := Shrimp{At: Vec{540, y}, Size: 690, Angle: -.02 + .05*r.Float64(), Flip: i%2 == 1, Grade: grade,
			Arch: .8, Seed: uint64(40 + i)}
		c.Paint(shape(oval(Vec{540, y + 120}, 330, 34, 0)).blurred(26), glaze, flat(hex(0x6d7a68), .5))
		s.Draw(c)
	}
	vignette(c, .2)
}
