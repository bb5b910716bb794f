package gather

import (
	"regexp"
	"slices"
	"strings"

	"pleopod/journal"
)

// A note stays a note: "water change 20%" may as well be a plan. What it seems to tell of is only proposed.

// noteAmount is a number, with a unit where one stands behind it.
var noteAmount = regexp.MustCompile(`(?i)(\d+(?:[.,]\d+)?)(?: ?(%|l|litres?|liters?|gal|gallons?)(?:$|[^\pL\pN]))?`)

// numbered is the forms of events that a number says all of.
var numbered = []journal.Form{journal.FormCount, journal.FormWho, journal.FormWhole, journal.FormAmount}

// meant returns the lines of the events that a note seems to tell of, such as "- water-change: 20 %" or "- died: 2": those
// that it names, for which one of its numbers will do and no other.
func (r *reader) meant(found record) []string {
	const most = 5 // numbers of one note
	amounts := noteAmount.FindAllStringSubmatch(found.note, most)
	words := " " + fold(found.note) + " "
	named := func(name string) bool { return strings.Contains(words, " "+fold(name)+" ") }
	var lines []string
	for _, kind := range journal.Words().Kinds {
		if !slices.Contains(numbered, kind.Form) || !named(kind.Name) && !slices.ContainsFunc(kind.Also, named) {
			continue
		}
		var fit []string
		for _, amount := range amounts {
			line := "- " + kind.Name + ": " + strings.TrimSpace(strings.ReplaceAll(amount[1], ",", ".")+" "+amount[2])
			if r.isEvent(found, line) {
				fit = append(fit, line)
			}
		}
		if len(fit) == 1 {
			lines = append(lines, fit[0])
		}
	}
	return lines
}

// isEvent reports whether the journal's reader takes a line for an event.
func (r *reader) isEvent(found record, line string) bool {
	_, problems := journal.ParseEntry(r.Name, []byte(r.matter(found.day, found.tank, "", []string{"  " + line + "\n"})), &r.journal.Settings)
	return len(problems) == 0
}

// onlyNoted reports whether a row holds a note and nothing to gather.
func (r *reader) onlyNoted(of row) bool {
	column := r.column(roleNote)
	return column >= 0 && !isAbsent(of.at(column))
}
