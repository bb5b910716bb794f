package theme

import (
	"slices"
	"strings"

	"pleopod/journal/forecast"
)

// CardPage is a card to print and pin beside a tank.
type CardPage struct {
	Frame
	Name     string
	Sentence []Link
	Eggs     []EggRow
	About    []Fact
	Due      []DueItem
	Tank     Link
}

// cardDue is how many things a card has room for.
const cardDue = 5

// cardPath is the page of a tank's card.
func (b *book) cardPath(id string) string {
	return strings.TrimSuffix(b.paths.tank[id], ".html") + ".card.html"
}

func (p *pen) cardPage(t *forecast.Tank) page {
	now := p.tankNow(t)
	out := &CardPage{Name: p.tankName(t.Tank.ID), Sentence: now.Sentence, Eggs: now.Eggs, About: p.about(t),
		Tank: now.Tank}
	due := slices.DeleteFunc(p.due(120), func(i DueItem) bool { return i.tank != t.Tank.ID || i.Past })
	out.Due = due[:min(len(due), cardDue)]
	p.tank = t.Tank.ID
	out.Frame = p.newFrame("Card for "+out.Name, "A card to print and pin beside the tank.")
	return out
}
