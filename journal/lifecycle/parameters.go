package lifecycle

import (
	"fmt"
	"math"
	"strconv"
)

// Flag says how well the source of a default is known.
type Flag string

// The flags, from the firmest.
const (
	Published  Flag = "P" // published, and seen
	Memory     Flag = "M" // published, quoted from memory
	Practice   Flag = "C" // common practice among keepers, no source
	Assumption Flag = "A" // our own assumption
)

// Meaning returns the flag in words, and "" for an unknown flag.
func (f Flag) Meaning() string {
	switch f {
	case Published:
		return "published"
	case Memory:
		return "published, quoted from memory"
	case Practice:
		return "common practice, no source"
	case Assumption:
		return "assumption"
	}
	return ""
}

// Parameter is one number of a Profile: its name, what it means, and where its default comes from.
type Parameter struct {
	Name      string // group.parameter, lower-case words with hyphens, such as "incubation.base"
	Meaning   string // one plain line
	Unit      string // "C", "C·d", "d", "mm", "/d", "1/L", or "" for a pure number
	Default   float64
	Low, High float64 // what an override may be, both ends included
	Flag      Flag
	Source    string // author year, journal, DOI; or the reason for an assumption
	at        func(*Profile) *float64
}

// Species lists the identifiers of the profiles that exist, in order.
func Species() []string { return []string{"neocaridina-davidi"} }

// Default returns the profile of a species with every number at its default, and false for an unknown species.
func Default(species string) (Profile, bool) {
	if species != "neocaridina-davidi" {
		return Profile{}, false
	}
	p := Profile{Species: species, Name: "cherry shrimp (Neocaridina davidi)"}
	for _, parameter := range Parameters() {
		*parameter.at(&p) = parameter.Default
	}
	return p, true
}

// Set replaces one number of the profile. It fails, and changes nothing, when no parameter has that name or the
// value is outside the parameter's allowed range.
func (p *Profile) Set(name string, value float64) error {
	for _, parameter := range Parameters() {
		if parameter.Name != name {
			continue
		}
		if math.IsNaN(value) || value < parameter.Low || value > parameter.High {
			return fmt.Errorf("%s is %s; allowed is %s to %s", name,
				parameter.quantity(value), number(parameter.Low), parameter.quantity(parameter.High))
		}
		*parameter.at(p) = value
		return nil
	}
	return fmt.Errorf("unknown parameter %q", name)
}

// Get returns one number of the profile, and false when no parameter has that name.
func (p Profile) Get(name string) (float64, bool) {
	for _, parameter := range Parameters() {
		if parameter.Name == name {
			return *parameter.at(&p), true
		}
	}
	return 0, false
}

// quantity writes a value with the parameter's unit.
func (p Parameter) quantity(value float64) string {
	switch p.Unit {
	case "":
		return number(value)
	case "/d", "1/L":
		return number(value) + p.Unit
	}
	return number(value) + " " + p.Unit
}

// number writes a value in its shortest decimal form.
func number(value float64) string { return strconv.FormatFloat(value, 'f', -1, 64) }

// Contradiction is two numbers of a profile that cannot both be true: First must be below Second.
type Contradiction struct {
	First, Second string // parameter names
	Message       string
}

// Contradictions lists the numbers of the profile that overrides have put in the wrong order, such as a length at
// maturity above the greatest length. The laws of this package assume that there are none.
func (p Profile) Contradictions() []Contradiction {
	var found []Contradiction
	for _, pair := range ordered() {
		first, _ := p.Get(pair[0])
		second, _ := p.Get(pair[1])
		if first < second {
			continue
		}
		message := fmt.Sprintf("%s (%s) must be below %s (%s)", pair[0], number(first), pair[1], number(second))
		found = append(found, Contradiction{First: pair[0], Second: pair[1], Message: message})
	}
	return found
}

// ordered lists the pairs of parameters of which the first must be below the second.
func ordered() [][2]string {
	return [][2]string{
		{"incubation.base", "incubation.limit-low"},
		{"incubation.alt-zero", "incubation.limit-low"},
		{"incubation.limit-low", "incubation.valid-low"},
		{"incubation.valid-low", "incubation.break"},
		{"incubation.valid-low", "incubation.valid-high"},
		{"incubation.valid-high", "incubation.limit-high"},
		{"growth.female-hatch", "growth.female-mature"},
		{"growth.female-mature", "growth.female-max"},
		{"growth.male-hatch", "growth.male-mature"},
		{"growth.male-mature", "growth.male-max"},
		{"fecundity.min", "fecundity.max"},
		{"fecundity.heat-from", "fecundity.heat-all"},
		{"breeding.stop-below", "breeding.full-from"},
		{"breeding.decline-from", "breeding.decline-to"},
		{"survival.grown-days", "survival.median-life"},
		{"survival.median-life", "survival.long-life"},
		{"density.free", "density.capacity"},
		{"detection.glance", "detection.careful"},
		{"stocking.youngest", "stocking.oldest"},
	}
}
