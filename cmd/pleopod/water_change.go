package main

import (
	"fmt"
)

// waterChange is the sum "what does this water change make of my water?".
type waterChange struct {
	Size  string `arg:"" help:"How much is changed, such as 25% or 10L."`
	With  string `required:"" placeholder:"READINGS" help:"The new water, such as 'gh 4, temperature 19C'."`
	Times int    `default:"1" help:"How many changes of this size, one after the other."`
	waterFlags
}

// changeDocument is what water change --json prints.
type changeDocument struct {
	Sum      string          `json:"sum"` // "change"
	Share    float64         `json:"share"`
	Litres   *float64        `json:"litres"`
	Times    int             `json:"times"`
	Readings []mixedDocument `json:"readings"`
	Notes    []string        `json:"notes"`
	Cautions []string        `json:"cautions"`
}

// Run prints what the water is after the change.
func (c *waterChange) Run(env *environment) error {
	if c.Times < 1 || c.Times > 1000 {
		return misuse{fmt.Errorf("--times is %d; it can be 1 to 1000", c.Times)}
	}
	t, err := c.startingWater(env)
	if err != nil {
		return err
	}
	with, err := t.read("--with", c.With)
	if err != nil {
		return err
	}
	share, err := t.share(c.Size)
	if err != nil {
		return err
	}
	changed, err := t.change(share, with, c.Times)
	if err != nil {
		return err
	}
	if len(changed) == 0 {
		return nothingInCommon(t.values, with)
	}
	r := result{sentence: t.sizeWords(share, c.Times), notes: unmixedNotes(t.values, with),
		cautions: []string{cautionPower, cautionSlowly}}
	first, err := t.change(share, with, 1)
	if err != nil {
		return err
	}
	r.notes = append(r.notes, t.quickNotes(first)...)
	if origin := c.originNote(t); origin != "" {
		r.notes = append(r.notes, origin)
	}
	r.head, r.rows = t.table(changed)
	r.document = changeDocument{"change", share, t.litresOf(share), c.Times, t.documents(changed), neverNil(r.notes),
		r.cautions}
	return c.print(env.stdout, r)
}
