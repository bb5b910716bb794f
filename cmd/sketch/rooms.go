package main

import (
	"math"
	"math/rand/v2"
)

// workbench is the heated tank at the end of the bench, with a concertina beside it.
func workbench(c *Canvas, r *rand.Rand) {
	w, h := float64(c.W), float64(c.H)
	plaster(c, shape(rect(0, 0, w, h)), hex(0xb99a74), Noise(r.Uint32()))
	wood(c, shape(rect(0, h*.8, w, h)), hex(0x8a5a34), Noise(r.Uint32()))
	g := Glass{X0: 170, Y0: 190, X1: 1130, Y1: 880, Surface: 245, Ground: 770, Light: dayLight, Tone: hex(0x6b5b46)}
	c.Paint(shape(rect(g.X0-10, g.Y1-4, g.X1+60, g.Y1+30)).blurred(22), glaze, flat(hex(0x2a1a10), .65))
	g.fill(c, r, func(c *Canvas, r *rand.Rand) {
		for i := range 16 {
			x := 560 + 34*float64(i) + 20*r.Float64()
			stem(c, r, Stem{Vec{x, 790 + 12*r.Float64()}, Vec{x + 50*(r.Float64()-.5), 330 + 260*r.Float64()},
				50, hex(0x6d9a3a), .75})
		}
		sponge(c, r, Vec{1055, 812}, 190, g.Surface)
		boulder(c, r, Vec{420, 720}, 190, 120)
		moss(c, r, Cushion{Vec{420, 672}, 185, 120, 58, 260, .95})
		moss(c, r, Cushion{Vec{270, 810}, 90, 60, 44, 90, .8})
		moss(c, r, Cushion{Vec{880, 822}, 120, 60, 44, 110, .8})
		litter(c, r, Vec{660, 828}, 70, .2)
		troop(c, r, []Vec{{400, 560}, {500, 596}, {690, 800}, {600, 835}, {300, 740}, {860, 756}, {1040, 600}, {760, 520}, {235, 770}}, 92, func() float64 { return .45 + .5*r.Float64() })
		troop(c, r, []Vec{{450, 640}, {350, 610}, {840, 770}, {560, 700}}, 44,
			func() float64 { return .15 + .3*r.Float64() })
	})
	g.panes(c, r)
	concertina(c, r, Vec{1345, 920}, 165)
	lamp(c, Vec{650, 96}, 560)
	vignette(c, .5)
}

// boulder paints the big stone that the moss is tied to.
func boulder(c *Canvas, r *rand.Rand, at Vec, rx, ry float64) {
	c.Paint(shape(oval(at.Add(Vec{10, ry * .85}), rx*1.05, ry*.25, 0)).blurred(16), glaze, flat(hex(0x1a201a), .6))
	stone(c, r, everywhere(c), stoneLook{at, rx, ry, hex(0x77756a)})
}

// lamp is the strip above a tank and the cone of light below it.
func lamp(c *Canvas, at Vec, half float64) {
	bar := shape(rect(at.X-half, at.Y-22, at.X+half, at.Y+16))
	c.Paint(bar, cover, flat(hex(0x2b2926), .96))
	c.Paint(shape(rect(at.X-half+12, at.Y+10, at.X+half-12, at.Y+20)).blurred(3), glow, flat(hex(0xfff6d8), 1))
	c.Wash(glow, func(p Vec) (RGB, float64) {
		if p.Y < at.Y {
			return RGB{}, 0
		}
		wide := half + (p.Y-at.Y)*.45
		side := math.Abs(p.X-at.X) / wide
		return hex(0xffe9b8), .3 * (1 - smooth(.55, 1, side)) * math.Exp(-(p.Y-at.Y)/520)
	})
}

// concertina stands on one of its six-sided ends, bellows half open.
func concertina(c *Canvas, r *rand.Rand, foot Vec, size float64) {
	c.Paint(shape(oval(foot.Add(Vec{14, 10}), size*.9, 26, 0)).blurred(14), glaze, flat(hex(0x20120a), .7))
	n := Noise(r.Uint32())
	for i := range 9 {
		y := foot.Y - size*.28 - float64(i)*size*.105
		half := size * (.68 - .05*float64(i%2))
		fold := shape(wobbly(n, rect(foot.X-half, y-size*.115, foot.X+half, y), 2))
		lower := float64(i % 2)
		c.Paint(fold, cover, func(p Vec) (RGB, float64) {
			round := (p.X - foot.X) / half
			crease := (y - p.Y) / (size * .115)
			light := 1.15 - .6*round*round - .35*math.Abs(crease-.3)
			return mix(hex(0x1f3a37), hex(0x35605a), lower).scale(light), 1
		})
		c.Paint(fold.ring(2), glaze, flat(hex(0x0c1715), .6))
	}
	for _, y := range []float64{foot.Y - size*.28, foot.Y - size*1.48} {
		box := shape(wobbly(n, rect(foot.X-size*.74, y, foot.X+size*.74, y+size*.28), 2))
		c.Paint(box, cover, func(p Vec) (RGB, float64) {
			facet := math.Floor((p.X - foot.X + size*.74) / (size * .5))
			grain := n.cloud(Vec{p.X / 9, p.Y / 90})
			return hex(0x6e2f1c).scale([]float64{.75, 1.2, .7, .7}[int(clamp(facet, 0, 3))] * (.85 + .3*grain)), 1
		})
		c.Paint(box.ring(3), glaze, flat(hex(0x1c0b06), .6))
	}
	for i := range 5 {
		at := Vec{foot.X - size*.5 + float64(i)*size*.25, foot.Y - size*1.5}
		c.Paint(shape(oval(at, 8, 11, 0)), cover, flat(hex(0xe9dfc8), 1))
		c.Paint(shape(oval(at, 8, 11, 0)).ring(2.5), glaze, flat(hex(0x6b5a3c), .7))
	}
}

// landing is the unheated tank below the roof light, half-way up the stairs.
func landing(c *Canvas, r *rand.Rand) {
	w, h := float64(c.W), float64(c.H)
	plaster(c, shape(rect(0, 0, w, h)), hex(0xaab2ad), Noise(r.Uint32()))
	roofLight(c, r)
	wood(c, shape(rect(60, h*.86, w-60, h*.93)), hex(0x71543a), Noise(r.Uint32()))
	c.Paint(shape(rect(60, h*.93, w-60, h*.97)).blurred(12), glaze, flat(hex(0x232a2c), .6))
	g := Glass{X0: 150, Y0: 330, X1: 1450, Y1: 912, Surface: 385, Ground: 815, Light: coolLight, Tone: hex(0x55575a)}
	g.fill(c, r, func(c *Canvas, r *rand.Rand) {
		for range 34 {
			x := 200 + 560*r.Float64()
			ribbon(c, r, Vec{x, 850}, Vec{x + 160*(r.Float64()-.3), 400 + 200*r.Float64()}, 11)
		}
		for i := range 9 {
			x := 1160 + 28*float64(i)
			stem(c, r, Stem{Vec{x, 850}, Vec{x + 60*(r.Float64()-.5), 470 + 180*r.Float64()}, 54, hex(0x7d8f3c), .6})
		}
		boulder(c, r, Vec{930, 800}, 210, 118)
		boulder(c, r, Vec{700, 850}, 110, 62)
		moss(c, r, Cushion{Vec{980, 742}, 150, 70, 46, 150, .85})
		moss(c, r, Cushion{Vec{390, 872}, 150, 66, 46, 140, .75})
		litter(c, r, Vec{1160, 868}, 84, -.15)
		litter(c, r, Vec{560, 878}, 66, .4)
		sponge(c, r, Vec{1392, 860}, 150, g.Surface)
		troop(c, r, []Vec{{880, 655}, {1010, 690}, {1190, 838}, {700, 770}, {500, 850}, {330, 780}, {1290, 640}, {820, 850}}, 84, func() float64 { return .35 + .5*r.Float64() })
	})
	g.panes(c, r)
	c.Wash(glow, func(p Vec) (RGB, float64) { // the slant of daylight across the stairs
		x := (p.X - 640 - (p.Y-60)*.55) / 330
		return hex(0xf2f6ec), .3 * smooth(1.1, .2, math.Abs(x)) * (1 - .6*p.Y/h)
	})
	vignette(c, .5)
}

// roofLight is the old skylight with its glazing bars.
func roofLight(c *Canvas, r *rand.Rand) {
	frame := []Vec{{430, 40}, {1010, 40}, {1100, 250}, {470, 250}}
	n := Noise(r.Uint32())
	c.Paint(shape(frame).blurred(50), glow, flat(hex(0xf2f5ea), .6))
	c.Paint(shape(frame), cover, func(p Vec) (RGB, float64) {
		return mix(hex(0xa9c3d0), hex(0xf3f2e6), smooth(.35, .7, n.cloud(p.Mul(1.0/170)))), 1
	})
	for i := range 4 {
		f := float64(i) / 3
		top, low := Vec{430 + 580*f, 40}, Vec{470 + 630*f, 250}
		c.Paint(shape(stroke([]Vec{top, low}, func(float64) float64 { return 6 })), cover, flat(hex(0x54504a), .95))
	}
	for _, y := range []float64{40, 250} {
		c.Paint(shape(rect(422+y*.12, y-6, 1004+y*.4, y+7)), cover, flat(hex(0x54504a), .95))
	}
}

// teaChest is the small young tank on its box in the kitchen.
func teaChest(c *Canvas, r *rand.Rand) {
	w, h := float64(c.W), float64(c.H)
	plaster(c, shape(rect(0, 0, w, h)), hex(0xc7b483), Noise(r.Uint32()))
	chest := shape(rect(360, 800, 1240, h+10))
	wood(c, chest, hex(0xb08550), Noise(r.Uint32()))
	c.Paint(chest.ring(10), glaze, flat(hex(0x4a3218), .5))
	for _, x := range []float64{360, 1206} {
		c.Paint(shape(rect(x, 800, x+34, h)), glaze, flat(hex(0x7d7a70), .7))
	}
	c.Paint(shape(rect(350, 786, 1250, 806)), cover, flat(hex(0x8f6a3e), 1))
	g := Glass{X0: 480, Y0: 190, X1: 1120, Y1: 790, Surface: 246, Ground: 690, Light: warmLight, Tone: hex(0x8a7350)}
	g.fill(c, r, func(c *Canvas, r *rand.Rand) {
		for i := range 9 {
			x := 520 + 34*float64(i)
			stem(c, r, Stem{Vec{x, 715}, Vec{x + 40*(r.Float64()-.5), 360 + 220*r.Float64()}, 44, hex(0x84a040), .8})
		}
		branch := curve(60, Vec{600, 730}, Vec{760, 600}, Vec{880, 560}, Vec{1010, 430})
		c.Paint(shape(stroke(branch, func(t float64) float64 { return 26 - 19*t })), cover, func(p Vec) (RGB, float64) {
			return hex(0x5b3d22).scale(.75 + .5*Noise(9).cloud(Vec{p.X / 40, p.Y / 8})), 1
		})
		moss(c, r, Cushion{Vec{790, 596}, 92, 56, 40, 110, .95})
		moss(c, r, Cushion{Vec{960, 500}, 60, 44, 36, 70, 1})
		moss(c, r, Cushion{Vec{880, 738}, 140, 64, 42, 130, .85})
		sponge(c, r, Vec{1060, 716}, 150, g.Surface)
		litter(c, r, Vec{640, 742}, 56, .3)
		troop(c, r, []Vec{{800, 530}, {900, 664}, {660, 700}, {985, 446}, {560, 640}, {770, 720}}, 84,
			func() float64 { return .4 + .45*r.Float64() })
	})
	g.panes(c, r)
	mug(c, r, Vec{270, 930}, 130)
	lamp(c, Vec{800, 110}, 300)
	vignette(c, .45)
}

// mug is the keeper's tea; foot is the middle of its base.
func mug(c *Canvas, r *rand.Rand, foot Vec, size float64) {
	n := Noise(r.Uint32())
	c.Paint(shape(oval(foot.Add(Vec{16, 0}), size*.62, 16, 0)).blurred(12), glaze, flat(hex(0x3a2a14), .6))
	handle := curve(30, foot.Add(Vec{size * .42, -size * .8}), foot.Add(Vec{size * .8, -size * .62}),
		foot.Add(Vec{size * .42, -size * .25}))
	c.Paint(shape(stroke(handle, func(float64) float64 { return size * .06 })), cover, flat(hex(0xb9c6c2), 1))
	body := shape(rect(foot.X-size*.45, foot.Y-size, foot.X+size*.45, foot.Y))
	c.Paint(body, cover, func(p Vec) (RGB, float64) {
		x := (p.X - foot.X) / (size * .45)
		band := smooth(.03, .0, math.Abs((foot.Y-p.Y)/size-.72)-.05)
		return mix(hex(0xdfe6e0), hex(0x3f6d86), band).scale(1.08 - .35*x*x - .1*x + .05*n.cloud(p.Mul(.05))), 1
	})
	c.Paint(shape(oval(foot.Add(Vec{0, -size}), size*.45, size*.1, 0)), cover, flat(hex(0x6b4326), 1))
	c.Paint(shape(oval(foot.Add(Vec{0, -size}), size*.45, size*.1, 0)).ring(5), cover, flat(hex(0xe6ebe4), .9))
	for i := range 3 {
		x := foot.X - size*.2 + float64(i)*size*.2
		steam := curve(40, Vec{x, foot.Y - size*1.1}, Vec{x + 16, foot.Y - size*1.4},
			Vec{x - 12, foot.Y - size*1.75}, Vec{x + 20, foot.Y - size*2.1})
		c.Paint(shape(stroke(steam, leaf(7, .4))).blurred(6), glow, flat(hex(0xffffff), .35))
	}
}
