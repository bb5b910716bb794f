package theme

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
)

// TankPage is one tank.
type TankPage struct {
	Frame
	Now         TankNow
	Blank       bool // nothing is written about the tank
	Notices     []NoticeItem
	Ended       []NoticeItem // notices of earlier days, the latest
	Timeline    Drawing
	Population  Drawing
	Numbers     []Fact
	Evidence    []string
	Generations []GenerationLine
	Grades      []Fact
	Side        bool // there is a page that sets the tanks side by side
	Ages        Drawing
	HasAges     bool
	Growth      Drawing
	GrowthNote  string
	HasGrowth   bool
	WaterFacts  []Fact
	Water       string // address of the page of the water
	Ledger      []LedgerLine
	LedgerSum   string
	About       []Fact
	Broods      []BroodLine
	Shrimp      []Link
	Photos      []Photo
	Entries     []EntryLine
	Earlier     string // address of the timelines of earlier years, or ""
	Card        string // address of the card to print
	Due         []DueItem
	Cautions    []string
}

// LedgerLine is one line of the stock ledger.
type LedgerLine struct {
	Day    Moment
	Entry  string // address of the entry
	Change string
	Words  []Link
}

// tankEnded is how many notices of earlier days a tank's page lists.
const tankEnded = 6

func (p *pen) tankPage(t *forecast.Tank) page {
	out := &TankPage{Now: p.tankNow(t), Blank: len(t.Tank.Events) == 0, About: p.about(t),
		Card: p.href(p.cardPath(t.Tank.ID)), Water: p.href(p.waterPath(t.Tank.ID))}
	if !out.Blank {
		p.fillTank(out, t)
	}
	p.tank = t.Tank.ID
	out.Frame = p.newFrame(p.tankName(t.Tank.ID), plain(out.Now.Sentence))
	return out
}

// fillTank fills what needs a record.
func (p *pen) fillTank(out *TankPage, t *forecast.Tank) {
	id := t.Tank.ID
	from, to := p.stretch(t)
	out.Notices = p.notices(func(n forecast.Notice) bool { return n.Tank == id })
	out.Ended = p.endedNotices(func(n forecast.Notice) bool { return n.Tank == id })
	out.Ended = out.Ended[:min(len(out.Ended), tankEnded)]
	out.Timeline = p.drawFigure(p.timeline("timeline", t, from, to))
	if p.hasYears(t) {
		out.Earlier = p.href(p.yearsPath(id))
	}
	out.Population = p.drawFigure(p.population(t))
	out.Numbers = append(p.populationFacts(t), p.founderFacts(t)...)
	out.Evidence = t.Population.Evidence
	out.Generations, out.Grades, out.Side = generationLines(t), gradeFacts(&t.Population), p.compared()
	if f, ok := p.pyramid(t); ok {
		out.Ages, out.HasAges = p.drawFigure(f), true
	}
	if slices.ContainsFunc(t.Growth, func(g forecast.Growth) bool { return len(g.Points) > 0 || g.Fitted }) {
		out.Growth, out.GrowthNote, out.HasGrowth = p.drawFigure(p.growth("growth", "Body length", t, nil)),
			p.growthNote(t), true
	}
	due := slices.DeleteFunc(p.due(120), func(i DueItem) bool { return i.tank != id || i.Past })
	out.Due = due[:min(len(due), cardDue)]
	for i := range out.Due {
		out.Due[i].Here = false
	}
	out.WaterFacts = p.waterNow(t)
	out.Ledger, out.LedgerSum = p.ledger(t)
	out.Cautions = cautionsFor(leavings(t.Tank))
	entries := p.entriesOf(id)
	out.Entries = p.newest(entries, 8)
	out.Photos = p.photosOf(entries)
	for _, s := range p.Colony.Shrimp {
		if s.Tank == id && s.Gone == 0 {
			out.Shrimp = append(out.Shrimp, p.shrimpLink(s.Name))
		}
	}
}

// leavings are the events of the ledger.
func leavings(t *colony.Tank) []*journal.Event {
	var events []*journal.Event
	for _, line := range t.Ledger {
		events = append(events, line.Event)
	}
	return events
}

// entriesOf returns the entries about a tank, oldest first.
func (b *book) entriesOf(tank string) []*journal.Entry {
	var out []*journal.Entry
	for _, e := range b.entries {
		if slices.Contains(tanksOf(e), tank) {
			out = append(out, e)
		}
	}
	return out
}

// growthNote says whether a tank's curves are its own.
func (p *pen) growthNote(t *forecast.Tank) string {
	var own, why []string
	for _, g := range t.Growth {
		name := sexLook(g.Sex).name
		switch {
		case g.Sex == "":
		case g.Fitted:
			own = append(own, fmt.Sprintf("%s: fitted to %s, %s when mature", name,
				wording.Count(len(g.Points), "length", "lengths"), p.units.length(g.Curve.Mature)))
		case g.Reason != "":
			why = append(why, name+": "+strings.ToLower(g.Reason[:1])+strings.TrimSuffix(g.Reason[1:], "."))
		}
	}
	switch {
	case len(own) == 0 && len(why) == 0:
		return "Both curves are the species' default."
	case len(own) == 0:
		return "Both curves are the species' default; " + strings.Join(why, "; ") + "."
	}
	return wording.Sentence(strings.Join(append(own, why...), "; ")) + "."
}

// about lists what journal.yaml says of a tank.
func (p *pen) about(t *forecast.Tank) []Fact {
	var facts []Fact
	if t.Tank.Volume.Known {
		facts = append(facts, fact("Volume", p.units.volume(t.Tank.Volume.Value)))
	}
	if t.Tank.Since != 0 {
		facts = append(facts, fact("Since", wording.Date(t.Tank.Since)))
	}
	facts = append(facts, fact("Species", t.Profile.Name))
	if t.Tank.Heater.Known {
		facts = append(facts, fact("Heater", "set to ", p.units.temperature(t.Tank.Heater.Value)))
	}
	if t.Tank.Capacity.Known {
		facts = append(facts, fact("Room for", wording.Number(t.Tank.Capacity.Value, 0), " grown shrimp"))
	}
	if t.Tank.Fish {
		facts = append(facts, fact("Fish", "yes; many of the young are eaten"))
	}
	if len(t.Tank.Logged) > 0 {
		facts = append(facts, fact("Logger", wording.Count(len(t.Tank.Logged), "day", "days"), " of temperature"))
	}
	for _, r := range t.Tank.Range {
		digits := p.units.Digits(r.Kind)
		facts = append(facts, fact("Wanted "+wording.ReadingName(r.Kind),
			wording.Number(p.units.Reading(r.Kind, r.Low), digits), " to ",
			wording.Number(p.units.Reading(r.Kind, r.High), digits), " ", p.units.ReadingUnit(r.Kind)))
	}
	return facts
}

// ledger lists who came and went, newest first, and sums it up.
func (p *pen) ledger(t *forecast.Tank) ([]LedgerLine, string) {
	var lines []LedgerLine
	came, left := 0, 0
	for _, l := range slices.Backward(t.Tank.Ledger) {
		change := "+" + strconv.Itoa(l.Change)
		if l.Change < 0 {
			change = "−" + strconv.Itoa(-l.Change)
			left -= l.Change
		} else {
			came += l.Change
		}
		lines = append(lines, LedgerLine{moment(l.Day), p.eventHref(l.Event), change, p.ledgerWords(l)})
	}
	return lines, fmt.Sprintf("%d came and %d left, as far as the diary tells. The estimate above also knows of deaths that nobody sees.", came, left)
}

func (p *pen) ledgerWords(l colony.Line) []Link {
	var w phrase
	why := string(l.Why)
	if l.Why == colony.LeftRemoved {
		why = "left"
	}
	w.say(why)
	if l.Cohort != nil {
		w.say(" from ")
		w.link(p.broodLink(l.Cohort.ID))
	}
	if l.Other != "" {
		w.say(map[bool]string{true: " from ", false: " to "}[l.Change > 0])
		w.link(p.tankLink(l.Other))
	}
	var names []Link
	for _, name := range l.Names {
		names = append(names, p.shrimpLink(name))
	}
	if len(names) > 0 {
		w.say(": ")
		w.list(names)
	} else if c := classes(l.Count); l.Count.Sorted && c != "" {
		w.say(": ", c)
	}
	return w
}

// photosOf returns the photos of entries, newest first, each once.
func (p *pen) photosOf(entries []*journal.Entry) []Photo {
	var out []Photo
	seen := map[string]bool{}
	for _, e := range slices.Backward(entries) {
		for _, image := range e.Images {
			found, ok := p.photos[image.Path]
			if !ok || seen[image.Path] {
				continue
			}
			seen[image.Path] = true
			photo := found.photo(p.root, image.Alt)
			photo.Page = p.entryLink(e)
			out = append(out, photo)
		}
	}
	return out
}
