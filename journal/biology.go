package journal

import (
	"strings"

	"pleopod/journal/lifecycle"
)

// defaultSpecies is the species of a journal that names none.
const defaultSpecies = "neocaridina-davidi"

// speciesNames lists the species that have a profile.
func speciesNames() []string { return lifecycle.Species() }

// parameter is one species parameter as journal.yaml may replace it: a word inside a group.
type parameter struct {
	Word
	low, high float64 // in the unit of the reader, both included
}

// parameterGroups returns the species parameters by group, in the order of the methods page.
func parameterGroups() (groups []string, members map[string][]parameter) {
	members = map[string][]parameter{}
	for _, p := range lifecycle.Parameters() {
		group, name, _ := strings.Cut(p.Name, ".")
		if members[group] == nil {
			groups = append(groups, group)
		}
		word := Word{Name: name, Form: FormAmount, Quantity: parameterQuantity(p), About: p.Meaning}
		members[group] = append(members[group], parameter{Word: word, low: p.Low, high: p.High})
	}
	return groups, members
}

// parameterQuantity returns what a species parameter measures. A spread in degrees is a difference of temperatures.
func parameterQuantity(p lifecycle.Parameter) Quantity {
	switch p.Unit {
	case "C":
		if strings.HasSuffix(p.Name, "-sd") {
			return QuantitySpan
		}
		return QuantityTemperature
	case "C·d":
		return QuantityDegreeDays
	case "d":
		return QuantityDays
	case "mm":
		return QuantityLength
	case "/d":
		return QuantityDaily
	case "1/L":
		return QuantityDensity
	}
	return QuantityShare
}
