package figure

// swatch is one entry of the legend.
type swatch struct {
	name  string
	class string
	soft  bool
	shape Shape // a mark
	line  bool
	span  bool // textured as on a lane
	tone  Tone
}

// swatches lists what the legend explains, each name and look once.
func (f Figure) swatches() []swatch {
	var all []swatch
	seen := map[swatch]bool{}
	add := func(s swatch) {
		if s.name != "" && !seen[s] {
			seen[s] = true
			all = append(all, s)
		}
	}
	for _, line := range f.Lines {
		add(swatch{name: line.Name, class: f.lineClass(line), line: true})
	}
	for _, band := range f.Bands {
		add(swatch{name: band.Name, class: bandClass(band)})
	}
	for _, p := range f.Points {
		add(swatch{name: p.Name, class: markClass(p.Shape, p.Tone), shape: p.Shape.or()})
	}
	x, _, _ := f.ranges()
	for _, k := range f.Keys {
		if !f.uses(k, x) {
			continue
		}
		if k.Shape != "" {
			add(swatch{name: k.Name, class: markClass(k.Shape, k.Tone), shape: k.Shape})
			continue
		}
		add(swatch{name: k.Name, class: spanClass(k.Tone, k.Soft), span: true, soft: k.Soft, tone: k.Tone.or()})
	}
	return all
}

// uses reports whether a lane shows what a key explains, within the range x.
func (f Figure) uses(k Key, x extent) bool {
	for _, lane := range f.Lanes {
		for _, s := range lane.Spans {
			if k.Shape == "" && s.Tone.or() == k.Tone.or() && s.Soft == k.Soft && s.From <= x.high && s.To >= x.low {
				return true
			}
		}
		for _, m := range lane.Marks {
			if k.Shape == m.Shape.or() && m.Tone.or() == k.Tone.or() && x.holds(m.X) {
				return true
			}
		}
	}
	return false
}

// legend draws the legend in rows and returns its height.
func (d *drawing) legend(f Figure) float64 {
	const picture, gap, between = 24.0, 6.0, 18.0
	x, y := 0.0, 12.0
	all := f.swatches()
	if len(all) == 0 {
		return 0
	}
	for _, s := range all {
		name := shorten(clean(s.name), (d.width-picture-gap)/textSize)
		width := picture + gap + textWidth(name)*textSize
		if x > 0 && x+width > d.width {
			x, y = 0, y+lineStep+2
		}
		d.swatch(s, x, y-4.5, picture)
		d.text("fig-key", x+picture+gap, y, name)
		x += width + between
	}
	return y + 10
}

// swatch draws the picture of one entry, width wide, around the height y.
func (d *drawing) swatch(s swatch, x, y, width float64) {
	var o outline
	switch {
	case s.line:
		o.level(y, x, x+width)
	case s.shape != "":
		o.mark(s.shape, x+width/2, y, 4)
	default:
		o.box(x+1, y-5, x+width-1, y+5)
	}
	if s.span {
		d.Front = append(d.Front, shape{s.class, string(o.data), d.texture(s.tone, s.soft)})
		return
	}
	d.front(s.class, o)
}
