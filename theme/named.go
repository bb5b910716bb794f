package theme

import (
	"strings"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
)

// A brood that the keeper has not named has an id of its tank and day, for addresses, files and her entries. Pages call
// it by its mother and that day.

// unnamed returns what tells a brood without a name from others of its tank and day ("-2"), and false for one with a name.
func unnamed(b *forecast.Brood) (number string, is bool) {
	what, _ := b.Opened.What.(*journal.Berried)
	number, is = strings.CutPrefix(b.ID, b.TankOn(b.Berried)+"-"+b.Berried.String())
	return number, is && what != nil && len(what.Broods) == 0
}

// berriedOn is the day of a brood, with its number of that day, and with the year where that is not the year of the page.
func (b *book) berriedOn(brood *forecast.Brood, number string) string {
	day := wording.Date(brood.Berried)
	if year := brood.Berried.Time().Year(); year == b.asOf.Time().Year() {
		day = brood.Berried.Time().Format("2 January")
	}
	if number = strings.TrimPrefix(number, "-"); number != "" {
		day += " (" + number + ")"
	}
	return day
}

// broodName is what a brood is called within a sentence.
func (b *book) broodName(brood *forecast.Brood) string {
	number, is := unnamed(brood)
	switch {
	case !is:
		return brood.ID
	case brood.Mother != nil:
		return wording.Sentence(brood.Mother.Name) + "’s brood of " + b.berriedOn(brood, number)
	}
	return "the brood of " + b.berriedOn(brood, number)
}

// broodTitle is what a brood is called above its page.
func (b *book) broodTitle(brood *forecast.Brood) string {
	number, is := unnamed(brood)
	switch {
	case !is:
		return wording.Sentence(brood.ID)
	case brood.Mother != nil:
		return wording.Sentence(brood.Mother.Name) + "’s eggs of " + b.berriedOn(brood, number)
	}
	return "Eggs of " + b.berriedOn(brood, number) + ", " + b.tankName(brood.TankOn(brood.Berried))
}

// broodLabel is what a brood is called beside a row of a figure.
func (b *book) broodLabel(brood *forecast.Brood) string {
	number, is := unnamed(brood)
	if !is {
		return brood.ID
	}
	day := shortDay(brood.Berried) + strings.Replace(number, "-", " ", 1)
	if brood.Mother != nil {
		return wording.Sentence(brood.Mother.Name) + ", " + day
	}
	return day
}

// broodLink names a brood, or says "a brood" of one that is not public.
func (p *pen) broodLink(id string) Link {
	if p.broods[id] == nil {
		return Link{Text: "a brood"}
	}
	return Link{p.broodName(p.broods[id]), p.href(p.paths.brood[id])}
}

// broodFirst is the link to a brood at the beginning of a sentence. A name stays as the keeper wrote it.
func (p *pen) broodFirst(id string) Link {
	link := p.broodLink(id)
	if b := p.broods[id]; b != nil && link.Text != id {
		link.Text = wording.Sentence(link.Text)
	}
	return link
}
