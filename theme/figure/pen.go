package figure

import (
	"math"
	"strconv"
)

// outline collects the data of one SVG path.
type outline []byte

func (o *outline) number(v float64) {
	// One digit behind the point is a tenth of a pixel; adding 0 turns -0 into 0.
	*o = strconv.AppendFloat(*o, math.Round(v*10)/10+0, 'f', -1, 64)
}

func (o *outline) pair(x, y float64) {
	o.number(x)
	*o = append(*o, ' ')
	o.number(y)
}

// move starts a new piece.
func (o *outline) move(x, y float64) {
	*o = append(*o, 'M')
	o.pair(x, y)
}

// to draws a straight line.
func (o *outline) to(x, y float64) {
	*o = append(*o, 'L')
	o.pair(x, y)
}

func (o *outline) close() { *o = append(*o, 'Z') }

// raw adds path data as it is.
func (o *outline) raw(data string) { *o = append(*o, data...) }

// box adds a rectangle.
func (o *outline) box(left, top, right, bottom float64) {
	o.move(left, top)
	*o = append(*o, 'H')
	o.number(right)
	*o = append(*o, 'V')
	o.number(bottom)
	*o = append(*o, 'H')
	o.number(left)
	o.close()
}

// upright and level add straight lines along the axes.
func (o *outline) upright(x, top, bottom float64) {
	o.move(x, top)
	*o = append(*o, 'V')
	o.number(bottom)
}

func (o *outline) level(y, left, right float64) {
	o.move(left, y)
	*o = append(*o, 'H')
	o.number(right)
}

// run adds points joined by straight lines; a single point becomes a dot.
func (o *outline) run(points []spot) {
	for i, p := range points {
		if i == 0 {
			o.move(p.x, p.y)
			continue
		}
		o.to(p.x, p.y)
	}
	if len(points) == 1 {
		o.raw("h.1")
	}
}

// mark adds a shape of about radius r around a place.
func (o *outline) mark(shape Shape, x, y, r float64) {
	switch shape {
	case Diamond:
		o.move(x, y-r*1.3)
		o.to(x+r*1.3, y)
		o.to(x, y+r*1.3)
		o.to(x-r*1.3, y)
	case Wedge:
		o.move(x-r*1.2, y-r)
		o.to(x+r*1.2, y-r)
		o.to(x, y+r*1.2)
	case Bar:
		o.box(x-r*0.4, y-r*1.5, x+r*0.4, y+r*1.5)
		return
	default:
		o.move(x-r, y)
		arc := outline("a")
		arc.pair(r, r)
		arc.raw(" 0 1 0 ")
		*o = append(append(*o, arc...), strconv.AppendFloat(nil, 2*r, 'f', -1, 64)...)
		o.raw(" 0")
		*o = append(append(*o, arc...), strconv.AppendFloat(nil, -2*r, 'f', -1, 64)...)
		o.raw(" 0")
	}
	o.close()
}
