package main

import "math"

// paper leaves a margin with a brushed edge, and lets the tooth of the sheet show through the paint.
func paper(c *Canvas, n Noise) {
	sheet := hex(0xf4ecdb)
	w, h := float64(c.W), float64(c.H)
	margin := w * .026
	inside := func(p Vec) float64 {
		wander := (n.cloud(p.Mul(1.0/120))-.5)*1.5 + (n.cloud(Vec{p.X / 17, p.Y / 17})-.5)*.4
		return math.Min(math.Min(p.X, w-p.X), math.Min(p.Y, h-p.Y)) - margin*(1+wander)
	}
	c.Wash(glaze, func(p Vec) (RGB, float64) { // pigment gathers where the wash ends
		return hex(0x8a8168), .4 * bell(4, 5, inside(p))
	})
	c.Wash(cover, func(p Vec) (RGB, float64) { return sheet, 1 - smooth(-1.5, 1.5, inside(p)) })
	tooth := n + 500
	for i := range c.Pix {
		p := Vec{float64(i % c.W), float64(i / c.W)}
		grain := (tooth.at(p.Mul(.42))-.5)*.6 + (tooth.at(p.Mul(.9))-.5)*.4
		pool := n.cloud(p.Mul(1.0/150)) - .5
		c.Pix[i] = c.Pix[i].scale(1 + .06*grain + .05*pool)
	}
}
