package theme

import (
	"slices"

	"pleopod/journal"
)

// The cautions that stand beside what they are about. The page of cautions says more.
const (
	cautionCopper = "Read the label before anything goes into the water: medicines and fertilisers with copper kill shrimp."
	cautionPower  = "Before hands go in or the level falls, switch off and unplug what runs in the water and let heaters cool. Change water slowly, at the temperature of the tank."
	cautionLeave  = "Shrimp, plants and water from a tank must never reach open water, and keeping or passing shrimp on may be restricted where you live: local law decides."
)

// CautionsPage holds the cautions.
type CautionsPage struct{ Frame }

func (p *pen) cautionsPage() page {
	return &CautionsPage{p.newFrame("Cautions",
		"What these estimates are not, and what can hurt shrimp, people or open waters.")}
}

// cautionsFor returns the cautions that belong beside events, each once, in the order of the events.
func cautionsFor(events []*journal.Event) []string {
	var out []string
	for _, event := range events {
		text := ""
		switch what := event.What.(type) {
		case *journal.Dosed:
			text = cautionCopper
		case *journal.WaterChange:
			text = cautionPower
		case *journal.Removed:
			if what.Reason == journal.Given || what.Reason == journal.Sold {
				text = cautionLeave
			}
		}
		if text != "" && !slices.Contains(out, text) {
			out = append(out, text)
		}
	}
	return out
}

// eventsOf returns the events of an entry.
func eventsOf(e *journal.Entry) []*journal.Event {
	var events []*journal.Event
	for i := range e.Events {
		events = append(events, &e.Events[i])
	}
	return events
}
