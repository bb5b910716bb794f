package theme

import (
	"fmt"
	"math"
	"strings"

	"pleopod/journal/forecast"
	"pleopod/journal/lifecycle"
	"pleopod/journal/notice"
	"pleopod/journal/wording"
)

// MethodsPage says how every number comes about.
type MethodsPage struct {
	Frame
	Tables []ParameterTable
	// TDSFactor is what makes dissolved solids of a conductivity in this journal.
	TDSFactor string
	NoDate    string // where no date of a hatch is given
	NearbyPH  string // how far away a pH may be
	Flags     []Fact
	Assumed   []ParameterRow // numbers that belong to no species
	Learning  []Fact
	Notices   []Fact // the probability that each kind of notice gives
	LeftOut   []string
}

// ParameterTable is the parameters of one part of a species' life.
type ParameterTable struct {
	Name string
	Rows []ParameterRow
}

// ParameterRow is one number of the species profile.
type ParameterRow struct {
	Name, Meaning, Value, Flag, FlagWords, Source string
	Own                                           string // the keeper's reason for another value, or ""
}

// groupNames are the headings of the parameter tables, by the first part of a parameter's name.
var groupNames = map[string]string{
	"incubation": "From berried to hatched", "maturity": "From hatched to mature", "growth": "Growth", "fecundity": "Eggs and young",
	"breeding": "How often she carries", "survival": "Survival", "density": "A full tank", "detection": "What a count sees",
	"temperature": "Water between two readings", "stocking": "Shrimp that were stocked",
}

func (p *pen) methodsPage() page {
	out := &MethodsPage{Tables: p.parameterTables(), Learning: p.learningFacts(),
		TDSFactor: wording.Number(p.set.TDSFactor, 2), NearbyPH: wording.Count(forecast.NearbyPH, "day", "days")}
	if profile, known := p.Profiles[p.set.Species]; known {
		out.NoDate = fmt.Sprintf("Below %s and above %s no date is given.",
			p.units.temperature(profile.Incubation.LimitLow), p.units.temperature(profile.Incubation.LimitHigh))
	}
	for _, flag := range []lifecycle.Flag{lifecycle.Published, lifecycle.Memory, lifecycle.Practice, lifecycle.Assumption} {
		out.Flags = append(out.Flags, fact(string(flag), flag.Meaning()))
	}
	for _, a := range forecast.Assumptions() {
		out.Assumed = append(out.Assumed,
			ParameterRow{Meaning: wording.Sentence(a.Meaning), Value: quantity(a.Value, a.Unit),
				Source: wording.Sentence(a.Reason)})
	}
	for _, kind := range notice.Kinds() {
		out.Notices = append(out.Notices, fact(kind.Name, kind.Probability))
	}
	out.LeftOut = append(append(out.LeftOut, p.Forecast.Learning.Incubation.LeftOut...),
		p.Forecast.Learning.Maturity.LeftOut...)
	out.Frame = p.newFrame("Methods", "How the dates and numbers of this diary come about, with every parameter and its source.")
	return out
}

// parameterTables lists every parameter with the value in use for the journal's species.
func (p *pen) parameterTables() []ParameterTable {
	profile, known := p.Profiles[p.set.Species]
	reasons := map[string]string{}
	for _, o := range p.set.Biology {
		reasons[o.Name] = o.Because
	}
	var tables []ParameterTable
	for _, parameter := range lifecycle.Parameters() {
		group, _, _ := strings.Cut(parameter.Name, ".")
		name := groupNames[group]
		if name == "" {
			name = wording.Sentence(group)
		}
		if len(tables) == 0 || tables[len(tables)-1].Name != name {
			tables = append(tables, ParameterTable{Name: name})
		}
		value := parameter.Default
		if known {
			if v, ok := profile.Get(parameter.Name); ok {
				value = v
			}
		}
		row := ParameterRow{
			Name: parameter.Name, Meaning: wording.Sentence(parameter.Meaning), Value: quantity(value, parameter.Unit),
			Flag: string(parameter.Flag), FlagWords: parameter.Flag.Meaning(), Source: parameter.Source,
		}
		if reason, own := reasons[parameter.Name]; own {
			row.Own = "Set by the keeper"
			if reason != "" {
				row.Own += ": " + reason
			}
			row.Own += ". The default is " + quantity(parameter.Default, parameter.Unit) + "."
		}
		last := &tables[len(tables)-1]
		last.Rows = append(last.Rows, row)
	}
	return tables
}

// quantity writes a parameter's value in its own unit, as the sources give it.
func quantity(value float64, unit string) string {
	digits := 4
	if math.Abs(value) >= 100 {
		digits = 1
	}
	text := wording.Number(value, digits)
	switch unit {
	case "":
		return text
	case "C":
		return text + " °C"
	case "C·d":
		return text + " °C·d"
	}
	return text + " " + unit
}

// learningFacts says what the journal's own broods and cohorts changed.
func (p *pen) learningFacts() []Fact {
	var facts []Fact
	for _, one := range []struct {
		name, noun, nouns string
		learned           forecast.Learned
	}{
		{"Eggs", "brood", "broods", p.Forecast.Learning.Incubation},
		{"Growing up", "hatch", "hatches", p.Forecast.Learning.Maturity},
	} {
		l := one.learned
		before := fmt.Sprintf("before any record: 1, give or take %s; ", wording.Percent(l.PriorSD))
		if l.Used == 0 {
			facts = append(facts, fact(one.name, before+"nothing learned yet"))
			continue
		}
		facts = append(facts, fact(one.name,
			fmt.Sprintf("%snow %s times the default, give or take %s, from %s", before,
				wording.Number(l.Mean, 2), wording.Percent(l.SD), several(l.Used, one.noun, one.nouns))))
		for _, tank := range l.Tanks {
			if len(l.Tanks) > 1 && tank.Used > 0 {
				facts = append(facts, fact(one.name+", "+p.tankName(tank.Tank),
					fmt.Sprintf("%s times the default, give or take %s, with %s of its own",
						wording.Number(tank.Mean, 2), wording.Percent(tank.SD), several(tank.Used, one.noun, one.nouns))))
			}
		}
	}
	return facts
}
