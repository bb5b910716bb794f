package main

import "math/rand/v2"

// saddleClose looks at one back from so near that the eggs can be told apart.
func saddleClose(c *Canvas, r *rand.Rand) {
	w, h := float64(c.W), float64(c.H)
	depth(c, r, dayLight)
	s := Shrimp{At: Vec{w * .16, h * .58}, Size: 2700, Angle: -.05, Grade: .62, Arch: .5, Saddle: true, Seed: 61}
	s.Draw(c)
	inFront(c, r)
	caustics(c, everywhere(c), Noise(r.Uint32()), .14)
	vignette(c, .36)
}

// thermometer is a glass tube in the cold tank, with one shrimp beside it.
func thermometer(c *Canvas, r *rand.Rand) {
	w, h := float64(c.W), float64(c.H)
	depth(c, r, coolLight)
	perch(c, r, h*.8)
	x := w * .36
	tube := curve(30, Vec{x, h * .05}, Vec{x + 4, h * .5}, Vec{x + 8, h * .9})
	c.Paint(shape(stroke(tube, func(float64) float64 { return 62 })).blurred(10), glaze, flat(hex(0x1c3a44), .45))
	c.Paint(shape(stroke(tube, func(float64) float64 { return 54 })), glow, flat(hex(0xbfd6da), .4))
	for i := range 27 { // a stroke for each degree, a longer one for every fifth
		y := h * (.14 + .025*float64(i))
		long := 15.0
		if i%5 == 1 {
			long = 30
		}
		c.Paint(shape(rect(x+9, y, x+9+long, y+4)), cover, flat(hex(0x20323a), .85))
	}
	spirit := curve(20, Vec{x + 1, h * .36}, Vec{x + 4, h * .6}, Vec{x + 8, h * .885})
	c.Paint(shape(stroke(spirit, func(float64) float64 { return 13 })), cover, flat(hex(0xb4231f), .95))
	c.Paint(shape(oval(Vec{x + 8, h * .905}, 30, 34, 0)), cover, flat(hex(0xa81d1a), .95))
	c.Paint(shape(oval(Vec{x - 2, h * .895}, 9, 11, 0)).blurred(3), glow, flat(hex(0xffffff), .8))
	c.Paint(shape(rect(x-20, h*.06, x-13, h*.86)).blurred(3), glow, flat(hex(0xffffff), .5))
	s := Shrimp{At: Vec{w * .68, h * .62}, Size: 520, Angle: .1, Flip: true, Grade: .5, Arch: 1, Seed: 63}
	s.Draw(c)
	inFront(c, r)
	vignette(c, .4)
}

// night is the tank by a low lamp: black plants and pairs of golden eyes.
func night(c *Canvas, r *rand.Rand) {
	w, h := float64(c.W), float64(c.H)
	depth(c, r, nightLight)
	for range 9 {
		moss(c, r, Cushion{Vec{w * r.Float64(), h * 1.05}, w * .14, h * (.25 + .25*r.Float64()), w * .05, 120, .25})
	}
	c.Wash(glaze, func(Vec) (RGB, float64) { return hex(0x0d1a24), .72 })
	beam := []Vec{{w * 1.02, h * .2}, {w * 1.02, h * .42}, {w * .1, h * .98}, {w * .02, h * .8}}
	c.Paint(shape(beam).blurred(95), glow, flat(hex(0xe6b45a), .34))
	for _, s := range []Shrimp{
		{At: Vec{560, 690}, Size: 430, Angle: .08, Grade: .7, Arch: 1, Seed: 71},
		{At: Vec{1080, 560}, Size: 360, Angle: -.12, Flip: true, Grade: .8, Arch: .8, Seed: 72},
	} {
		s.Draw(c)
	}
	for range 9 {
		at := Vec{w * (.06 + .88*r.Float64()), h * (.52 + .4*r.Float64())}
		for _, side := range []float64{-9, 9} {
			eye := at.Add(Vec{side, side * .2})
			c.Paint(shape(oval(eye, 12, 12, 0)).blurred(8), glow, flat(hex(0xd9862a), .8))
			c.Paint(shape(oval(eye, 5, 5, 0)), cover, flat(hex(0xffd98a), .95))
		}
	}
	vignette(c, .6)
}

// oldPolka is the first mother on the big leaf, in the low light of November.
func oldPolka(c *Canvas, r *rand.Rand) {
	depth(c, r, warmLight)
	perch(c, r, 830)
	litter(c, r, Vec{770, 800}, 610, .05)
	s := Shrimp{At: Vec{770, 560}, Size: 960, Angle: .05, Grade: 1, Arch: 1.15, Seed: 81}
	s.Draw(c)
	inFront(c, r)
	c.Wash(glow, func(p Vec) (RGB, float64) { return hex(0xd98a3a), .22 * smooth(900, 0, p.X) })
	vignette(c, .5)
}
