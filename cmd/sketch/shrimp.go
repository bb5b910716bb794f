package main

import (
	"math"
	"math/rand/v2"
)

// Shrimp is one animal seen from its side, head to the right unless it is flipped.
type Shrimp struct {
	At     Vec     // middle of the back, px
	Size   float64 // body length, px
	Angle  float64 // rad, clockwise
	Flip   bool
	Grade  float64 // 0 glassy to 1 deep red
	Arch   float64 // how much the back is bent: 1 is at rest
	Saddle bool
	Eggs   int
	Eyed   bool
	Seed   uint64
}

// The colours of the animal.
var (
	deepRed   = hex(0x8e1118)
	fullRed   = hex(0xc9281f)
	lightRed  = hex(0xe8674c)
	glassTint = hex(0xe9d3b4)
	saddle    = hex(0xc6b53c)
	eggLight  = hex(0xe6cf5a)
	eggDark   = hex(0x8d7a1e)
	inkBrown  = hex(0x2b1410)
)

// place turns a point of the animal's own grid (body length 100, head to +x, y down) into the canvas.
func (s *Shrimp) place(x, y float64) Vec {
	if s.Flip {
		x = -x
	}
	angle := s.Angle
	if s.Flip {
		angle = -angle
	}
	return s.At.Add(Vec{x, y}.Mul(s.Size / 100).Turn(angle))
}

// line places knots and returns a smooth line of n steps through them.
func (s *Shrimp) line(n int, knots ...Vec) []Vec {
	placed := make([]Vec, len(knots))
	for i, k := range knots {
		placed[i] = s.place(k.X, k.Y)
	}
	return curve(n, placed...)
}

// px turns a length of the animal's own grid into pixels.
func (s *Shrimp) px(v float64) float64 { return v * s.Size / 100 }

// Draw paints the animal from the far side to the near one.
func (s *Shrimp) Draw(c *Canvas) {
	r := rand.New(rand.NewPCG(s.Seed, 7))
	s.feelers(c, r, .55)
	s.legs(c, r, true)
	s.fan(c)
	if s.Eggs > 0 {
		s.clutch(c, r)
	}
	s.swimmerets(c, r)
	s.body(c)
	s.legs(c, r, false)
	s.head(c)
	s.feelers(c, r, .9)
}

// spine is the middle line from behind the eyes to the root of the tail fan.
func (s *Shrimp) spine() []Vec {
	a := s.Arch
	return s.line(140, Vec{44, 1.4}, Vec{38, -.2}, Vec{27, -1}, Vec{14, -2 - a}, Vec{2, -3 - 2*a}, Vec{-11, -3 - 2.5*a},
		Vec{-23, -1 - a}, Vec{-33, 3 + 1.5*a}, Vec{-41, 7 + 4.5*a})
}

// girth returns the half widths above and below the spine, on the animal's own grid, at a share of the way to the tail.
func girth(t float64) (dorsal, ventral float64) {
	dorsal = lookup(t, .9, 4.2, 6.6, 8.1, 8.7, 8.6, 8.0, 7.0, 5.6, 4.2, 3.0)
	ventral = lookup(t, 1.1, 5.4, 8.2, 9.2, 8.6, 7.4, 7.2, 6.4, 5.0, 3.6, 2.7)
	if t > .45 && t < .9 { // the lobes that hang down from each ring
		ventral += 1.3 * math.Sqrt(math.Abs(math.Sin((t-.45)/.45*5*math.Pi))) * (1.1 - t*.6)
	}
	return dorsal, ventral
}

// lookup goes smoothly through evenly spaced values.
func lookup(t float64, values ...float64) float64 {
	f := clamp(t, 0, 1) * float64(len(values)-1)
	i := min(int(f), len(values)-2)
	return values[i] + (values[i+1]-values[i])*smooth(0, 1, f-float64(i))
}

// spot is a place on the body: along is the share of the way from head to tail, round goes from −1 at the back
// to 1 at the belly.
type spot struct{ along, round, edge float64 }

// locate finds the spot below a pixel; edge is the distance to the outline in pixels, negative outside.
func (s *Shrimp) locate(spine []Vec, p Vec) spot {
	best, at := math.Inf(1), 0
	for i, q := range spine {
		d := q.Sub(p)
		if sq := d.X*d.X + d.Y*d.Y; sq < best {
			best, at = sq, i
		}
	}
	n := len(spine) - 1
	first, last := max(at-1, 0), min(at+1, n)
	chord := spine[last].Sub(spine[first])
	off := p.Sub(spine[first])
	share := clamp((off.X*chord.X+off.Y*chord.Y)/(chord.X*chord.X+chord.Y*chord.Y), 0, 1) // between the samples, or the body has steps
	along := (float64(first) + share*float64(last-first)) / float64(n)
	away := off.Sub(chord.Mul(share))
	left := chord.Unit().Left()
	side := away.X*left.X + away.Y*left.Y // from head to tail the left is the belly, when not flipped
	if s.Flip {
		side = -side
	}
	dorsal, ventral := girth(along)
	limit := s.px(ventral)
	if side < 0 {
		limit = s.px(dorsal)
	}
	return spot{along, side / limit, limit - away.Len()}
}

// body paints carapace and abdomen pixel by pixel, from the place on the animal.
func (s *Shrimp) body(c *Canvas) {
	spine := s.spine()
	outline := stroke(spine, func(t float64) float64 { d, v := girth(t); return s.px(math.Max(d, v)) + 4 })
	box := bounds(outline)
	m := &Mask{Box: box, A: make([]float64, box.Dx()*box.Dy())}
	spots := make([]spot, len(m.A))
	i := 0
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			spots[i] = s.locate(spine, Vec{float64(x) + .5, float64(y) + .5})
			m.A[i] = clamp(spots[i].edge+.5, 0, 1)
			i++
		}
	}
	shadow := m.blurred(s.px(2.4))
	c.Paint(shadow, glaze, flat(hex(0x33423a), .28))
	noise := Noise(s.Seed + 3)
	c.Paint(m, cover, func(p Vec) (RGB, float64) {
		at := spots[(int(p.Y)-box.Min.Y)*box.Dx()+int(p.X)-box.Min.X]
		return s.skin(at, noise, p.Sub(s.At).Mul(100/s.Size))
	})
	c.Paint(m, glow, func(p Vec) (RGB, float64) {
		at := spots[(int(p.Y)-box.Min.Y)*box.Dx()+int(p.X)-box.Min.X]
		sheen := bell(-.52, .2, at.round+.06*noise.cloud(p.Mul(6/s.Size))) * (.35 + .65*noise.cloud(p.Mul(18/s.Size)))
		return hex(0xffe6d0), .5 * sheen * (1 - .35*at.along)
	})
}

// rings are the rear edges of the carapace and the six rings of the tail, as shares of the way.
var rings = []float64{.44, .545, .65, .745, .825, .895, 1.02}

// skin is the colour of the shell and what shines through it.
func (s *Shrimp) skin(at spot, n Noise, p Vec) (RGB, float64) {
	pigment := s.pigment(at, n, p)
	inside := mix(glassTint, hex(0x7a5a3c), .75*bell(.26, .1, at.along)*bell(-.1, .5, at.round))
	inside = mix(inside, hex(0x4b3a28), .7*bell(-.72, .1, at.round)*smooth(.38, .45, at.along)) // the gut
	if s.Saddle {
		grains := smooth(.3, .6, n.cloud(p.Mul(.9)))
		patch := smooth(.2, .27, at.along+.05*n.at(p.Mul(.4))) * (1 - smooth(.39, .45, at.along)) * (1 - smooth(-.35, .0, at.round-.5*(at.along-.33)*5+.2*n.at(p.Mul(.5))))
		inside = mix(inside, mix(eggDark, saddle, grains), .9*patch)
		pigment *= 1 - .62*patch
	}
	red := mix(lightRed, mix(fullRed, deepRed, smooth(.45, 1, pigment)), smooth(0, .55, pigment))
	color := mix(inside, red, smooth(.05, .8, pigment))
	color = color.scale(shading(at))
	color = mix(color, deepRed.scale(.45), .75*s.seams(at))
	opacity := clamp(.42+.75*pigment+.25*smooth(.5, 1, math.Abs(at.round)), 0, .98)
	return color, opacity
}

// pigment is how dense the red is at a spot: deeper on the back, with clear windows where the grade is low.
func (s *Shrimp) pigment(at spot, n Noise, p Vec) float64 {
	base := s.Grade*1.15 - .34*smooth(-.3, 1, at.round)*(1.25-s.Grade)
	holes := n.cloud(p.Mul(.16)) - .5
	grain := (n + 40).cloud(p.Mul(1.1)) - .5
	band := .12 * (bell(0, .25, ringShare(at)) - .4)
	return clamp(base+holes*(1.5-1.1*s.Grade)+grain*.42+band, 0, 1)
}

// ringShare is how far a spot lies inside its ring, 0 at the front edge and 1 at the rear.
func ringShare(at spot) float64 {
	t := at.along + .018*at.round*at.round
	front := 0.0
	for _, rear := range rings {
		if t < rear {
			return (t - front) / (rear - front)
		}
		front = rear
	}
	return 1
}

// shading makes a tube of the flat shape: light from above, a dark belly edge, each ring rounded.
func shading(at spot) float64 {
	light := 1.12 - .26*smooth(-.5, 1, at.round) - .2*smooth(.72, 1, math.Abs(at.round))
	if at.along > rings[0]-.02 {
		light *= .9 + .16*math.Sin(math.Pi*clamp(ringShare(at), 0, 1))
	}
	return light
}

// seams are the thin dark lines where one ring slides below the next, and the edge of the outline.
func (s *Shrimp) seams(at spot) float64 {
	t := at.along + .018*at.round*at.round
	line := 0.0
	for _, rear := range rings[:6] {
		line = math.Max(line, bell(rear, .0045, t))
	}
	return math.Max(.55*line, .6*bell(0, .9+s.Size/500, at.edge))
}
