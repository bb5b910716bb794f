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
	tankWater
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
func (c *waterTarget) Run(w *world) error {
	b, err := c.fill(w)
	if err != nil {
		return err
	}
	target, err := b.one("the target", c.Reading)
	if err != nil {
		return err
	}
	tank, ok := journal.ReadingOf(b.values, target.Kind)
	if !ok {
		return misuse{fmt.Errorf("the %s of the tank is not given; add --water '%s …' or --tank ID",
			target.Kind, target.Kind)}
	}
	if tank.Below {
		return misuse{fmt.Errorf("the %s of the tank is only an upper limit; a target needs a number to start from", target.Kind)}
	}
	with, err := b.read("--with", c.With)
	if err != nil {
		return err
	}
	fresh, known := journal.ReadingOf(with, target.Kind)
	switch {
	case known && fresh.Below:
		return misuse{fmt.Errorf("the %s of the new water is only an upper limit; write the number that it is taken for", target.Kind)}
	case known:
		return c.amount(w, b, target, with)
	case c.Size != "":
		return c.water(w, b, target, with)
	}
	return misuse{fmt.Errorf("add the %s of the new water (--with '%s …'), or the size of the change (--size 20%%) to learn what the new water must have", target.Kind, target.Kind)}
}

// one reads exactly one reading that mixes.
func (b *bath) one(where, text string) (journal.Reading, error) {
	readings, err := b.read(where, text)
	switch {
	case err != nil:
		return journal.Reading{}, err
	case len(readings) != 1:
		return journal.Reading{}, misuse{fmt.Errorf("%s is one reading, such as 'gh 8'", where)}
	case !mixes(readings[0].Kind):
		return journal.Reading{}, misuse{fmt.Errorf("%s does not follow from its parts, so no sum leads to it",
			readingTitle(readings[0].Kind))}
	case readings[0].Below:
		return journal.Reading{}, misuse{fmt.Errorf("%s is one number, not an upper limit", where)}
	}
	return readings[0], nil
}

// amount prints the size of a change with water that is known.
func (c *waterTarget) amount(w *world, b *bath, target journal.Reading, with []journal.Reading) error {
	tank, _ := journal.ReadingOf(b.values, target.Kind)
	fresh, _ := journal.ReadingOf(with, target.Kind)
	share, err := water.ShareFor(tank.Value, fresh.Value, target.Value)
	if err != nil {
		return fmt.Errorf("no change leads from %s to %s with water of %s: the target does not lie between the two", b.write(tank), b.write(target), b.write(fresh))
	}
	changed, err := b.change(share, with, 1)
	if err != nil {
		return err
	}
	document := targetDocument{
		Sum: "target", Kind: string(target.Kind), Unit: baseUnit(target.Kind), Target: target.Value,
		Share: &share, Litres: b.part(share),
		With: fresh.Value, Readings: b.documents(changed),
	}
	r := result{
		sentence: fmt.Sprintf("To bring %s from %s to %s with water of %s: change %s.",
			readingTitle(target.Kind), b.write(tank), b.write(target), b.write(fresh), b.sizeAlone(share)),
		notes: unmixed(b.values, with),
	}
	if err := c.inSteps(b, share, &document, &r); err != nil {
		return err
	}
	r.head, r.rows = b.table(changed)
	return c.finish(w, b, r, document)
}

// inSteps proposes several smaller changes for a large one, or says how many of the given size it takes.
func (c *waterTarget) inSteps(b *bath, whole float64, document *targetDocument, r *result) error {
	step := usualStep
	switch {
	case c.Size != "":
		var err error
		if step, err = b.share(c.Size); err != nil {
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
	r.notes = append(r.notes, fmt.Sprintf("In steps of %s: %s, with some days between them.", b.sizeAlone(step),
		wording.Count(changes, "change", "changes")))
	return nil
}

// sizeAlone writes the size of a change.
func (b *bath) sizeAlone(share float64) string {
	size := wording.Number(100*share, 1) + " %"
	if b.litres.Known {
		size += " (" + b.amount(share*b.litres.Value) + ")"
	}
	return size
}

// water prints what the new water of a change must have.
func (c *waterTarget) water(w *world, b *bath, target journal.Reading, with []journal.Reading) error {
	tank, _ := journal.ReadingOf(b.values, target.Kind)
	share, err := b.share(c.Size)
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
		return fmt.Errorf("a change of %s is too small to bring %s from %s to %s, even with water that has none", b.sizeAlone(share), readingTitle(target.Kind), b.write(tank), b.write(target))
	case err != nil:
		return fmt.Errorf("no water does that in one change of %s: %w", b.sizeAlone(share), err)
	}
	fresh := journal.Reading{Kind: target.Kind, Value: value}
	changed, err := b.change(share, append(with, fresh), 1)
	if err != nil {
		return err
	}
	r := result{
		sentence: fmt.Sprintf("To bring %s from %s to %s with a change of %s, the new water needs %s.",
			readingTitle(target.Kind), b.write(tank), b.write(target), b.sizeAlone(share), b.write(fresh)),
		notes: append(unmixed(b.values, with), b.quick(changed)...),
	}
	if target.Kind == journal.Temperature && math.Abs(value-tank.Value) > farApart {
		r.notes = append(r.notes, "Water so much warmer or colder shocks whatever it meets first: pour it in slowly, or let the heater do it (common practice).")
	}
	r.head, r.rows = b.table(changed)
	return c.finish(w, b, r, targetDocument{
		Sum: "target", Kind: string(target.Kind), Unit: baseUnit(target.Kind), Target: target.Value,
		Share: &share, Litres: b.part(share),
		With: value, Readings: b.documents(changed),
	})
}

// finish adds what every answer ends with and prints it.
func (c *waterTarget) finish(w *world, b *bath, r result, document targetDocument) error {
	if origin := c.origin(b); origin != "" {
		r.notes = append(r.notes, origin)
	}
	r.cautions = []string{cautionPower, cautionSlowly}
	document.Notes, document.Cautions = noNil(r.notes), r.cautions
	r.document = document
	return r.print(w.stdout, c.JSON)
}
