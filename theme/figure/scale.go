package figure

import "math"

// extent is a range of values; empty where low is above high.
type extent struct{ low, high float64 }

// nothing is the extent that holds no value.
var nothing = extent{math.Inf(1), math.Inf(-1)}

// finite reports whether a value can be drawn. Near the end of float64 the width of a range would overflow.
func finite(v float64) bool { return math.Abs(v) <= 1e300 }

// with returns the extent that also holds the values; those that are not finite are left out.
func (e extent) with(values ...float64) extent {
	for _, v := range values {
		if finite(v) {
			e.low, e.high = min(e.low, v), max(e.high, v)
		}
	}
	return e
}

func (e extent) empty() bool { return e.low > e.high }

func (e extent) holds(v float64) bool { return v >= e.low && v <= e.high }

// data returns the extents of what the figure has to show. A point without a finite X and Y shows nothing.
func (f Figure) data() (x, y extent) {
	x, y = nothing, nothing
	add := func(at float64, values ...float64) {
		if e := nothing.with(values...); finite(at) && !e.empty() {
			x, y = x.with(at), y.with(values...)
		}
	}
	for _, line := range f.Lines {
		for _, p := range line.Points {
			add(p.X, p.Y)
		}
	}
	for _, band := range f.Bands {
		for _, e := range band.Edges {
			if finite(e.Low) && finite(e.High) {
				add(e.X, e.Low, e.High)
			}
		}
	}
	for _, points := range f.Points {
		for _, m := range points.Marks {
			add(m.X, m.Y)
		}
	}
	return x.with(f.laneValues()...), y
}

// Blank reports whether the figure has nothing to draw: no finite point, span or mark. Its SVG then says so, and its
// table has no rows.
func (f Figure) Blank() bool {
	_, _, ok := f.ranges()
	return !ok
}

// laneValues returns every place on X that a lane uses.
func (f Figure) laneValues() []float64 {
	var values []float64
	for _, lane := range f.Lanes {
		for _, s := range lane.Spans {
			values = append(values, s.From, s.To)
		}
		for _, m := range lane.Marks {
			values = append(values, m.X)
		}
	}
	return values
}

// ranges returns what the two axes span. ok is false where there is nothing to draw.
func (f Figure) ranges() (x, y extent, ok bool) {
	x, y = f.data()
	if x.empty() {
		return x, y, false
	}
	for _, r := range f.Rules {
		if !r.Level {
			x = x.with(r.Value)
		} else if !y.empty() {
			y = y.with(r.Value)
		}
	}
	x, y = f.X.settle(x), f.Y.settle(y)
	if f.X.Kind == Calendar {
		x.low, x.high = max(x.low, firstDay), min(x.high, lastDay)
	}
	return x, y, x.low < x.high
}

// settle returns the range of an axis for its data: the fixed one, or one that is not a point and holds 0 where it
// must.
func (a Axis) settle(data extent) extent {
	if a.Min < a.Max {
		return extent{a.Min, a.Max}
	}
	if data.empty() {
		return data
	}
	if a.FromZero {
		data = data.with(0)
	}
	if a.Mirrored {
		data = data.with(-data.low, -data.high)
	}
	if a.Kind == Calendar {
		if data.high-data.low < 6 {
			return extent{data.low - 3, data.high + 3}
		}
		return data
	}
	if data.low == 0 && data.high == 0 {
		return extent{0, 1}
	}
	// A range too narrow for the digits of a float64 is a point.
	if size := max(math.Abs(data.low), math.Abs(data.high)); data.high-data.low <= size*1e-9 {
		margin := max(size/10, 0.5)
		return extent{data.low - margin, data.high + margin}
	}
	return data
}

// widened widens a range that is not fixed to whole steps of its ticks.
func (a Axis) widened(e extent, most int) extent {
	if a.Min < a.Max || a.Kind == Calendar {
		return e
	}
	size := a.step(e, most)
	return extent{math.Floor(e.low/size+1e-9) * size, math.Ceil(e.high/size-1e-9) * size}
}

// scale places values of an axis on the drawing: low at from, high at to, in pixels.
type scale struct {
	values   extent
	from, to float64
}

// beyond is how far, in pixels, a place may lie outside; further ones are moved there, so that every number in the
// drawing stays short.
const beyond = 2000

func (s scale) at(v float64) float64 {
	share := (v - s.values.low) / (s.values.high - s.values.low)
	place := s.from + share*(s.to-s.from)
	return min(max(place, min(s.from, s.to)-beyond), max(s.from, s.to)+beyond)
}
