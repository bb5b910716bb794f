package theme

import (
	"fmt"
	"strconv"
	"strings"

	"pleopod/journal/forecast"
	"pleopod/journal/wording"
)

// GenerationLine is one generation of a tank.
type GenerationLine struct {
	Name       string
	From, To   Moment
	Parents    string // their effective size
	Inbreeding string // after it
	Blood      string // who came from elsewhere
}

// justBegun is how many days of a generation say nothing of its young: the weeks in which they are born are counted when they end.
const justBegun = 14

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
		switch {
		case g.EffectiveSize == 0 && i > 0 && g.To-g.From < justBegun:
			line.Parents = "just begun"
		case g.EffectiveSize > 0:
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
	span := fmt.Sprintf("generation %d to %d", s.First, s.Last)
	if s.First == 0 {
		span = fmt.Sprintf("the founders to generation %d", s.Last)
	}
	return fmt.Sprintf("%s: from %s the share of %s moved by %s points (90%s%% range %s to %s)",
		words, span, best, points(s.Rise), wording.Joined, points(s.Low), points(s.High))
}
