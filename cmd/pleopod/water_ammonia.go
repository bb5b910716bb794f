package main

import (
	"fmt"

	"pleopod/journal"
	"pleopod/journal/water"
	"pleopod/journal/wording"
)

// waterAmmonia is the sum "how much of my ammonia is toxic?".
type waterAmmonia struct {
	As string `enum:"N,NH3,NH4," default:"" placeholder:"BASIS" help:"What the test reports: N, NH3 or NH4; N, or what journal.yaml says, when left out."`
	waterFlags
}

// ammoniaDocument is what water ammonia --json prints. Masses are in mg/L.
type ammoniaDocument struct {
	Sum         string   `json:"sum"` // "ammonia"
	Total       float64  `json:"total"`
	As          string   `json:"as"` // N, NH3 or NH4
	PH          float64  `json:"ph"`
	Temperature float64  `json:"temperature"` // °C
	Fraction    float64  `json:"fraction"`    // un-ionised, 0 to 1
	Unionised   float64  `json:"unionised"`   // on the basis of the total
	AsNH3       float64  `json:"unionisedAsNH3"`
	Below       bool     `json:"below"` // the total, and so the rest, is an upper limit
	Notes       []string `json:"notes"`
	Cautions    []string `json:"cautions"`
}

// Run prints the un-ionised part.
func (c *waterAmmonia) Run(env *environment) error {
	t, err := c.startingWater(env)
	if err != nil {
		return err
	}
	var values [3]journal.Reading
	for i, kind := range []journal.ReadingKind{journal.Ammonia, journal.PH, journal.Temperature} {
		r, ok := journal.ReadingOf(t.values, kind)
		switch {
		case !ok:
			return misuse{fmt.Errorf("the sum needs ammonia, pH and temperature; %s is missing: --water 'ammonia 1, ph 8, temperature 24C'", readingTitle(kind))}
		case r.Below && kind != journal.Ammonia:
			return misuse{fmt.Errorf("the %s is only an upper limit; the sum needs a number", readingTitle(kind))}
		}
		values[i] = r
	}
	total, ph, celsius := values[0], values[1], values[2]
	basis := water.AmmoniaBasis(t.basis)
	if c.As != "" {
		basis = water.AmmoniaBasis(c.As)
	}
	fraction, err := water.UnionisedFraction(ph.Value, celsius.Value)
	if err != nil {
		return err
	}
	part := fraction * total.Value
	nh3, err := basis.Convert(part, water.AsNH3)
	if err != nil {
		return err
	}
	r := result{
		sentence: fmt.Sprintf("At pH %s and %s, %s %% of the ammonia is un-ionised: %s%s mg/L of the %s mg/L (as %s), which weigh %s mg/L as NH3.",
			wording.Number(ph.Value, 2), t.text(celsius), wording.Number(100*fraction, 2),
			map[bool]string{true: "at most "}[total.Below], wording.Number(part, 4),
			wording.Number(total.Value, 3), basis, wording.Number(nh3, 4)),
		notes:    []string{fmt.Sprintf("Harm to fish begins at about %v mg/L un-ionised (University of Florida, IFAS FA031); for dwarf shrimp no value is known.", water.UnionisedCaution)},
		cautions: []string{cautionHarm},
	}
	if origin := c.originNote(t); origin != "" {
		r.notes = append(r.notes, origin)
	}
	r.document = ammoniaDocument{"ammonia", total.Value, string(basis), ph.Value, celsius.Value, fraction, part,
		nh3, total.Below, neverNil(r.notes), r.cautions}
	return c.print(env.stdout, r)
}
