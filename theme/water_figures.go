package theme

import (
	"strings"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/water"
	"pleopod/journal/wording"
	"pleopod/theme/figure"
)

// The figures of the water: how far they reach back at most, how far past the as-of day, the height of a strip, and the
// room to its left that puts all of them on the same days.
const (
	waterBack  journal.Day = 730
	waterPast  journal.Day = 7
	waterHigh              = 100
	waterInset             = 100
)

// drawWater draws what happened and one strip for each kind of reading, all on the same days.
func (p *pen) drawWater(out *WaterPage, t *forecast.Tank) {
	from, to := p.waterStretch(t)
	if f := p.happened(t, from, to); len(f.Lanes) > 0 {
		out.Happened, out.HasDone = p.drawFigure(f), true
	}
	out.Changed = len(p.changeRules(t, from, to)) > 0
	for _, kind := range journal.ReadingKinds() {
		f, ok := p.strip(t, kind, from, to)
		if ok {
			out.Strips = append(out.Strips, p.drawFigure(f))
		}
		if ok && kind == journal.Ammonia {
			out.Strips = append(out.Strips, p.drawFigure(p.unionised(t, from, to)))
		}
	}
}

// waterStretch returns the days that the figures show: from the first test or change on, two years at most.
func (p *pen) waterStretch(t *forecast.Tank) (from, to journal.Day) {
	from = p.asOf - 60
	for _, w := range t.Water {
		from = min(from, w.Day-7)
	}
	return max(from, p.asOf-waterBack), p.asOf + waterPast
}

// calendar is the X axis that all figures of the water share.
func calendar(from, to journal.Day) figure.Axis {
	return figure.Axis{Kind: figure.Calendar, Min: float64(from), Max: float64(to)}
}

// happened draws what was done to the water and what was found in the tank.
func (p *pen) happened(t *forecast.Tank, from, to journal.Day) figure.Figure {
	f := figure.Figure{
		ID: "happened", Title: "What happened", X: calendar(from, to), Inset: waterInset,
		Description: "Water changes, doses, deaths and moults, on the same days as the strips below.",
	}
	rows := done(t.Tank)
	for _, row := range []struct {
		kind, label string
		tone        figure.Tone
		shape       figure.Shape
	}{
		{"water-change", "changes", figure.Water, figure.Bar}, {"dosed", "doses", figure.Eggs, figure.Diamond},
		{"died", "deaths", figure.Shrimp, figure.Cross}, {"moulted", "moults", figure.Moss, figure.Ring},
	} {
		lane := figure.Lane{Label: row.label}
		for _, e := range rows[row.kind] {
			if e.Day < from || e.Day > to {
				continue
			}
			mark := figure.LaneMark{X: float64(e.Day), Tone: row.tone, Shape: row.shape,
				Label: labels[row.kind] + ": " + plain(p.words(e)), Link: p.eventHref(e)}
			if moult, ok := e.What.(*journal.Moulted); ok && moult.Failed {
				mark.Tone, mark.Shape = figure.Shrimp, figure.Diamond
			}
			lane.Marks = append(lane.Marks, mark)
		}
		if len(lane.Marks) > 0 {
			f.Lanes = append(f.Lanes, lane)
		}
	}
	return f
}

// testMarks describes a strip.
const testMarks = "Each mark is a test of the water."

// strip draws one kind of reading over time with the keeper's range; false where no two values show a course.
func (p *pen) strip(t *forecast.Tank, kind journal.ReadingKind, from, to journal.Day) (figure.Figure, bool) {
	f := figure.Figure{
		ID: "water-" + string(kind), Title: wording.Sentence(wording.ReadingName(kind)), X: calendar(from, to),
		Inset: waterInset, Height: waterHigh,
		Description: testMarks,
		Y:           figure.Axis{Unit: p.units.ReadingUnit(kind)},
	}
	f.Y.FromZero = p.units.ReadingUnit(kind) == "mg/L"
	cloud := figure.Points{Name: "test", Tone: figure.Water, Shape: figure.Dot}
	below := figure.Points{Name: "below what the test can see", Tone: figure.Water, Shape: figure.Wedge}
	line := figure.Line{Tone: figure.Water, Name: "between tests", Joins: true}
	for _, w := range t.Water {
		r, ok := journal.ReadingOf(w.Readings, kind)
		if !ok || w.Day < from || w.Day > to {
			continue
		}
		x, y := float64(w.Day), p.units.Reading(kind, r.Value)
		mark := figure.Mark{X: x, Y: y, Label: p.units.amount(r), Link: p.eventHref(w.Event)}
		if r.Below {
			below.Marks = append(below.Marks, mark)
			continue
		}
		cloud.Marks = append(cloud.Marks, mark)
		line.Points = append(line.Points, figure.XY{X: x, Y: y})
	}
	f.Points = filled(cloud, below)
	if kind == journal.TDS {
		f.Points = append(f.Points, p.converted(t, from, to)...)
	}
	p.wanted(&f, t, kind, from, to)
	switch {
	case kind == journal.Temperature:
		f.Points = nil
		f.Description = "The daily mean with its uncertainty, from readings and the logger file, and the single readings." + strings.TrimPrefix(f.Description, testMarks)
		p.addCourse(&f, t, from, to)
		p.addReadings(&f, t, from, to)
	case len(line.Points) > 1:
		f.Lines = []figure.Line{line}
	}
	if f.Rules = p.changeRules(t, from, to); len(f.Rules) > 0 {
		f.Description += " Dotted lines are water changes."
	}
	marks := 0
	for _, cloud := range f.Points {
		marks += len(cloud.Marks)
	}
	return f, marks > 1 || len(f.Lines) > 0
}

// changeRules marks the water changes, so that what they did to a reading shows.
func (p *pen) changeRules(t *forecast.Tank, from, to journal.Day) []figure.Rule {
	var rules []figure.Rule
	for _, e := range done(t.Tank)["water-change"] {
		if e.Day >= from && e.Day <= to {
			rules = append(rules, figure.Rule{Value: float64(e.Day), Tone: figure.Stone})
		}
	}
	return rules
}

// filled leaves out clouds without a mark.
func filled(clouds ...figure.Points) []figure.Points {
	var out []figure.Points
	for _, c := range clouds {
		if len(c.Marks) > 0 {
			out = append(out, c)
		}
	}
	return out
}

// converted is the dissolved solids that were taken from a conductivity, with the factor in their name.
func (p *pen) converted(t *forecast.Tank, from, to journal.Day) []figure.Points {
	cloud := figure.Points{Name: "from the conductivity, factor " + wording.Number(p.set.TDSFactor, 2),
		Tone: figure.Water, Shape: figure.Ring}
	for _, w := range t.Water {
		if w.ConvertedTDS && w.Day >= from && w.Day <= to {
			cloud.Marks = append(cloud.Marks,
				figure.Mark{X: float64(w.Day), Y: w.TDS.Value,
					Label: wording.Number(w.TDS.Value, 0) + wording.Joined + "ppm, from the conductivity",
					Link:  p.eventHref(w.Event)})
		}
	}
	return filled(cloud)
}

// wanted adds the keeper's range: a band between its ends.
func (p *pen) wanted(f *figure.Figure, t *forecast.Tank, kind journal.ReadingKind, from, to journal.Day) {
	for _, r := range t.Tank.Range {
		if r.Kind != kind {
			continue
		}
		low, high := p.units.Reading(kind, r.Low), p.units.Reading(kind, r.High)
		f.Description += " The band is the range that the keeper wants: " + p.units.span(r) + "."
		f.Bands = append(f.Bands, figure.Band{Name: "wanted", Tone: figure.Moss, Faint: true,
			Edges: []figure.Edge{{X: float64(from), Low: low, High: high}, {X: float64(to), Low: low, High: high}}})
	}
}

// unionised draws the toxic part of the ammonia, with the value from which fish are harmed.
func (p *pen) unionised(t *forecast.Tank, from, to journal.Day) figure.Figure {
	f := figure.Figure{
		ID: "water-unionised", Title: "Un-ionised ammonia, the toxic part", X: calendar(from, to),
		Inset: waterInset, Height: waterHigh,
		Description: "Calculated from the total, the pH and the temperature of the day (Emerson et al. 1975). Rings: no pH that day, drawn from the days around it. The line is where harm to fish begins; for dwarf shrimp no value is known.",
		Y:           figure.Axis{Unit: "mg/L", FromZero: true}, Empty: "No test has a pH near enough to calculate it",
		Rules: []figure.Rule{{Value: water.UnionisedCaution, Level: true, Label: "harm to fish begins",
			Tone: figure.Shrimp}},
	}
	own := figure.Points{Name: "with the day's own pH", Tone: figure.Shrimp, Shape: figure.Dot}
	drawn := figure.Points{Name: "pH drawn from the days around", Tone: figure.Shrimp, Shape: figure.Ring}
	most := figure.Points{Name: "at most", Tone: figure.Shrimp, Shape: figure.Wedge}
	for _, w := range t.Water {
		if w.Day < from || w.Day > to {
			continue
		}
		mark := figure.Mark{X: float64(w.Day), Y: w.UnionisedAmmonia.Value, Link: p.eventHref(w.Event)}
		switch {
		case w.UnionisedAtMost.Known:
			mark.Y = w.UnionisedAtMost.Value
			mark.Label = "at most " + wording.Number(mark.Y, 4) + wording.Joined + "mg/L"
			most.Marks = append(most.Marks, mark)
		case w.UnionisedAmmonia.Known && w.InterpolatedPH && w.UnionisedAmmonia.Value != 0:
			mark.Label = wording.Number(mark.Y, 4) + wording.Joined + "mg/L, pH drawn from the days around"
			drawn.Marks = append(drawn.Marks, mark)
		case w.UnionisedAmmonia.Known:
			mark.Label = wording.Number(mark.Y, 4) + wording.Joined + "mg/L"
			own.Marks = append(own.Marks, mark)
		}
	}
	f.Points = filled(own, drawn, most)
	return f
}
