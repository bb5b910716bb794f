package theme

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
	"pleopod/journal/water"
	"pleopod/journal/wording"
)

// WaterPage is everything that was tested in the water of one tank.
type WaterPage struct {
	Frame
	Tank     Link
	Blank    bool // the water was never tested
	Latest   []LatestReading
	Ranged   bool // the keeper wants a range of some of them
	Facts    []Fact
	Happened Drawing // what was done and what was found, on the days of the strips
	HasDone  bool
	Strips   []Drawing
	Changed  bool     // dotted lines on the strips mark water changes
	Columns  []string // of Tests, after the day
	Tests    []TestLine
	Notices  []NoticeItem
	Cautions []string
}

// LatestReading is the newest value of one kind of reading.
type LatestReading struct {
	Name   string
	Value  string
	Other  string // the same in the other unit that tests use, or ""
	Day    Moment
	Age    string // how long before the as-of day, or ""
	Wanted string // the keeper's range, or ""
	State  string // "within", "below", "above", or ""
	Step   string // how far it moved since the test before, or ""
	plain  string // the name within a sentence
}

// TestLine is one water test as a row of the table of all of them.
type TestLine struct {
	Day   Moment
	Entry string // address of the entry
	Cells []string
}

// waterPath is the page of a tank's water.
func (b *book) waterPath(id string) string {
	return strings.TrimSuffix(b.paths.tank[id], ".html") + ".water.html"
}

func (p *pen) waterPage(t *forecast.Tank) page {
	out := &WaterPage{Tank: p.tankLink(t.Tank.ID), Blank: len(t.Water) == 0, Cautions: cautionsFor(t.Tank.Events)}
	out.Notices = p.notices(func(n forecast.Notice) bool {
		return n.Tank == t.Tank.ID && slices.ContainsFunc(n.Events, isWater)
	})
	if !out.Blank {
		out.Latest = p.latest(t)
		out.Ranged = slices.ContainsFunc(out.Latest, func(r LatestReading) bool { return r.Wanted != "" })
		out.Facts = p.waterFacts(t)
		p.drawWater(out, t)
		out.Columns, out.Tests = p.testLines(t)
	}
	p.tank = t.Tank.ID
	out.Frame = p.newFrame("Water of "+p.tankName(t.Tank.ID), p.waterLead(t, out.Latest))
	return out
}

// isWater reports whether an event is about the water itself.
func isWater(e *journal.Event) bool {
	switch e.What.(type) {
	case *journal.WaterTest, *journal.WaterChange, *journal.Dosed:
		return true
	}
	return false
}

// waterLead says in one or two sentences how the water stands.
func (p *pen) waterLead(t *forecast.Tank, latest []LatestReading) string {
	if len(t.Water) == 0 {
		return "The water of this tank was not tested yet."
	}
	last := lastTest(t)
	words := fmt.Sprintf("Last tested on %s.", wording.Date(last))
	if last < p.asOf {
		words = fmt.Sprintf("Last tested on %s, %s %s.", wording.Date(last), age(int(p.asOf-last)),
			"before the day of this site")
	}
	var outside []string
	wanted := false
	for _, r := range latest {
		wanted = wanted || r.Wanted != ""
		if r.State == "above" || r.State == "below" {
			outside = append(outside, fmt.Sprintf("%s (%s, %s)", r.plain, r.Value, r.State))
		}
	}
	switch {
	case len(outside) > 0:
		return words + " Outside the range that the keeper wants: " + wording.List(outside) + "."
	case wanted:
		return words + " The newest readings lie within the range that the keeper wants."
	}
	return words
}

// lastTest is the day of the newest water test.
func lastTest(t *forecast.Tank) journal.Day {
	last := journal.Day(0)
	for _, w := range t.Water {
		last = max(last, w.Day)
	}
	return last
}

// ago says how long before the as-of day a day was.
func (p *pen) ago(day journal.Day) string {
	switch days := int(p.asOf - day); days {
	case 0:
		return "today"
	case 1:
		return "the day before"
	default:
		return age(days) + " before"
	}
}

// latest lists the newest value of each kind of reading.
func (p *pen) latest(t *forecast.Tank) []LatestReading {
	var out []LatestReading
	for _, kind := range journal.ReadingKinds() {
		var newest journal.Reading
		day := journal.Day(0)
		for _, w := range t.Water {
			if r, ok := journal.ReadingOf(w.Readings, kind); ok && w.Day >= day {
				newest, day = r, w.Day
			}
		}
		if day == 0 {
			continue
		}
		line := LatestReading{Name: wording.Sentence(wording.ReadingName(kind)),
			plain: wording.ReadingName(kind), Value: p.units.amount(newest), Other: p.units.otherUnit(newest),
			Day: moment(day)}
		if day < p.asOf {
			line.Age = p.ago(day)
		}
		line.Step = p.lastStep(t, newest, day)
		for _, r := range t.Tank.Range {
			if r.Kind == kind {
				line.Wanted, line.State = p.units.span(r), stateOf(newest, r)
			}
		}
		out = append(out, line)
	}
	return out
}

// stateOf says where a reading lies against a range, and "" for an upper limit that may lie on either side of an end.
func stateOf(r journal.Reading, wanted journal.WaterRange) string {
	switch {
	case r.Below && r.Value <= wanted.Low && wanted.Low > 0:
		return "below"
	case r.Below && (wanted.Low > 0 || r.Value > wanted.High):
		return ""
	case r.Value < wanted.Low-1e-9:
		return "below"
	case r.Value > wanted.High+1e-9:
		return "above"
	}
	return "within"
}

// lastStep says how far a reading moved to its newest day.
func (p *pen) lastStep(t *forecast.Tank, newest journal.Reading, day journal.Day) string {
	for _, rate := range slices.Backward(t.Rates) {
		if rate.Kind == newest.Kind && rate.To == day && !newest.Below {
			if rate.Before == rate.After {
				return "unchanged in " + age(int(rate.To-rate.From))
			}
			return p.units.step(rate) + " in " + age(int(rate.To-rate.From))
		}
	}
	return ""
}

// waterNow puts the newest water in words, for the page of the tank.
func (p *pen) waterNow(t *forecast.Tank) []Fact {
	facts := []Fact{p.courseFact(t)}
	if n := len(t.Water); n > 0 {
		test := t.Water[n-1]
		facts = append(facts, fact("Last test", wording.Date(test.Day), ", ", p.ago(test.Day), ": ",
			p.readings(test.Readings)))
	}
	if f, ok := p.ammoniaFact(t); ok {
		facts = append(facts, f)
	}
	return facts
}

// courseFact is the temperature of the past month.
func (p *pen) courseFact(t *forecast.Tank) Fact {
	return fact("Last 30 days", p.units.temperature(t.Celsius), " on average, a single day give or take ",
		wording.Number(p.units.degreeSpan(t.CelsiusSD), 1), " ", p.units.ReadingUnit(journal.Temperature))
}

// waterFacts puts what follows from the tests in words.
func (p *pen) waterFacts(t *forecast.Tank) []Fact {
	facts := []Fact{p.courseFact(t)}
	if f, ok := p.ammoniaFact(t); ok {
		facts = append(facts, f)
	}
	if f, ok := p.solidsFact(t); ok {
		facts = append(facts, f)
	}
	if f, ok := p.ratesFact(t); ok {
		facts = append(facts, f)
	}
	for _, creep := range t.Creep {
		facts = append(facts, p.creepFact(creep))
	}
	return append(facts, p.careFacts(t)...)
}

// ammoniaFact says how much of the newest ammonia is un-ionised, and with which pH and temperature that was found.
func (p *pen) ammoniaFact(t *forecast.Tank) (Fact, bool) {
	var newest *forecast.WaterDay
	for i, w := range t.Water {
		if _, ok := journal.ReadingOf(w.Readings, journal.Ammonia); ok && (newest == nil || w.Day >= newest.Day) {
			newest = &t.Water[i]
		}
	}
	if newest == nil {
		return Fact{}, false
	}
	return fact("Un-ionised ammonia", p.unionisedWords(newest)), true
}

// unionisedWords says what is un-ionised of the ammonia of a test, or why that is not known.
func (p *pen) unionisedWords(w *forecast.WaterDay) string {
	total, _ := journal.ReadingOf(w.Readings, journal.Ammonia)
	on := strings.Replace(p.units.amount(total), "below", "less than", 1) + " in all on " + wording.Date(w.Day)
	if total.Value == 0 && !total.Below {
		return "none: the test of " + wording.Date(w.Day) + " read 0"
	}
	if !w.PH.Known {
		return "not known: " + on + ", and no pH within " + wording.Count(forecast.NearbyPH, "day", "days") + " of that day"
	}
	if !w.Celsius.Known {
		return "not known: " + on + ", and no temperature"
	}
	value := wording.Number(w.UnionisedAmmonia.Value, 4)
	if w.UnionisedAtMost.Known {
		value = "at most " + wording.Number(w.UnionisedAtMost.Value, 4)
	}
	from := "both of that day"
	switch {
	case w.InterpolatedPH && w.EstimatedTemperature:
		from = "the pH drawn from the days around it, the temperature estimated"
	case w.InterpolatedPH:
		from = "the pH drawn from the days around it"
	case w.EstimatedTemperature:
		from = "the temperature estimated"
	}
	return fmt.Sprintf("%s%smg/L of %s, with pH %s and %s (%s). Harm to fish begins at about %v%smg/L; for dwarf shrimp no value is known.",
		value, wording.Joined, on, wording.Number(w.PH.Value, 2), p.units.temperature(w.Celsius.Value), from,
		water.UnionisedCaution, wording.Joined)
}

// solidsFact shows the factor between conductivity and dissolved solids wherever it was used.
func (p *pen) solidsFact(t *forecast.Tank) (Fact, bool) {
	for _, w := range slices.Backward(t.Water) {
		if !w.ConvertedTDS {
			continue
		}
		conductivity, _ := journal.ReadingOf(w.Readings, journal.Conductivity)
		return fact("Dissolved solids", fmt.Sprintf("%s taken as %s%sppm on %s, with the factor %s: a convention of meters, no weighing",
			p.units.amount(conductivity), wording.Number(w.TDS.Value, 0), wording.Joined, wording.Date(w.Day), wording.Number(p.set.TDSFactor, 2))), true
	}
	return Fact{}, false
}

// steady is how many days may lie between two tests whose difference is still called a change from one to the next.
const steady = 14

// ratesFact names the quickest change of each reading that shrimp feel.
func (p *pen) ratesFact(t *forecast.Tank) (Fact, bool) {
	var parts []string
	for _, kind := range []journal.ReadingKind{journal.Temperature, journal.PH, journal.GH, journal.KH, journal.TDS, journal.Conductivity} {
		var fastest forecast.WaterRate
		for _, r := range t.Rates {
			if r.Kind == kind && r.To-r.From <= steady && r.Before != r.After && (fastest.Kind == "" || math.Abs(r.PerWeek()) >= math.Abs(fastest.PerWeek())) {
				fastest = r
			}
		}
		if fastest.Kind != "" {
			parts = append(parts, fmt.Sprintf("%s %s in %s (%s)", shortName(kind), p.units.step(fastest),
				age(int(fastest.To-fastest.From)), span(fastest.From, fastest.To)))
		}
	}
	return fact("Quickest changes", strings.Join(parts, "; ")), len(parts) > 0
}

// creepFact says how a reading creeps beside the water changes, with its 90 % interval, and where that leads.
func (p *pen) creepFact(c forecast.WaterCreep) Fact {
	name := wording.Sentence(shortName(c.Kind)) + " creep"
	low, high := c.PerWeek-1.645*c.SD, c.PerWeek+1.645*c.SD
	digits := p.units.Digits(c.Kind) + 1
	write := func(v float64) string { return wording.Number(p.units.Reading(c.Kind, v), digits) }
	rests := fmt.Sprintf("estimated from %s of the past year and the water changes between them",
		wording.Count(c.Samples, "reading", "readings"))
	if c.Taken > 0 {
		rests += fmt.Sprintf("; the new water of %s had no reading and was taken for that of the note before",
			wording.Count(c.Taken, "change", "changes"))
	}
	if c.Slight() {
		return fact(name, fmt.Sprintf("none that stands out: between %s and %s %s a week beside the water changes (90%s%%); %s", write(low), write(high), p.units.ReadingUnit(c.Kind), wording.Joined, rests))
	}
	way, cause := "rises", "topping up with hard water and stone do that"
	if c.PerWeek < 0 {
		way, cause = "falls", "plants and moults do that"
		low, high = -high, -low
	}
	words := fmt.Sprintf("%s by about %s %s a week (%s to %s, 90%s%%) beside the water changes: %s; %s", way,
		write(math.Abs(c.PerWeek)), p.units.ReadingUnit(c.Kind), write(low), write(high), wording.Joined, cause, rests)
	if c.Settles.Known && c.Settles.Value > 0 && c.Share > 0.02 {
		words += fmt.Sprintf(". With %s of the water changed a week it settles near %s %s if all goes on",
			wording.Percent(c.Share), wording.Number(p.units.Reading(c.Kind, c.Settles.Value), p.units.Digits(c.Kind)),
			p.units.ReadingUnit(c.Kind))
	}
	return fact(name, words)
}

// careFacts says what was done to the water last.
func (p *pen) careFacts(t *forecast.Tank) []Fact {
	var facts []Fact
	for _, kind := range []struct{ name, kind string }{{"Last water change", "water-change"}, {"Last dose", "dosed"}} {
		for _, e := range slices.Backward(t.Tank.Events) {
			if e.What.Kind() != kind.kind {
				continue
			}
			facts = append(facts, Fact{kind.name,
				append([]Link{{wording.Date(e.Day), p.eventHref(e)}, {Text: ", " + p.ago(e.Day) + ": "}},
					p.words(e)...)})
			break
		}
	}
	return facts
}

// testLines lists every test, the newest first, with a column for each kind that the tank has.
func (p *pen) testLines(t *forecast.Tank) (columns []string, lines []TestLine) {
	var kinds []journal.ReadingKind
	unionised := false
	for _, kind := range journal.ReadingKinds() {
		if slices.ContainsFunc(t.Water, func(w forecast.WaterDay) bool { _, ok := journal.ReadingOf(w.Readings, kind); return ok }) {
			kinds = append(kinds, kind)
			columns = append(columns, strings.TrimSuffix(wording.Sentence(shortName(kind))+", "+p.units.ReadingUnit(kind), ", "))
		}
	}
	if unionised = slices.Contains(kinds, journal.Ammonia); unionised {
		columns = append(columns, "Un-ionised, mg/L")
	}
	tests := slices.Clone(t.Water)
	slices.SortStableFunc(tests, func(a, b forecast.WaterDay) int { return cmp.Compare(b.Day, a.Day) })
	for _, w := range tests {
		line := TestLine{Day: moment(w.Day), Entry: p.eventHref(w.Event)}
		for _, kind := range kinds {
			line.Cells = append(line.Cells, p.cell(w.Readings, kind))
		}
		if unionised {
			line.Cells = append(line.Cells, unionisedCell(w))
		}
		lines = append(lines, line)
	}
	return columns, lines
}

// cell writes a reading without its unit.
func (p *pen) cell(readings []journal.Reading, kind journal.ReadingKind) string {
	r, ok := journal.ReadingOf(readings, kind)
	if !ok {
		return ""
	}
	text := wording.Number(p.units.Reading(kind, r.Value), p.units.Digits(kind))
	if r.Below {
		return "<" + text
	}
	return text
}

// unionisedCell writes the un-ionised ammonia of a test, with a mark where the pH is not of that day.
func unionisedCell(w forecast.WaterDay) string {
	text := ""
	switch {
	case w.UnionisedAmmonia.Known:
		text = wording.Number(w.UnionisedAmmonia.Value, 4)
	case w.UnionisedAtMost.Known:
		text = "<" + wording.Number(w.UnionisedAtMost.Value, 4)
	default:
		return ""
	}
	if w.InterpolatedPH && w.UnionisedAmmonia.Value != 0 {
		text += " (pH between tests)"
	}
	return text
}

// done is what was done to a tank's water, and what was found, by the row that shows it.
func done(t *colony.Tank) map[string][]*journal.Event {
	rows := map[string][]*journal.Event{}
	for _, e := range t.Events {
		switch e.What.(type) {
		case *journal.WaterChange, *journal.Dosed, *journal.Died, *journal.Moulted:
			rows[e.What.Kind()] = append(rows[e.What.Kind()], e)
		}
	}
	return rows
}
