package theme

import (
	"slices"
	"strings"

	"pleopod/journal"
	"pleopod/journal/wording"
)

// EventLine is one event in words.
type EventLine struct {
	Icon  string
	Label string // the kind, for those who do not see the icon
	Words []Link
	Note  string
	Day   Moment // when it differs from the entry's
	Tank  Link   // where it is not clear from the page
}

// labels is what each kind of event is called on the site.
var labels = map[string]string{
	"stocked": "Stocked", "saddled": "Saddled", "moulted": "Moult", "courting": "Courting", "berried": "Berried",
	"eyed": "Eyed eggs", "hatched": "Hatched", "dropped": "Eggs dropped", "sighted": "Young seen", "counted": "Count",
	"measured": "Measured", "graded": "Graded", "died": "Died", "removed": "Left", "moved": "Moved",
	"water": "Water test", "water-change": "Water change", "dosed": "Dosed", "fed": "Fed",
}

// phrase gathers words and links.
type phrase []Link

func (w *phrase) say(parts ...string) {
	if text := strings.Join(parts, ""); text != "" {
		*w = append(*w, Link{Text: text})
	}
}

func (w *phrase) link(links ...Link) { *w = append(*w, links...) }

// list adds links with commas and a final "and".
func (w *phrase) list(links []Link) {
	for i, l := range links {
		switch {
		case i > 0 && i == len(links)-1:
			w.say(" and ")
		case i > 0:
			w.say(", ")
		}
		w.link(l)
	}
}

// plain returns the words without their links.
func plain(links []Link) string {
	var b strings.Builder
	for _, l := range links {
		b.WriteString(l.Text)
	}
	return b.String()
}

// line puts an event in words. Names of what is not public are left out.
func (p *pen) line(e *journal.Event) EventLine {
	kind := e.What.Kind()
	line := EventLine{Icon: p.icon(kind), Label: labels[kind], Words: p.words(e), Note: e.Note}
	if e.Day != e.Entry.Date {
		line.Day = moment(e.Day)
	}
	return line
}

// lines puts the events of an entry in words, up to the as-of day; the tank is named where the entry has several.
func (p *pen) lines(entry *journal.Entry) []EventLine {
	many := len(tanksOf(entry)) > 1
	var out []EventLine
	for i := range entry.Events {
		e := &entry.Events[i]
		if e.Day > p.asOf {
			continue
		}
		line := p.line(e)
		if many {
			line.Tank = p.tankLink(e.Tank)
		}
		out = append(out, line)
	}
	return out
}

// tanksOf returns the tanks that an entry is about, in the order of mention.
func tanksOf(entry *journal.Entry) []string {
	tanks := slices.Clone(entry.Tanks)
	for _, e := range entry.Events {
		if e.Tank != "" && !slices.Contains(tanks, e.Tank) {
			tanks = append(tanks, e.Tank)
		}
	}
	return tanks
}

func (p *pen) words(e *journal.Event) []Link {
	var w phrase
	switch what := e.What.(type) {
	case *journal.Stocked:
		p.stocked(&w, what)
	case *journal.Saddled:
		p.who(&w, what.Shrimp, "female", "females")
		w.say(" with eggs in the ovaries")
	case *journal.Moulted:
		p.moulted(&w, what)
	case *journal.Courting:
		w.say("males swimming restlessly through the tank")
	case *journal.Berried:
		p.berried(&w, what, e)
	case *journal.Sighted:
		w.say(wording.Count(what.Shrimplets, "shrimplet", "shrimplets"), " seen")
		p.ofBrood(&w, what.Brood)
	case *journal.Eyed, *journal.Hatched, *journal.Dropped:
		p.broodEvent(&w, e)
	case *journal.Died, *journal.Removed, *journal.Moved:
		p.leaving(&w, e)
	case *journal.Counted, *journal.Measured, *journal.Graded:
		p.looking(&w, e)
	default:
		p.care(&w, e)
	}
	return w
}

// who names the shrimp an event is about where all their names are public, and counts them otherwise.
func (p *pen) who(w *phrase, who journal.Who, one, other string) {
	var links []Link
	for _, name := range who.Names {
		if p.shrimp[name] != nil {
			links = append(links, p.shrimpLink(name))
		}
	}
	if len(links) > 0 && len(links) == len(who.Names) {
		w.list(links)
		return
	}
	if who.Count.Sorted {
		w.say(headCount(who.Count))
		return
	}
	w.say(wording.Count(who.Count.Total, one, other))
}

func (p *pen) ofBrood(w *phrase, id string) {
	if id == "" {
		return
	}
	w.say(" of ")
	w.link(p.broodLink(id))
}

func (p *pen) stocked(w *phrase, what *journal.Stocked) {
	w.say(headCount(what.Shrimp), " joined")
	if what.Source != "" {
		w.say(", from ", what.Source)
	}
	if what.Line != "" {
		w.say(", line ", what.Line)
	}
	if what.Age.Known {
		w.say(", about ", age(whole(what.Age.Value)), " old")
	}
	if what.Length.Known {
		w.say(", ", p.units.length(what.Length.Value), " long")
	}
	switch {
	case what.Age.Known:
	case what.Length.Known:
		w.say("; age not known, taken from the length")
	default:
		w.say("; age not known, taken as 3 to 7 months")
	}
}

func (p *pen) moulted(w *phrase, what *journal.Moulted) {
	switch {
	case what.Failed:
		w.say("a moult that failed: ")
		p.who(w, what.Shrimp, "shrimp", "shrimp")
	case len(what.Shrimp.Names) > 0:
		p.who(w, what.Shrimp, "shrimp", "shrimp")
		w.say(" moulted")
	default:
		w.say(wording.Count(what.Shrimp.Count.Total, "shed shell", "shed shells"), " found")
	}
}

func (p *pen) berried(w *phrase, what *journal.Berried, e *journal.Event) {
	p.who(w, what.Shrimp, "female", "females")
	w.say(" carrying eggs")
	if broods := p.openedBy(e); len(broods) > 0 {
		w.say(": ")
		w.list(broods)
	}
	if what.Eggs.Known {
		w.say(", about ", wording.Count(what.Eggs.Value, "egg", "eggs"))
	}
	if what.LastClear != 0 {
		w.say(", last seen without on ", wording.Date(what.LastClear))
	}
}

// openedBy returns links to the broods that an event opened.
func (p *pen) openedBy(e *journal.Event) []Link {
	var links []Link
	for _, b := range p.opened[e] {
		links = append(links, p.broodLink(b))
	}
	return links
}

func (p *pen) broodEvent(w *phrase, e *journal.Event) {
	switch what := e.What.(type) {
	case *journal.Eyed:
		w.say("eyes visible in the eggs")
		p.ofBrood(w, p.broodOf(e, what.Brood))
	case *journal.Hatched:
		if what.Shrimplets.Known {
			w.say(wording.Count(what.Shrimplets.Value, "shrimplet", "shrimplets"), " seen, ")
		}
		p.ofHatch(w, p.broodOf(e, what.Brood))
		if what.LastCarried != 0 {
			w.say(", still carried on ", wording.Date(what.LastCarried))
		}
	case *journal.Dropped:
		if what.Eggs.Known {
			w.say(wording.Count(what.Eggs.Value, "egg", "eggs"), " lost")
		} else {
			w.say("all eggs lost")
		}
		p.ofBrood(w, p.broodOf(e, what.Brood))
		if what.Reason != "" {
			w.say(": ", what.Reason)
		}
	}
}

func (p *pen) ofHatch(w *phrase, id string) {
	if id == "" {
		w.say("a brood hatched")
		return
	}
	w.link(p.broodLink(id))
	w.say(" hatched")
}

// broodOf returns the brood an event is about: as written, else the one that the replay found.
func (p *pen) broodOf(e *journal.Event, written string) string {
	if written != "" {
		return written
	}
	if ids := p.concerned[e]; len(ids) > 0 {
		return ids[0]
	}
	return ""
}

func (p *pen) leaving(w *phrase, e *journal.Event) {
	switch what := e.What.(type) {
	case *journal.Died:
		p.who(w, what.Shrimp, "shrimp", "shrimp")
		w.say(" found dead")
		if what.Cause != "" {
			w.say(": ", what.Cause)
		}
	case *journal.Removed:
		p.who(w, what.Shrimp, "shrimp", "shrimp")
		w.say(map[journal.Reason]string{
			journal.Sold: " sold", journal.Given: " given away", journal.Culled: " culled",
			journal.MovedOut: " moved out",
		}[what.Reason])
		if what.Reason == "" {
			w.say(" left")
		}
		if what.To != "" {
			w.say(", to ", what.To)
		}
	case *journal.Moved:
		p.who(w, what.Shrimp, "shrimp", "shrimp")
		w.say(" moved from ")
		w.link(p.tankLink(e.Tank))
		w.say(" to ")
		w.link(p.tankLink(what.To))
	}
}

// methodWords says how a count was made.
var methodWords = map[journal.Method]string{
	journal.Glance: "at a glance", journal.Careful: "counted carefully", journal.Emptied: "with the tank emptied",
}

func (p *pen) looking(w *phrase, e *journal.Event) {
	switch what := e.What.(type) {
	case *journal.Counted:
		w.say(headCount(what.Shrimp), ", ", methodWords[what.Method])
	case *journal.Measured:
		if what.Sex != "" {
			w.say(string(what.Sex), ": ")
		}
		for i, mm := range what.Lengths {
			if i > 0 {
				w.say(", ")
			}
			if i < len(what.Names) && p.shrimp[what.Names[i]] != nil {
				w.link(p.shrimpLink(what.Names[i]))
				w.say(" ")
			}
			w.say(p.units.length(mm))
		}
		p.ofBrood(w, what.Brood)
		if what.HatchedOn != 0 {
			w.say(", hatched ", wording.Date(what.HatchedOn))
		}
	case *journal.Graded:
		p.graded(w, what)
	}
}

func (p *pen) graded(w *phrase, what *journal.Graded) {
	var parts []string
	for i, n := range what.Counts {
		if n > 0 && i < len(p.set.Grades) {
			parts = append(parts, wording.Count(n, p.set.Grades[i], p.set.Grades[i]))
		}
	}
	w.say(wording.List(parts))
	if what.Sex != "" {
		w.say(" (", string(what.Sex), ")")
	}
	p.ofBrood(w, what.Brood)
}

func (p *pen) care(w *phrase, e *journal.Event) {
	switch what := e.What.(type) {
	case *journal.WaterTest:
		w.say(p.readings(what.Readings))
	case *journal.WaterChange:
		p.waterChange(w, what)
	case *journal.Dosed:
		w.say(strings.TrimSpace(what.Amount + " " + what.Substance))
	case *journal.Fed:
		w.say(what.Food)
	}
}

func (p *pen) readings(readings []journal.Reading) string {
	var parts []string
	for _, kind := range journal.ReadingKinds() {
		if r, ok := journal.ReadingOf(readings, kind); ok {
			parts = append(parts, shortName(kind)+" "+p.units.amount(r))
		}
	}
	return strings.Join(parts, ", ")
}

func (p *pen) waterChange(w *phrase, what *journal.WaterChange) {
	switch {
	case what.Share.Known:
		w.say(wording.Number(what.Share.Value*100, 0), " % of the water changed")
	case what.Volume.Known:
		w.say(p.units.volume(what.Volume.Value), " of water changed")
	}
	if what.Temperature.Known {
		w.say(", new water at ", p.units.temperature(what.Temperature.Value))
	}
	if len(what.With) > 0 {
		w.say(", new water: ", p.readings(what.With))
	}
}
