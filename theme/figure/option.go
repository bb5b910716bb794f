package figure

import (
	"encoding/json"
	"fmt"
	"math"
	"net/url"
	"strings"
	"time"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
	"github.com/go-echarts/go-echarts/v2/types"
)

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

// companionSpan holds dates in the form of the chart, or numbers.
type companionSpan struct {
	From  any    `json:"from"`
	To    any    `json:"to"`
	Label string `json:"label"`
	Link  string `json:"link,omitempty"`
}

// Option returns the figure as a JSON object for the interactive chart: the chart's own option, and beside it, under
// "figure", what the page's script needs. The package comment lists the marker strings that the script replaces. The
// object holds no code, every < is escaped, and values that are not finite are null. The error is that of SVG.
func (f Figure) Option() ([]byte, error) {
	if err := f.check(); err != nil {
		return nil, err
	}
	f = f.cleaned()
	chart := charts.NewLine()
	f.setAxes(chart)
	f.setRest(chart)
	chart.Validate()

	option := chart.JSON()
	option["series"] = f.allSeries()
	option["dataZoom"] = f.zooms()
	option["textStyle"] = opts.TextStyle{Color: "tone:ink"}
	option["figure"] = f.companion()
	delete(option, "color")
	delete(option, "toolbox")
	bytes, err := json.Marshal(option)
	if err != nil {
		return nil, fmt.Errorf("figure %s: %w", f.ID, err)
	}
	return bytes, nil
}

// said returns a text fit for the option. One that looks like a marker gets a space in front, so that no words of a
// keeper are taken for a function or a colour.
func said(text string) string {
	text = clean(text)
	if strings.HasPrefix(text, "fn:") || strings.HasPrefix(text, "tone:") {
		return " " + text
	}
	return text
}

// safeLink returns a link that a script may follow: one within the site or to the web, and "" for any other.
func safeLink(link string) string {
	address, err := url.Parse(link)
	if err != nil || address.Scheme != "" && address.Scheme != "https" && address.Scheme != "http" {
		return ""
	}
	return link
}

// cleaned returns the figure with the texts of its head and axes fit to be shown.
func (f Figure) cleaned() Figure {
	f.Title, f.Description = said(f.Title), clean(f.Description)
	for _, text := range []*string{&f.X.Label, &f.X.Unit, &f.Y.Label, &f.Y.Unit} {
		*text = said(*text)
	}
	return f
}

// setRest sets legend, tooltip and description.
func (f Figure) setRest(chart *charts.Line) {
	trigger := "fn:fan"
	if len(f.Lanes) > 0 {
		trigger = "fn:lanes"
	}
	names := []string{}
	for _, s := range f.swatches() {
		names = append(names, seriesName(s.name))
	}
	chart.SetGlobalOptions(
		charts.WithTitleOpts(opts.Title{Show: opts.Bool(false)}),
		charts.WithLegendOpts(opts.Legend{
			Show: opts.Bool(true), Type: "scroll", Top: "0", Left: "0", Data: names, ItemWidth: 18, ItemHeight: 10,
			TextStyle: &opts.TextStyle{Color: "tone:ink"},
		}),
		charts.WithTooltipOpts(opts.Tooltip{
			Show: opts.Bool(true), Trigger: "axis", Formatter: types.FuncStr(trigger),
			BackgroundColor: "tone:paper", BorderColor: "tone:hair",
		}),
		charts.WithAriaOpts(&opts.Aria{Enabled: opts.Bool(true),
			Label: &opts.AriaLabel{Description: f.Title + ". " + f.Description}}),
	)
}

// zoom is a way to look closer; opts.DataZoom has no colours.
type zoom struct {
	Type       string `json:"type"`
	XAxisIndex []int  `json:"xAxisIndex"`
	FilterMode string `json:"filterMode"`
	Shadow     bool   `json:"showDataShadow"`
	Border     string `json:"borderColor,omitempty"`
	Filler     string `json:"fillerColor,omitempty"`
	Height     int    `json:"height,omitempty"`
	Brush      bool   `json:"brushSelect"`
}

// zooms are the wheel or two fingers, and a slider below.
func (f Figure) zooms() []zoom {
	axes := []int{0}
	if len(f.Lanes) > 0 && f.hasPlot() {
		axes = []int{0, 1}
	}
	return []zoom{
		{Type: "inside", XAxisIndex: axes, FilterMode: "none"},
		{Type: "slider", XAxisIndex: axes, FilterMode: "none", Border: "tone:hair", Filler: "tone:shade", Height: 20},
	}
}

func (f Figure) companion() companion {
	c := companion{Height: f.chartHeight(), XKind: "number", Unit: f.Y.Unit, Mirrored: f.X.Mirrored}
	if f.X.Kind == Calendar {
		c.XKind = "calendar"
	}
	for _, lane := range f.Lanes {
		row := companionLane{Label: said(lane.Label), Link: safeLink(lane.Link), Spans: []companionSpan{}}
		for _, s := range lane.Spans {
			if finite(s.From) && finite(s.To) {
				row.Spans = append(row.Spans,
					companionSpan{f.X.json(s.From), f.X.json(s.To), said(s.Label), safeLink(s.Link)})
			}
		}
		for _, m := range lane.Marks {
			if finite(m.X) {
				row.Spans = append(row.Spans,
					companionSpan{f.X.json(m.X), f.X.json(m.X), said(m.Label), safeLink(m.Link)})
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
		return rounded(v)
	}
	date := dateOf(v)
	if part := v - math.Floor(v); part > 0 {
		return date.Add(time.Duration(part * 24 * float64(time.Hour))).Format(time.DateTime)
	}
	return date.Format(time.DateOnly)
}

func toneColor(t Tone) string { return "tone:" + string(t.or()) }
