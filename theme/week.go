package theme

import (
	"slices"
	"strings"

	"pleopod/journal/care"
)

// WeekItem is something to look for in the coming seven days.
type WeekItem struct {
	Icon, Label string
	Words       []Link
	Why         string // why now, where no item before it said the same
	Tank        Link
	Days        string // the days to look, in words
	Here        bool   // the journal has several tanks, so it says which
}

// careLook is the icon and the label of each task.
var careLook = map[care.Task]struct{ icon, label string }{
	care.Eyes: {"eyed", "Eyes"}, care.Hatch: {"hatched", "Hatch"}, care.End: {"hatched", "Overdue"}, care.Young: {"sighted", "Young"},
	care.Saddle: {"saddled", "Saddle"},
	care.Sexing: {"sexable", "Sexes"}, care.Count: {"counted", "Count"}, care.Test: {"water", "Water test"},
}

// week lists what to look for in the seven days from the as-of day on.
func (p *pen) week() []WeekItem {
	var out []WeekItem
	said := map[string]bool{}
	for _, i := range care.Week(p.tasks, p.asOf) {
		look := careLook[i.Task]
		from, to := max(i.From, p.asOf), min(i.To, p.asOf+care.Days-1)
		days := span(from, to)
		if from == p.asOf && to == p.asOf+care.Days-1 {
			days = "all week"
		}
		why := i.Why
		if said[why] {
			why = ""
		}
		said[i.Why] = true
		out = append(out, WeekItem{
			Icon: p.icon(look.icon), Label: look.label, Words: p.careWords(i), Why: why,
			Tank: p.tankLink(i.Tank), Days: days, Here: len(p.Tanks) > 1,
		})
	}
	return out
}

// careWords writes what to look for, with a link to the brood that it names.
func (p *pen) careWords(i care.Item) []Link {
	before, after, found := strings.Cut(i.Words, i.Brood)
	if i.Brood == "" || !found {
		return []Link{{Text: i.Words}}
	}
	return []Link{{Text: before}, p.broodLink(i.Brood), {Text: after}}
}

// careDue puts the tasks that no prediction of its own announces among what is due.
func (p *pen) careDue() []DueItem {
	var items []DueItem
	for _, i := range p.tasks {
		if !slices.Contains([]care.Task{care.End, care.Saddle, care.Count, care.Test}, i.Task) {
			continue
		}
		look := careLook[i.Task]
		words := p.careWords(i)
		last := &words[len(words)-1]
		last.Text = strings.TrimRight(last.Text, ".?")
		if i.Brood == "" {
			last.Text += " of "
			words = append(words, p.tankLink(i.Tank))
		}
		items = append(items, DueItem{
			Icon: p.icon(look.icon), Label: look.label, What: words, Tank: p.tankLink(i.Tank),
			Likely: moment(i.Likely), When: span(i.From, i.To),
			Odds: lowered(strings.TrimSuffix(i.Why, ".")), from: i.From, to: i.To, likely: i.Likely,
			key: i.Key(), tank: i.Tank, chore: i.Task == care.Count || i.Task == care.Test,
		})
	}
	return items
}

// lowered puts a small letter at the front.
func lowered(text string) string {
	if text == "" {
		return text
	}
	return strings.ToLower(text[:1]) + text[1:]
}
