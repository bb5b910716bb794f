package figure

// plot draws the part with the Y axis: grid, bands, lines, level rules and marks.
func (d *drawing) plot(f Figure, fr frame, ticks []tick) {
	d.yAxis(fr, ticks)
	var clip outline
	clip.box(fr.left, fr.y.to-2, fr.right+2, fr.y.from+2)
	d.Clip = string(clip.data)

	for _, band := range f.Bands {
		d.data(bandClass(band), fr.area(band.Edges))
	}
	for _, line := range f.Lines {
		var o outline
		for _, run := range fr.runs(line.Points) {
			o.run(thin(run))
		}
		d.data(f.lineClass(line), o)
	}
	d.levels(f, fr)
	for _, points := range f.Points {
		d.marks(f, fr, points)
	}
}

// yAxis draws the grid and its numbers.
func (d *drawing) yAxis(fr frame, ticks []tick) {
	var grid outline
	for _, t := range ticks {
		y := fr.y.at(t.at)
		grid.level(y, fr.left, fr.right)
		d.text("fig-end", fr.left-7, y+4.5, t.label)
	}
	d.back("fig-grid", grid)
}

// runs returns the finite stretches of a line as places on the drawing.
func (fr frame) runs(points []XY) [][]spot {
	var runs [][]spot
	all := make([]spot, 0, len(points))
	begin := 0
	end := func() {
		if len(all) > begin {
			runs = append(runs, all[begin:len(all):len(all)])
		}
		begin = len(all)
	}
	for _, p := range points {
		if !finite(p.X) || !finite(p.Y) {
			end()
			continue
		}
		all = append(all, spot{fr.x.at(p.X), fr.y.at(p.Y)})
	}
	end()
	return runs
}

// area returns the outline of a band: along the upper edge, back along the lower one, for each finite stretch.
func (fr frame) area(edges []Edge) outline {
	high, low := make([]XY, 0, len(edges)), make([]XY, 0, len(edges))
	for _, e := range edges {
		if !finite(e.Low) || !finite(e.High) {
			e.Low, e.High = nan, nan
		}
		high, low = append(high, XY{e.X, e.High}), append(low, XY{e.X, e.Low})
	}

	var o outline
	lows := fr.runs(low)
	for i, run := range fr.runs(high) {
		o.run(thin(run))
		under := thin(lows[i])
		for j := len(under) - 1; j >= 0; j-- {
			o.to(under[j].x, under[j].y)
		}
		o.close()
	}
	return o
}

// marks draws a cloud of marks. Those with a label or a link can be pointed at one by one; the others share a path.
func (d *drawing) marks(f Figure, fr frame, points Points) {
	const radius = 3.8
	var plainMarks outline
	for _, m := range points.Marks {
		if !fr.x.values.holds(m.X) || !fr.y.values.holds(m.Y) {
			continue
		}
		x, y := fr.x.at(m.X), fr.y.at(m.Y)
		if m.Label == "" && m.Link == "" {
			plainMarks.mark(points.Shape, x, y, radius)
			continue
		}
		var o outline
		o.mark(points.Shape, x, y, radius)
		d.add(item{
			shape: shape{Class: markClass(points.Shape, points.Tone), D: string(o.data)},
			X:     f.X.word(m.X), Y: f.Y.word(m.Y), Label: m.Label, Link: m.Link,
		})
	}
	d.front(markClass(points.Shape, points.Tone), plainMarks)
}
