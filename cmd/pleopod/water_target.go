package main

import (
	"errors"
	"fmt"
	"math"

	"pleopod/journal"
	"pleopod/journal/water"
	"pleopod/journal/wording"
)

// waterTarget is the sum "how much do I change to come to this reading?".
type waterTarget struct {
	Reading string `arg:"" help:"What the tank shall come to, such as 'gh 8' or 'nitrate 20'."`
	With    string `placeholder:"READINGS" help:"The new water, such as 'gh 4, temperature 19C'."`
	Size    string `placeholder:"SIZE" help:"How much is changed at once, such as 20%; without --with the sum is what the new water must have."`
	waterFlags
}

// targetDocument is what water target --json prints. Share is null where the size was given and the new water
// asked for.
type targetDocument struct {
	Sum      string          `json:"sum"` // "target"
	Kind     string          `json:"kind"`
	Unit     string          `json:"unit"` // C, dGH, dKH, ppm, µS/cm or mg/L
	Target   float64         `json:"target"`
	Share    *float64        `json:"share"`
	Litres   *float64        `json:"litres"`
	Step     *float64        `json:"step"`    // share of each of several smaller changes
	Changes  *int            `json:"changes"` // how many of them
	With     float64         `json:"with"`    // of the new water, given or asked for
	Readings []mixedDocument `json:"readings"`
	Notes    []string        `json:"notes"`
	Cautions []string        `json:"cautions"`
}

// largeShare is a change from which smaller ones are proposed, usualStep how large those are, and farApart the
// difference in °C from which new water is too warm or too cold to be poured in at once. Common practice, no
// source.
const (
	largeShare = 0.25
	usualStep  = 0.20
	farApart   = 5
)

// Run prints how much to change.
func (c *waterTarget) Run(env *environment) error {
	t, err := c.startingWater(env)
	if err != nil {
		return err
	}
	target, err := t.one("the target", c.Reading)
	if err != nil {
		return err
	}
	tank, ok := journal.ReadingOf(t.values, target.Kind)
	if !ok {
		return misuse{fmt.Errorf("the %s of the tank is not given; add --water '%s …' or --tank ID",
			target.Kind, target.Kind)}
	}
	if tank.Below {
		return misuse{fmt.Errorf("the %s of the tank is only an upper limit; a target needs a number to start from", target.Kind)}
	}
	with, err := t.read("--with", c.With)
	if err != nil {
		return err
	}
	fresh, known := journal.ReadingOf(with, target.Kind)
	switch {
	case known && fresh.Below:
		return misuse{fmt.Errorf("the %s of the new water is only an upper limit; write the number that it is taken for", target.Kind)}
	case known:
		return c.printShare(env, t, target, with)
	case c.Size != "":
		return c.printNewWater(env, t, target, with)
	}
	return misuse{fmt.Errorf("add the %s of the new water (--with '%s …'), or the size of the change (--size 20%%) to learn what the new water must have", target.Kind, target.Kind)}
}

// amount prints the size of a change with water that is known.
func (c *waterTarget) printShare(env *environment, t *tankWater, target journal.Reading, with []journal.Reading) error {
	tank, _ := journal.ReadingOf(t.values, target.Kind)
	fresh, _ := journal.ReadingOf(with, target.Kind)
	share, err := water.ShareFor(tank.Value, fresh.Value, target.Value)
	if err != nil {
		return fmt.Errorf("no change leads from %s to %s with water of %s: the target does not lie between the two", t.text(tank), t.text(target), t.text(fresh))
	}
	changed, err := t.change(share, with, 1)
	if err != nil {
		return err
	}
	document := targetDocument{
		Sum: "target", Kind: string(target.Kind), Unit: baseUnit(target.Kind), Target: target.Value,
		Share: &share, Litres: t.litresOf(share),
		With: fresh.Value, Readings: t.documents(changed),
	}
	r := result{
		sentence: fmt.Sprintf("To bring %s from %s to %s with water of %s: change %s.",
			readingTitle(target.Kind), t.text(tank), t.text(target), t.text(fresh), t.sizeAlone(share)),
		notes: unmixedNotes(t.values, with),
	}
	if err := c.inSteps(t, share, &document, &r); err != nil {
		return err
	}
	r.head, r.rows = t.table(changed)
	return c.finish(env, t, r, document)
}

// inSteps proposes several smaller changes for a large one, or says how many of the given size it takes.
func (c *waterTarget) inSteps(t *tankWater, whole float64, document *targetDocument, r *result) error {
	step := usualStep
	switch {
	case c.Size != "":
		var err error
		if step, err = t.share(c.Size); err != nil {
			return err
		}
	case whole <= largeShare:
		return nil
	}
	changes, err := water.ChangesFor(0, 1, whole, step)
	switch {
	case errors.Is(err, water.ErrUnreachable):
		r.notes = append(r.notes, "Smaller changes only approach the target: it is the new water itself.")
		return nil
	case err != nil:
		return err
	}
	document.Step, document.Changes = &step, &changes
	r.notes = append(r.notes, fmt.Sprintf("In steps of %s: %s, with some days between them.", t.sizeAlone(step),
		wording.Count(changes, "change", "changes")))
	return nil
}

// water prints what the new water of a change must have.
func (c *waterTarget) printNewWater(env *environment, t *tankWater, target journal.Reading, with []journal.Reading) error {
	tank, _ := journal.ReadingOf(t.values, target.Kind)
	share, err := t.share(c.Size)
	if err != nil {
		return err
	}
	solve := water.FreshValue
	if target.Kind == journal.Temperature {
		solve = water.FreshTemperature
	}
	value, err := solve(tank.Value, target.Value, share)
	switch {
	case errors.Is(err, water.ErrTooSmall):
		return fmt.Errorf("a change of %s is too small to bring %s from %s to %s, even with water that has none", t.sizeAlone(share), readingTitle(target.Kind), t.text(tank), t.text(target))
	case err != nil:
		return fmt.Errorf("no water does that in one change of %s: %w", t.sizeAlone(share), err)
	}
	fresh := journal.Reading{Kind: target.Kind, Value: value}
	changed, err := t.change(share, append(with, fresh), 1)
	if err != nil {
		return err
	}
	r := result{
		sentence: fmt.Sprintf("To bring %s from %s to %s with a change of %s, the new water needs %s.",
			readingTitle(target.Kind), t.text(tank), t.text(target), t.sizeAlone(share), t.text(fresh)),
		notes: append(unmixedNotes(t.values, with), t.quickNotes(changed)...),
	}
	if target.Kind == journal.Temperature && math.Abs(value-tank.Value) > farApart {
		r.notes = append(r.notes, "Water so much warmer or colder shocks whatever it meets first: pour it in slowly, or let the heater do it (common practice).")
	}
	r.head, r.rows = t.table(changed)
	return c.finish(env, t, r, targetDocument{
		Sum: "target", Kind: string(target.Kind), Unit: baseUnit(target.Kind), Target: target.Value,
		Share: &share, Litres: t.litresOf(share),
		With: value, Readings: t.documents(changed),
	})
}

// finish adds what every answer ends with and prints it.
func (c *waterTarget) finish(env *environment, t *tankWater, r result, document targetDocument) error {
	if origin := c.originNote(t); origin != "" {
		r.notes = append(r.notes, origin)
	}
	r.cautions = []string{cautionPower, cautionSlowly}
	document.Notes, document.Cautions = neverNil(r.notes), r.cautions
	r.document = document
	return c.print(env.stdout, r)
}
