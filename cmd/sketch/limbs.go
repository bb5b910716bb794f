package main

import (
	"math"
	"math/rand/v2"
)

// limb paints one thin part; glassy animals have glassy limbs.
func (s *Shrimp) limb(c *Canvas, line []Vec, width func(float64) float64, strength float64) {
	red := mix(hex(0xd8a583), mix(fullRed, deepRed, .25), smooth(.1, .75, s.Grade))
	rounded := func(t float64) float64 { return width(t) * math.Sqrt(clamp(t/.07, .02, 1)) }
	m := shape(stroke(line, rounded))
	c.Paint(m, cover, flat(red, strength*(.45+.45*s.Grade)))
	c.Paint(m.ring(1.5), glaze, flat(hex(0x7b3a2c), .5*strength))
}

// legs draws the five walking legs, far or near: two with small claws, three long ones that stand.
func (s *Shrimp) legs(c *Canvas, r *rand.Rand, far bool) {
	shift, strength := 0.0, .95
	if far {
		shift, strength = 2.6, .5
	}
	for i := range 5 {
		f := float64(i)
		root := Vec{29 - 4.6*f + shift, 6.5 + .5*f}
		if i < 2 {
			wrist := Vec{root.X + 9 - 3*f, root.Y + 7 + f}
			hand := Vec{root.X + 13 - 4*f, root.Y + 11 + 2*f + r.Float64()}
			s.limb(c, s.line(26, root, Vec{root.X + 2, root.Y + 5}, wrist, hand),
				func(t float64) float64 { return s.px(.85 - .4*t) }, strength)
			s.limb(c, s.line(8, hand, Vec{hand.X + 2.2, hand.Y + 1.1}), leaf(s.px(.8), .4), strength)
			continue
		}
		stride := 7.5 - 6.5*(f-2) + (r.Float64()-.5)*4
		joints := []Vec{root, {root.X + 2.5 + stride*.25, root.Y + 6}, {root.X + stride + 2.5, root.Y + 12},
			{root.X + stride*1.25 + .6, root.Y + 18.5}, {root.X + stride*1.1 - 1.6, root.Y + 23 + r.Float64()}}
		s.limb(c, s.line(48, joints...), func(t float64) float64 { return s.px(.92 - .68*t) }, strength)
	}
}

// swimmerets are the five fringed paddles below the tail.
func (s *Shrimp) swimmerets(c *Canvas, r *rand.Rand) {
	spine := s.spine()
	for i := range 5 {
		t := .49 + .088*float64(i)
		_, ventral := girth(t)
		root := spine[int(t*140)]
		ahead := spine[int(t*140)+3].Sub(root).Unit()
		down := ahead.Left()
		if s.Flip {
			down = down.Mul(-1)
		}
		long := s.px(10.5 - 1.1*float64(i))
		start := root.Add(down.Mul(s.px(ventral * .8)))
		sweep := .25 + .25*r.Float64()
		tip := start.Add(down.Mul(long)).Add(ahead.Mul(long * sweep))
		mid := start.Add(down.Mul(long * .5)).Add(ahead.Mul(-long * .04))
		paddle := curve(20, start, mid, tip)
		s.limb(c, paddle, leaf(s.px(1.55), .55), .8)
		for k := range 7 {
			f := .4 + .09*float64(k)
			at := paddle[int(f*20)]
			hair := curve(6, at, at.Add(ahead.Mul(s.px(1.8))).Add(down.Mul(s.px(1.4))))
			s.limb(c, hair, taper(s.px(.16)), .5)
		}
	}
}

// fan draws the telson and the four uropods.
func (s *Shrimp) fan(c *Canvas) {
	a := s.Arch
	root := Vec{-40, 6.5 + 4.2*a}
	base := .62 + .18*a
	for _, blade := range []struct{ turn, long, wide float64 }{{-.42, 13.5, 2.5}, {.44, 14, 2.5}, {-.2, 14.5, 2.4}, {.22, 14.5, 2.4}, {0, 12.5, 1.7}} {
		dir := Vec{-1, 0}.Turn(-base - blade.turn)
		tip := root.Add(dir.Mul(blade.long))
		mid := root.Add(dir.Mul(blade.long * .5)).Add(dir.Left().Mul(blade.turn * 2))
		line := s.line(30, root, mid, tip)
		m := shape(stroke(line, leaf(s.px(blade.wide), .62)))
		n := Noise(s.Seed + 11)
		c.Paint(m, cover, func(p Vec) (RGB, float64) {
			away := p.Sub(s.place(root.X, root.Y)).Len() / s.px(blade.long)
			red := mix(mix(glassTint, fullRed, .3+.7*s.Grade), deepRed, .5*smooth(.3, 0, away)*s.Grade)
			return red.scale(.92 + .2*n.cloud(p.Mul(.08))), clamp(.35+.55*s.Grade-.35*smooth(.6, 1, away), .2, .95)
		})
		c.Paint(m.ring(s.px(.5)+1), glaze, flat(hex(0x7b241c), .55))
		c.Paint(shape(stroke(line, taper(s.px(.25)))), glow, flat(hex(0xf0b090), .4))
	}
}

// feelers draws the long antennae, the short antennules and the scales at their root, with a given strength.
func (s *Shrimp) feelers(c *Canvas, r *rand.Rand, strength float64) {
	for range 1 {
		lift := -16 - 14*r.Float64()
		reach := 34 + 16*r.Float64()
		long := s.line(70, Vec{42, 2}, Vec{52, .5}, Vec{52 + reach*.5, lift * .55}, Vec{48 + reach, lift},
			Vec{40 + reach*1.25, lift * 1.1})
		s.limb(c, long, func(t float64) float64 { return math.Max(.55, s.px(.33)*(1-.75*t)) }, strength)
	}
	for k := range 2 {
		f := float64(k)
		short := s.line(30, Vec{43, -1}, Vec{50, -3 - 2*f}, Vec{58 + 2*f, -6 - 4*f - 3*r.Float64()})
		s.limb(c, short, func(t float64) float64 { return math.Max(.5, s.px(.38)*(1-.7*t)) }, strength)
	}
	s.limb(c, s.line(20, Vec{39, 3.4}, Vec{45, 3}, Vec{50, 1.5}), leaf(s.px(1.2), .5), strength*.8)
}

// head paints the rostrum, the mouth parts and the eye.
func (s *Shrimp) head(c *Canvas) {
	s.limb(c, s.line(24, Vec{33, -4.6}, Vec{41, -3.2}, Vec{51.5, -2.4}), taper(s.px(1.2)), 1)
	for k := range 3 {
		f := float64(k)
		s.limb(c, s.line(16, Vec{34 - 2*f, 5.2}, Vec{38.5 - 2*f, 8 + f}, Vec{37 - 2*f, 12 + f}), taper(s.px(.75)), .85)
	}
	stalk := s.line(10, Vec{38.5, -.2}, Vec{41.5, -.9})
	s.limb(c, stalk, func(float64) float64 { return s.px(1.3) }, 1)
	eye := s.place(42, -1)
	ball := shape(oval(eye, s.px(1.95), s.px(1.8), s.Angle))
	c.Paint(ball, cover, func(p Vec) (RGB, float64) {
		d := p.Sub(eye.Add(Vec{-s.px(.5), -s.px(.6)})).Len() / s.px(2.4)
		return mix(hex(0x3d2a2c), hex(0x0b0709), smooth(.1, .9, d)), 1
	})
	c.Paint(ball.ring(1.5), glow, flat(hex(0x9b5a50), .35))
	c.Paint(shape(oval(eye.Add(Vec{-s.px(.55), -s.px(.7)}), s.px(.45), s.px(.36), 0)), cover, flat(hex(0xfff6ea), .95))
}

// clutch packs the eggs between the swimmerets.
func (s *Shrimp) clutch(c *Canvas, r *rand.Rand) {
	spine := s.spine()
	for i := range s.Eggs {
		f := (float64(i/4) + .6*r.Float64()) / float64((s.Eggs+3)/4)
		t := .475 + .33*f
		_, ventral := girth(t)
		root := spine[int(t*140)]
		down := spine[int(t*140)+2].Sub(root).Unit().Left()
		if s.Flip {
			down = down.Mul(-1)
		}
		deep := ventral*.98 + 2.5*float64(i%4)*(1-.45*f)*math.Sin(.6+2*f) + r.Float64()*.9
		egg(c, r, root.Add(down.Mul(s.px(deep))), s.px(1.75+.2*r.Float64()), s.Eyed)
	}
}

// egg paints one egg, with two eyes in it when it is far enough.
func egg(c *Canvas, r *rand.Rand, at Vec, radius float64, eyed bool) {
	m := shape(oval(at, radius*1.12, radius*.94, r.Float64()*3))
	tone := r.Float64()
	light := at.Add(Vec{-radius * .35, -radius * .4})
	c.Paint(m, cover, func(p Vec) (RGB, float64) {
		d := p.Sub(light).Len() / (radius * 1.6)
		return mix(mix(eggLight, hex(0xf3e6a0), tone*.5), mix(eggDark, hex(0x6f7a2a), tone*.6), smooth(.1, 1, d)), .95
	})
	c.Paint(m.ring(radius*.22+1), glaze, flat(hex(0x6b5a1a), .6))
	if eyed {
		turn := r.Float64() * 6
		for _, side := range []float64{-1, 1} {
			eye := at.Add(Vec{radius * .36 * side, radius * .1}.Turn(turn))
			c.Paint(shape(oval(eye, radius*.2, radius*.16, turn)), cover, flat(inkBrown, .92))
		}
	}
	c.Paint(shape(oval(light, radius*.26, radius*.18, -.6)).blurred(radius*.1), glow, flat(hex(0xfffbe6), .85))
}
