package figure

import (
	"cmp"
	"slices"
)

// head is a label above the axes that belongs to an upright rule or a strip.
type head struct {
	x     float64 // place of the rule or the start of the strip
	start float64 // where the text begins
	width float64
	text  string
	row   int
	line  bool // a line runs down from it
}

// startOf returns where a text of a width begins that belongs to x: to the right of it, to the left where there is no
// room, and else across it.
func startOf(x, width, room float64) float64 {
	switch {
	case x+4+width <= room:
		return x + 4
	case x-4-width >= 0:
		return x - 4 - width
	}
	return room - width
}

// heads draws the labels of strips and upright rules and the title of the Y axis in as many rows as they need,
// from the height top, and returns the height they take. It notes in the frame where the line of each rule begins.
func (d *drawing) heads(f Figure, fr *frame, top float64) float64 {
	var taken [][]extent
	title := ""
	if f.hasPlot() && len(f.Lanes) == 0 {
		title = shorten(clean(f.Y.title()), d.width*0.7/textSize)
	}
	if title != "" {
		taken = append(taken, []extent{{0, textWidth(title)*textSize + 10}})
	}

	placed := placeHeads(f.findHeads(*fr, d.width), taken)
	rows := len(taken)
	for _, h := range placed {
		rows = max(rows, h.row+1)
	}
	bottom := top + float64(rows)*lineStep
	fr.lines = map[float64]float64{}
	for _, h := range placed {
		y := bottom - float64(h.row)*lineStep - 4
		d.text("fig-head", h.start, y, h.text)
		if h.line {
			fr.lines[h.x] = y - 10
		}
	}
	if title != "" {
		d.text("fig-axis", 0, bottom-4, title)
	}
	return float64(rows)*lineStep + 8
}

// findHeads returns the heads that lie within the X axis, from right to left.
func (f Figure) findHeads(fr frame, width float64) []head {
	var all []head
	add := func(at float64, text string, line bool) {
		if text == "" || !fr.x.values.holds(at) {
			return
		}
		text = shorten(clean(text), width*0.6/textSize)
		x, wide := fr.x.at(at), textWidth(text)*textSize
		all = append(all, head{x: x, start: startOf(x, wide, width), width: wide, text: text, line: line})
	}
	for _, s := range f.Strips {
		add(max(s.From, fr.x.values.low), s.Label, false)
	}
	for _, r := range f.Rules {
		if !r.Level {
			add(r.Value, r.Label, true)
		}
	}
	slices.SortStableFunc(all, func(a, b head) int { return cmp.Compare(b.x, a.x) })
	return all
}

// placeHeads gives every head the lowest row in which it touches no other. They come from right to left, so that the
// line of one rarely runs through the text of another.
func placeHeads(heads []head, taken [][]extent) []head {
	for i := range heads {
		h := &heads[i]
		for {
			if h.row == len(taken) {
				taken = append(taken, nil)
			}
			if clear(taken[h.row], h.start, h.width) {
				break
			}
			h.row++
		}
		taken[h.row] = append(taken[h.row], extent{h.start, h.start + h.width})
	}
	return heads
}

// clear reports whether a text has room beside those in its row.
func clear(row []extent, start, width float64) bool {
	for _, other := range row {
		if start < other.high+8 && other.low < start+width+8 {
			return false
		}
	}
	return true
}

// uprights draws strips and upright rules from the top of the frame down to bottom.
func (d *drawing) uprights(f Figure, fr frame, bottom float64) {
	var strips outline
	for _, s := range f.Strips {
		from, to := max(s.From, fr.x.values.low), min(s.To, fr.x.values.high)
		if from < to {
			strips.box(fr.x.at(from), fr.top, fr.x.at(to), bottom)
		}
	}
	// Strips lie under the grid that is already there.
	d.Back = append(appendShape(nil, "fig-strip", strips), d.Back...)
	for _, r := range f.Rules {
		if r.Level || !fr.x.values.holds(r.Value) {
			continue
		}
		x, from := fr.x.at(r.Value), fr.top
		if up, ok := fr.lines[x]; ok {
			from = up
		}
		var o outline
		o.upright(x, from, bottom)
		class := "fig-rule fig-" + string(r.Tone.or())
		switch {
		case r.Label == "":
			// One of many, such as every water change: it stays behind the data.
			d.back("fig-aside "+class, o)
		case len(f.Lanes) > 0:
			// A day must show on the spans that last over it.
			d.over(class, o)
		default:
			d.front(class, o)
		}
	}
}

// levels draws the level rules with their labels at the right end, or where there is room.
func (d *drawing) levels(f Figure, fr frame) {
	var taken []area
	for _, r := range f.Rules {
		if !r.Level || !fr.y.values.holds(r.Value) {
			continue
		}
		y := fr.y.at(r.Value)
		var o outline
		o.level(y, fr.left, fr.right)
		d.data("fig-rule fig-"+string(r.Tone.or()), o)
		if r.Label == "" {
			continue
		}
		text := shorten(clean(r.Label), (fr.right-fr.left)*0.6/textSize)
		if place, ok := levelPlace(fr, y, textWidth(text)*textSize, taken); ok {
			taken = append(taken, place)
			d.text("fig-head", place.left, place.bottom-4, text)
		}
	}
}

// area is a box that a text takes.
type area struct{ left, top, right, bottom float64 }

func (a area) touches(b area) bool {
	return a.left < b.right+8 && b.left < a.right+8 && a.top < b.bottom && b.top < a.bottom
}

// levelPlace returns where the label of a level rule has room: at the right or left end, above or below the rule, or
// else as near to it as may be. ok is false where the part is full of labels.
func levelPlace(fr frame, y, width float64, taken []area) (place area, ok bool) {
	right, left := fr.right-width-4, fr.left+6
	for away := 0.0; away < fr.y.from-fr.y.to; away += lineStep / 2 {
		for _, try := range [...]area{
			{right, y - lineStep - away, right + width, y - away}, {left, y - lineStep - away, left + width, y - away},
			{right, y + away, right + width, y + lineStep + away}, {left, y + away, left + width, y + lineStep + away},
		} {
			free := try.top > fr.y.to-5 && try.bottom < fr.y.from
			for _, other := range taken {
				free = free && !try.touches(other)
			}
			if free {
				return try, true
			}
		}
	}
	return area{}, false
}
