package theme

import (
	"cmp"
	"fmt"
	"slices"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/lifecycle"
	"pleopod/journal/wording"
)

// DueItem is something that is expected.
type DueItem struct {
	Icon   string
	Label  string
	What   []Link
	Tank   Link
	Here   bool   // the tank has to be said, because neither the words nor the page do
	Likely Moment // the median day
	When   string // the window in words
	Odds   string // how sure that is
	Look   []Link // what to look for this week, where anything is
	Soon   string // the chance within two weeks of the as-of day, or ""
	Doubts []string
	Past   bool        // the median day is behind: it may have happened unseen
	from   journal.Day // P10, for the ruler
	to     journal.Day // P90
	likely journal.Day
	key    string // what it is about, the same on every day
	tank   string // id
	chore  bool   // something to do regularly, such as a count; the ruler leaves it out
}

// days writes the window with its likeliest day, where it has more than one.
func (i DueItem) days() string {
	if i.from == i.to {
		return i.When
	}
	return i.When + ", likeliest " + i.Likely.Long
}

// Sentence says when and how sure; the day alone stands beside it already, unless it is past.
func (i DueItem) Sentence() string {
	words := i.When + ": " + i.Odds
	if i.from == i.to && !i.Past {
		words = wording.Sentence(i.Odds)
	}
	if i.Soon != "" {
		words += "; " + i.Soon
	}
	return words + "."
}

// DueGroup is the items of one stretch of the days ahead.
type DueGroup struct {
	Name  string
	Words string
	Items []DueItem
}

// DuePage is everything expected, soonest first.
type DuePage struct {
	Frame
	Groups []DueGroup
	Ruler  Ruler
}

// sortByDay sorts by a day, keeping the order of equals; without a day comes last.
func sortByDay[T any](all []T, day func(T) journal.Day) {
	slices.SortStableFunc(all, func(a, b T) int {
		x, y := day(a), day(b)
		return cmp.Or(cmp.Compare(late(x), late(y)), cmp.Compare(x, y))
	})
}

// late is 1 for no day.
func late(d journal.Day) int {
	if d == 0 {
		return 1
	}
	return 0
}

// profile returns the species profile of a tank.
func (b *book) profile(tank string) lifecycle.Profile {
	if t := b.tanks[tank]; t != nil {
		return t.Profile
	}
	return lifecycle.Profile{}
}

// chanceWords writes the chance that something happens within two weeks.
func (b *book) chanceWords(w forecast.Window) string {
	switch share := w.By(b.asOf + 14); {
	case share <= 0.05:
		return "within two weeks: under 5\u00a0%"
	case share >= 0.95:
		return "within two weeks: 95\u00a0% or more"
	default:
		return "within two weeks: about " + wording.Percent(share)
	}
}

// within completes an expectation that says what it is about, where and under which label, with its window.
func (p *pen) within(w forecast.Window, i DueItem) DueItem {
	i.Tank, i.Likely, i.When = p.tankLink(i.tank), moment(w.P50), span(w.P10, w.P90)
	i.Odds, i.Soon, i.Doubts = "80\u00a0% likely in these days", p.chanceWords(w), w.Doubts
	i.from, i.to, i.likely = w.P10, w.P90, w.P50
	return i
}

// due lists what is expected up to a number of days ahead, soonest first.
func (p *pen) due(ahead journal.Day) []DueItem {
	var items []DueItem
	for i := range p.Broods {
		items = append(items, p.broodDue(&p.Broods[i])...)
	}
	for i := range p.Cohorts {
		items = append(items, p.cohortDue(&p.Cohorts[i])...)
	}
	for i := range p.Tanks {
		items = append(items, p.tankDue(&p.Tanks[i])...)
	}
	items = append(items, p.careDue()...)
	items = slices.DeleteFunc(items, func(i DueItem) bool { return i.likely > p.asOf+ahead || i.to < p.asOf })
	for i := range items {
		items[i].Past = items[i].likely < p.asOf
		items[i].Here = !slices.Contains(items[i].What, items[i].Tank)
	}
	sortByDay(items, func(i DueItem) journal.Day { return i.likely })
	p.advise(items)
	return items
}

func (p *pen) broodDue(b *forecast.Brood) []DueItem {
	if b.State != forecast.Carried || !dated(b.Hatch) {
		return nil // of one that is overdue, care asks how it ended
	}
	var items []DueItem
	if b.Eyed == 0 && dated(b.Eyes) {
		eyes := p.within(b.Eyes, DueItem{
			key: "eyes " + b.ID, Icon: p.icon("eyed"), Label: labels["eyed"], tank: b.Tank(),
			What: []Link{{Text: "Eyes show in the eggs of "}, p.broodLink(b.ID)},
		})
		eyes.Odds += "; once they are seen the window of the hatch narrows"
		items = append(items, eyes)
	}
	hatch := p.within(b.Hatch, DueItem{
		key: "hatch " + b.ID, Icon: p.icon("hatched"), Label: "Hatch", tank: b.Tank(),
		What: []Link{p.broodFirst(b.ID), {Text: " hatches"}},
	})
	return append(items, hatch)
}

func (p *pen) cohortDue(c *forecast.Cohort) []DueItem {
	var items []DueItem
	if shy := c.Hatched + 4; shy >= p.asOf {
		items = append(items, DueItem{
			Icon: p.icon("sighted"), Label: labels["sighted"],
			What: []Link{{Text: "The young of "}, p.broodLink(c.ID), {Text: " come out of hiding"}}, Tank: p.tankLink(c.Tank),
			Likely: moment(shy), When: "about " + wording.Date(shy), Odds: "common practice, no source",
			from: shy - 1, to: shy, likely: shy, key: "young " + c.ID, tank: c.Tank,
		})
	}
	for _, stage := range []struct {
		icon, label, words string
		window             forecast.Window
		done               bool
	}{
		{"sexable", "Sexable", ": females and males can be told apart", c.Sexable, false},
		{"mature", "Mature", ": half of them are grown", c.Mature, c.FirstSaddled != 0},
		{"berried", "First eggs", ": first eggs of this generation", c.FirstEggs, c.FirstBerried != 0},
	} {
		if dated(stage.window) && !stage.done {
			items = append(items, p.within(stage.window, DueItem{
				key: stage.label + " " + c.ID, Icon: p.icon(stage.icon), Label: stage.label, tank: c.Tank,
				What: []Link{p.broodFirst(c.ID), {Text: stage.words}},
			}))
		}
	}
	return items
}

func (p *pen) tankDue(t *forecast.Tank) []DueItem {
	var items []DueItem
	tank := p.tankLink(t.Tank.ID)
	for _, pass := range t.Population.Passes {
		if pass.P50 == 0 || pass.P50 <= p.asOf || pass.ProbabilityWithinYear < 0.5 {
			continue
		}
		items = append(items, DueItem{
			Icon: p.icon("counted"), Label: "Number",
			What: []Link{tank, {Text: fmt.Sprintf(" passes %d shrimp", pass.Count)}}, Tank: tank,
			Likely: moment(pass.P50), When: span(pass.P10, pass.P90),
			Odds: "if nobody is added or taken out; within a year: " + wording.Percent(pass.ProbabilityWithinYear),
			from: pass.P10, to: pass.P90, likely: pass.P50,
			key: fmt.Sprintf("passes %d %s", pass.Count, t.Tank.ID), tank: t.Tank.ID,
		})
	}
	if w := t.Population.SelectFrom; dated(w) && w.P50 > p.asOf {
		items = append(items, p.within(w, DueItem{
			key: "select " + t.Tank.ID, Icon: p.icon("graded"), Label: "Selecting", tank: t.Tank.ID,
			What: []Link{tank, {Text: " holds enough grown shrimp to begin selecting"}},
		}))
	}
	if old := t.Founders.OldFrom; old > p.asOf {
		odds := "from the age that was written"
		if t.Founders.Guessed {
			odds = "an age that was assumed makes this a guess"
		}
		items = append(items, DueItem{
			Icon: p.icon("stocked"), Label: "Founders",
			What: []Link{{Text: "The oldest founders of "}, tank, {Text: " may be past breeding age"}}, Tank: tank,
			Likely: moment(old), When: "from " + wording.Date(old), Odds: odds,
			from: old, to: old, likely: old, key: "founders " + t.Tank.ID, tank: t.Tank.ID,
		})
	}
	return items
}

// duePage fills the page of what is expected in the coming year.
func (p *pen) duePage() page {
	items := p.due(366)
	groups := []struct {
		name string
		end  journal.Day
	}{{"Overdue or any day", 1}, {"Within a week", 7}, {"Within a month", 30}, {"Within a season", 91}, {"Within a year", 366}}
	out := &DuePage{Ruler: p.rulerAhead()}
	start := journal.Day(-1 << 20)
	for _, g := range groups {
		var group DueGroup
		group.Name = g.name
		for _, item := range items {
			if left := item.likely - p.asOf; left >= start && left < g.end {
				group.Items = append(group.Items, item)
			}
		}
		start = g.end
		group.Words = wording.Sentence(several(len(group.Items), "thing", "things")) + "."
		if len(group.Items) > 0 {
			out.Groups = append(out.Groups, group)
		}
	}
	words := "Nothing is expected yet: the first note of eggs brings the first date."
	if len(items) > 0 {
		words = fmt.Sprintf("%s expected from %s on, soonest first, each with its window and how sure it is.",
			wording.Sentence(several(len(items), "thing", "things")), wording.Date(p.asOf))
	}
	out.Frame = p.newFrame("What is due", words)
	return out
}
