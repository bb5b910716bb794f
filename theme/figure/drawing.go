package figure

import (
	"slices"
	"strings"
)

// sheet is the size of one of the two drawings of a figure.
type sheet struct {
	Name    string  // "wide" or "narrow"
	width   float64 // of the viewBox
	beside  bool    // lane labels stand beside their row, not above it
	height  float64 // of the plot, as a share of Figure.Height
	perTick float64 // pixels between two level grid lines, about
}

var sheets = [...]sheet{
	{Name: "wide", width: 720, beside: true, height: 1, perTick: 44},
	{Name: "narrow", width: 344, height: 0.8, perTick: 40},
}

// Sizes of the text, in units of the viewBox.
const (
	textSize = 13.0
	lineStep = 17.0 // from one row of labels to the next
)

// drawing is what the template writes: shapes and texts in the order in which they are painted.
type drawing struct {
	sheet
	ID, Title, Description string
	Linked                 bool // holds links, so that it is a group and no picture to a screen reader
	Width, Height          string
	Left, Right            string // edges of the X axis
	From, To               string // values there
	Clip                   string // outline of the part that lines and bands may use
	Textures               []texture
	Back, Data, Front      []shape
	Items                  []item
	Over                   []shape // above the items
	Labels                 []label
}

// shape is a path with a class, and the ID of a texture for a span.
type shape struct{ Class, D, Texture string }

// item is a mark or span that can be pointed at.
type item struct {
	shape
	X, Y, Label string // for the readout
	Link        string
	Speech      string // X, Y and Label in one line
}

// label is a text; its class says which end stands at X.
type label struct {
	Class, X, Y, Text string
	Link, Full        string // Full is the whole text where Text was cut
}

// short writes a coordinate.
func short(v float64) string {
	var o outline
	o.number(tenths(v))
	return string(o.data)
}

func (d *drawing) text(class string, x, y float64, text string) {
	d.Labels = append(d.Labels, label{Class: class, X: short(x), Y: short(y), Text: clean(text)})
}

// back, data, front and over add a shape unless it is empty.
func (d *drawing) back(class string, o outline)  { d.Back = appendShape(d.Back, class, o) }
func (d *drawing) data(class string, o outline)  { d.Data = appendShape(d.Data, class, o) }
func (d *drawing) front(class string, o outline) { d.Front = appendShape(d.Front, class, o) }
func (d *drawing) over(class string, o outline)  { d.Over = appendShape(d.Over, class, o) }

func appendShape(shapes []shape, class string, o outline) []shape {
	if len(o.data) == 0 {
		return shapes
	}
	return append(shapes, shape{Class: class, D: string(o.data)})
}

// add appends an item, with the line that is read out for it.
func (d *drawing) add(it item) {
	it.X, it.Y, it.Label = clean(it.X), clean(it.Y), clean(it.Label)
	var said []string
	for _, part := range []string{it.X, it.Y, it.Label} {
		if part != "" && !slices.Contains(said, part) {
			said = append(said, part)
		}
	}
	it.Speech = strings.Join(said, ", ")
	d.Linked = d.Linked || it.Link != ""
	d.Items = append(d.Items, it)
}

// draw lays the figure out on a sheet.
func (f Figure) draw(s sheet) drawing {
	d := drawing{sheet: s, ID: f.ID, Title: clean(f.Title), Description: clean(f.Description), Width: short(s.width)}
	x, y, ok := f.ranges()
	if !ok {
		d.blank(f)
		return d
	}

	top := d.legend(f)
	plot := f.hasPlot()
	var ticks []tick
	if plot {
		height := f.plotHeight() * s.height
		most := max(2, int(height/s.perTick))
		y = f.Y.widened(y, most)
		ticks = f.Y.ticks(y, most)
	}
	frame := f.frame(s, ticks)
	frame.x = scale{x, frame.left, frame.right}
	frame.top = top + d.heads(f, &frame, top)

	at := frame.top
	if len(f.Lanes) > 0 {
		at = d.lanes(f, frame, at)
	}
	if plot {
		if len(f.Lanes) > 0 {
			at += lineStep + 14
			d.text("fig-axis", 0, at-12, shorten(clean(f.Y.title()), s.width/textSize))
		}
		frame.y = scale{y, at + f.plotHeight()*s.height, at}
		d.plot(f, frame, ticks)
		at = frame.y.from
	}
	d.uprights(f, frame, at)
	at = d.xAxis(f, frame, at)
	d.Left, d.Right = short(frame.left), short(frame.right)
	d.From, d.To = plain(x.low), plain(x.high)
	d.Height = short(at)
	return d
}

// frame is where the parts of a drawing lie.
type frame struct {
	left, right, top float64
	x, y             scale
	lines            map[float64]float64 // where the line of an upright rule at this place begins
}

// hasPlot reports whether the figure has a part with a Y axis.
func (f Figure) hasPlot() bool { return len(f.Lines)+len(f.Bands)+len(f.Points) > 0 }

func (f Figure) plotHeight() float64 {
	if f.Height > 0 {
		return float64(f.Height)
	}
	if len(f.Lanes) > 0 {
		return 110
	}
	return 240
}

// frame returns the left and right edge of the axes: what the labels leave.
func (f Figure) frame(s sheet, ticks []tick) frame {
	left := max(1, min(float64(f.Inset), s.width/7))
	for _, t := range ticks {
		left = max(left, textWidth(t.label)*textSize+9)
	}
	if len(f.Lanes) > 0 && s.beside {
		for _, lane := range f.Lanes {
			left = max(left, min(textWidth(clean(lane.Label))*textSize+14, 170))
		}
	}
	return frame{left: left, right: s.width - 14}
}

// title words an axis.
func (a Axis) title() string {
	switch {
	case a.Unit == "":
		return a.Label
	case a.Label == "":
		return a.Unit
	}
	return a.Label + ", " + a.Unit
}

// blank draws the figure that has nothing to show yet: three empty lines of a notebook.
func (d *drawing) blank(f Figure) {
	var lines outline
	for i := range 3 {
		lines.level(30+float64(i)*30, 0, d.width)
	}
	d.back("fig-grid", lines)
	words := f.Empty
	if words == "" {
		words = "No data yet"
	}
	d.text("fig-axis fig-mid", d.width/2, 55, shorten(words, d.width/textSize))
	d.Height = "100"
}
