package theme

import (
	"fmt"
	"strconv"
	"strings"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
	"pleopod/theme/figure"
)

// GenerationLine is one generation of a tank.
type GenerationLine struct {
	Name       string
	From, To   Moment
	Parents    string // their effective size
	Inbreeding string // after it
	Blood      string // who came from elsewhere
}

// generationLines lists the generations of a tank, the newest first.
func generationLines(t *forecast.Tank) []GenerationLine {
	all := t.Population.Generations
	var lines []GenerationLine
	for i := len(all) - 1; i >= 0; i-- {
		g := all[i]
		line := GenerationLine{
			Name: fmt.Sprintf("%d", g.Number), From: moment(g.From), To: moment(g.To), Parents: "no young",
			Inbreeding: inbreeding(g.Inbreeding),
			Blood:      "none",
		}
		if g.EffectiveSize > 0 {
			line.Parents = wording.Number(g.EffectiveSize, 0)
		}
		switch {
		case g.Newcomers > 0 && g.Kin > 0:
			line.Blood = wording.Count(g.Newcomers, "newcomer", "newcomers") + ", " + strconv.Itoa(g.Kin) + " from other tanks"
		case g.Newcomers > 0:
			line.Blood = wording.Count(g.Newcomers, "newcomer", "newcomers")
		case g.Kin > 0:
			line.Blood = strconv.Itoa(g.Kin) + " from other tanks"
		}
		lines = append(lines, line)
	}
	return lines
}

// inbreeding writes a coefficient with the digits that matter.
func inbreeding(f float64) string {
	if f < 0.0005 {
		return "0" + wording.Joined + "%"
	}
	return wording.Number(100*f, 1) + wording.Joined + "%"
}

// gradeFacts lists the colour grades by generation, and says whether selecting works.
func gradeFacts(n *forecast.Population) []Fact {
	var facts []Fact
	for _, g := range n.Gradings {
		name := fmt.Sprintf("Grades, generation %d", g.Generation)
		if g.Generation == 0 {
			name = "Grades, founders"
		}
		var shares []string
		for _, s := range g.Shares {
			shares = append(shares, fmt.Sprintf("%s %s (%.0f to %.0f%s%%)", s.Grade, wording.Percent(s.Share),
				100*s.Low, 100*s.High, wording.Joined))
		}
		facts = append(facts, fact(name, wording.Count(g.Graded, "shrimp", "shrimp"), ": ", strings.Join(shares, ", ")))
	}
	if s := n.Selecting; s.First != s.Last {
		best := n.Gradings[0].Shares[len(n.Gradings[0].Shares)-1].Grade
		facts = append(facts, fact("Does selecting work?", selectingWords(s, best)))
	}
	return facts
}

// selectingWords says how the share of the best grade has moved.
func selectingWords(s forecast.Selecting, best string) string {
	points := func(x float64) string { return signed(100 * x) }
	words := "cannot be told yet"
	switch {
	case s.Probability > 0.95:
		words = "it seems so"
	case s.Probability < 0.05:
		words = "the share falls"
	}
	return fmt.Sprintf("%s: from generation %d to %d the share of %s moved by %s points (90%s%% range %s to %s)",
		words, s.First, s.Last, best, points(s.Rise), wording.Joined, points(s.Low), points(s.High))
}

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
	if n.MayLeavePerMonth > 0 {
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
