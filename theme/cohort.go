package theme

import (
	"slices"
	"strconv"
	"strings"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
	"pleopod/theme/figure"
)

// cohortPart fills the part of a brood's page that follows its young.
func (p *pen) cohortPart(c *forecast.Cohort) CohortPart {
	part := CohortPart{Age: age(int(p.asOf - c.Hatched)), Done: wording.Percent(min(c.Phi, 1)), KeyDays: p.cohortDays(c)}
	if c.Shrimplets.Known {
		part.Facts = append(part.Facts, fact("Young seen", strconv.Itoa(c.Shrimplets.Value)))
	}
	part.Facts = append(part.Facts,
		fact("Expected length now", "females ", p.units.length(c.Female), ", males ", p.units.length(c.Male)),
		fact("Generation", strconv.Itoa(c.Generation)))
	for _, s := range c.Members {
		part.Members = append(part.Members, p.shrimpLink(s.Name))
	}
	if f, ok := p.cohortGrowth(c); ok {
		part.Growth, part.HasPlot = p.drawFigure(f), true
	}
	return part
}

func (p *pen) cohortDays(c *forecast.Cohort) []KeyDay {
	days := []KeyDay{
		{Icon: p.icon("hatched"), Label: "Hatched", Day: moment(c.Hatched), Sure: true},
		{Icon: p.icon("sighted"), Label: "In sight", Day: moment(c.Hatched + 4), Words: "the young leave their hiding places about now (common practice)", Sure: c.Hatched+4 <= p.asOf},
	}
	for _, stage := range []struct {
		icon, label, words string
		window             forecast.Window
	}{
		{"sexable", "Sexable", "females and males can be told apart by eye", c.Sexable},
		{"mature", "Mature", "half of them are grown", c.Mature},
		{"berried", "First eggs", "a first daughter carries her own", c.FirstEggs},
	} {
		if !dated(stage.window) {
			continue
		}
		days = append(days, KeyDay{
			Icon: p.icon(stage.icon), Label: stage.label, Day: moment(stage.window.P50),
			Words: stage.words + "; 80\u00a0% likely " + span(stage.window.P10, stage.window.P90),
		})
	}
	if c.FirstSaddled != 0 {
		days = append(days, KeyDay{Icon: p.icon("saddled"), Label: labels["saddled"],
			Day: moment(c.FirstSaddled), Words: "a named female of this hatch seen with eggs in the ovaries",
			Sure: true})
	}
	if c.FirstBerried != 0 {
		days = append(days, KeyDay{Icon: p.icon("berried"), Label: labels["berried"],
			Day: moment(c.FirstBerried), Words: "a named female of this hatch seen carrying eggs", Sure: true})
	}
	sortByISO(days)
	return days
}

// cohortGrowth draws the lengths measured in a cohort over the growth curves of its tank; false where none was
// measured.
func (p *pen) cohortGrowth(c *forecast.Cohort) (figure.Figure, bool) {
	t := p.tanks[c.Tank]
	if t == nil {
		return figure.Figure{}, false
	}
	measured := 0
	own := func(point forecast.GrowthPoint) bool {
		return point.Length.Cohort != nil && point.Length.Cohort.ID == c.ID
	}
	for _, g := range t.Growth {
		for _, point := range g.Points {
			if own(point) {
				measured++
			}
		}
	}
	f := p.growth("cohort-growth", "Growth of these young", t, own)
	f.Rules = append(f.Rules, figure.Rule{Value: c.Phi * 100, Label: "now", Tone: figure.Stone})
	return f, measured > 0
}

// eventHref is the page of the entry that an event stands in, and "" for none.
func (p *pen) eventHref(e *journal.Event) string {
	if e == nil {
		return ""
	}
	return p.href(p.paths.entry[e.Entry])
}

// sortByISO puts key days in order; those without a day come last.
func sortByISO(days []KeyDay) {
	slices.SortStableFunc(days, func(a, b KeyDay) int {
		if (a.Day.ISO == "") != (b.Day.ISO == "") {
			return strings.Compare(b.Day.ISO, a.Day.ISO)
		}
		return strings.Compare(a.Day.ISO, b.Day.ISO)
	})
}
