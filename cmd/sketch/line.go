package main

import (
	"math"
	"math/rand/v2"
)

// curve returns n+1 points of a smooth line through all knots (centripetal-free Catmull-Rom, evenly in knots).
func curve(n int, knots ...Vec) []Vec {
	out := make([]Vec, 0, n+1)
	for i := range n + 1 {
		f := float64(i) / float64(n) * float64(len(knots)-1)
		k := min(int(f), len(knots)-2)
		out = append(out, between(knots, k, f-float64(k)))
	}
	return out
}

func between(knots []Vec, k int, t float64) Vec {
	p1, p2 := knots[k], knots[k+1]
	p0, p3 := p1.Add(p1.Sub(p2)), p2.Add(p2.Sub(p1))
	if k > 0 {
		p0 = knots[k-1]
	}
	if k+2 < len(knots) {
		p3 = knots[k+2]
	}
	at := func(a, b, c, d float64) float64 {
		return .5 * (2*b + (c-a)*t + (2*a-5*b+4*c-d)*t*t + (3*b-a-3*c+d)*t*t*t)
	}
	return Vec{at(p0.X, p1.X, p2.X, p3.X), at(p0.Y, p1.Y, p2.Y, p3.Y)}
}

// stroke returns the outline of a line whose half width changes along it; width gets the share of the way.
func stroke(line []Vec, width func(t float64) float64) []Vec {
	n := len(line)
	out := make([]Vec, 2*n)
	for i, p := range line {
		d := line[min(i+1, n-1)].Sub(line[max(i-1, 0)]).Unit().Left()
		w := width(float64(i) / float64(n-1))
		out[i] = p.Add(d.Mul(w))
		out[2*n-1-i] = p.Sub(d.Mul(w))
	}
	return out
}

// taper is a width that starts at w, swells a little and ends in a point.
func taper(w float64) func(float64) float64 {
	return func(t float64) float64 { return w * (.25 + math.Sqrt(math.Max(0, 1-t))*.75) }
}

// leaf is a width with its widest place at mid.
func leaf(w, mid float64) func(float64) float64 {
	return func(t float64) float64 {
		if t < mid {
			return w*math.Sin(t/mid*math.Pi/2) + .3
		}
		return w*math.Cos((t-mid)/(1-mid)*math.Pi/2) + .3
	}
}

// oval returns the outline of an ellipse, turned by an angle in radians.
func oval(centre Vec, rx, ry, angle float64) []Vec {
	n := 16 + int(rx+ry)/2
	out := make([]Vec, n)
	for i := range out {
		s, c := math.Sincos(float64(i) / float64(n) * 2 * math.Pi)
		out[i] = centre.Add(Vec{c * rx, s * ry}.Turn(angle))
	}
	return out
}

// pebble is an oval with an uneven edge.
func pebble(r *rand.Rand, centre Vec, rx, ry float64) []Vec {
	out := oval(centre, rx, ry, 0)
	a, b, c := r.Float64()*6, r.Float64()*6, .08+.08*r.Float64()
	for i, p := range out {
		t := float64(i) / float64(len(out)) * 2 * math.Pi
		k := 1 + c*math.Sin(2*t+a) + c*.6*math.Sin(3*t+b) + c*.3*math.Sin(7*t+a)
		out[i] = centre.Add(p.Sub(centre).Mul(k))
	}
	return out
}

// rect returns the outline of an upright rectangle.
func rect(x0, y0, x1, y1 float64) []Vec {
	return []Vec{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}
}

// wobbly is a polygon drawn by hand: each side wanders by up to off pixels.
func wobbly(n Noise, corners []Vec, off float64) []Vec {
	var out []Vec
	for i, a := range corners {
		b := corners[(i+1)%len(corners)]
		steps := int(b.Sub(a).Len()/8) + 1
		for k := range steps {
			p := a.Add(b.Sub(a).Mul(float64(k) / float64(steps)))
			out = append(out, p.Add(Vec{n.cloud(p.Mul(1.0/70))*2 - 1, n.cloud(p.Mul(1.0/70).Add(Vec{31, 7}))*2 - 1}.Mul(off)))
		}
	}
	return out
}
