package figure

import (
	"encoding/json"
	"fmt"
	"math"
	"time"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
	"github.com/go-echarts/go-echarts/v2/types"
)

// Heights of the interactive chart, in CSS pixels.
const (
	chartHead = 64 // legend
	chartFoot = 78 // X axis and the slider
	chartLane = 26
	chartGap  = 34 // between lanes and plot
)

// series is a series of go-echarts with what its types leave out.
type series struct {
	charts.SingleSeries
	Stroke        *stroke `json:"lineStyle,omitempty"`
	StackStrategy string  `json:"stackStrategy,omitempty"`
	SymbolRotate  int     `json:"symbolRotate,omitempty"`
	Silent        bool    `json:"silent,omitempty"`
	Z             int     `json:"z"`
}

// stroke is the style of a line; opts.LineStyle has no dash lengths.
type stroke struct {
	Color   string  `json:"color,omitempty"`
	Width   float64 `json:"width"`
	Opacity float64 `json:"opacity"`
	Dashes  []int   `json:"type,omitempty"`
}

// companion is the part of the document that is not the chart's: what its functions need to know.
type companion struct {
	Height   int             `json:"height"` // CSS pixels that the chart wants
	XKind    string          `json:"x"`      // "calendar" or "number"
	Unit     string          `json:"unit"`   // of Y
	Mirrored bool            `json:"mirrored,omitempty"`
	Lanes    []companionLane `json:"lanes,omitempty"`
}

type companionLane struct {
	Label string          `json:"label"`
	Link  string          `json:"link,omitempty"`
	Spans []companionSpan `json:"spans"` // spans, and marks whose From is their To
}

type companionSpan struct {
	From  any    `json:"from"`
	To    any    `json:"to"`
	Label string `json:"label"`
	Link  string `json:"link,omitempty"`
}

// Option returns the figure as a JSON object for the interactive chart: the chart's own option, and beside it, under "figure", what
// the page's script needs. The package comment lists the marker strings that the script replaces. The object holds
// no code, every < is escaped, and values that are not finite are null. The error is that of SVG.
func (f Figure) Option() ([]byte, error) {
	if err := f.check(); err != nil {
		return nil, err
	}
	f = f.cleaned()
	chart := charts.NewLine()
	lanes := len(f.Lanes)
	plotAxis := 0
	if lanes > 0 {
		plotAxis = 1
	}
	f.setGlobal(chart, plotAxis)
	chart.Validate()

	all := f.laneSeries()
	if f.hasPlot() {
		plot := append(append(f.bandSeries(), f.lineSeries()...), f.pointSeries()...)
		plot = append(plot, f.frameSeries(true))
		for i := range plot {
			plot[i].XAxisIndex, plot[i].YAxisIndex = plotAxis, plotAxis
		}
		all = append(all, plot...)
	}
	if lanes > 0 {
		all = append(all, f.frameSeries(false))
	}

	option := chart.JSON()
	option["series"] = all
	option["useUTC"] = true
	option["figure"] = f.companion()
	delete(option, "color")
	delete(option, "toolbox")
	bytes, err := json.Marshal(option)
	if err != nil {
		return nil, fmt.Errorf("figure %s: %w", f.ID, err)
	}
	return bytes, nil
}

// cleaned returns the figure with every text fit to be shown.
func (f Figure) cleaned() Figure {
	f.Title, f.Description = clean(f.Title), clean(f.Description)
	f.X.Label, f.X.Unit, f.Y.Label, f.Y.Unit = clean(f.X.Label), clean(f.X.Unit), clean(f.Y.Label), clean(f.Y.Unit)
	return f
}

// setGlobal sets legend, axes, tooltip and zoom.
func (f Figure) setGlobal(chart *charts.Line, plotAxis int) {
	x, y, _ := f.ranges()
	trigger := "fn:fan"
	if plotAxis == 1 {
		trigger = "fn:lanes"
		chart.ExtendXAxis(opts.XAxis{})
		chart.ExtendYAxis(opts.YAxis{})
		chart.SetGlobalOptions(charts.WithXAxisOpts(f.chartX(x, 0)), charts.WithYAxisOpts(f.chartLanes()))
	}
	if !f.hasPlot() {
		chart.XAxisList, chart.YAxisList = chart.XAxisList[:1], chart.YAxisList[:1]
	}
	if f.hasPlot() {
		chart.SetGlobalOptions(charts.WithXAxisOpts(f.chartX(x, plotAxis), plotAxis), charts.WithYAxisOpts(f.chartY(y, plotAxis), plotAxis))
	}
	chart.SetGlobalOptions(
		charts.WithTitleOpts(opts.Title{Show: opts.Bool(false)}),
		charts.WithLegendOpts(opts.Legend{Show: opts.Bool(true), Type: "scroll", Top: "0", Left: "0", Data: f.legendNames()}),
		charts.WithTooltipOpts(opts.Tooltip{Show: opts.Bool(true), Trigger: "axis", Formatter: types.FuncStr(trigger)}),
		charts.WithGridOpts(f.chartGrids()...),
		charts.WithDataZoomOpts(
			opts.DataZoom{Type: "inside", XAxisIndex: f.axisIndices(), FilterMode: "none"},
			opts.DataZoom{Type: "slider", XAxisIndex: f.axisIndices(), FilterMode: "none"},
		),
		charts.WithAriaOpts(&opts.Aria{Enabled: opts.Bool(true), Label: &opts.AriaLabel{Description: f.Title + ". " + f.Description}}),
	)
}

func (f Figure) axisIndices() []int {
	if len(f.Lanes) > 0 && f.hasPlot() {
		return []int{0, 1}
	}
	return []int{0}
}

// legendNames lists the series that the legend offers; the parts of a band have one name.
func (f Figure) legendNames() []string {
	names := []string{}
	for _, s := range f.swatches() {
		names = append(names, s.name)
	}
	return names
}

// chartGrids places the lanes above the plot.
func (f Figure) chartGrids() []opts.Grid {
	top := chartHead
	var grids []opts.Grid
	if n := len(f.Lanes); n > 0 {
		grids = append(grids, opts.Grid{Left: "110", Right: "24", Top: fmt.Sprint(top), Height: fmt.Sprint(n * chartLane)})
		top += n*chartLane + chartGap
	}
	left := "52"
	if len(f.Lanes) > 0 {
		left = "110"
	}
	if f.hasPlot() {
		grids = append(grids, opts.Grid{Left: left, Right: "24", Top: fmt.Sprint(top), Height: fmt.Sprint(int(f.plotHeight()))})
	}
	return grids
}

func (f Figure) companion() companion {
	c := companion{Height: chartHead + chartFoot, XKind: "number", Unit: f.Y.Unit, Mirrored: f.X.Mirrored}
	if f.X.Kind == Calendar {
		c.XKind = "calendar"
	}
	if f.hasPlot() {
		c.Height += int(f.plotHeight())
	}
	if n := len(f.Lanes); n > 0 {
		c.Height += n*chartLane + chartGap
	}
	for _, lane := range f.Lanes {
		row := companionLane{Label: clean(lane.Label), Link: lane.Link, Spans: []companionSpan{}}
		for _, s := range lane.Spans {
			if finite(s.From) && finite(s.To) {
				row.Spans = append(row.Spans, companionSpan{f.X.json(s.From), f.X.json(s.To), clean(s.Label), s.Link})
			}
		}
		for _, m := range lane.Marks {
			if finite(m.X) {
				row.Spans = append(row.Spans, companionSpan{f.X.json(m.X), f.X.json(m.X), clean(m.Label), m.Link})
			}
		}
		c.Lanes = append(c.Lanes, row)
	}
	return c
}

// json returns a value as the chart reads it: a date without a zone, a number, or null.
func (a Axis) json(v float64) any {
	if !finite(v) {
		return nil
	}
	if a.Kind != Calendar {
		return v
	}
	date := dateOf(v)
	if part := v - math.Floor(v); part > 0 {
		return date.Add(time.Duration(part * 24 * float64(time.Hour))).Format("2006-01-02 15:04:05")
	}
	return date.Format(time.DateOnly)
}

func toneColor(t Tone) string { return "tone:" + string(t.or()) }
