package theme

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"pleopod/journal/care"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
)

// HomePage is the first page.
type HomePage struct {
	Frame
	Words     string
	Glance    []Fact // what a keeper wants to know first
	Tanks     []TankNow
	Ruler     Ruler
	Due       []DueItem // of this week, and at least the next few
	More      string    // how many more things are due, or ""
	Notices   []NoticeItem
	MoreToSee string // how many more notices stand, or ""
	Newest    []EntryLine
	Blank     bool   // nothing is written about any tank yet
	Describe  bool   // the volume of a tank is not written
	FirstTank string // id to write in the first entry, where the journal has several tanks
}

// homeDue, homeNewest and homeNotices are how many things the first page lists; of what is due at most homeDueMost, where
// a week has as many.
const (
	homeDue     = 6
	homeDueMost = 12
	homeNewest  = 6
	homeNotices = 3
)

func (p *pen) homePage() page {
	out := &HomePage{Blank: true, Newest: p.newest(p.entries, homeNewest)}
	for i := range p.Tanks {
		t := &p.Tanks[i]
		out.Tanks = append(out.Tanks, p.tankNow(t))
		out.Blank = out.Blank && unwritten(t)
		out.Describe = out.Describe || !t.Tank.Volume.Known
	}
	if !out.Blank {
		items := p.due(120)
		shown := homeDue
		for shown < min(len(items), homeDueMost) && items[shown].likely < p.asOf+care.Days {
			shown++
		}
		out.Due = items[:min(len(items), shown)]
		if more := len(items) - len(out.Due); more > 0 {
			out.More = fmt.Sprintf("and %s more within four months", inWords(more))
		}
		out.Ruler = p.rulerAhead()
		notices := p.notices(func(forecast.Notice) bool { return true })
		out.Notices = notices[:min(len(notices), homeNotices)]
		if more := len(notices) - len(out.Notices); more > 0 {
			out.MoreToSee = inWords(more) + " more"
		}
		out.Glance = p.glance(items, notices)
	}
	if len(p.Tanks) > 1 {
		out.FirstTank = p.Tanks[0].Tank.ID
	}
	out.Words = p.whose()
	out.Frame = p.newFrame(p.set.Title, out.Words)
	return out
}

// whose says to a stranger what the diary is about: whose tanks, which shrimp, since when.
func (p *pen) whose() string {
	words := "The diary of " + several(len(p.Tanks), "tank", "tanks")
	var species []string
	for i := range p.Tanks {
		if name := p.Tanks[i].Profile.Name; !slices.Contains(species, name) {
			species = append(species, name)
		}
	}
	words += " of " + strings.Join(species, " and ")
	if p.set.Keeper != "" {
		words += ", kept by " + p.set.Keeper
	}
	if len(p.entries) > 0 {
		words += " since " + wording.Date(p.entries[0].Date)
	}
	return words + "."
}

// holdsWord reports whether a text holds a name as a word of its own.
func holdsWord(text, name string) bool {
	inside := func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }
	text, name = strings.ToLower(text), strings.ToLower(name)
	for at := 0; ; {
		i := strings.Index(text[at:], name)
		if i < 0 || name == "" {
			return false
		}
		before, after := text[:at+i], text[at+i+len(name):]
		if !inside(lastRune(before)) && !inside(firstRune(after)) {
			return true
		}
		at += i + len(name)
	}
}

func firstRune(s string) rune {
	for _, r := range s {
		return r
	}
	return ' '
}

func lastRune(s string) rune {
	last := ' '
	for _, r := range s {
		last = r
	}
	return last
}
