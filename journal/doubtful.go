package journal

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// Events that can be true and are hardly meant so: each of these would be counted as something else without a word.

// stillCarried is how people write of a brood that they told of before.
var stillCarried = regexp.MustCompile(`(?i)\bstill (?:(?:is|has|was|heavily) )?(?:berried|carr(?:y|ies|ied|ying)|holding|(?:with |her |the )*eggs)\b`)

// checkStill warns of an event that opens a brood where the words of the entry tell of one that goes on. A shrimp or a
// brood with a name is known by that.
func (r *entryReader) checkStill() {
	for i := range r.entry.Events {
		event := &r.entry.Events[i]
		what, isBerried := event.What.(*Berried)
		if !isBerried || len(what.Shrimp.Names) > 0 || len(what.Broods) > 0 {
			continue
		}
		if said := stillCarried.FindString(event.Note + " / " + r.entry.Title + " / " + r.entry.Words); said != "" {
			r.warn(event.Position, issue{code: "berried-again", message: `"berried" opens a new brood, and the text says ` + quote(said),
				hint: "if her eggs were written of before, take the event out: a brood goes on until hatched or dropped; if these are others, name the brood: brood: amber"})
		}
	}
}

// nearlyYear and muchYear are the days that two days are apart which differ by a year, and a month more or less.
const nearlyYear, muchYear = 335, 395

// checkYear warns of an event a year away from its entry: in January the old year is often written.
func (r *entryReader) checkYear(event *Event) {
	apart, side := int(r.entry.Date-event.Day), "before"
	if apart < 0 {
		apart, side = -apart, "after"
	}
	if r.entry.Date != 0 && apart >= nearlyYear && apart <= muchYear {
		r.warn(event.At("date"), issue{code: "year-off", message: fmt.Sprintf(`"date" is %s, about a year %s the entry of %s`, event.Day, side, r.entry.Date),
			hint: "mend the year; if it is right, leave it"})
	}
}

// checkTo warns of shrimp that leave the journal for one of its own tanks, where they would be counted no more.
func (r *entryReader) checkTo(event *Event, what *Removed) {
	if r.settings == nil || what.To == "" {
		return
	}
	shrimp := strconv.Itoa(what.Shrimp.Count.Total)
	if len(what.Shrimp.Names) > 0 {
		shrimp = "[" + strings.Join(what.Shrimp.Names, ", ") + "]"
	}
	for _, tank := range r.settings.Tanks {
		if fold(tank.ID) == fold(what.To) || fold(tank.Name) == fold(what.To) {
			r.warn(event.At("to"), issue{code: "removed-to-tank", message: quote(what.To) + " is a tank of this journal, and what is removed is counted in none",
				hint: "write moved: " + shrimp + ", and below it to: " + tank.ID})
		}
	}
}
