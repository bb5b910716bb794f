package figure

import (
	"math"
	"strconv"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
	"github.com/go-echarts/go-echarts/v2/types"
)

// dashes are the lengths of strokes and gaps of each tone's lines; a tone without any is drawn whole. The style
// sheet holds the same.
var dashes = map[Tone][]int{
	Moss: {14, 5}, Shrimp: {7, 5}, Eggs: {12, 5, 1, 5}, Sand: {12, 5, 1, 5, 1, 5}, Stone: {5, 4},
}

// series is a series of go-echarts with what its types leave out.
type series struct {
	charts.SingleSeries
	Stroke        *stroke    `json:"lineStyle,omitempty"`
	Rules         *ruleGroup `json:"markLine,omitempty"`
	StackStrategy string     `json:"stackStrategy,omitempty"`
	SymbolRotate  int        `json:"symbolRotate,omitempty"`
	Silent        bool       `json:"silent,omitempty"`
	Z             int        `json:"z"`
}

// stroke is the style of a line; opts.LineStyle has no dash lengths.
type stroke struct {
	Color   string  `json:"color,omitempty"`
	Width   float64 `json:"width"`
	Opacity float64 `json:"opacity"`
	Dashes  []int   `json:"type,omitempty"`
}

// ruleGroup is a markLine that leaves its values as they are; the chart would round them to two digits.
type ruleGroup struct {
	opts.MarkLines
	Precision int `json:"precision"`
}

// point is a place and what the tooltip needs to know of it.
type point []any

// allSeries returns every series, those of the lanes first, each on the axes of its grid.
func (f Figure) allSeries() []series {
	lanes := f.laneSeries()
	if len(f.Lanes) > 0 {
		lanes = append(lanes, f.frameSeries(true))
	}
	if !f.hasPlot() {
		return lanes
	}
	plot := append(append(f.bandSeries(), f.lineSeries()...), f.pointSeries()...)
	plot = append(plot, f.frameSeries(false))
	if len(f.Lanes) > 0 {
		for i := range plot {
			plot[i].XAxisIndex, plot[i].YAxisIndex = 1, 1
		}
	}
	return append(lanes, plot...)
}

// unseen begins the id of a series that only helps to draw another; the tooltip leaves it out.
const unseen = "unseen-"

// bandSeries returns the series of every band. Each point of the named one carries both edges behind its place.
func (f Figure) bandSeries() []series {
	var all []series
	for i, b := range f.Bands {
		if f.X.Kind == Calendar {
			all = append(all, f.stacked(b, i)...)
			continue
		}
		all = append(all, f.hatched(b, i)...)
	}
	return all
}

// edges returns the finite and rounded edges of a band, with NaN edges as gaps.
func (b Band) edges() []Edge {
	var edges []Edge
	for _, e := range b.Edges {
		switch {
		case !finite(e.X):
		case !finite(e.Low) || !finite(e.High):
			edges = append(edges, Edge{e.X, nan, nan})
		default:
			edges = append(edges, Edge{e.X, rounded(e.Low), rounded(e.High)})
		}
	}
	return edges
}

// stacked returns the two series of a band on a calendar: the lower edge, unseen, and on top of it the rest up to the
// upper edge, filled.
func (f Figure) stacked(b Band, index int) []series {
	low, rest := []point{}, []point{}
	for _, e := range b.edges() {
		at := f.X.json(e.X)
		if !finite(e.Low) {
			low, rest = append(low, gap(at)), append(rest, gap(at))
			continue
		}
		low = append(low, point{at, e.Low})
		// The difference of two short numbers, without what floats add to it.
		rest = append(rest, point{at, math.Round((e.High-e.Low)*1e9) / 1e9, e.Low, e.High})
	}
	under, over := edgeSeries(low), edgeSeries(rest)
	under.Id, under.Silent = unseen+strconv.Itoa(index), true
	over.Name = seriesName(b.Name)
	over.ItemStyle = &opts.ItemStyle{Color: toneColor(b.Tone)}
	over.AreaStyle = &opts.AreaStyle{Color: toneColor(b.Tone), Opacity: opts.Float(float32(b.opacity()))}
	pair := []series{under, over}
	for i := range pair {
		pair[i].Stack = "band-" + strconv.Itoa(index)
		// The usual strategy stacks only values of one sign.
		pair[i].StackStrategy = "all"
	}
	return pair
}

// hatched returns the two series of a band on an axis of numbers, where the chart cannot stack: upright strokes from
// edge to edge, and the upper edge.
func (f Figure) hatched(b Band, index int) []series {
	strokes, high := []point{}, []point{}
	for _, e := range b.edges() {
		at := f.X.json(e.X)
		if !finite(e.Low) {
			high = append(high, gap(at))
			continue
		}
		strokes = append(strokes, point{at, e.Low}, point{at, e.High}, gap(at))
		high = append(high, point{at, e.High, e.Low, e.High})
	}
	hatch, edge := edgeSeries(strokes), edgeSeries(high)
	hatch.Id, hatch.Silent = unseen+strconv.Itoa(index), true
	hatch.Stroke = &stroke{Color: toneColor(b.Tone), Width: 3, Opacity: b.opacity()}
	edge.Name = seriesName(b.Name)
	edge.ItemStyle = &opts.ItemStyle{Color: toneColor(b.Tone)}
	edge.Stroke = &stroke{Color: toneColor(b.Tone), Width: 1, Opacity: b.opacity()}
	return []series{hatch, edge}
}

// opacity is that of the style sheet.
func (b Band) opacity() float64 {
	if b.Faint {
		return 0.17
	}
	return 0.34
}

// edgeSeries returns a series for an edge of a band, without a line.
func edgeSeries(data []point) series {
	return series{
		SingleSeries: charts.SingleSeries{Type: types.ChartLine, Data: data, Symbol: "none",
			ConnectNulls: opts.Bool(false)},
		Stroke: &stroke{Opacity: 0},
		Z:      2,
	}
}

// gap is a point without a value.
func gap(at any) point { return point{at, nil} }

func (f Figure) lineSeries() []series {
	var all []series
	for _, l := range f.Lines {
		data := []point{}
		for _, p := range l.Points {
			if finite(p.X) {
				data = append(data, point{f.X.json(p.X), f.Y.json(p.Y)})
			}
		}
		all = append(all, series{
			SingleSeries: charts.SingleSeries{
				Name: seriesName(l.Name), Type: types.ChartLine, Data: data,
				ShowSymbol: opts.Bool(false), ConnectNulls: opts.Bool(false),
				ItemStyle: &opts.ItemStyle{Color: toneColor(l.Tone)},
			},
			Stroke: &stroke{Color: toneColor(l.Tone), Width: 2, Opacity: 1, Dashes: f.lineDashes(l)},
			Z:      3,
		})
	}
	return all
}

// lineDashes returns the dashes that lineClass gives the same line.
func (f Figure) lineDashes(line Line) []int {
	if line.Dashed {
		return []int{1, 4}
	}
	if f.oneTone() {
		return nil
	}
	return dashes[line.Tone.or()]
}

func (f Figure) pointSeries() []series {
	var all []series
	for _, p := range f.Points {
		data := []point{}
		for _, m := range p.Marks {
			if finite(m.X) && finite(m.Y) {
				data = append(data, point{f.X.json(m.X), f.Y.json(m.Y), said(m.Label), safeLink(m.Link)})
			}
		}
		all = append(all, scatter(seriesName(p.Name), p.Shape, p.Tone, data))
	}
	return all
}

// symbolPlus is a plus in the chart program's form of a path.
const symbolPlus = "path://M0 3h3v-3h2v3h3v2h-3v3h-2v-3h-3z"

// scatter returns a series of marks.
func scatter(name string, shape Shape, tone Tone, data []point) series {
	s := series{
		SingleSeries: charts.SingleSeries{
			Name: name, Type: types.ChartScatter, Data: data, Symbol: "circle", SymbolSize: 9,
			ItemStyle: &opts.ItemStyle{Color: toneColor(tone)},
		},
		Z: 5,
	}
	switch shape {
	case Ring:
		s.Symbol = "emptyCircle"
	case Diamond:
		s.Symbol, s.SymbolSize = "diamond", 11
	case Wedge:
		s.Symbol, s.SymbolRotate = "triangle", 180
	case Peak:
		s.Symbol = "triangle"
	case Plus:
		s.Symbol, s.SymbolSize = symbolPlus, 11
	case Cross:
		s.Symbol, s.SymbolSize, s.SymbolRotate = symbolPlus, 11, 45
	case Square:
		s.Symbol = "rect"
	case Bar:
		s.Symbol, s.SymbolSize = "rect", []int{3, 13}
	}
	return s
}

// laneSeries returns one series of broad lines for each look of a span, and one of marks for each look of a mark.
func (f Figure) laneSeries() []series {
	type look struct {
		tone  Tone
		soft  bool
		shape Shape
	}
	var looks []look
	points := map[look][]point{}
	add := func(l look, more ...point) {
		if points[l] == nil {
			looks = append(looks, l)
		}
		points[l] = append(points[l], more...)
	}
	for row, lane := range f.Lanes {
		for _, s := range lane.Spans {
			if l := (look{tone: s.Tone.or(), soft: s.Soft}); finite(s.From) && finite(s.To) {
				add(l, point{f.X.json(s.From), row}, point{f.X.json(s.To), row}, gap(f.X.json(s.To)))
			}
		}
		for _, m := range lane.Marks {
			if l := (look{tone: m.Tone.or(), shape: m.Shape.or()}); finite(m.X) {
				add(l, point{f.X.json(m.X), row, said(m.Label), safeLink(m.Link)})
			}
		}
	}

	var all []series
	for _, l := range looks {
		name := f.keyName(l.tone, l.soft, l.shape)
		if l.shape != "" {
			all = append(all, scatter(name, l.shape, l.tone, points[l]))
			continue
		}
		all = append(all, spanSeries(name, l.tone, l.soft, points[l]))
	}
	return all
}

func spanSeries(name string, tone Tone, soft bool, data []point) series {
	s := series{
		SingleSeries: charts.SingleSeries{
			Name: name, Type: types.ChartLine, Data: data, ShowSymbol: opts.Bool(false), ConnectNulls: opts.Bool(false),
			ItemStyle: &opts.ItemStyle{Color: toneColor(tone)},
		},
		Stroke: &stroke{Color: toneColor(tone), Width: 13, Opacity: 0.75},
		Z:      3,
	}
	if soft {
		s.Stroke.Opacity, s.Stroke.Dashes = 0.5, []int{2, 2}
	}
	return s
}

// keyName returns what the legend calls a look, or "".
func (f Figure) keyName(tone Tone, soft bool, shape Shape) string {
	for _, k := range f.Keys {
		if k.Tone.or() == tone && k.Soft == soft && k.Shape == shape {
			return seriesName(k.Name)
		}
	}
	return ""
}

// ruleItem is a line of a markLine; the types of go-echarts have no label for a single one.
type ruleItem struct {
	Name  string     `json:"name"`
	XAxis any        `json:"xAxis,omitempty"`
	YAxis any        `json:"yAxis,omitempty"`
	Label opts.Label `json:"label"`
}

// frameSeries returns the series without data that carries strips and rules of the lanes or the plot. Where there are
// both, labels stand above the lanes.
func (f Figure) frameSeries(lanes bool) series {
	lines := &opts.MarkLines{MarkLineStyle: opts.MarkLineStyle{
		Symbol: []string{"none", "none"}, LineStyle: &opts.LineStyle{Color: "tone:quiet", Type: "dashed"},
	}}
	label := func(position string) opts.Label {
		return opts.Label{Show: opts.Bool(position != ""), Position: position, Formatter: "{b}", Color: "tone:quiet"}
	}
	// The axis of lanes runs downwards, so that its start is at the top.
	top := "end"
	switch {
	case lanes:
		top = "start"
	case len(f.Lanes) > 0:
		top = ""
	}
	x, _, _ := f.ranges()
	last := math.Inf(-1)
	for _, r := range f.Rules {
		switch {
		case !finite(r.Value) || r.Level && lanes:
		case r.Level:
			lines.Data = append(lines.Data,
				ruleItem{Name: seriesName(r.Label), YAxis: rounded(r.Value), Label: label("insideEndTop")})
		case math.Abs(r.Value-last) < (x.high-x.low)/6:
			// The chart does not keep labels apart.
			lines.Data = append(lines.Data,
				ruleItem{Name: seriesName(r.Label), XAxis: f.X.json(r.Value), Label: label("")})
		default:
			lines.Data = append(lines.Data,
				ruleItem{Name: seriesName(r.Label), XAxis: f.X.json(r.Value), Label: label(top)})
			last = r.Value
		}
	}

	text := label("top")
	text.Show = opts.Bool(top != "")
	areas := &opts.MarkAreas{MarkAreaStyle: opts.MarkAreaStyle{ItemStyle: &opts.ItemStyle{Color: "tone:shade"},
		Label: &text}}
	for _, s := range f.Strips {
		if finite(s.From) && finite(s.To) && s.From < s.To {
			areas.Data = append(areas.Data,
				[2]opts.MarkAreaData{{Name: seriesName(s.Label), XAxis: f.X.json(s.From)}, {XAxis: f.X.json(s.To)}})
		}
	}
	return series{
		SingleSeries: charts.SingleSeries{Type: types.ChartLine, Data: []point{}, MarkAreas: areas},
		Rules:        &ruleGroup{MarkLines: *lines, Precision: -1},
		Silent:       true,
		Z:            1,
	}
}

// seriesName is what the legend and the tooltip call a series: not so long that it hides the others.
func seriesName(name string) string { return said(shorten(clean(name), 20)) }
