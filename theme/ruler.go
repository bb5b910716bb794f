package theme

import (
	"fmt"
	"slices"
	"strconv"
	"time"

	"pleopod/journal"
	"pleopod/journal/wording"
)

// Ruler is a drawn ruler of days: a tick for each, what happened as marks above it, what is expected as bars.
type Ruler struct {
	Alt           string
	Width, Height int
	Edge          int // Y of the ruler's edge, from which ticks hang
	Foot          int // Y of its lower side
	Ticks         []Tick
	Marks         []RulerMark
	Bars          []RulerBar
	Today         int // X of the as-of day, 0 where the ruler does not hold it
	Above         int // Y of the top of what happened on the as-of day, where the line of that day is interrupted
}

// Tick is one day of the ruler.
type Tick struct {
	X, End int
	Text   string // "" for a tick without a number
	Strong bool   // the first of a month
	TextY  int
}

// RulerMark is the icon of something on a day.
type RulerMark struct {
	X, Y, Size int
	Icon       string
}

// RulerBar is a stretch of days in which something is expected.
type RulerBar struct {
	X, Y, Width, Likely int
	Icon                string
}

const (
	rulerWidth = 720
	rulerStack = 4  // icons above one day
	barStep    = 19 // from one bar to the next
	barIcon    = 16 // size of the icon on a bar
)

// dayMark is an icon on a day.
type dayMark struct {
	day  journal.Day
	icon string
}

// marks returns one mark for each kind of event on each day from one to another, in order.
func (p *pen) marks(entries []*journal.Entry, from, to journal.Day) []dayMark {
	var out []dayMark
	seen := map[dayMark]bool{}
	for _, entry := range entries {
		for i := range entry.Events {
			m := dayMark{entry.Events[i].Day, entry.Events[i].What.Kind()}
			if m.day >= from && m.day <= to && m.day <= p.asOf && !seen[m] {
				seen[m] = true
				out = append(out, m)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b dayMark) int { return int(a.day - b.day) })
	return out
}

// ruler draws the days from one to another with marks and the windows of what is expected.
func (p *pen) ruler(from, to journal.Day, marks []dayMark, items []DueItem) Ruler {
	days := int(to-from) + 1
	step := float64(rulerWidth) / float64(days)
	x := func(d journal.Day) int { return int((float64(d-from) + 0.5) * step) }
	size := min(18, int(step)-1)
	r := Ruler{Width: rulerWidth}

	stacks := map[journal.Day]int{}
	tall := 0
	for _, m := range marks {
		if stacks[m.day] < rulerStack {
			stacks[m.day]++
			tall = max(tall, stacks[m.day])
		}
	}
	r.Edge = max(tall*(size+3), len(items)*barStep) + 8
	r.Foot, r.Height = r.Edge+34, r.Edge+36
	clear(stacks)
	for _, m := range marks {
		if stacks[m.day] == rulerStack {
			continue
		}
		stacks[m.day]++
		r.Marks = append(r.Marks, RulerMark{X: x(m.day) - size/2, Y: r.Edge - stacks[m.day]*(size+3) - 1,
			Size: size, Icon: p.icon(m.icon)})
	}
	for i, item := range items {
		a, b := max(item.from, from, p.asOf), min(max(item.to, p.asOf), to)
		r.Bars = append(r.Bars, RulerBar{X: x(a) - int(step/2), Y: r.Edge - (i+1)*barStep,
			Width: int(float64(b-a+1) * step), Likely: x(min(max(item.likely, a), b)) - barIcon/2, Icon: item.Icon})
	}
	for d := from; d <= to; d++ {
		r.Ticks = append(r.Ticks, tick(d, x(d), r.Edge, days))
	}
	if p.asOf >= from && p.asOf <= to {
		r.Today, r.Above = x(p.asOf), r.Edge-stacks[p.asOf]*(size+3)
	}
	return r
}

// tick is the mark of one day: longest and named on the first, long and numbered on each fifth.
func tick(d journal.Day, x, edge, days int) Tick {
	n := d.Time().Day()
	switch {
	case n == 1 && days > 31:
		return Tick{X: x, End: edge + 14, Text: d.Time().Format("Jan"), TextY: edge + 28, Strong: true}
	case n == 1:
		return Tick{X: x, End: edge + 12, Text: "1", TextY: edge + 28}
	case n%5 == 0 && n < 30:
		return Tick{X: x, End: edge + 12, Text: strconv.Itoa(n), TextY: edge + 28}
	case n == 30 && days <= 31:
		return Tick{X: x, End: edge + 12, Text: "30", TextY: edge + 28}
	}
	return Tick{X: x, End: edge + 7}
}

// monthRuler draws one month with its events.
func (p *pen) monthRuler(year int, month time.Month, entries []*journal.Entry) Ruler {
	from, to := journal.NewDay(year, month, 1), journal.NewDay(year, month+1, 0)
	marks := p.marks(entries, from, to)
	r := p.ruler(from, to, marks, nil)
	days := map[journal.Day]bool{}
	for _, m := range marks {
		days[m.day] = true
	}
	r.Alt = fmt.Sprintf("A ruler of %s: events on %s", from.Time().Format("January 2006"),
		wording.Count(len(days), "day", "days"))
	return r
}

// rulerAhead draws the weeks around the as-of day: what happened, and the windows of what comes.
func (p *pen) rulerAhead() Ruler {
	from, to := p.asOf-13, p.asOf+28
	var items []DueItem
	for _, item := range p.due(28) {
		if item.from <= to && !item.Past && !item.chore && len(items) < 6 {
			items = append(items, item)
		}
	}
	marks := p.marks(p.entries, from, p.asOf)
	r := p.ruler(from, to, marks, items)
	r.Alt = fmt.Sprintf("A ruler of days from %s: %s noted in it, %s expected", span(from, to),
		wording.Count(len(marks), "event", "events"), wording.Count(len(items), "thing", "things"))
	return r
}
