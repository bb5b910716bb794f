package theme

import (
	"slices"
	"strings"

	"pleopod/journal/care"
)

// careLook is the icon and the label of each task.
var careLook = map[care.Task]struct{ icon, label string }{
	care.Eyes: {"eyed", "Eyes"}, care.Hatch: {"hatched", "Hatch"}, care.End: {"hatched", "Overdue"}, care.Young: {"sighted", "Young"},
	care.Saddle: {"saddled", "Saddle"},
	care.Sexing: {"sexable", "Sexes"}, care.Count: {"counted", "Count"}, care.Test: {"water", "Water test"},
}

// advise says beside what is expected what to look for, where this week holds a day of it. What several have in common is said
// once.
func (p *pen) advise(items []DueItem) {
	labels := map[care.Task]string{care.Hatch: "hatch ", care.Young: "young ", care.Sexing: "Sexable "}
	advice := map[string]care.Item{}
	for _, i := range care.Week(p.tasks, p.asOf) {
		if label := labels[i.Task]; label != "" {
			advice[label+i.Brood] = i
		}
	}
	said := map[string]bool{}
	for i := range items {
		item, found := advice[items[i].key]
		if !found {
			continue
		}
		items[i].Look = p.careWords(item)
		if !said[item.Why] {
			items[i].Look = append(items[i].Look, Link{Text: " " + item.Why})
		}
		said[item.Why] = true
	}
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
