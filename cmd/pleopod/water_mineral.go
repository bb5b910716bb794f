package main

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"pleopod/journal"
	"pleopod/journal/water"
	"pleopod/journal/wording"
)

// waterRemineralise is the sum "how do I make water of this hardness?".
type waterRemineralise struct {
	Reading string `arg:"" help:"What the new water shall have, such as 'gh 6'."`
	Volume  string `required:"" placeholder:"VOLUME" help:"How much of it to make, such as 10L or 5gal."`
	Soft    string `placeholder:"READINGS" help:"The soft water to start from; osmosis water of 0 when left out."`
	With    string `placeholder:"READINGS" help:"Harder water to blend in, such as tap water of 'gh 14'."`
	Packet  string `placeholder:"STRENGTH" help:"A mineral salt instead: grams, litres and what they add, as its packet says: '2 g, 10 L, gh 1'."`
	outputFlag
}

// remineraliseDocument is what water remineralise --json prints: either the litres of both waters, or the grams
// of salt.
type remineraliseDocument struct {
	Sum      string   `json:"sum"` // "remineralise"
	Kind     string   `json:"kind"`
	Unit     string   `json:"unit"` // dGH, dKH, ppm, µS/cm or mg/L
	Target   float64  `json:"target"`
	Litres   float64  `json:"litres"`
	Soft     *float64 `json:"softLitres"`
	Hard     *float64 `json:"hardLitres"`
	Grams    *float64 `json:"grams"`
	Cautions []string `json:"cautions"`
}

// Run prints the recipe.
func (c *waterRemineralise) Run(env *environment) error {
	t := &tankWater{units: journal.MetricUnits(), shownUnits: map[journal.ReadingKind]string{}}
	target, err := t.one("the target", c.Reading)
	if err != nil {
		return err
	}
	if target.Kind == journal.Temperature {
		return misuse{errors.New("a temperature is no mineral; for that see pleopod water target")}
	}
	volume, err := journal.ParseAmount(c.Volume, journal.QuantityVolume, t.units)
	if err != nil {
		return misuse{fmt.Errorf("--volume: %w", err)}
	}
	t.volume = volume.Unit
	soft, err := t.read("--soft", c.Soft)
	if err != nil {
		return err
	}
	from, known := journal.ReadingOf(soft, target.Kind)
	switch {
	case !known && len(soft) > 0:
		return misuse{fmt.Errorf("--soft has no %s, which the target is about", target.Kind)}
	case !known:
		from = journal.Reading{Kind: target.Kind}
	}
	document := remineraliseDocument{Sum: "remineralise", Kind: string(target.Kind),
		Unit: baseUnit(target.Kind), Target: target.Value, Litres: volume.Value}
	switch {
	case (c.With == "") == (c.Packet == ""):
		return misuse{errors.New("give either harder water (--with 'gh 14') or the strength of a salt (--packet '2 g, 10 L, gh 1')")}
	case c.With != "":
		return c.blend(env, t, from, target, document)
	}
	return c.salt(env, t, from, target, document)
}

// blend prints how much of the two waters to take.
func (c *waterRemineralise) blend(env *environment, t *tankWater, from, target journal.Reading, document remineraliseDocument) error {
	with, err := t.read("--with", c.With)
	if err != nil {
		return err
	}
	hard, ok := journal.ReadingOf(with, target.Kind)
	if !ok {
		return misuse{fmt.Errorf("--with has no %s, which the target is about", target.Kind)}
	}
	litres, err := water.Blend(document.Litres, from.Value, hard.Value, target.Value)
	if err != nil {
		return fmt.Errorf("no blend of %s and %s has %s: the target does not lie between the two",
			t.text(from), t.text(hard), t.text(target))
	}
	rest := document.Litres - litres
	document.Soft, document.Hard = &rest, &litres
	return c.finish(env, fmt.Sprintf("For %s of %s: %s of the water of %s and %s of the water of %s.",
		t.amount(document.Litres), t.text(target), t.amount(rest), t.text(from), t.amount(litres), t.text(hard)), document)
}

// salt prints how many grams to dissolve.
func (c *waterRemineralise) salt(env *environment, t *tankWater, from, target journal.Reading, document remineraliseDocument) error {
	packet, err := t.packet(c.Packet, target.Kind)
	if err != nil {
		return err
	}
	grams, err := water.SaltFor(document.Litres, from.Value, target.Value, packet)
	if err != nil {
		return fmt.Errorf("salt only adds: it does not bring %s down to %s", t.text(from), t.text(target))
	}
	document.Grams = &grams
	return c.finish(env, fmt.Sprintf("For %s of %s from water of %s: %s g of the salt. Dissolve it before the water goes into the tank, and test.",
		t.amount(document.Litres), t.text(target), t.text(from), wording.Number(grams, 2)), document)
}

func (c *waterRemineralise) finish(env *environment, sentence string, document remineraliseDocument) error {
	r := result{sentence: sentence, cautions: []string{cautionSlowly}}
	document.Cautions = r.cautions
	r.document = document
	return c.print(env.stdout, r)
}

// weightText is a weight as packets state it.
var weightText = regexp.MustCompile(`^(\d+(?:\.\d+)?)\s*(?:g|grams?)$`)

// packet reads the strength of a salt: grams, litres, and what they add.
func (t *tankWater) packet(text string, kind journal.ReadingKind) (water.Salt, error) {
	parts := strings.SplitN(text, ",", 3)
	if len(parts) != 3 {
		return water.Salt{}, misuse{fmt.Errorf("--packet is %q; it takes grams, litres and what they add, such as '2 g, 10 L, gh 1'", text)}
	}
	m := weightText.FindStringSubmatch(strings.TrimSpace(parts[0]))
	if m == nil {
		return water.Salt{}, misuse{fmt.Errorf("--packet begins with %q; it takes a weight, such as 2 g", parts[0])}
	}
	litres, err := journal.ParseAmount(parts[1], journal.QuantityVolume, t.units)
	if err != nil {
		return water.Salt{}, misuse{fmt.Errorf("--packet: %w", err)}
	}
	adds, err := t.one("what the salt adds", parts[2])
	if err != nil {
		return water.Salt{}, err
	}
	if adds.Kind != kind {
		return water.Salt{}, misuse{fmt.Errorf("the salt adds %s and the target is %s; both must be the same",
			adds.Kind, kind)}
	}
	weight, _ := strconv.ParseFloat(m[1], 64)
	if weight == 0 || litres.Value == 0 || adds.Value == 0 {
		return water.Salt{}, misuse{fmt.Errorf("--packet is %q; each of its numbers is above 0", text)}
	}
	return water.Salt{Grams: weight, Litres: litres.Value, Raises: adds.Value}, nil
}
