package manual

import (
	"fmt"
	"strings"

	"pleopod/journal"
)

// group is the words of one place.
type group struct {
	title string
	words []journal.Word
}

// groups lists every word of the format by the place where it stands.
func groups() []group {
	words := journal.Words()
	all := []group{
		{"Keys of journal.yaml", words.Settings}, {"Keys of a tank in journal.yaml", words.Tank}, {"Keys of an entry", words.Entry},
		{"Keys of every event", words.Event}, {"Events", nil}, {"Readings of water", words.Readings}, {"Classes of a count", words.Classes},
	}
	for _, kind := range words.Kinds {
		all[4].words = append(all[4].words, kind.Word)
		if len(kind.Attributes) > 0 {
			all = append(all, group{"Keys of " + kind.Name, kind.Attributes})
		}
	}
	return all
}

// takes says what may stand behind the colon of a word.
func takes(word journal.Word) string {
	switch {
	case len(word.Allowed) > 0:
		return strings.Join(word.Allowed, ", ")
	case len(word.Keys) > 0:
		var names []string
		for _, key := range word.Keys {
			names = append(names, key.Name)
		}
		return "keys: " + strings.Join(names, ", ")
	}
	text := string(word.Form)
	if units, _ := journal.Spellings(word.Quantity); word.Quantity != "" && len(units) > 0 {
		var symbols []string
		for _, unit := range units {
			symbols = append(symbols, unit.Symbol)
		}
		text += ": " + strings.Join(symbols, ", ")
	}
	return text
}

// about says what a word means, and whether it must be there.
func about(word journal.Word) string {
	if word.Required {
		return word.About + " (always needed)"
	}
	return word.About
}

// wordText explains one word for a terminal.
func wordText(place string, word journal.Word) string {
	return fmt.Sprintf("%s: %s\n  %s\n  takes: %s\n  for example: %s: %s\n", word.Name, place, about(word),
		takes(word), word.Name, word.Example)
}

// attributesText lists what goes with a kind of event.
func attributesText(kind journal.EventKind) string {
	var out strings.Builder
	fmt.Fprintf(&out, "What goes with %s:\n", kind.Name)
	for _, word := range append(append([]journal.Word{}, kind.Attributes...), journal.Words().Event...) {
		fmt.Fprintf(&out, "  %-14s %s; for example: %s: %s\n", word.Name, about(word), word.Name, word.Example)
	}
	return out.String()
}

// explained is the explanation of a kind of problem for a terminal.
func explained(e journal.Explanation) string {
	return fmt.Sprintf("%s: %s\n  %s\n  found for example in: %s\n  instead: %s\n", e.Code, e.Title, e.Meaning,
		e.Example, e.Fix)
}
