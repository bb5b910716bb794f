package main

import "math"

// Noise is a field of smooth random values that depends on its seed only.
type Noise uint32

// cell returns the value at a lattice point, 0 to 1.
func (n Noise) cell(x, y int32) float64 {
	h := uint32(x)*0x9E3779B1 ^ uint32(y)*0x85EBCA77 ^ uint32(n)*0xC2B2AE3D
	h ^= h >> 15
	h *= 0x2C1B3C6D
	h ^= h >> 12
	h *= 0x297A2D39
	h ^= h >> 15
	return float64(h) / math.MaxUint32
}

// at returns the value between lattice points, 0 to 1; one lattice step is one unit.
func (n Noise) at(p Vec) float64 {
	fx, fy := math.Floor(p.X), math.Floor(p.Y)
	x, y := int32(fx), int32(fy)
	tx, ty := smooth(0, 1, p.X-fx), smooth(0, 1, p.Y-fy)
	top := n.cell(x, y) + (n.cell(x+1, y)-n.cell(x, y))*tx
	low := n.cell(x, y+1) + (n.cell(x+1, y+1)-n.cell(x, y+1))*tx
	return top + (low-top)*ty
}

// cloud adds four octaves, 0 to 1.
func (n Noise) cloud(p Vec) float64 {
	sum, size := 0.0, .5
	for i := range 4 {
		sum += size * (n + Noise(i*101)).at(p)
		p, size = p.Mul(2.03).Add(Vec{17.3, 5.1}), size/2
	}
	return sum / .9375
}

// ripple is 1 along wandering bright lines and 0 between them: light through a moving surface.
func (n Noise) ripple(p Vec) float64 {
	q := p.Add(Vec{n.cloud(p.Mul(.7)), (n + 9).cloud(p.Mul(.7))}.Mul(1.6))
	v := math.Abs(n.at(q)-.5) + .6*math.Abs((n+5).at(q.Mul(1.7))-.5)
	return math.Exp(-v * 11)
}
