package main

import (
	"errors"
	"fmt"
	"math"

	"pleopod/journal"
	"pleopod/journal/water"
)

// mixed is one reading before, of the new water, and after.
type mixed struct{ tank, with, after journal.Reading }

// mixedDocument is one reading before and after, in the unit of the format.
type mixedDocument struct {
	Kind  string  `json:"kind"`
	Unit  string  `json:"unit"` // C, dGH, dKH, ppm, µS/cm or mg/L
	Tank  float64 `json:"tank"`
	With  float64 `json:"with"`
	After float64 `json:"after"`
	Below bool    `json:"below"` // after is an upper limit
}

// change mixes what both waters have. The upper limit of a mixture is that of its parts.
func (t *tankWater) change(share float64, with []journal.Reading, times int) ([]mixed, error) {
	var all []mixed
	for _, kind := range mixingKinds(t.values, with) {
		tank, _ := journal.ReadingOf(t.values, kind)
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

// mixingKinds returns the kinds that two waters have in common and that mix by rule, in the order of the manual.
func mixingKinds(tank, fresh []journal.Reading) []journal.ReadingKind {
	var kinds []journal.ReadingKind
	for _, kind := range journal.ReadingKinds() {
		_, a := journal.ReadingOf(tank, kind)
		_, b := journal.ReadingOf(fresh, kind)
		if a && b && mixes(kind) {
			kinds = append(kinds, kind)
		}
	}
	return kinds
}

// mixes reports whether a reading of a mixture follows from its parts. pH does not, and oxygen comes and goes through
// the surface.
func mixes(kind journal.ReadingKind) bool { return kind != journal.PH && kind != journal.Oxygen }

// unmixedNotes says which readings of either water are left out, because those of a mixture do not follow from them.
func unmixedNotes(tank, fresh []journal.Reading) []string {
	var notes []string
	for _, kind := range []journal.ReadingKind{journal.PH, journal.Oxygen} {
		_, a := journal.ReadingOf(tank, kind)
		_, b := journal.ReadingOf(fresh, kind)
		if a || b {
			notes = append(notes, readingTitle(kind)+" is left out: it does not follow from its parts; test it afterwards.")
		}
	}
	return notes
}

// table puts mixed readings into rows.
func (t *tankWater) table(all []mixed) (head []string, rows [][]string) {
	for _, m := range all {
		rows = append(rows, []string{readingTitle(m.tank.Kind), t.text(m.tank), t.text(m.with), t.text(m.after)})
	}
	return []string{"", "tank", "new water", "afterwards"}, rows
}

// documents puts mixed readings into their JSON form.
func (t *tankWater) documents(all []mixed) []mixedDocument {
	documents := []mixedDocument{}
	for _, m := range all {
		documents = append(documents, mixedDocument{string(m.tank.Kind), baseUnit(m.tank.Kind), m.tank.Value,
			m.with.Value, m.after.Value, m.after.Below})
	}
	return documents
}

// quickNotes says which readings move further at once than is usual.
func (t *tankWater) quickNotes(all []mixed) []string {
	var notes []string
	for _, m := range all {
		moved := math.Abs(m.after.Value - m.tank.Value)
		if moved > quickStep(m.tank.Kind) {
			notes = append(notes, fmt.Sprintf("%s moves by %s: a lot for shrimp at once. Smaller changes on several days are gentler (common practice).",
				capitalised(readingTitle(m.tank.Kind)), t.difference(m.tank.Kind, moved)))
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
