package figure

import (
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

// chartX returns the X axis for the grid of this index.
func (f Figure) chartX(x extent, index int) opts.XAxis {
	axis := opts.XAxis{Type: "value", Name: f.X.title(), NameLocation: "end", GridIndex: index}
	if f.X.Kind == Calendar {
		axis.Type, axis.Name = "time", ""
	}
	if x.low < x.high {
		axis.Min, axis.Max = f.X.json(x.low), f.X.json(x.high)
	}
	axis.AxisLabel = &opts.AxisLabel{HideOverlap: opts.Bool(true)}
	if f.X.Mirrored {
		axis.AxisLabel.Formatter = types.FuncStr("fn:unsigned")
	}
	return axis
}

func (f Figure) chartY(y extent, index int) opts.YAxis {
	axis := opts.YAxis{Type: "value", Name: f.Y.title(), GridIndex: index, AxisLabel: &opts.AxisLabel{}}
	if y.low < y.high {
		y = f.Y.rounded(y, max(2, int(f.plotHeight()/sheets[0].perTick)))
		axis.Min, axis.Max = y.low, y.high
	}
	return axis
}

// chartLanes returns the axis that names the lanes, the first one on top.
func (f Figure) chartLanes() opts.YAxis {
	var names []string
	for _, lane := range f.Lanes {
		names = append(names, shorten(clean(lane.Label), 8))
	}
	return opts.YAxis{Type: "category", Data: names, Inverse: opts.Bool(true), AxisLabel: &opts.AxisLabel{}}
}

// bandSeries returns two stacked series for each band: the lower edge, unseen, and the rest up to the upper edge. Each point carries both edges behind its place,
// because the tooltip would otherwise know only the difference.
func (f Figure) bandSeries() []series {
	var all []series
	for i, b := range f.Bands {
		var low, rest []opts.LineData
		for _, e := range b.Edges {
			if !finite(e.X) {
				continue
			}
			at := f.X.json(e.X)
			if !finite(e.Low) || !finite(e.High) {
				low, rest = append(low, gap(at)), append(rest, gap(at))
				continue
			}
			low = append(low, opts.LineData{Value: []any{at, e.Low}})
			rest = append(rest, opts.LineData{Value: []any{at, e.High - e.Low, e.Low, e.High}})
		}
		opacity := 0.34
		if b.Faint {
			opacity = 0.17
		}
		stack := "band-" + strconv.Itoa(i)
		under := f.area("", low, stack)
		under.Silent = true
		over := f.area(clean(b.Name), rest, stack)
		over.ItemStyle = &opts.ItemStyle{Color: toneColor(b.Tone)}
		over.AreaStyle = &opts.AreaStyle{Color: toneColor(b.Tone), Opacity: opts.Float(float32(opacity))}
		all = append(all, under, over)
	}
	return all
}

// area returns one of the two series of a band.
func (f Figure) area(name string, data []opts.LineData, stack string) series {
	return series{
		SingleSeries: charts.SingleSeries{
			Name: name, Type: types.ChartLine, Data: present(data), Stack: stack,
			Symbol: "none", ConnectNulls: opts.Bool(false),
		},
		// The usual strategy stacks only values of one sign.
		StackStrategy: "all",
		Stroke:        &stroke{Opacity: 0},
		Z:             2,
	}
}

// gap is a point without a value.
func gap(at any) opts.LineData { return opts.LineData{Value: []any{at, nil}} }

// present keeps an empty list from becoming null.
func present(data []opts.LineData) []opts.LineData {
	if data == nil {
		return []opts.LineData{}
	}
	return data
}

func (f Figure) lineSeries() []series {
	var all []series
	for _, l := range f.Lines {
		var data []opts.LineData
		for _, p := range l.Points {
			if finite(p.X) {
				data = append(data, opts.LineData{Value: []any{f.X.json(p.X), f.Y.json(p.Y)}})
			}
		}
		all = append(all, series{
			SingleSeries: charts.SingleSeries{
				Name: clean(l.Name), Type: types.ChartLine, Data: present(data),
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
		data := []opts.ScatterData{}
		for _, m := range p.Marks {
			if finite(m.X) && finite(m.Y) {
				data = append(data, opts.ScatterData{Value: []any{f.X.json(m.X), f.Y.json(m.Y), clean(m.Label), m.Link}})
			}
		}
		all = append(all, scatter(clean(p.Name), p.Shape, p.Tone, data))
	}
	return all
}

// scatter returns a series of marks.
func scatter(name string, shape Shape, tone Tone, data []opts.ScatterData) series {
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
	spans, marks := map[look][]opts.LineData{}, map[look][]opts.ScatterData{}
	note := func(l look) {
		if spans[l] == nil && marks[l] == nil {
			looks = append(looks, l)
		}
	}
	for row, lane := range f.Lanes {
		for _, s := range lane.Spans {
			if l := (look{tone: s.Tone.or(), soft: s.Soft}); finite(s.From) && finite(s.To) {
				note(l)
				spans[l] = append(spans[l], opts.LineData{Value: []any{f.X.json(s.From), row}},
					opts.LineData{Value: []any{f.X.json(s.To), row}}, gap(f.X.json(s.To)))
			}
		}
		for _, m := range lane.Marks {
			if l := (look{tone: m.Tone.or(), shape: m.Shape.or()}); finite(m.X) {
				note(l)
				marks[l] = append(marks[l], opts.ScatterData{Value: []any{f.X.json(m.X), row, clean(m.Label), m.Link}})
			}
		}
	}

	var all []series
	for _, l := range looks {
		name := f.keyName(l.tone, l.soft, l.shape)
		if l.shape != "" {
			all = append(all, scatter(name, l.shape, l.tone, marks[l]))
			continue
		}
		all = append(all, spanSeries(name, l.tone, l.soft, spans[l]))
	}
	return all
}

func spanSeries(name string, tone Tone, soft bool, data []opts.LineData) series {
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
			return clean(k.Name)
		}
	}
	return ""
}

// frameSeries returns the series without data that carries strips and rules; those that are level only for a plot.
func (f Figure) frameSeries(plot bool) series {
	lines := &opts.MarkLines{MarkLineStyle: opts.MarkLineStyle{
		Symbol: []string{"none", "none"}, Label: &opts.Label{Formatter: "{b}"},
		LineStyle: &opts.LineStyle{Color: "tone:ink", Type: "dashed"},
	}}
	for _, r := range f.Rules {
		switch {
		case !finite(r.Value) || r.Level && !plot:
		case r.Level:
			lines.Data = append(lines.Data, opts.MarkLineNameYAxisItem{Name: clean(r.Label), YAxis: r.Value})
		default:
			lines.Data = append(lines.Data, opts.MarkLineNameXAxisItem{Name: clean(r.Label), XAxis: f.X.json(r.Value)})
		}
	}
	areas := &opts.MarkAreas{MarkAreaStyle: opts.MarkAreaStyle{ItemStyle: &opts.ItemStyle{Color: "tone:shade"}}}
	for _, s := range f.Strips {
		if finite(s.From) && finite(s.To) && s.From < s.To {
			areas.Data = append(areas.Data, [2]opts.MarkAreaData{{Name: clean(s.Label), XAxis: f.X.json(s.From)}, {XAxis: f.X.json(s.To)}})
		}
	}
	return series{
		SingleSeries: charts.SingleSeries{Type: types.ChartLine, Data: []opts.LineData{}, MarkLines: lines, MarkAreas: areas},
		Silent:       true,
		Z:            1,
	}
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
