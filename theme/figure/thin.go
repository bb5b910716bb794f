package figure

import "math"

// spot is a place on the drawing, in pixels.
type spot struct{ x, y float64 }

// tolerance is how far, in pixels, a thinned line may run beside a point that it leaves out.
const tolerance = 0.3

// column is the width, in pixels, of the columns in which a line with more points than pixels is summed up.
const column = 2.0

// thin returns the points of a line that matter at the drawing's scale: no point that it leaves out lies
// further than tolerance from the line that remains (D. H. Douglas and T. K. Peucker, Cartographica 10 (1973)
// 112-122, from memory). A line with more points than pixels is first reduced to the first, lowest, highest and
// last point of every column, which keeps its outline.
func thin(line []spot) []spot {
	if len(line) < 3 {
		return line
	}
	if width := line[len(line)-1].x - line[0].x; float64(len(line)) > 2*width {
		line = envelope(line)
	}

	keep := make([]bool, len(line))
	keep[0], keep[len(line)-1] = true, true
	stretches := [][2]int{{0, len(line) - 1}}
	for len(stretches) > 0 {
		from, to := stretches[len(stretches)-1][0], stretches[len(stretches)-1][1]
		stretches = stretches[:len(stretches)-1]
		at, distance := furthest(line, from, to)
		if distance <= tolerance {
			continue
		}
		keep[at] = true
		stretches = append(stretches, [2]int{from, at}, [2]int{at, to})
	}

	kept := make([]spot, 0, len(line)/2)
	for i, k := range keep {
		if k {
			kept = append(kept, line[i])
		}
	}
	return kept
}

// furthest returns the point between from and to that lies furthest from the straight line between them.
func furthest(line []spot, from, to int) (at int, distance float64) {
	most := 0.0
	for i := from + 1; i < to; i++ {
		if d := offset2(line[i], line[from], line[to]); d > most {
			at, most = i, d
		}
	}
	return at, math.Sqrt(most)
}

// offset2 returns the square of the distance of p from the stretch between a and b.
func offset2(p, a, b spot) float64 {
	dx, dy := b.x-a.x, b.y-a.y
	px, py := p.x-a.x, p.y-a.y
	if length := dx*dx + dy*dy; length > 0 {
		share := min(1, max(0, (px*dx+py*dy)/length))
		px, py = px-share*dx, py-share*dy
	}
	return px*px + py*py
}

// envelope keeps the first, lowest, highest and last point of every column.
func envelope(line []spot) []spot {
	kept := line[:0:0]
	for from := 0; from < len(line); {
		low, high, to := from, from, from
		for to+1 < len(line) && math.Floor(line[to+1].x/column) == math.Floor(line[from].x/column) {
			to++
			if line[to].y < line[low].y {
				low = to
			}
			if line[to].y > line[high].y {
				high = to
			}
		}
		last := -1
		for _, i := range [4]int{from, min(low, high), max(low, high), to} {
			if i > last {
				kept = append(kept, line[i])
				last = i
			}
		}
		from = to + 1
	}
	return kept
}
