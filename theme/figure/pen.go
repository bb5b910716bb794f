package figure

import (
	"math"
	"strconv"
)

// outline collects the data of one SVG path. Places are rounded to a tenth of a pixel; lines are written as steps
// from place to place, which packs best.
type outline struct {
	data    []byte
	x, y    int  // where the pen is, in tenths
	running bool // the last command was a step, so that the next needs no letter
}

func tenths(v float64) int { return int(math.Round(v * 10)) }

// number writes tenths as short as SVG allows: 12, -.5, 3.4.
func (o *outline) number(n int) {
	if n < 0 {
		o.data = append(o.data, '-')
		n = -n
	}
	if n >= 10 || n == 0 {
		o.data = strconv.AppendInt(o.data, int64(n/10), 10)
	}
	if n%10 != 0 {
		o.data = append(o.data, '.', byte('0'+n%10))
	}
}

// pair writes two numbers, with a space only where they would run together.
func (o *outline) pair(a, b int) {
	o.number(a)
	if b >= 0 {
		o.data = append(o.data, ' ')
	}
	o.number(b)
}

// command begins a command that is not a step.
func (o *outline) command(letter byte) {
	o.data = append(o.data, letter)
	o.running = false
}

// move starts a new piece.
func (o *outline) move(x, y float64) {
	o.command('M')
	o.x, o.y = tenths(x), tenths(y)
	o.pair(o.x, o.y)
}

// to draws a straight line.
func (o *outline) to(x, y float64) {
	toX, toY := tenths(x), tenths(y)
	dx, dy := toX-o.x, toY-o.y
	switch {
	case dx == 0 && dy == 0:
		return
	case !o.running:
		o.command('l')
		o.running = true
	case dx >= 0:
		o.data = append(o.data, ' ')
	}
	o.pair(dx, dy)
	o.x, o.y = toX, toY
}

func (o *outline) close() { o.command('Z') }

// box adds a rectangle.
func (o *outline) box(left, top, right, bottom float64) {
	o.level(top, left, right)
	o.command('V')
	o.number(tenths(bottom))
	o.command('H')
	o.number(tenths(left))
	o.close()
}

// upright and level add straight lines along the axes.
func (o *outline) upright(x, top, bottom float64) {
	o.move(x, top)
	o.command('V')
	o.number(tenths(bottom))
}

func (o *outline) level(y, left, right float64) {
	o.move(left, y)
	o.command('H')
	o.number(tenths(right))
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
		o.data = append(o.data, "h.1"...)
		o.running = false
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
	case Peak:
		o.move(x-r*1.2, y+r)
		o.to(x+r*1.2, y+r)
		o.to(x, y-r*1.2)
	case Plus, Cross:
		o.plus(x, y, r*1.35, shape == Cross)
		return
	case Square:
		o.box(x-r*0.9, y-r*0.9, x+r*0.9, y+r*0.9)
		return
	case Bar:
		o.box(x-r*0.4, y-r*1.5, x+r*0.4, y+r*1.5)
		return
	default:
		o.move(x-r, y)
		o.halfCircle(r, 2*r)
		o.halfCircle(r, -2*r)
	}
	o.close()
}

// plus adds a plus with arms of length r, or a cross.
func (o *outline) plus(x, y, r float64, turned bool) {
	const thick = 0.3 // half of an arm's breadth, as a share of r
	corners := [][2]float64{{thick, -1}, {thick, -thick}, {1, -thick}, {1, thick}, {thick, thick}, {thick, 1},
		{-thick, 1}, {-thick, thick}, {-1, thick}, {-1, -thick}, {-thick, -thick}, {-thick, -1}}
	var points []spot
	for _, c := range corners {
		a, b := c[0]*r, c[1]*r
		if turned {
			a, b = (a-b)*math.Sqrt2/2, (a+b)*math.Sqrt2/2
		}
		points = append(points, spot{x: x + a, y: y + b})
	}
	o.run(points)
	o.close()
}

// halfCircle goes from here to a place beside it.
func (o *outline) halfCircle(r, dx float64) {
	o.command('a')
	o.pair(tenths(r), tenths(r))
	o.data = append(o.data, " 0 1 0 "...)
	o.pair(tenths(dx), 0)
}
