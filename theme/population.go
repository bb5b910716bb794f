package theme

import (
	"fmt"
	"slices"
	"strconv"

	"pleopod/journal/forecast"
	"pleopod/journal/lifecycle"
	"pleopod/journal/wording"
	"pleopod/theme/figure"
)

// population draws the number of shrimp in a tank, estimated for the past and predicted for the year ahead.
func (p *pen) population(t *forecast.Tank) figure.Figure {
	f := figure.Figure{
		ID: "population", Title: "Shrimp in " + p.tankName(t.Tank.ID),
		Description: "The estimated number of living shrimp out of the egg, week by week, with the bands that hold half and nine tenths of what is likely. Right of the as-of day: what comes if nobody is added or taken out.",
		X:           figure.Axis{Kind: figure.Calendar}, Y: figure.Axis{Label: "Shrimp", FromZero: true}, Height: 280,
	}
	wide := figure.Band{Name: "9 in 10", Tone: figure.Shrimp, Faint: true}
	half := figure.Band{Name: "half", Tone: figure.Shrimp}
	line := figure.Line{Name: "middle", Tone: figure.Shrimp}
	add := func(at forecast.At) {
		x := float64(at.Day)
		wide.Edges = append(wide.Edges, figure.Edge{X: x, Low: at.P05, High: at.P95})
		half.Edges = append(half.Edges, figure.Edge{X: x, Low: at.P25, High: at.P75})
		line.Points = append(line.Points, figure.XY{X: x, Y: at.P50})
	}
	for _, at := range t.Population.Past {
		if at.Day < p.asOf {
			add(at)
		}
	}
	add(forecast.At{Day: p.asOf, Quantiles: t.Population.Now})
	last := p.asOf
	for _, at := range t.Population.Ahead {
		if at.Day > p.asOf {
			add(at)
			last = at.Day
		}
	}
	f.Bands, f.Lines = []figure.Band{wide, half}, []figure.Line{line}
	cloud := figure.Points{Name: "in sight when counted", Tone: figure.Stone, Shape: figure.Ring}
	for _, c := range t.Tank.Censuses {
		cloud.Marks = append(cloud.Marks,
			figure.Mark{X: float64(c.Day), Y: float64(c.Count.Total), Label: methodWords[c.Method],
				Link: p.eventHref(c.Event)})
	}
	if len(cloud.Marks) > 0 {
		f.Points = []figure.Points{cloud}
	}
	f.Strips = []figure.Strip{{From: float64(p.asOf), To: float64(last), Label: "ahead"}}
	f.Rules = []figure.Rule{{Value: float64(p.asOf), Label: shortDay(p.asOf), Tone: figure.Stone}}
	return f
}

// populationFacts puts the numbers of a tank in words.
func (p *pen) populationFacts(t *forecast.Tank) []Fact {
	n := t.Population
	facts := []Fact{
		fact("Now", numbers(n.Now), " living shrimp"),
		fact("Of these", "grown females ", numbers(n.AdultFemales), ", grown males ", numbers(n.AdultMales),
			", young ", numbers(n.Juveniles)),
	}
	for _, days := range []int{30, 90, 365} {
		for _, at := range n.Ahead {
			if d := int(at.Day - p.asOf); d >= days && d < days+7 {
				facts = append(facts, fact(fmt.Sprintf("In %s", age(days)), numbers(at.Quantiles)))
				break
			}
		}
	}
	for _, pass := range n.Passes {
		if pass.P50 != 0 && pass.P50 <= p.asOf {
			continue
		}
		facts = append(facts, fact(fmt.Sprintf("Passes %d", pass.Count), passWords(pass)))
	}
	if dated(n.SelectFrom) && n.SelectFrom.P50 > p.asOf {
		facts = append(facts, fact("Enough to select from", "about ", wording.Date(n.SelectFrom.P50),
			"; within a year: ", wording.Percent(n.SelectProbability)))
	}
	facts = append(facts, fact("May leave", p.leaveWords(t)))
	facts = append(facts, fact("Dies out within a year", wording.Percent(n.ExtinctWithinYear)))
	if n.EffectiveSize > 0 {
		facts = append(facts, fact("Breeders that count", wording.Number(n.EffectiveSize, 0),
			"; each generation loses ", aboutPercent(lifecycle.InbreedingRate(n.EffectiveSize)), " of its variety"))
	}
	return facts
}

// aboutPercent writes an estimated share, where the words of Percent do not say by themselves that it is no exact one.
func aboutPercent(share float64) string {
	if share < 0.01 || share > 0.99 {
		return wording.Percent(share)
	}
	return "about " + wording.Percent(share)
}

// leaveWords says how many may leave a month.
func (p *pen) leaveWords(t *forecast.Tank) string {
	n := &t.Population
	if since := t.SilentSince(p.asOf); since != 0 {
		return "count first: the diary tells nothing of the tank since " + wording.Date(since)
	}
	switch {
	case n.MayLeavePerMonth > 0:
		return strconv.Itoa(n.MayLeavePerMonth) + " a month, with at most 5\u00a0% chance that the colony shrinks for it within a year"
	case dated(n.SelectFrom) && n.SelectFrom.P50 > p.asOf:
		return "none before there are enough to select from"
	}
	return "none for now without risk to the colony"
}

func passWords(pass forecast.Pass) string {
	words := "within a year: " + wording.Percent(pass.ProbabilityWithinYear)
	if pass.P50 == 0 {
		return words
	}
	return words + "; if so, about " + wording.Date(pass.P50)
}

// founderFacts puts the odds of the founders in words.
func (p *pen) founderFacts(t *forecast.Tank) []Fact {
	f := t.Founders
	if f.Stocked == 0 {
		return nil
	}
	facts := []Fact{fact("Founders", strconv.Itoa(f.Stocked), "; both sexes among them: ", wording.Odds(f.BothSexes))}
	if f.For99 > 0 {
		facts = append(facts, fact("Founders for both sexes",
			fmt.Sprintf("%d for 90 %%, %d for 95 %%, %d for 99 %%", f.For90, f.For95, f.For99)))
	}
	if f.OldFrom != 0 {
		facts = append(facts, fact("Oldest founders", "may be past breeding age from ", wording.Date(f.OldFrom)))
	}
	return facts
}

// pyramid draws the ages of the shrimp of a tank, females to the left and males to the right; false where
// nobody lives there.
func (p *pen) pyramid(t *forecast.Tank) (figure.Figure, bool) {
	f := figure.Figure{
		ID: "ages", Title: "Ages of the shrimp in " + p.tankName(t.Tank.ID),
		Description: "The expected number of shrimp in each span of age, oldest on top: females to the left, males to the right.",
		X:           figure.Axis{Label: "Shrimp", Mirrored: true},
		Keys:        []figure.Key{{Name: "females", Tone: figure.Shrimp}, {Name: "males", Tone: figure.Water}},
	}
	all := 0.0
	for _, class := range slices.Backward(t.Population.Pyramid) {
		all += class.Females + class.Males
		if all < 0.5 {
			continue // no rows above the oldest
		}
		females := wording.Count(whole(class.Females), "female", "females")
		if grown := whole(class.Mature); grown > 0 {
			females += fmt.Sprintf(", %d of them grown", grown)
		}
		f.Lanes = append(f.Lanes, figure.Lane{Label: ageClass(class), Spans: []figure.Span{
			{From: -class.Females, To: 0, Tone: figure.Shrimp, Label: females},
			{From: 0, To: class.Males, Tone: figure.Water, Label: wording.Count(whole(class.Males), "male", "males")},
		}})
	}
	return f, len(f.Lanes) > 0
}

// ageClass writes a span of age in weeks: the classes are four weeks wide, and in rounded months two would read alike.
func ageClass(c forecast.AgeClass) string {
	switch {
	case c.FromDays == 0:
		return fmt.Sprintf("under %d weeks", c.ToDays/7)
	case c.ToDays <= c.FromDays || c.ToDays > 5*365:
		return fmt.Sprintf("over %d weeks", c.FromDays/7)
	}
	return fmt.Sprintf("%d to %d weeks", c.FromDays/7, c.ToDays/7)
}
