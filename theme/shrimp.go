package theme

import (
	"fmt"
	"slices"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/wording"
	"pleopod/theme/figure"
)

// ShrimpPage is the life line of one named animal.
type ShrimpPage struct {
	Frame
	Name    string
	Summary []Link
	Life    Drawing
	Facts   []Fact
	Events  []LifeEvent
	Broods  []BroodLine
	Photos  []Photo
}

// LifeEvent is one event in an animal's life.
type LifeEvent struct {
	Day   Moment
	Line  EventLine
	Entry Link
}

// ShrimpsPage lists the named animals.
type ShrimpsPage struct {
	Frame
	Here, Gone []ShrimpLine
}

// ShrimpLine is one animal in the list.
type ShrimpLine struct {
	Shrimp Link
	Words  string
	Tank   Link
}

func (p *pen) shrimpsPage() page {
	out := &ShrimpsPage{}
	for _, s := range p.Colony.Shrimp {
		line := ShrimpLine{Shrimp: p.shrimpLink(s.Name), Words: p.shrimpWords(s), Tank: p.tankLink(s.Tank)}
		if s.Gone == 0 {
			out.Here = append(out.Here, line)
		} else {
			out.Gone = append(out.Gone, line)
		}
	}
	out.Frame = p.newFrame("Shrimp with names",
		wording.Sentence(several(len(p.Colony.Shrimp), "shrimp has", "shrimp have"))+" a name in this diary.")
	return out
}

// shrimpWords says in a few words who an animal is.
func (p *pen) shrimpWords(s *colony.Shrimp) string {
	words := string(s.Sex)
	if words == "" {
		words = "sex not known"
	}
	if s.Cohort != nil {
		words += ", hatched " + wording.Date(s.Cohort.Hatched)
	}
	if n := len(s.Broods); n > 0 {
		words += ", " + several(n, "brood", "broods")
	}
	if s.Gone != 0 {
		words += ", until " + wording.Date(s.Gone)
	}
	return words
}

func (p *pen) shrimpPage(s *colony.Shrimp) page {
	out := &ShrimpPage{Name: wording.Sentence(s.Name)}
	var w phrase
	w.say(wording.Sentence(p.shrimpWords(s)), "; first named on ", wording.Date(s.First.Day), " in ")
	w.link(p.tankLink(s.First.Tank))
	w.say(".")
	out.Summary = w
	if s.Gone == 0 {
		out.Facts = append(out.Facts, Fact{"Lives in", []Link{p.tankLink(s.Tank)}})
		if n := len(s.Events); n > 0 {
			out.Facts = append(out.Facts, fact("Last seen", wording.Date(s.Events[n-1].Day)))
		}
	}
	if s.Cohort != nil {
		out.Facts = append(out.Facts, Fact{"Hatched from",
			[]Link{p.broodFirst(s.Cohort.ID), {Text: ", " + age(int(p.asOf-s.Cohort.Hatched)) + " ago"}}})
	}
	out.Facts = append(out.Facts, p.ownLengths(s)...)
	var entries []*journal.Entry
	for _, e := range slices.Backward(s.Events) {
		out.Events = append(out.Events, LifeEvent{Day: moment(e.Day), Line: p.line(e), Entry: p.entryLink(e.Entry)})
		if !slices.Contains(entries, e.Entry) {
			entries = append(entries, e.Entry)
		}
	}
	out.Photos = p.photosNaming(s.Name, entries)
	out.Life = p.drawFigure(p.life(s))
	p.tank = s.Tank
	out.Frame = p.newFrame(out.Name, plain(out.Summary))
	return out
}

// photosNaming returns the photos of entries whose words name an animal.
func (p *pen) photosNaming(name string, entries []*journal.Entry) []Photo {
	return slices.DeleteFunc(p.photosOf(entries), func(photo Photo) bool { return !holdsWord(photo.Alt, name) })
}

// ownLengths lists the lengths measured of an animal.
func (p *pen) ownLengths(s *colony.Shrimp) []Fact {
	var words []string
	for _, t := range p.Colony.Tanks {
		for _, l := range t.Lengths {
			if l.Name == s.Name {
				words = append(words, p.units.length(l.MM)+" on "+wording.Date(l.Day))
			}
		}
	}
	if len(words) == 0 {
		return nil
	}
	return []Fact{fact("Measured", wording.List(words))}
}

// life draws an animal's life line: a row for where it lived, and one for each brood.
func (p *pen) life(s *colony.Shrimp) figure.Figure {
	end := p.asOf
	if s.Gone != 0 {
		end = s.Gone
	}
	begin := s.First.Day
	if s.Cohort != nil {
		begin = min(begin, s.Cohort.Hatched)
	}
	f := figure.Figure{
		ID: "life", Title: "Life line of " + wording.Sentence(s.Name),
		Description: "A row for the animal itself with what was noted of it, and a row for each of its broods.",
		X:           figure.Axis{Kind: figure.Calendar, Min: float64(begin - 7), Max: float64(max(end, begin+30) + 14)},
		Wordless:    true, // words would lie on the marks
		Keys: append([]figure.Key{
			{Name: "known life", Tone: figure.Sand}, {Name: "moult", Tone: figure.Moss, Shape: figure.Ring},
			{Name: "other event", Tone: figure.Stone, Shape: figure.Dot},
		}, broodKeys()...),
	}
	own := figure.Lane{Label: wording.Sentence(s.Name),
		Spans: []figure.Span{{From: float64(begin), To: float64(end), Tone: figure.Sand,
			Label: fmt.Sprintf("known from %s to %s", wording.Date(begin), wording.Date(end))}}}
	for _, e := range s.Events {
		mark := figure.LaneMark{X: float64(e.Day), Tone: figure.Stone, Shape: figure.Dot,
			Label: labels[e.What.Kind()], Link: p.eventHref(e)}
		switch e.What.(type) {
		case *journal.Moulted:
			mark.Tone, mark.Shape = figure.Moss, figure.Ring
		case *journal.Berried:
			mark.Tone, mark.Shape = figure.Eggs, figure.Dot
		}
		own.Marks = append(own.Marks, mark)
	}
	f.Lanes = []figure.Lane{own}
	for _, brood := range s.Broods {
		if b := p.broods[brood.ID]; b != nil {
			if lane, ok := p.broodLane(b, begin-7, max(end, begin+30)+14); ok {
				f.Lanes = append(f.Lanes, lane)
			}
		}
	}
	return f
}
