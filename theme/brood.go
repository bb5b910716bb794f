package theme

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
	"pleopod/theme/figure"
)

// BroodPage is one brood and the cohort that hatched from it.
type BroodPage struct {
	Frame
	Name      string
	State     string
	Summary   []Link
	Row       EggRow
	HasRow    bool
	KeyDays   []KeyDay
	Doubts    []string
	Window    []Fact // how sure
	Since     ChangePart
	HasSince  bool
	Narrowing Drawing
	Steps     []Step
	HasSteps  bool
	Cohort    CohortPart
	HasCohort bool
	Facts     []Fact
	Entries   []EntryLine
	Photos    []Photo
	Notices   []NoticeItem
	Ended     []NoticeItem // notices of earlier days
}

// ChangePart says what moved the window since the day before.
type ChangePart struct {
	Words  string
	Causes []string // what became known, and what it did
}

// KeyDay is a day that matters for a brood or cohort.
type KeyDay struct {
	Icon, Label string
	Day         Moment
	Words       string
	Sure        bool // it happened
}

// Fact is a name and what is so.
type Fact struct {
	Name  string
	Words []Link
}

func fact(name string, words ...string) Fact {
	var w phrase
	w.say(words...)
	return Fact{name, w}
}

// Step is one day on which the window changed.
type Step struct {
	Day    Moment
	Window string
	Width  string
	Why    string
}

// CohortPart is the young of a brood.
type CohortPart struct {
	Age     string
	Done    string // share of the way to maturity
	Row     EggRow
	KeyDays []KeyDay
	Facts   []Fact
	Growth  Drawing
	HasPlot bool
	Members []Link
}

// stateWords says how a brood stands.
var stateWords = map[forecast.BroodState]string{
	forecast.Carried: "carried", forecast.Overdue: "carried, later than expected", forecast.Hatched: "hatched",
	forecast.Unseen: "taken as hatched unseen", forecast.Dropped: "lost", closed: "no longer followed here",
}

func (p *pen) broodPage(b *forecast.Brood) page {
	out := &BroodPage{Name: p.broodTitle(b), State: stateWords[b.State], Summary: p.broodSummary(b),
		KeyDays: p.broodDays(b), Facts: p.broodFacts(b)}
	if b.Open() {
		out.Row, out.HasRow = p.eggRow(b), true
		out.Doubts = b.Expected().Doubts
		out.Window = p.howSure(b)
		out.Notices = p.notices(func(n forecast.Notice) bool { return n.Brood == b.ID })
	}
	out.Ended = p.endedNotices(func(n forecast.Notice) bool { return n.Brood == b.ID })
	if b.Change != nil {
		out.Since, out.HasSince = changePart(b.Change), true
	}
	if len(b.History) > 1 {
		out.Steps, out.HasSteps = p.steps(b), true
		if f := p.narrowing(b); len(f.Lines[0].Points) > 2 { // two days are told faster than drawn
			out.Narrowing = p.drawFigure(f)
		}
	}
	if c := p.cohorts[b.ID]; c != nil {
		out.Cohort, out.HasCohort = p.cohortPart(c), true
	}
	var entries []*journal.Entry
	for _, e := range b.Events {
		if !slices.Contains(entries, e.Entry) {
			entries = append(entries, e.Entry)
		}
	}
	if !slices.Contains(entries, b.Opened.Entry) {
		entries = append([]*journal.Entry{b.Opened.Entry}, entries...)
	}
	out.Entries = p.newest(entries, len(entries))
	out.Photos = p.photosOf(entries)
	title := out.Name
	if _, is := unnamed(b); !is {
		title = "Brood " + b.ID
	}
	p.tank = b.Tank()
	out.Frame = p.newFrame(title, plain(out.Summary))
	return out
}

// broodSummary tells a brood's story in a sentence or two.
func (p *pen) broodSummary(b *forecast.Brood) []Link {
	var w phrase
	if b.Mother != nil {
		w.link(p.shrimpLink(b.Mother.Name))
		w.say(" was seen carrying eggs on ")
	} else {
		w.say("Seen carried on ")
	}
	w.say(wording.Date(b.Berried), " in ")
	w.link(p.tankLink(b.TankOn(b.Berried)))
	switch b.State {
	case forecast.Hatched:
		w.say(fmt.Sprintf("; hatched on %s, after %s.", wording.Date(b.Hatched),
			wording.Count(int(b.Hatched-b.Berried), "day", "days")))
	case forecast.Dropped:
		w.say("; lost on ", wording.Date(b.Dropped))
		if b.DropReason != "" {
			w.say(": ", b.DropReason)
		}
		w.say(".")
	case forecast.Unseen:
		w.say("; nothing was written of their end, and they are taken as hatched unseen about ", wording.Date(b.Foreseen.P50), ".")
	case closed:
		w.say(". This brood is no longer followed here.")
	default:
		w.say(fmt.Sprintf(". %s of development is done, ", wording.Sentence(wording.Percent(b.Progress))))
		w.say(p.hatchWords(b), ".")
	}
	return w
}

// broodDays lists the key days of a brood, those behind and those ahead.
func (p *pen) broodDays(b *forecast.Brood) []KeyDay {
	days := []KeyDay{{Icon: p.icon("berried"), Label: labels["berried"], Day: moment(b.Berried),
		Words: "seen carrying eggs", Sure: true}}
	if b.LastClear != 0 {
		days[0].Words += ", last seen without on " + wording.Date(b.LastClear)
	}
	window := b.Expected()
	switch {
	case b.Eyed != 0:
		days = append(days, KeyDay{Icon: p.icon("eyed"), Label: "Eyes", Day: moment(b.Eyed), Words: "seen in the eggs", Sure: true})
	case b.State == forecast.Carried && b.EyedFrom != 0:
		days = append(days, KeyDay{Icon: p.icon("eyed"), Label: "Eyes", Day: moment(b.EyedFrom),
			Words: "the likeliest day for eyes to show"})
	}
	switch {
	case b.State == forecast.Hatched:
		days = append(days, KeyDay{Icon: p.icon("hatched"), Label: "Hatched", Day: moment(b.Hatched), Sure: true})
	case b.State == forecast.Dropped:
		days = append(days, KeyDay{Icon: p.icon("dropped"), Label: "Lost", Day: moment(b.Dropped), Sure: true})
	case b.State == forecast.Overdue:
		days = append(days, KeyDay{Icon: p.icon("window"), Label: "Window closed", Day: moment(b.LateFrom),
			Words: "of 20 such broods 19 have hatched before this day; look at her belly"})
	case b.State == forecast.Unseen:
		days = append(days, KeyDay{Icon: p.icon("hatched"), Label: "Hatched unseen", Day: moment(b.Foreseen.P50), Words: "the likeliest day; nothing was written of their end"})
	case b.Open() && dated(window):
		days = append(days,
			KeyDay{Icon: p.icon("window"), Label: "Window opens", Day: moment(b.Hatch.P05),
				Words: "a hatch before this day would be a surprise (5\u00a0%)"},
			KeyDay{Icon: p.icon("hatched"), Label: "Likeliest", Day: moment(b.Hatch.P50),
				Words: "as likely before as after"},
			KeyDay{Icon: p.icon("window"), Label: "Window closes", Day: moment(b.Hatch.P95),
				Words: "a hatch after this day would be a surprise (5\u00a0%)"},
			KeyDay{Icon: p.icon("sighted"), Label: "Young in sight", Day: moment(b.Hatch.P50 + 4),
				Words: "the young hide for their first three to four days (common practice)"})
	case b.Open():
		days = append(days, KeyDay{Icon: p.icon("window"), Label: "No date", Words: window.Reason})
	}
	sortByISO(days)
	return days
}

// howSure puts the window of a brood in plain words, narrow to wide.
func (p *pen) howSure(b *forecast.Brood) []Fact {
	if window := b.Expected(); !dated(window) {
		return []Fact{fact("Why there is no date", wording.Sentence(window.Reason))}
	}
	facts := []Fact{
		fact("Half", "as likely inside as outside ", span(b.Hatch.P25, b.Hatch.P75)),
		fact("8 in 10", span(b.Hatch.P10, b.Hatch.P90)),
		fact("9 in 10", span(b.Hatch.P05, b.Hatch.P95)),
	}
	if b.AltP50 != 0 {
		apart := int(math.Abs(float64(b.AltP50 - b.Hatch.P50)))
		facts = append(facts, fact("A second model", "puts the middle on ", wording.Date(b.AltP50), ", ",
			map[bool]string{true: "the same day", false: wording.Count(apart, "day", "days") + " apart"}[apart == 0]))
	}
	return facts
}

func (p *pen) broodFacts(b *forecast.Brood) []Fact {
	var facts []Fact
	if _, is := unnamed(b); is {
		facts = append(facts, fact("In entries called", b.ID))
	}
	if b.Celsius != 0 {
		facts = append(facts, fact("Water while carried", p.units.temperature(b.Celsius), ", give or take ",
			wording.Number(p.units.degreeSpan(b.CelsiusSD), 1), " ", p.units.ReadingUnit(journal.Temperature)))
	}
	if b.Mother != nil {
		facts = append(facts, Fact{"Mother", []Link{p.shrimpLink(b.Mother.Name)}})
	}
	facts = append(facts, fact("Generation", strconv.Itoa(b.Generation)))
	if b.Eggs.Known {
		facts = append(facts, fact("Eggs", "about ", strconv.Itoa(b.Eggs.Value)))
	}
	if b.EggsLost > 0 {
		facts = append(facts, fact("Eggs lost on the way", strconv.Itoa(b.EggsLost)))
	}
	if b.Shrimplets.Known {
		facts = append(facts, fact("Young seen at the hatch", strconv.Itoa(b.Shrimplets.Value)))
	}
	for _, stay := range b.Stays[1:] {
		facts = append(facts, Fact{"Moved", []Link{{Text: wording.Date(stay.From) + " to "}, p.tankLink(stay.Tank)}})
	}
	for _, left := range p.Forecast.Learning.Incubation.LeftOut {
		if reason, own := strings.CutPrefix(left, b.ID+": "); own {
			facts = append(facts, fact("Left out of what was learned",
				wording.Sentence(strings.TrimSuffix(reason, ".")), "."))
		}
	}
	if b.State == forecast.Hatched && dated(b.Foreseen) {
		facts = append(facts, fact("Foreseen on the berried day", span(b.Foreseen.P10, b.Foreseen.P90),
			", likeliest ", wording.Date(b.Foreseen.P50), ": ", p.verdict(b)))
	}
	return facts
}

// verdict compares the first prediction of a brood with what came.
func (p *pen) verdict(b *forecast.Brood) string {
	off := int(b.Hatched - b.Foreseen.P50)
	words := wording.Count(off, "day", "days") + " late"
	switch {
	case off == 0:
		words = "on the day"
	case off < 0:
		words = wording.Count(-off, "day", "days") + " early"
	}
	if b.Hatched >= b.Foreseen.P10 && b.Hatched <= b.Foreseen.P90 {
		return words + ", inside the window"
	}
	return words + ", outside the window"
}

// narrowing draws how the window of a brood changed as more was known.
func (p *pen) narrowing(b *forecast.Brood) figure.Figure {
	f := figure.Figure{
		ID: "narrowing", Title: "How the window moved",
		Description: "For each day on which something new was known, the days between which a hatch was 80\u00a0% likely, and the middle, counted from the berried day.",
		X:           figure.Axis{Kind: figure.Calendar, Label: "Known on"},
		Y:           figure.Axis{Label: "Days from berried to hatch"}, Height: 220,
	}
	band := figure.Band{Name: "80\u00a0% window", Tone: figure.Eggs, Faint: true}
	line := figure.Line{Name: "middle", Tone: figure.Eggs}
	for _, s := range b.History {
		if s.P50 == 0 {
			continue
		}
		band.Edges = append(band.Edges, figure.Edge{X: float64(s.Day), Low: float64(s.P10 - b.Berried),
			High: float64(s.P90 - b.Berried)})
		line.Points = append(line.Points, figure.XY{X: float64(s.Day), Y: float64(s.P50 - b.Berried)})
	}
	f.Bands, f.Lines = []figure.Band{band}, []figure.Line{line}
	if b.Eyed != 0 {
		f.Rules = append(f.Rules, figure.Rule{Value: float64(b.Eyed), Label: "eyes seen", Tone: figure.Stone})
	}
	if b.State == forecast.Hatched {
		f.Rules = append(f.Rules, figure.Rule{Value: float64(b.Hatched - b.Berried), Level: true,
			Label: "hatched", Tone: figure.Shrimp})
	}
	return f
}

// changePart puts the comparison of a window with the day before in words.
func changePart(c *forecast.Change) ChangePart {
	var part ChangePart
	from, to := span(c.From.P10, c.From.P90), span(c.To.P10, c.To.P90)
	switch {
	case c.From.P50 != c.To.P50:
		part.Words = fmt.Sprintf("Since %s the likeliest day moved from %s to %s", wording.Date(c.Since),
			wording.Date(c.From.P50), wording.Date(c.To.P50))
	default:
		part.Words = fmt.Sprintf("Since %s the likeliest day has stayed %s", wording.Date(c.Since),
			wording.Date(c.To.P50))
	}
	if from == to {
		part.Words += ", and the 80\u00a0% window " + to + "."
	} else {
		part.Words += ", and the 80\u00a0% window went from " + from + " to " + to + "."
	}
	for _, cause := range c.Causes {
		part.Causes = append(part.Causes, wording.Sentence(cause.Why)+": "+causeWords(cause)+".")
	}
	return part
}

// causeWords says what one cause did to a window.
func causeWords(c forecast.Cause) string {
	var words []string
	if c.Shift != 0 {
		words = append(words, "the likeliest day "+wording.Count(magnitude(c.Shift), "day", "days")+map[bool]string{true: " later", false: " earlier"}[c.Shift > 0])
	}
	if c.Widened != 0 {
		words = append(words, "the window "+wording.Count(magnitude(c.Widened), "day", "days")+map[bool]string{true: " wider", false: " narrower"}[c.Widened > 0])
	}
	if len(words) == 0 {
		return "no change by a whole day"
	}
	return strings.Join(words, ", ")
}

func magnitude(n int) int { return max(n, -n) }

// stepLimit is how many changes of a window a page lists.
const stepLimit = 12

// steps lists the changes of the window that had a reason, the newest first.
func (p *pen) steps(b *forecast.Brood) []Step {
	var out []Step
	for _, s := range slices.Backward(b.History) {
		if s.Why == "" || s.P50 == 0 || len(out) == stepLimit {
			continue
		}
		out = append(out, Step{moment(s.Day), span(s.P10, s.P90),
			wording.Count(int(s.P90-s.P10)+1, "day", "days"), s.Why})
	}
	return out
}

// BroodsPage lists every brood.
type BroodsPage struct {
	Frame
	Open, Done []BroodLine
}

// BroodLine is one brood in the list.
type BroodLine struct {
	Day   Moment
	Brood Link
	Tank  Link
	Icon  string
	State string
	Words string
}

func (p *pen) broodsPage() page {
	out := &BroodsPage{}
	for i := range slices.Backward(p.Broods) {
		b := &p.Broods[i]
		line := BroodLine{Day: moment(b.Berried), Brood: p.broodFirst(b.ID), Tank: p.tankLink(b.Tank()),
			State: stateWords[b.State]}
		switch b.State {
		case forecast.Carried, forecast.Overdue:
			line.Icon = p.icon("berried")
			line.Words = wording.Percent(b.Progress) + " done, " + p.hatchWords(b)
			out.Open = append(out.Open, line)
			continue
		case forecast.Hatched:
			line.Icon = p.icon("hatched")
			line.Words = fmt.Sprintf("on %s, after %s", wording.Date(b.Hatched),
				wording.Count(int(b.Hatched-b.Berried), "day", "days"))
		case forecast.Unseen:
			line.Icon = p.icon("hatched")
			line.Words = "about " + wording.Date(b.Foreseen.P50)
		case forecast.Dropped:
			line.Icon = p.icon("dropped")
			line.Words = "on " + wording.Date(b.Dropped)
		default:
			line.Icon = p.icon("berried")
		}
		out.Done = append(out.Done, line)
	}
	carried := inWords(len(out.Open)) + " of them"
	if len(out.Open) == 0 {
		carried = "none of them"
	}
	out.Frame = p.newFrame("Broods", fmt.Sprintf("%s, %s carried now.", wording.Sentence(several(len(p.Broods), "brood", "broods")), carried))
	return out
}
