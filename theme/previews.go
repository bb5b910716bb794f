package theme

import (
	"fmt"
	"regexp"
	"strings"

	"pleopod/journal"
	"pleopod/journal/digest"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
	"pleopod/theme/figure"
)

// Preview is the picture that other places show beside a link to a page.
type Preview struct {
	Address       string // absolute
	Alt           string
	Width, Height int // pixels
}

// previewDays is how far the timeline on a tank's preview reaches back, previewAhead how far ahead, and previewLanes
// how many of its rows there is room for.
const (
	previewDays  journal.Day = 120
	previewAhead journal.Day = 60
	previewLanes             = 5
)

// showPreviews names one picture for each tank, where the journal has an address, since a preview needs an absolute
// one, and returns how to draw them. The name stays when the picture changes: else an event would change every page of
// its tank.
func (b *book) showPreviews(style []byte, opt Options) (cards []extra) {
	b.previews = map[string]Preview{}
	if b.set.Address == "" {
		return nil
	}
	colours := figureColours(string(style))
	eachTank(b, func(t *forecast.Tank) {
		id := t.Tank.ID
		path := "previews/" + strings.TrimSuffix(strings.TrimPrefix(b.paths.tank[id], "tanks/"), ".html") + ".png"
		alt := fmt.Sprintf("The broods of %s on a calendar up to %s, with the temperature of the water.",
			b.tankName(id), wording.Date(b.asOf))
		b.previews[id] = Preview{b.set.Address + path, alt, figure.CardWidth, figure.CardHeight}
		cards = append(cards, extra{path, func() ([]byte, error) {
			return b.press.card(b.previewFigure(t), b.set.Title, colours, opt)
		}})
	})
	return cards
}

// card draws a figure as the picture of a preview, or takes it from the shelf.
func (o *Options) card(f figure.Figure, title string, colours map[string]string) ([]byte, error) {
	if o.Shelf == nil {
		return f.Card(title, colours)
	}
	name := "preview-" + digest.Of(o.Version, f, title, colours).String()
	if card := digest.Open(o.Shelf.Get(name)); card != nil {
		return card, nil
	}
	card, err := f.Card(title, colours)
	if err == nil {
		o.Shelf.Put(name, digest.Seal(card))
	}
	return card, err
}

// previewFigure is the last part of a tank's timeline, as much of it as can be read in a small picture.
func (b *book) previewFigure(t *forecast.Tank) figure.Figure {
	f := b.pen("").timeline("preview", t, b.asOf-previewDays, b.asOf+previewAhead)
	f.Title = figure.Drawable(b.tankName(t.Tank.ID))
	if f.Title == "" {
		f.Title = "A tank of small shrimp"
	}
	f.Empty = "Nothing is written about this tank yet"
	if over := len(f.Lanes) - previewLanes; over > 0 {
		f.Lanes = f.Lanes[over:]
	}
	f.Strips, f.Keys = f.Strips[:min(len(f.Strips), 1)], f.Keys[:4]
	return f
}

// preview is the picture of the tank that a page is about. A page about no tank has that of the first that something
// is written about.
func (p *pen) preview() []Preview {
	if found, ok := p.previews[p.tank]; ok {
		return []Preview{found}
	}
	for i := range p.Tanks {
		t := p.Tanks[i].Tank
		if found, ok := p.previews[t.ID]; ok && len(t.Events) > 0 {
			return []Preview{found}
		}
	}
	return nil
}

var (
	figureVariable = regexp.MustCompile(`--fig-([a-z]+): (?:var\(--([a-z]+)\)|(#[0-9a-f]{3,6}));`)
	styleVariable  = regexp.MustCompile(`--([a-z]+): (#[0-9a-f]{3,6});`)
)

// figureColours are the colours that a style sheet gives to figures on light pages, by their name without --fig-.
func figureColours(style string) map[string]string {
	light, _, _ := strings.Cut(style, "@media")
	named := map[string]string{}
	for _, pair := range styleVariable.FindAllStringSubmatch(light, -1) {
		named[pair[1]] = pair[2]
	}
	colours := map[string]string{}
	for _, pair := range figureVariable.FindAllStringSubmatch(light, -1) {
		if value := pair[3] + named[pair[2]]; value != "" {
			colours[pair[1]] = value
		}
	}
	return colours
}
