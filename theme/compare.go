package theme

import (
	"fmt"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
	"pleopod/theme/figure"
)

// ComparePage sets the tanks side by side.
type ComparePage struct {
	Frame
	Lines Drawing
	Tanks []CompareLine
}

// CompareLine is one tank of the comparison.
type CompareLine struct {
	Tank                          Link
	Now, Adults, Ahead, YearAhead string
	MayLeave, Parents, Inbreeding string
	Water, Room                   string
}

// compared reports whether there are several tanks with a record.
func (b *book) compared() bool { return len(b.inhabited()) > 1 }

// inhabited returns the tanks of which anything is written.
func (b *book) inhabited() []*forecast.Tank {
	var all []*forecast.Tank
	for i := range b.Tanks {
		if len(b.Tanks[i].Tank.Events) > 0 {
			all = append(all, &b.Tanks[i])
		}
	}
	return all
}

func (p *pen) comparePage() page {
	out := &ComparePage{Lines: p.drawFigure(p.tankNumbers())}
	for _, t := range p.inhabited() {
		out.Tanks = append(out.Tanks, p.compareLine(t))
	}
	out.Frame = p.newFrame("Tanks side by side",
		"How many shrimp live in each tank, how many will, and how the tanks differ.")
	return out
}

func (p *pen) compareLine(t *forecast.Tank) CompareLine {
	n := &t.Population
	line := CompareLine{
		Tank: p.tankLink(t.Tank.ID), Now: numbers(n.Now),
		Adults: numbers(n.AdultFemales) + " and " + numbers(n.AdultMales),
		Ahead:  p.aheadWords(n, 90), YearAhead: p.aheadWords(n, 364), MayLeave: "none for now",
		Parents: "unknown", Inbreeding: "unknown", Water: p.units.temperature(t.Celsius), Room: "not known",
	}
	switch {
	case t.SilentSince(p.asOf) != 0:
		line.MayLeave = "count first"
	case n.MayLeavePerMonth > 0:
		line.MayLeave = fmt.Sprintf("%d a month", n.MayLeavePerMonth)
	}
	if n.EffectiveSize > 0 {
		line.Parents = wording.Number(n.EffectiveSize, 0)
	}
	if k := len(n.Generations); k > 0 {
		line.Inbreeding = inbreeding(n.Generations[k-1].Inbreeding)
	}
	if t.Tank.Volume.Known {
		line.Room = p.units.volume(t.Tank.Volume.Value)
	}
	if t.Tank.Capacity.Known {
		line.Room += ", " + wording.Number(t.Tank.Capacity.Value, 0) + " grown shrimp"
	}
	return line
}

// aheadWords writes the numbers of the first week that is so many days ahead.
func (p *pen) aheadWords(n *forecast.Population, days int) string {
	for _, at := range n.Ahead {
		if at.Day >= p.asOf+journal.Day(days) {
			return numbers(at.Quantiles)
		}
	}
	return "unknown"
}

// tankNumbers draws the middle of every tank's numbers over time.
func (p *pen) tankNumbers() figure.Figure {
	f := figure.Figure{
		ID: "tanks", Title: "Shrimp in each tank",
		Description: "The middle of the estimate of living shrimp in each tank, week by week. Right of the as-of day: what comes if nobody is added or taken out. Each tank's own page has the bands, which are wide.",
		X:           figure.Axis{Kind: figure.Calendar}, Y: figure.Axis{Label: "Shrimp", FromZero: true}, Height: 280,
		Rules: []figure.Rule{{Value: float64(p.asOf), Label: shortDay(p.asOf), Tone: figure.Stone}},
	}
	for i, t := range p.inhabited() {
		line := figure.Line{Name: p.tankName(t.Tank.ID), Tone: tankTones[i%len(tankTones)], Dashed: i >= len(tankTones)}
		add := func(at forecast.At) { line.Points = append(line.Points, figure.XY{X: float64(at.Day), Y: at.P50}) }
		for _, at := range t.Population.Past {
			if at.Day < p.asOf {
				add(at)
			}
		}
		add(forecast.At{Day: p.asOf, Quantiles: t.Population.Now})
		for _, at := range t.Population.Ahead {
			if at.Day > p.asOf {
				add(at)
			}
		}
		f.Lines = append(f.Lines, line)
	}
	return f
}
