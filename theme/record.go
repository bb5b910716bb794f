package theme

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/lifecycle"
	"pleopod/theme/figure"
)

// RecordPage says how earlier predictions did.
type RecordPage struct {
	Frame
	Words     string
	Facts     []Fact
	Plot      Drawing
	HasPlot   bool
	Hindcasts []HindcastLine
}

// HindcastLine is one prediction against what came.
type HindcastLine struct {
	Brood    Link
	Made     Moment
	Window   string
	Observed Moment
	Words    string
	Inside   bool
}

func (p *pen) recordPage() page {
	r := p.Record
	out := &RecordPage{Words: "No brood has hatched yet whose prediction could be checked."}
	if r.Broods > 0 {
		out.Words = fmt.Sprintf("%s predicted again with only what was known on the day it was berried, and compared with what came.", sentence(several(r.Broods, "finished brood was", "finished broods were")))
		out.Facts = []Fact{
			fact("Inside the 50\u00a0% window", percent(r.Coverage50), ", 50\u00a0% would be right"),
			fact("Inside the 80\u00a0% window", percent(r.Coverage80), ", 80\u00a0% would be right"),
			fact("Inside the 90\u00a0% window", percent(r.Coverage90), ", 90\u00a0% would be right"),
			fact("Off by, on average", decimal(r.MAEDays, 1), " days"),
			fact("A plain rule of 21 days", "would be off by ", decimal(r.FixedRuleMAEDays, 1), " days"),
			fact("Sharpness and truth together", decimal(r.CRPSDays, 1), " days of CRPS; less is better"),
		}
		if r.Broods < 10 {
			out.Facts = append(out.Facts, fact("How much to make of it", fmt.Sprintf("little: %s cannot tell a good model from a lucky one.", several(r.Broods, "brood", "broods"))))
		}
	}
	for _, h := range r.Hindcasts {
		if h.Halfway || !dated(h.Window) {
			continue
		}
		out.Hindcasts = append(out.Hindcasts, p.hindcastLine(h))
	}
	if len(out.Hindcasts) > 0 {
		out.Plot, out.HasPlot = p.drawFigure(p.against(r.Hindcasts)), true
	}
	out.Frame = p.newFrame("Track record", out.Words)
	return out
}

func (p *pen) hindcastLine(h forecast.Hindcast) HindcastLine {
	off := int(h.Observed - h.Window.P50)
	words := plural(off, "day", "days") + " later than the middle"
	switch {
	case off == 0:
		words = "on the middle day"
	case off < 0:
		words = plural(-off, "day", "days") + " earlier than the middle"
	}
	return HindcastLine{
		Brood: p.broodLink(h.Brood.ID), Made: moment(h.Made), Window: span(h.Window.P10, h.Window.P90), Observed: moment(h.Observed),
		Words: words, Inside: h.Observed >= h.Window.P10 && h.Observed <= h.Window.P90,
	}
}

// againstRows is how many of the newest broods the figure holds.
const againstRows = 40

// against draws a row for each finished brood: the window of days after berried, its middle, and the day that came.
func (p *pen) against(all []forecast.Hindcast) figure.Figure {
	f := figure.Figure{
		ID: "against", Title: "Predicted and observed",
		Description: "For each finished brood, the days from berried to hatch: the 80\u00a0% window as it was predicted on the berried day, its middle, and what came.",
		X:           figure.Axis{Label: "From berried to hatched", Unit: "d"},
		Keys: []figure.Key{
			{Name: "80\u00a0% window", Tone: figure.Eggs, Soft: true}, {Name: "its middle", Tone: figure.Eggs, Shape: figure.Ring}, {Name: "observed", Tone: figure.Shrimp, Shape: figure.Dot},
		},
		Rules: []figure.Rule{{Value: 21, Label: "21 days", Tone: figure.Stone}},
	}
	for _, h := range slices.Backward(all) {
		if h.Halfway || !dated(h.Window) || len(f.Lanes) == againstRows {
			continue
		}
		days := func(d journal.Day) float64 { return float64(d - h.Brood.Berried) }
		link := p.href(p.paths.brood[h.Brood.ID])
		f.Lanes = append(f.Lanes, figure.Lane{
			Label: h.Brood.ID, Link: link,
			Spans: []figure.Span{{From: days(h.Window.P10), To: days(h.Window.P90), Tone: figure.Eggs, Soft: true, Label: "80\u00a0% window, as predicted on " + longDay(h.Made), Link: link}},
			Marks: []figure.LaneMark{
				{X: days(h.Window.P50), Tone: figure.Eggs, Shape: figure.Ring, Label: "middle of the window", Link: link},
				{X: days(h.Observed), Tone: figure.Shrimp, Shape: figure.Dot, Label: "hatched", Link: link},
			},
		})
	}
	return f
}

// MethodsPage says how every number comes about.
type MethodsPage struct {
	Frame
	Tables   []ParameterTable
	Flags    []Fact
	Learning []Fact
	LeftOut  []string
}

// ParameterTable is the parameters of one part of a species' life.
type ParameterTable struct {
	Name string
	Rows []ParameterRow
}

// ParameterRow is one number of the species profile.
type ParameterRow struct {
	Name, Meaning, Value, Flag, FlagWords, Source string
	Own                                           string // the keeper's reason for another value, or ""
}

// groupNames are the headings of the parameter tables, by the first part of a parameter's name.
var groupNames = map[string]string{
	"incubation": "From berried to hatched", "maturity": "From hatched to mature", "growth": "Growth", "fecundity": "Eggs and young",
	"breeding": "How often she carries", "survival": "Survival", "density": "A full tank", "detection": "What a count sees",
	"temperature": "Water between two readings", "stocking": "Shrimp that were stocked",
}

func (p *pen) methodsPage() page {
	out := &MethodsPage{Tables: p.parameterTables(), Learning: p.learningFacts()}
	for _, flag := range []lifecycle.Flag{lifecycle.Published, lifecycle.Memory, lifecycle.Practice, lifecycle.Assumption} {
		out.Flags = append(out.Flags, fact(string(flag), flag.Meaning()))
	}
	out.LeftOut = append(append(out.LeftOut, p.Forecast.Learning.Incubation.LeftOut...), p.Forecast.Learning.Maturity.LeftOut...)
	out.Frame = p.newFrame("Methods", "How the dates and numbers of this diary come about, with every parameter and its source.")
	return out
}

// parameterTables lists every parameter with the value in use for the journal's species.
func (p *pen) parameterTables() []ParameterTable {
	profile, known := p.Profiles[p.set.Species]
	reasons := map[string]string{}
	for _, o := range p.set.Biology {
		reasons[o.Name] = o.Because
	}
	var tables []ParameterTable
	for _, parameter := range lifecycle.Parameters() {
		group, _, _ := strings.Cut(parameter.Name, ".")
		name := groupNames[group]
		if name == "" {
			name = sentence(group)
		}
		if len(tables) == 0 || tables[len(tables)-1].Name != name {
			tables = append(tables, ParameterTable{Name: name})
		}
		value := parameter.Default
		if known {
			if v, ok := profile.Get(parameter.Name); ok {
				value = v
			}
		}
		row := ParameterRow{
			Name: parameter.Name, Meaning: sentence(parameter.Meaning), Value: quantity(value, parameter.Unit),
			Flag: string(parameter.Flag), FlagWords: parameter.Flag.Meaning(), Source: parameter.Source,
		}
		if reason, own := reasons[parameter.Name]; own {
			row.Own = "Set by the keeper"
			if reason != "" {
				row.Own += ": " + reason
			}
			row.Own += ". The default is " + quantity(parameter.Default, parameter.Unit) + "."
		}
		last := &tables[len(tables)-1]
		last.Rows = append(last.Rows, row)
	}
	return tables
}

// quantity writes a parameter's value in its own unit, as the sources give it.
func quantity(value float64, unit string) string {
	digits := 4
	if math.Abs(value) >= 100 {
		digits = 1
	}
	text := decimal(value, digits)
	switch unit {
	case "":
		return text
	case "C":
		return text + " °C"
	case "C·d":
		return text + " °C·d"
	}
	return text + " " + unit
}

// learningFacts says what the journal's own broods and cohorts changed.
func (p *pen) learningFacts() []Fact {
	var facts []Fact
	for _, one := range []struct {
		name, noun, nouns string
		learned           forecast.Learned
	}{
		{"Eggs", "brood", "broods", p.Forecast.Learning.Incubation},
		{"Growing up", "cohort", "cohorts", p.Forecast.Learning.Maturity},
	} {
		l := one.learned
		before := fmt.Sprintf("before any record: 1, give or take %s; ", percent(l.PriorSD))
		if l.Used == 0 {
			facts = append(facts, fact(one.name, before+"nothing learned yet"))
			continue
		}
		facts = append(facts, fact(one.name, fmt.Sprintf("%snow %s times the default, give or take %s, from %s", before, decimal(l.Mean, 2), percent(l.SD), several(l.Used, one.noun, one.nouns))))
	}
	return facts
}
