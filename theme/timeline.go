package theme

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
	"pleopod/theme/figure"
)

// ahead and behind are how far a tank's timeline reaches from the as-of day, in days.
const (
	behind journal.Day = 270
	ahead  journal.Day = 75
)

// grownDays is how long a row goes on once its shrimp are grown; then they are part of the tank.
const grownDays journal.Day = 60

// stretch returns the days that a timeline of a tank shows when it ends near the as-of day.
func (p *pen) stretch(t *forecast.Tank) (from, to journal.Day) {
	from = p.asOf - behind
	if first := firstDay(t); first != 0 && first > from {
		from = first - 7
	}
	return min(from, p.asOf-60), p.asOf + ahead
}

// firstDay is the first day that a tank's record knows, or zero.
func firstDay(t *forecast.Tank) journal.Day {
	first := t.Tank.Since
	for _, e := range t.Tank.Events {
		if first == 0 || e.Day < first {
			first = e.Day
		}
	}
	return first
}

// timeline draws a tank's broods and cohorts over a calendar, with the temperature of the water beneath.
func (p *pen) timeline(id string, t *forecast.Tank, from, to journal.Day) figure.Figure {
	f := figure.Figure{
		ID: id, Title: "Timeline of " + p.tankName(t.Tank.ID),
		Description: "Each row is a brood: a bar while its eggs are carried, then its young until they are grown. Hatched parts are expected, not seen. Beneath, the temperature of the water.",
		X:           figure.Axis{Kind: figure.Calendar, Min: float64(from), Max: float64(to)},
		Y:           figure.Axis{Label: "Water", Unit: p.units.ReadingUnit(journal.Temperature)}, Height: 130,
		Wordless: true,
		Keys:     append(broodKeys(), stockKeys()...),
	}
	if stock := p.stockLane(t, from, to); len(stock.Marks) > 0 {
		f.Lanes = append(f.Lanes, stock)
	}
	for _, brood := range t.Tank.Broods {
		if b := p.broods[brood.ID]; b != nil {
			if lane, ok := p.broodLane(b, from, to); ok {
				f.Lanes = append(f.Lanes, lane)
			}
		}
	}
	p.addCourse(&f, t, from, to)
	if p.asOf < to {
		f.Strips = []figure.Strip{{From: float64(max(p.asOf, from)), To: float64(to), Label: "ahead"}}
		f.Rules = append(f.Rules, figure.Rule{Value: float64(p.asOf), Label: shortDay(p.asOf), Tone: figure.Stone})
	}
	return f
}

// broodKeys explains the rows of broods.
func broodKeys() []figure.Key {
	return []figure.Key{
		{Name: "eggs carried", Tone: figure.Eggs}, {Name: "hatch expected", Tone: figure.Eggs, Soft: true},
		{Name: "young", Tone: figure.Moss}, {Name: "mature expected", Tone: figure.Shrimp, Soft: true}, {Name: "grown", Tone: figure.Shrimp},
		{Name: "seen carried", Tone: figure.Eggs, Shape: figure.Dot}, {Name: "eyes", Tone: figure.Eggs, Shape: figure.Diamond},
		{Name: "hatched", Tone: figure.Moss, Shape: figure.Wedge}, {Name: "eggs lost", Tone: figure.Stone, Shape: figure.Bar},
	}
}

// stockLook is how each way to come or go is marked. A hatch stands in the row of its brood.
var stockLook = []struct {
	why colony.Why
	key figure.Key
}{
	{colony.CameStocked, figure.Key{Name: "stocked", Tone: figure.Water, Shape: figure.Plus}},
	{colony.CameMoved, figure.Key{Name: "moved in", Tone: figure.Water, Shape: figure.Peak}},
	{colony.LeftMoved, figure.Key{Name: "moved out", Tone: figure.Sand, Shape: figure.Wedge}},
	{colony.LeftRemoved, figure.Key{Name: "left", Tone: figure.Sand, Shape: figure.Square}},
	{colony.LeftDied, figure.Key{Name: "died", Tone: figure.Shrimp, Shape: figure.Cross}},
}

// stockKeys explains the row of what came, left and was counted.
func stockKeys() []figure.Key {
	var keys []figure.Key
	for _, look := range stockLook {
		keys = append(keys, look.key)
	}
	return append(keys, figure.Key{Name: "counted", Tone: figure.Stone, Shape: figure.Ring})
}

// YearsPage is the whole timeline of a tank, one figure for each calendar year.
type YearsPage struct {
	Frame
	Tank  Link
	Years []TimelineYear
}

// TimelineYear is the timeline of one year.
type TimelineYear struct {
	Name     string
	Timeline Drawing
}

// hasYears reports whether a tank's record reaches further back than the timeline on its page.
func (b *book) hasYears(t *forecast.Tank) bool {
	first := firstDay(t)
	return first != 0 && first < b.asOf-behind
}

// yearsPath is the page with the timelines of all years of a tank.
func (b *book) yearsPath(id string) string {
	return strings.TrimSuffix(b.paths.tank[id], ".html") + ".years.html"
}

func (p *pen) yearsPage(t *forecast.Tank) page {
	out := &YearsPage{Tank: p.tankLink(t.Tank.ID)}
	for year := p.asOf.Time().Year(); year >= firstDay(t).Time().Year(); year-- {
		f := p.timeline("timeline-"+strconv.Itoa(year), t, journal.NewDay(year, 1, 1), journal.NewDay(year, 12, 31))
		f.Title += " in " + strconv.Itoa(year)
		out.Years = append(out.Years, TimelineYear{strconv.Itoa(year), p.drawFigure(f)})
	}
	p.tank = t.Tank.ID
	out.Frame = p.newFrame("Years of "+p.tankName(t.Tank.ID),
		"The timeline of every year of this tank: broods, their young, stock and the temperature of the water.")
	return out
}

// broodLane is the row of one brood and its young, as far as it lies between two days.
func (p *pen) broodLane(b *forecast.Brood, from, to journal.Day) (figure.Lane, bool) {
	link := p.href(p.paths.brood[b.ID])
	name := p.broodName(b)
	lane := figure.Lane{Label: p.broodLabel(b), Link: link}
	add := func(a, z journal.Day, tone figure.Tone, soft bool, label string) {
		if a != 0 && z != 0 && z >= from && a <= to && a <= z {
			lane.Spans = append(lane.Spans,
				figure.Span{From: float64(max(a, from)), To: float64(min(z, to)), Tone: tone, Soft: soft,
					Label: label, Link: link})
		}
	}
	mark := func(d journal.Day, tone figure.Tone, shape figure.Shape, label string) {
		if d >= from && d <= to {
			lane.Marks = append(lane.Marks,
				figure.LaneMark{X: float64(d), Tone: tone, Shape: shape, Label: label, Link: link})
		}
	}
	carried := name + " carried since " + wording.Date(b.Berried)
	switch b.State {
	case forecast.Hatched:
		add(b.Berried, b.Hatched, figure.Eggs, false,
			fmt.Sprintf("%s carried %s to %s", name, wording.Date(b.Berried), wording.Date(b.Hatched)))
		mark(b.Hatched, figure.Moss, figure.Wedge, name+" hatched")
	case forecast.Dropped:
		add(b.Berried, b.Dropped, figure.Eggs, false, carried)
		mark(b.Dropped, figure.Stone, figure.Bar, name+" lost")
	case closed:
		mark(b.Berried, figure.Eggs, figure.Dot, name+" seen carried")
	case forecast.Unseen:
		add(b.Berried, b.Foreseen.P50, figure.Eggs, false, fmt.Sprintf("%s, taken as hatched unseen about %s", carried, wording.Date(b.Foreseen.P50)))
	default:
		add(b.Berried, p.asOf, figure.Eggs, false, carried)
		if dated(b.Expected()) {
			add(max(b.Hatch.P05, p.asOf), b.Hatch.P95, figure.Eggs, true,
				"hatch of "+name+" 90\u00a0% likely "+span(b.Hatch.P05, b.Hatch.P95))
		}
	}
	if b.Eyed != 0 {
		mark(b.Eyed, figure.Eggs, figure.Diamond, "eyes seen in "+name)
	}
	if c := p.cohorts[b.ID]; c != nil {
		p.cohortSpans(c, name, add)
	}
	return lane, len(lane.Spans)+len(lane.Marks) > 0
}

// cohortSpans adds the stretches of a cohort's life to its row: young until half of them are grown, and the
// window of that day.
func (p *pen) cohortSpans(c *forecast.Cohort, name string, add func(a, z journal.Day, tone figure.Tone, soft bool, label string)) {
	grown := c.Mature.P50
	if grown == 0 {
		grown = p.asOf
	}
	add(c.Hatched, min(grown, p.asOf), figure.Moss, false, "young of "+name)
	if dated(c.Mature) {
		add(max(c.Mature.P10, p.asOf), c.Mature.P90, figure.Shrimp, true,
			name+" grown, 80\u00a0% likely "+span(c.Mature.P10, c.Mature.P90))
		if c.Mature.P50 < p.asOf {
			add(c.Mature.P50, min(p.asOf, c.Mature.P50+grownDays), figure.Shrimp, false, "grown shrimp of "+name)
		}
	}
}

// stockLane is the row of what came, left and was counted.
func (p *pen) stockLane(t *forecast.Tank, from, to journal.Day) figure.Lane {
	lane := figure.Lane{Label: "stock"}
	mark := func(d journal.Day, tone figure.Tone, shape figure.Shape, label string, e *journal.Event) {
		if d >= from && d <= to {
			lane.Marks = append(lane.Marks,
				figure.LaneMark{X: float64(d), Tone: tone, Shape: shape, Label: label, Link: p.eventHref(e)})
		}
	}
	for _, line := range t.Tank.Ledger {
		for _, look := range stockLook {
			if look.why == line.Why {
				label := fmt.Sprintf("%d %s", max(line.Change, -line.Change), look.key.Name)
				mark(line.Day, look.key.Tone, look.key.Shape, label, line.Event)
			}
		}
	}
	for _, census := range t.Tank.Censuses {
		mark(census.Day, figure.Stone, figure.Ring,
			headCount(census.Count)+" counted, "+methodWords[census.Method], census.Event)
	}
	return lane
}

// addCourse adds the daily temperature of a tank with its band, to a tenth of a degree, which is what a thermometer shows.
func (p *pen) addCourse(f *figure.Figure, t *forecast.Tank, from, to journal.Day) {
	band := figure.Band{Name: "90\u00a0% of days", Tone: figure.Water, Faint: true}
	line := figure.Line{Name: "daily mean", Tone: figure.Water}
	shown := func(celsius float64) float64 {
		return math.Round(10*p.units.Reading(journal.Temperature, celsius)) / 10
	}
	for _, d := range t.Course {
		if d.Day < from || d.Day > to {
			continue
		}
		x := float64(d.Day)
		band.Edges = append(band.Edges, figure.Edge{X: x, Low: shown(d.Mean - 1.645*d.SD), High: shown(d.Mean + 1.645*d.SD)})
		line.Points = append(line.Points, figure.XY{X: x, Y: shown(d.Mean)})
	}
	if len(line.Points) == 0 {
		return
	}
	f.Bands, f.Lines = append(f.Bands, band), append(f.Lines, line)
}

// addReadings adds the temperatures that were read on a thermometer.
func (p *pen) addReadings(f *figure.Figure, t *forecast.Tank, from, to journal.Day) {
	cloud := figure.Points{Name: "read", Tone: figure.Water, Shape: figure.Ring}
	for _, r := range t.Tank.Temperatures {
		if !r.Logged && r.Day >= from && r.Day <= to {
			cloud.Marks = append(cloud.Marks,
				figure.Mark{X: float64(r.Day), Y: p.units.Reading(journal.Temperature, r.Celsius),
					Link: p.eventHref(r.Event)})
		}
	}
	if len(cloud.Marks) > 0 {
		f.Points = append(f.Points, cloud)
	}
}
