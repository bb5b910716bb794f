package figure

// tones and shapes are all that may be used, in the order of the style sheet.
var (
	tones  = []Tone{Water, Moss, Shrimp, Eggs, Sand, Stone}
	shapes = []Shape{Dot, Ring, Diamond, Bar, Wedge, Peak, Plus, Cross, Square}
)

// or returns the tone, and Stone for none.
func (t Tone) or() Tone {
	if t == "" {
		return Stone
	}
	return t
}

// or returns the shape, and Dot for none.
func (s Shape) or() Shape {
	if s == "" {
		return Dot
	}
	return s
}

// lineClass gives a line its colour and its dashes. Where all lines share one tone there is nothing to tell apart,
// and they are drawn whole.
func (f Figure) lineClass(line Line) string {
	class := "fig-line fig-" + string(line.Tone.or())
	if line.Dashed {
		return class + " fig-dotted"
	}
	if f.oneTone() {
		return class
	}
	return class + " fig-dash-" + string(line.Tone.or())
}

// oneTone reports whether all lines share a tone, so that dashes have nothing to tell apart.
func (f Figure) oneTone() bool {
	for _, l := range f.Lines {
		if l.Tone.or() != f.Lines[0].Tone.or() {
			return false
		}
	}
	return true
}

func bandClass(band Band) string {
	class := "fig-band fig-" + string(band.Tone.or())
	if band.Faint {
		class += " fig-faint"
	}
	return class
}

func markClass(shape Shape, tone Tone) string {
	if shape.or() == Ring {
		return "fig-mark fig-ring fig-" + string(tone.or())
	}
	return "fig-mark fig-" + string(tone.or())
}

func spanClass(tone Tone, soft bool) string {
	class := "fig-span fig-" + string(tone.or())
	if soft {
		class += " fig-soft"
	}
	return class
}

// texture is the engraving that fills the spans of a tone, so that colour never stands alone.
type texture struct {
	ID     string // unique on the page
	Tone   Tone
	Width  string // of one tile
	Height string
	Turn   string // degrees
	D      string // the strokes of one tile
	Filled bool   // the strokes are areas
}

// engravings are the tiles of whole spans: ripples, sprigs, segments, eggs, grains and slabs.
var engravings = map[Tone]texture{
	Water:  {Width: "12", Height: "5", D: "M0 2.5q3-2.6 6 0t6 0"},
	Moss:   {Width: "9", Height: "7.5", D: "M1 1.5l1.5 3 1.5-3M5.5 4.5l1.5 2.5 1.5-2.5"},
	Shrimp: {Width: "6", Height: "15", D: "M1 0q5 7.5 0 15"},
	Eggs:   {Width: "8", Height: "7.5", D: "M.7 2a1.5 1.5 0 1 0 3 0a1.5 1.5 0 1 0-3 0M4.7 5.6a1.5 1.5 0 1 0 3 0a1.5 1.5 0 1 0-3 0"},
	Sand:   {Width: "6", Height: "5", D: "M1 1h1v1h-1zM4 3.5h1v1h-1z", Filled: true},
	Stone:  {Width: "10", Height: "5", D: "M0 1.2h6M5 3.7h5"},
}

// hatches are the tiles of soft spans: straight lines at the angle of each tone.
var hatches = map[Tone]texture{
	Water:  {Width: "8", Height: "3.75", D: "M0 1.9h8"},
	Moss:   {Width: "3.5", Height: "8", D: "M1.7 0v8"},
	Shrimp: {Width: "4", Height: "8", Turn: "-45", D: "M2 0v8"},
	Eggs:   {Width: "4", Height: "8", Turn: "45", D: "M2 0v8"},
	Sand:   {Width: "7", Height: "8", Turn: "20", D: "M2 0v8"},
	Stone:  {Width: "7", Height: "8", Turn: "-20", D: "M2 0v8"},
}

// texture notes that a drawing uses the texture of a tone and returns its ID.
func (d *drawing) texture(tone Tone, soft bool) string {
	t, id := engravings[tone], d.ID+"-"+d.Name+"-"+string(tone)
	if soft {
		t, id = hatches[tone], id+"-soft"
	}
	for _, known := range d.Textures {
		if known.ID == id {
			return id
		}
	}
	t.ID, t.Tone = id, tone
	d.Textures = append(d.Textures, t)
	return id
}
