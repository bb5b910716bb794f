package figure

// laneBar is the height of a span, in units of the viewBox.
const laneBar = 15.0

// laneHeight returns the height of a row: with its label beside it or above it, and closer together where there are
// many.
func (f Figure) laneHeight(beside bool) float64 {
	many := len(f.Lanes) > 14
	switch {
	case beside && many:
		return 21
	case beside:
		return 27
	case many:
		return 36
	}
	return 41
}

// lanes draws the rows from the height top and returns where they end.
func (d *drawing) lanes(f Figure, fr frame, top float64) float64 {
	var lines outline
	height := f.laneHeight(d.beside)
	for _, lane := range f.Lanes {
		middle := top + height/2
		labelY, room := middle+4.5, fr.left-12
		if !d.beside {
			middle = top + height - 12
			labelY, room = top+13, d.width
		}
		d.laneLabel(lane, labelY, room)
		free := fr.left
		for _, s := range lane.Spans {
			free = d.span(f, fr, s, middle, free)
		}
		for _, m := range lane.Marks {
			d.laneMark(f, fr, m, middle)
		}
		top += height
		lines.level(top, 0, fr.right)
	}
	d.back("fig-grid", lines)
	return top
}

// laneLabel writes the name of a lane.
func (d *drawing) laneLabel(lane Lane, y, room float64) {
	full := clean(lane.Label)
	text := shorten(full, room/textSize)
	if text == full {
		full = ""
	}
	d.Linked = d.Linked || lane.Link != ""
	d.Labels = append(d.Labels, label{Class: "fig-lane", X: "0", Y: short(y), Text: text, Link: lane.Link, Full: full})
}

// span draws one stretch around the height middle. Its label is left out where it does not fit, or begins before
// free, the end of the label before it; the end of the last label is returned.
func (d *drawing) span(f Figure, fr frame, s Span, middle, free float64) float64 {
	from, to := max(s.From, fr.x.values.low), min(s.To, fr.x.values.high)
	if !(from <= to) {
		return free
	}
	left, right := fr.x.at(from), fr.x.at(to)
	if right-left < 2 {
		left, right = left-1, left+1
	}
	var o outline
	o.box(left, middle-laneBar/2, right, middle+laneBar/2)
	d.add(item{
		shape: shape{spanClass(s.Tone, s.Soft), string(o.data), d.texture(s.Tone.or(), s.Soft)},
		X:     f.X.value(s.From) + " \u2013 " + f.X.value(s.To), Label: s.Label, Link: s.Link,
	})
	text := clean(s.Label)
	width := textWidth(text) * textSize
	start := (left + right - width) / 2
	if f.Wordless || text == "" || width+10 > right-left || start < free {
		return free
	}
	d.text("fig-inside fig-mid", (left+right)/2, middle+4.5, text)
	return start + width + 6
}

// laneMark draws one moment around the height middle.
func (d *drawing) laneMark(f Figure, fr frame, m LaneMark, middle float64) {
	if !fr.x.values.holds(m.X) {
		return
	}
	var o outline
	o.mark(m.Shape, fr.x.at(m.X), middle, 4.6)
	d.add(item{shape: shape{Class: markClass(m.Shape, m.Tone), D: string(o.data)}, X: f.X.word(m.X),
		Label: m.Label, Link: m.Link})
}
