package theme

import (
	"fmt"
	"slices"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
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
	Grown     []HindcastLine // first grown daughters
	GrownSum  string
	Scores    []Fact // of the cohorts, where there are enough to judge
	Narrowing Drawing
	Narrowed  Link // whose window is drawn
	HasNarrow bool
}

// enough is how many predictions must stand behind a share before it says something.
const enough = 10

// HindcastLine is one prediction against what came.
type HindcastLine struct {
	Brood    Link
	Window   string
	Observed Moment
	Words    string
	Inside   bool
}

func (p *pen) recordPage() page {
	r := p.Record
	out := &RecordPage{Words: "No brood has hatched yet whose prediction could be checked."}
	if r.Broods > 0 {
		out.Words = fmt.Sprintf("%s predicted again, each with only what was known on the day it was first noted, and compared with what came.", wording.Sentence(several(r.Broods, "finished brood was", "finished broods were")))
		out.Facts = recordFacts(r)
	}
	for _, h := range r.Hindcasts {
		if !h.Halfway && dated(h.Window) {
			line := p.predictedLine(h.Brood.ID, h.Window, h.Observed)
			line.Brood = p.broodFirst(h.Brood.ID)
			out.Hindcasts = append(out.Hindcasts, line)
		}
	}
	if len(out.Hindcasts) > 0 {
		out.Plot, out.HasPlot = p.drawFigure(p.against(r.Hindcasts)), true
	}
	p.fillGrown(out)
	if b := p.longestTold(); b != nil {
		out.Narrowing, out.Narrowed, out.HasNarrow = p.drawFigure(p.narrowing(b)), p.broodFirst(b.ID), true
	}
	out.Frame = p.newFrame("Track record", out.Words)
	return out
}

// recordFacts sums up the predictions of hatches.
func recordFacts(r forecast.TrackRecord) []Fact {
	facts := []Fact{
		fact("Inside the 50\u00a0% window", wording.Percent(r.Coverage50), ", 50\u00a0% would be right"),
		fact("Inside the 80\u00a0% window", wording.Percent(r.Coverage80), ", 80\u00a0% would be right"),
		fact("Inside the 90\u00a0% window", wording.Percent(r.Coverage90), ", 90\u00a0% would be right"),
		fact("Off by, on average", wording.Number(r.MAEDays, 1), " days"),
		fact("A plain rule of 21 days", "would be off by ", wording.Number(r.FixedRuleMAEDays, 1), " days"),
		fact("Score of the windows", wording.Number(r.CRPSDays, 1),
			" days: misses and needless width together; less is better"),
	}
	if half := r.Halfway; half.Count > 0 {
		facts = append(facts, fact("A second look half-way", "off by ", wording.Number(half.MAEDays, 1),
			" days, ", wording.Percent(half.Coverage80), " inside the 80\u00a0% window, ", "score ", wording.Number(half.CRPSDays, 1), " days"))
	}
	if r.Broods < enough {
		facts = append(facts, fact("How much to make of it",
			fmt.Sprintf("little: %s cannot tell a good model from a lucky one", several(r.Broods, "brood", "broods"))))
	}
	return facts
}

// fillGrown says how the predictions of growing up did.
func (p *pen) fillGrown(out *RecordPage) {
	m, half := p.Record.Maturity, p.Record.MaturityHalfway
	switch {
	case m.Count == 0:
		out.GrownSum = "Not judged yet: no daughter with a name has been seen with a saddle or eggs. Measuring one by name, with her brood, and noting the day her saddle shows would begin the count."
	case m.Count < enough:
		out.GrownSum = fmt.Sprintf("Of %s a daughter with a name was seen grown, with a saddle or with eggs. That is too few for shares: here is each one, as it was predicted on the day of the hatch. On average they were off by %s days.",
			several(m.Count, "hatch", "hatches"), wording.Number(m.MAEDays, 0))
	default:
		out.GrownSum = fmt.Sprintf("Of %s a daughter with a name was seen grown, with a saddle or with eggs; each was predicted again with only what was known on the day of the hatch.", several(m.Count, "hatch", "hatches"))
		out.Scores = []Fact{
			fact("Inside the 50\u00a0% window", wording.Percent(m.Coverage50)),
			fact("Inside the 80\u00a0% window", wording.Percent(m.Coverage80)),
			fact("Inside the 90\u00a0% window", wording.Percent(m.Coverage90)),
			fact("Off by, on average", wording.Number(m.MAEDays, 0), " days; half-way ",
				wording.Number(half.MAEDays, 0), " days"),
			fact("Score of the windows", wording.Number(m.CRPSDays, 1),
				" days: misses and needless width together; less is better"),
		}
	}
	for _, h := range p.Record.Young {
		if h.Halfway {
			continue
		}
		line := p.predictedLine(h.Cohort.ID, h.Window, h.Observed)
		line.Words = map[bool]string{true: "with eggs", false: "with a saddle"}[h.Eggs] + " " + line.Words
		out.Grown = append(out.Grown, line)
	}
}

// longestTold returns the hatched brood whose window has changed on the most days, the newest of equals; nil for none.
func (p *pen) longestTold() *forecast.Brood {
	var found *forecast.Brood
	for i := range p.Broods {
		b := &p.Broods[i]
		if b.State == forecast.Hatched && len(b.History) > 2 && (found == nil || len(b.History) >= len(found.History)) {
			found = b
		}
	}
	return found
}

// predictedLine compares one window with the day that came.
func (p *pen) predictedLine(brood string, w forecast.Window, observed journal.Day) HindcastLine {
	off := int(observed - w.P50)
	words := wording.Count(off, "day", "days") + " later than the middle"
	switch {
	case off == 0:
		words = "on the middle day"
	case off < 0:
		words = wording.Count(-off, "day", "days") + " earlier than the middle"
	}
	return HindcastLine{
		Brood: p.broodLink(brood), Window: span(w.P10, w.P90), Observed: moment(observed),
		Words: words, Inside: observed >= w.P10 && observed <= w.P90,
	}
}

// againstRows is how many of the newest broods the figure holds.
const againstRows = 40

// against draws a row for each finished brood: the window of days after berried, its middle, and the day that came.
func (p *pen) against(all []forecast.Hindcast) figure.Figure {
	f := figure.Figure{
		ID: "against", Title: "Predicted and observed",
		Description: "For each finished brood, the days from berried to hatch: the 80\u00a0% window as it was predicted on the berried day, its middle, and what came.",
		X:           figure.Axis{Label: "From berried to hatched", Unit: "d"}, Wordless: true,
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
			Label: p.broodLabel(p.broods[h.Brood.ID]), Link: link,
			Spans: []figure.Span{{From: days(h.Window.P10), To: days(h.Window.P90), Tone: figure.Eggs,
				Soft: true, Label: "80\u00a0% window, as predicted on " + wording.Date(h.Made), Link: link}},
			Marks: []figure.LaneMark{
				{X: days(h.Window.P50), Tone: figure.Eggs, Shape: figure.Ring, Label: "middle of the window", Link: link},
				{X: days(h.Observed), Tone: figure.Shrimp, Shape: figure.Dot, Label: "hatched", Link: link},
			},
		})
	}
	return f
}
