package main

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"pleopod/journal"
	"pleopod/journal/water"
	"pleopod/journal/wording"
)

// waterChange is the sum "what does this water change make of my water?".
type waterChange struct {
	Size  string `arg:"" help:"How much is changed, such as 25% or 10L."`
	With  string `required:"" placeholder:"READINGS" help:"The new water, such as 'gh 4, temperature 19C'."`
	Times int    `default:"1" help:"How many changes of this size, one after the other."`
	tankWater
}

// mixedDocument is one reading before and after, in the unit of the format.
type mixedDocument struct {
	Kind  string  `json:"kind"`
	Unit  string  `json:"unit"` // C, dGH, dKH, ppm, µS/cm or mg/L
	Tank  float64 `json:"tank"`
	With  float64 `json:"with"`
	After float64 `json:"after"`
	Below bool    `json:"below"` // after is an upper limit
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
func (c *waterChange) Run(w *world) error {
	if c.Times < 1 || c.Times > 1000 {
		return misuse{fmt.Errorf("--times is %d; it can be 1 to 1000", c.Times)}
	}
	b, err := c.fill(w)
	if err != nil {
		return err
	}
	with, err := b.read("--with", c.With)
	if err != nil {
		return err
	}
	share, err := b.share(c.Size)
	if err != nil {
		return err
	}
	changed, err := b.change(share, with, c.Times)
	if err != nil {
		return err
	}
	if len(changed) == 0 {
		return nothingInCommon(b.values, with)
	}
	r := result{sentence: b.sizeWords(share, c.Times), notes: unmixed(b.values, with),
		cautions: []string{cautionPower, cautionSlowly}}
	first, err := b.change(share, with, 1)
	if err != nil {
		return err
	}
	r.notes = append(r.notes, b.quick(first)...)
	if origin := c.origin(b); origin != "" {
		r.notes = append(r.notes, origin)
	}
	r.head, r.rows = b.table(changed)
	r.document = changeDocument{"change", share, b.part(share), c.Times, b.documents(changed), noNil(r.notes),
		r.cautions}
	return r.print(w.stdout, c.JSON)
}

// nothingInCommon says why there is nothing to calculate.
func nothingInCommon(tank, with []journal.Reading) error {
	if len(tank) == 0 {
		return misuse{errors.New("the water in the tank is not given; add --water 'gh 12' or --tank ID")}
	}
	return misuse{fmt.Errorf("the tank and the new water have no reading in common that mixes: %s and %s",
		kindList(tank), kindList(with))}
}

// kindList writes the kinds of readings.
func kindList(readings []journal.Reading) string {
	text := ""
	for i, r := range readings {
		if i > 0 {
			text += ", "
		}
		text += string(r.Kind)
	}
	return text
}

// share reads the size of a change as a share of the tank's water.
func (b *bath) share(size string) (float64, error) {
	share, litres, err := journal.ParseChange(size, b.units)
	switch {
	case err != nil:
		return 0, misuse{err}
	case share.Known:
		return share.Value, nil
	case !b.litres.Known:
		return 0, misuse{fmt.Errorf("%q is a volume, and the volume of the tank is not known; add --volume", size)}
	case litres.Value > b.litres.Value:
		return 0, misuse{fmt.Errorf("%s is more than the tank holds, %s", b.amount(litres.Value),
			b.amount(b.litres.Value))}
	}
	return litres.Value / b.litres.Value, nil
}

// part returns the litres of a share, or nil where the volume of the tank is not known.
func (b *bath) part(share float64) *float64 {
	if !b.litres.Known {
		return nil
	}
	litres := share * b.litres.Value
	return &litres
}

// sizeWords says how large a change is.
func (b *bath) sizeWords(share float64, times int) string {
	size := wording.Number(100*share, 1) + " %"
	if b.litres.Known {
		size += fmt.Sprintf(" (%s of %s)", b.amount(share*b.litres.Value), b.amount(b.litres.Value))
	}
	if times > 1 {
		return fmt.Sprintf("%d changes of %s, one after the other:", times, size)
	}
	return fmt.Sprintf("A change of %s:", size)
}

// mixed is one reading before, of the new water, and after.
type mixed struct{ tank, with, after journal.Reading }

// change mixes what both waters have. The upper limit of a mixture is that of its parts.
func (b *bath) change(share float64, with []journal.Reading, times int) ([]mixed, error) {
	var all []mixed
	for _, kind := range both(b.values, with) {
		tank, _ := journal.ReadingOf(b.values, kind)
		fresh, _ := journal.ReadingOf(with, kind)
		values, err := water.Series(tank.Value, fresh.Value, share, times)
		if err != nil {
			return nil, err
		}
		all = append(all, mixed{tank, fresh,
			journal.Reading{Kind: kind, Value: values[times-1], Below: tank.Below || fresh.Below}})
	}
	return all, nil
}

// table puts mixed readings into rows.
func (b *bath) table(all []mixed) (head []string, rows [][]string) {
	for _, m := range all {
		rows = append(rows, []string{readingTitle(m.tank.Kind), b.write(m.tank), b.write(m.with), b.write(m.after)})
	}
	return []string{"", "tank", "new water", "afterwards"}, rows
}

func (b *bath) documents(all []mixed) []mixedDocument {
	documents := []mixedDocument{}
	for _, m := range all {
		documents = append(documents, mixedDocument{string(m.tank.Kind), baseUnit(m.tank.Kind), m.tank.Value,
			m.with.Value, m.after.Value, m.after.Below})
	}
	return documents
}

// baseUnit is the unit of values in documents, whatever was typed.
func baseUnit(kind journal.ReadingKind) string { return journal.MetricUnits().Unit(kind.Quantity()) }

// noNil returns a list that is never nil, so that JSON shows an empty list.
func noNil(notes []string) []string { return append([]string{}, notes...) }

// quick says which readings move further at once than is usual.
func (b *bath) quick(all []mixed) []string {
	var notes []string
	for _, m := range all {
		moved := math.Abs(m.after.Value - m.tank.Value)
		if moved > quickStep(m.tank.Kind) {
			notes = append(notes, fmt.Sprintf("%s moves by %s: a lot for shrimp at once. Smaller changes on several days are gentler (common practice).",
				capitalised(readingTitle(m.tank.Kind)), b.difference(m.tank.Kind, moved)))
		}
	}
	return notes
}

// quickStep is how far a reading may move at once without a word.
func quickStep(kind journal.ReadingKind) float64 {
	switch kind {
	case journal.Temperature:
		return water.QuickTemperature
	case journal.GH, journal.KH:
		return water.QuickHardness
	}
	return math.Inf(1)
}

// capitalised puts a capital at the front, except of "pH".
func capitalised(text string) string {
	if text == "" || text == "pH" {
		return text
	}
	return strings.ToUpper(text[:1]) + text[1:]
}

// difference writes how far apart two readings are.
func (b *bath) difference(kind journal.ReadingKind, span float64) string {
	unit := b.unit(kind)
	value := b.number(kind, span) - b.number(kind, 0)
	return wording.Number(value, wording.Digits(kind, unit)) + " " + wording.Sign(unit)
}
