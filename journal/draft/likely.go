package draft

import (
	"fmt"
	"slices"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
)

// proposal is a likely event: why it is likely, and its lines.
type proposal struct {
	rank  int // the smaller the more pressing
	why   string
	lines []string
}

// The ranks of proposals.
const (
	rankNow    = iota // due today or late
	rankSoon          // due within days
	rankRecord        // a gap in the record
	rankLook          // worth a look
)

// likely collects proposals for one day.
type likely struct {
	day     journal.Day
	tank    string // only this one, when not empty
	several bool   // an event must name its tank
	found   []proposal
}

// The days after which a part of the record counts as old. Common practice, no source: a count every three weeks
// and a water change every week are what careful keepers aim at.
const (
	countGrowsOld  = 21
	changeGrowsOld = 7
	soon           = 7  // days within which something is due this week
	eyesSoon       = 2  // days before eyes can show from which one looks for them
	saddleLasts    = 35 // days after which a saddle is no longer news
	youngAreNews   = 21 // days after a hatch on which young are looked for
)

// about reports whether a tank is asked for.
func (l *likely) about(tank string) bool { return l.tank == "" || l.tank == tank }

// add proposes an event of a tank.
func (l *likely) add(rank int, tank, why string, lines ...string) {
	if l.several {
		lines = append(slices.Clone(lines), "  tank: "+tank)
	}
	l.found = append(l.found, proposal{rank, why, lines})
}

// broods proposes what the clutches are due for.
func (l *likely) broods(f *forecast.Forecast) {
	for i := range f.Broods {
		b := &f.Broods[i]
		if (b.Open() || b.State == forecast.Unseen) && l.about(b.Tank()) {
			l.brood(b)
		}
	}
}

func (l *likely) brood(b *forecast.Brood) {
	window := span(b.Hatch.P10, b.Hatch.P90)
	name := yamlText(b.ID)
	hatched := hatch(b.ID)
	eyesDue := b.Eyed == 0 && b.EyedFrom != 0 && b.EyedFrom <= l.day+eyesSoon
	if eyesDue && b.Hatch.Reason == "" && b.State == forecast.Carried {
		l.add(rankSoon, b.Tank(), fmt.Sprintf("eyes can be seen in the eggs of %s from %s", b.ID, b.EyedFrom), "- eyed: "+name)
	}
	switch {
	case b.State == forecast.Overdue || b.State == forecast.Unseen:
		guess := fmt.Sprintf("  date: %s   # a guess, the likeliest day: write the day it was", b.Foreseen.P50)
		l.add(rankNow, b.Tank(), fmt.Sprintf("%s should have hatched by now (it was due around %s); if the eggs are lost: dropped: %s", b.ID, b.Foreseen.P50, name),
			slices.Insert(hatched, 1, guess)...)
	case b.Hatch.Reason != "":
		l.add(rankLook, b.Tank(), fmt.Sprintf("%s is carried since %s; no date, because %s", b.ID, b.Berried, b.Hatch.Reason), hatched...)
	case b.Hatch.P10 <= l.day:
		l.add(rankNow, b.Tank(), fmt.Sprintf("%s is due, %s (80 %%)", b.ID, window), hatched...)
	case b.Hatch.P10 <= l.day+soon:
		l.add(rankSoon, b.Tank(), fmt.Sprintf("%s is due %s (80 %%)", b.ID, window), hatched...)
	}
}

// hatch is the lines of a hatch.
func hatch(brood string) []string {
	return []string{"- hatched: " + yamlText(brood), option("hatched", "shrimplets")}
}

// option is the line of an attribute that may be left out: a comment still when the # of its event was taken away.
func option(kind, name string) string {
	kinds := journal.Words().Kinds
	of := kinds[slices.IndexFunc(kinds, func(k journal.EventKind) bool { return k.Name == kind })]
	word := find(of.Attributes, name)
	return fmt.Sprintf("  # %s: %s   # %s", name, word.Example, word.About)
}

// carried proposes the hatch of every open clutch, where nothing could be predicted.
func (l *likely) carried(c *colony.Colony) {
	for _, b := range c.Broods {
		if b.State == colony.Carried && l.about(b.Tank()) {
			l.add(rankLook, b.Tank(), fmt.Sprintf("%s is carried since %s", b.ID, b.Berried),
				hatch(b.ID)...)
		}
	}
}

// young proposes what the young of a hatch are due for.
func (l *likely) young(f *forecast.Forecast) {
	for i := range f.Cohorts {
		young := &f.Cohorts[i]
		if !l.about(young.Tank) {
			continue
		}
		switch age := l.day - young.Hatched; {
		case age <= youngAreNews && !seen(young.Brood, young.Hatched):
			l.add(rankLook, young.Tank, fmt.Sprintf("the young of %s hatched %s and were not seen since", young.ID, ago(age)), "- sighted:", "  brood: "+yamlText(young.ID))
		case young.Sexable.Reason == "" && young.Sexable.P10 <= l.day && l.day <= young.Sexable.P90:
			l.add(rankLook, young.Tank, fmt.Sprintf("the young of %s can be told apart about now (%s)",
				young.ID, span(young.Sexable.P10, young.Sexable.P90)),
				"- measured: []", "  brood: "+yamlText(young.ID))
		case young.Mature.Reason == "" && young.FirstSaddled == 0 && young.Mature.P10 <= l.day && l.day <= young.Mature.P90:
			l.add(rankLook, young.Tank, fmt.Sprintf("the young of %s grow up about now (%s): the first saddles",
				young.ID, span(young.Mature.P10, young.Mature.P90)),
				"- saddled:")
		}
	}
}

// seen reports whether the young of a brood were seen after their hatch.
func seen(b *colony.Brood, hatched journal.Day) bool {
	return slices.ContainsFunc(b.Events,
		func(e *journal.Event) bool { return e.What.Kind() == "sighted" && e.Day > hatched })
}

// notices repeats what the record makes unusual. An overdue brood is proposed as such.
func (l *likely) notices(f *forecast.Forecast) {
	for _, notice := range f.Notices {
		if l.about(notice.Tank) && notice.Kind != "overdue-brood" {
			l.found = append(l.found, proposal{rankNow, notice.Tank + ": " + notice.Headline, nil})
		}
	}
}

// count proposes a count where the last one has grown old.
func (l *likely) count(tank *colony.Tank) {
	if !l.about(tank.ID) || len(tank.Ledger) == 0 {
		return
	}
	since, why := tank.Ledger[0].Day, fmt.Sprintf("%s was never counted", tank.ID)
	if n := len(tank.Censuses); n > 0 {
		last := tank.Censuses[n-1]
		since, why = last.Day, fmt.Sprintf("%s was last counted %s: %d", tank.ID, ago(l.day-last.Day), last.Count.Total)
	}
	if l.day-since >= countGrowsOld {
		l.add(rankRecord, tank.ID, why, "- counted:", "  method: careful")
	}
}

// change proposes a water change where the keeper changes water and the last time was a week ago or more.
func (l *likely) change(tank *colony.Tank) {
	if !l.about(tank.ID) {
		return
	}
	var last *journal.Event
	for _, event := range tank.Events {
		if event.What.Kind() == "water-change" {
			last = event
		}
	}
	if last != nil && l.day-last.Day >= changeGrowsOld {
		l.add(rankRecord, tank.ID, fmt.Sprintf("the last water change of %s was %s", tank.ID, ago(l.day-last.Day)), "- water-change:")
	}
}

// saddles proposes eggs where a saddle was seen and no female carried since.
func (l *likely) saddles(tank *colony.Tank) {
	if !l.about(tank.ID) {
		return
	}
	var saddled journal.Day
	for _, event := range tank.Events {
		switch event.What.Kind() {
		case "saddled":
			saddled = event.Day
		case "berried":
			saddled = 0
		}
	}
	if saddled != 0 && l.day-saddled <= saddleLasts {
		l.add(rankLook, tank.ID, fmt.Sprintf("a saddle was seen in %s %s; carried eggs come next", tank.ID, ago(l.day-saddled)), "- berried: 1", option("berried", "last-clear"))
	}
}

// span writes two days.
func span(from, to journal.Day) string {
	if from == to {
		return from.String()
	}
	return from.String() + " to " + to.String()
}
