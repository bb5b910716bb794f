package figure

import (
	"math"
	"strconv"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
	"github.com/go-echarts/go-echarts/v2/types"
)

// Sizes of the interactive chart, in CSS pixels.
const (
	chartHead  = 66 // legend and the labels of upright rules
	chartFoot  = 86 // X axis and the slider
	chartLane  = 26
	chartGap   = 40 // between lanes and plot
	laneMargin = "110"
)

// chartHeight returns the height that the chart wants.
func (f Figure) chartHeight() int {
	height := chartHead + chartFoot
	if f.hasPlot() {
		height += int(f.plotHeight())
	}
	if n := len(f.Lanes); n > 0 {
		height += n * chartLane
		if f.hasPlot() {
			height += chartGap
		}
	}
	return height
}

// setAxes places the lanes, if any, above the plot, if any, each with its own axes.
func (f Figure) setAxes(chart *charts.Line) {
	x, y, _ := f.ranges()
	top, left := chartHead, "52"
	var grids []opts.Grid
	chart.XAxisList, chart.YAxisList = nil, nil
	if n := len(f.Lanes); n > 0 {
		left = laneMargin
		grids = append(grids, opts.Grid{Left: left, Right: "24", Top: strconv.Itoa(top),
			Height: strconv.Itoa(n * chartLane)})
		chart.ExtendXAxis(f.chartX(x, 0))
		chart.ExtendYAxis(f.chartLanes())
		top += n*chartLane + chartGap
	}
	if f.hasPlot() || len(grids) == 0 {
		grids = append(grids, opts.Grid{Left: left, Right: "24", Top: strconv.Itoa(top),
			Height: strconv.Itoa(int(f.plotHeight()))})
		chart.ExtendXAxis(f.chartX(x, len(grids)-1))
		chart.ExtendYAxis(f.chartY(y, len(grids)-1))
	}
	chart.SetGlobalOptions(charts.WithGridOpts(grids...))
}

// chartX returns the X axis for the grid of this index. Only the lowest grid has labels.
func (f Figure) chartX(x extent, index int) opts.XAxis {
	axis := opts.XAxis{
		Type: "value", Name: f.X.title(), NameLocation: "middle", NameGap: 26, GridIndex: index,
		AxisLabel: quietLabel(), AxisLine: inkLine(), SplitLine: hairLines(),
	}
	if f.X.Kind == Calendar {
		axis.Type, axis.Name = "time", ""
	}
	if x.low < x.high {
		axis.Min, axis.Max = f.X.json(x.low), f.X.json(x.high)
	}
	axis.AxisLabel.HideOverlap = opts.Bool(true)
	if f.X.Kind == Calendar || !aligned(x) {
		axis.AxisLabel.ShowMinLabel, axis.AxisLabel.ShowMaxLabel = opts.Bool(false), opts.Bool(false)
	}
	if f.X.Mirrored {
		axis.AxisLabel.Formatter = types.FuncStr("fn:unsigned")
	}
	if index == 0 && len(f.Lanes) > 0 && f.hasPlot() {
		axis.AxisLabel.Show, axis.Name = opts.Bool(false), ""
	}
	return axis
}

// aligned reports whether both ends of a range are multiples of a step of five or so.
func aligned(e extent) bool {
	if !(e.low < e.high) {
		return false
	}
	size := step(e.high-e.low, 6)
	return math.Mod(e.low, size) == 0 && math.Mod(e.high, size) == 0
}

func (f Figure) chartY(y extent, index int) opts.YAxis {
	axis := opts.YAxis{
		Type: "value", Name: f.Y.title(), GridIndex: index,
		AxisLabel: quietLabel(), AxisLine: inkLine(), SplitLine: hairLines(),
	}
	if y.low < y.high {
		most := max(2, int(f.plotHeight()/sheets[0].perTick))
		y = f.Y.widened(y, most)
		axis.Min, axis.Max = rounded(y.low), rounded(y.high)
		axis.SplitNumber = int(math.Round((y.high - y.low) / f.Y.step(y, most)))
	}
	return axis
}

// chartLanes returns the axis that names the lanes, the first one on top.
func (f Figure) chartLanes() opts.YAxis {
	var names []string
	for _, lane := range f.Lanes {
		names = append(names, said(shorten(clean(lane.Label), 8)))
	}
	label := quietLabel()
	label.Color = "tone:ink"
	return opts.YAxis{Type: "category", Data: names, Inverse: opts.Bool(true), AxisLabel: label, AxisLine: inkLine()}
}

func quietLabel() *opts.AxisLabel { return &opts.AxisLabel{Color: "tone:quiet"} }

func inkLine() *opts.AxisLine {
	return &opts.AxisLine{LineStyle: &opts.LineStyle{Color: "tone:ink"}}
}

func hairLines() *opts.SplitLine {
	return &opts.SplitLine{Show: opts.Bool(true), LineStyle: &opts.LineStyle{Color: "tone:hair", Type: "dotted"}}
}
