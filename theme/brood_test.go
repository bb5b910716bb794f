package theme

import (
	"slices"
	"strings"
	"testing"

	"pleopod/theme/figure"
)

// The key days of a brood and of its young stand in the order of the calendar, those without a day last.
func TestKeyDaysAreInOrder(t *testing.T) {
	lists := 0
	for _, story := range stories {
		b := newBook(public(foretold(t, story)), nil)
		for i := range b.Broods {
			out := b.pen("broods/x.html").broodPage(&b.Broods[i]).(*BroodPage)
			for _, days := range [][]KeyDay{out.KeyDays, out.Cohort.KeyDays} {
				if len(days) > 3 {
					lists++
				}
				if !slices.IsSortedFunc(days, func(a, b KeyDay) int {
					return strings.Compare(a.Day.ISO+"~", b.Day.ISO+"~") // without a day comes last
				}) {
					t.Errorf("%s: the key days of %s are out of order: %+v", story, out.Name, days)
				}
			}
		}
	}
	if lists < 5 {
		t.Errorf("only %d lists of key days", lists)
	}
}

// One male is one male, and no figure counts "1 females".
func TestOneIsSingular(t *testing.T) {
	b := shelfBook(t)
	b.Tanks[0].Population.Pyramid[0].Males, b.Tanks[0].Population.Pyramid[0].Females = 0.9, 1.2
	f, _ := b.pen("").pyramid(&b.Tanks[0])
	var said []string
	for _, lane := range f.Lanes {
		said = append(said, labelsOf(lane.Spans)...)
	}
	if !slices.Contains(said, "1 male") || !slices.ContainsFunc(said, func(s string) bool { return strings.HasPrefix(s, "1 female, ") }) {
		t.Errorf("%q", said)
	}
}

func labelsOf(spans []figure.Span) (labels []string) {
	for _, s := range spans {
		labels = append(labels, s.Label)
	}
	return labels
}
