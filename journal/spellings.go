package journal

import "math"

// Spelling is one unit of a quantity and every way to write it. Letter case never matters.
type Spelling struct {
	Symbol string   // as the program writes it
	Also   []string // other spellings
}

// Spellings returns the units that may follow a number of a quantity, and whether the number may stand alone.
func Spellings(quantity Quantity) (units []Spelling, bare bool) {
	if quantity == QuantityChange {
		share, _ := measureOf(QuantityShare).find("%")
		volumes, _ := Spellings(QuantityVolume)
		return append([]Spelling{{share.symbol, share.also}}, volumes...), false
	}
	m := measureOf(quantity)
	for _, u := range m.units {
		if u.symbol != "" {
			units = append(units, Spelling{u.symbol, u.also})
		}
	}
	return units, m.bare
}

// Reach returns the smallest and the largest number that a word accepts, in whatever unit it is written.
func Reach(word Word) (low, high float64) {
	low, high, _ = word.bounds()
	if word.Form == FormWhole {
		return 0, maxCount
	}
	base, limit := low, high
	low, high = math.Inf(1), math.Inf(-1)
	for _, u := range measureOf(word.Quantity).units {
		low = min(low, base/u.scale-u.shift)
		high = max(high, limit/u.scale-u.shift)
	}
	return low, high
}

// The most characters that the YAML may hold in one place.
const (
	LongestText = maxTextLength // of one text
	LongestName = maxNameLength // of the name of a brood, a shrimp or a tank
)

// biologyWords is the species parameters that journal.yaml can replace, by group.
func biologyWords() []Word {
	var words []Word
	groups, members := parameterGroups()
	for _, group := range groups {
		word := Word{Name: group, Form: FormMapping,
			About: "parameters of the species; the methods page lists each with its source", Keys: []Word{because}}
		for _, member := range members[group] {
			word.Keys = append(word.Keys, member.Word)
		}
		words = append(words, word)
	}
	return words
}
