package journal

import (
	"strings"

	"pleopod/journal/lifecycle"
)

// defaultSpecies is the species of a journal that names none.
const defaultSpecies = "neocaridina-davidi"

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
		if p.Low < 0 { // such as the zero of a law, which no water has
			word.Low, word.High = p.Low, p.High
		}
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
	case "":
		return QuantityShare
	}
	return NoQuantity // a test finds it
}

// readBiology reads the parameters that the keeper replaces, group by group.
func (r *settingsReader) readBiology(written *value) {
	if isEmptyNode(written.node) {
		return
	}
	children, ok := r.children(written.node)
	if !ok {
		r.fail(written.at, issue{code: "not-a-mapping", message: `"biology" takes groups of parameters`,
			hint: "for example: incubation: {base: 11 C}"})
		return
	}
	groups, members := parameterGroups()
	for _, c := range children {
		if members[c.name] == nil {
			r.fail(r.at(c.key), unknown{code: "unknown-key", what: "group", written: c.name, owner: `"biology"`, nearest: equallyNear(c.name, groups), known: groups}.issue())
			continue
		}
		r.readGroup(c, members[c.name])
	}
	r.checkProfile()
}

// checkProfile reports parameters that cannot both be true, at the one that the keeper replaced last.
func (r *settingsReader) checkProfile() {
	profile, ok := lifecycle.Default(r.settings.Species)
	if !ok {
		return
	}
	places := map[string]Position{}
	for _, override := range r.settings.Biology {
		if err := profile.Set(override.Name, override.Value); err == nil {
			places[override.Name] = override.Position
		}
	}
	for _, wrong := range profile.Contradictions() {
		at, first := places[wrong.First]
		if other, second := places[wrong.Second]; second && (!first || other.Line > at.Line || (other.Line == at.Line && other.Column > at.Column)) {
			at = other
		}
		r.fail(at, issue{code: "parameters-contradict", message: wrong.Message})
	}
}

// because is the keeper's reason for the parameters of a group.
var because = Word{Name: "because", Form: FormText, Example: "fitted on my first year",
	About: "why the keeper replaces them", Also: []string{"reason", "why"}}

func (r *settingsReader) readGroup(group child, members []parameter) {
	children, ok := r.children(group.value)
	if !ok {
		r.fail(r.at(group.key), issue{code: "not-a-mapping",
			message: quote(group.name) + " takes parameters with values"})
		return
	}
	words := []Word{because}
	for _, member := range members {
		words = append(words, member.Word)
	}
	found := r.readMapping(children, words, &context{owner: quote(group.name), settings: r.settings})
	reason := found.text(because.Name)
	for i := range found.list {
		for _, member := range members {
			if v := &found.list[i]; v.good && v.word.Name == member.Name {
				r.replace(group.name, v, member, reason)
			}
		}
	}
}

// replace takes one parameter that lies in its allowed span.
func (r *settingsReader) replace(group string, v *value, member parameter, reason string) {
	if v.number < member.low || v.number > member.high {
		r.fail(v.at, issue{code: "parameter-range",
			message: quote(member.Name) + " is " + decimal(v.number) + "; it can be " +
				decimal(member.low) + " to " + decimal(member.high) + suffix(measureOf(member.Quantity).units[0].symbol)})
		return
	}
	r.settings.Biology = append(r.settings.Biology,
		Override{Position: v.key, Name: group + "." + member.Name, Value: v.number, Because: reason})
}
