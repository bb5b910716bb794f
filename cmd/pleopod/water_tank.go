package main

import (
	"fmt"
	"slices"
	"strings"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/wording"
)

// tankWater is the water of a tank with its readings, in the units of the format, and the units in which to write them. Of a
// sum about no tank it holds the units only.
type tankWater struct {
	units      journal.Units
	values     []journal.Reading
	days       map[journal.ReadingKind]journal.Day // of values that come from a journal
	shownUnits map[journal.ReadingKind]string      // as they were typed
	litres     journal.Maybe[float64]
	volume     string // the unit of volumes
	basis      journal.Basis
}

// read reads readings from a flag or an argument and notes the units they were typed in, the first ones first.
func (t *tankWater) read(where, text string) ([]journal.Reading, error) {
	if strings.TrimSpace(text) == "" {
		return nil, nil
	}
	typed, err := journal.ParseReadings(text, t.units)
	if err != nil {
		return nil, misuse{fmt.Errorf("%s: %w", where, err)}
	}
	var readings []journal.Reading
	for _, r := range typed {
		readings = append(readings, r.Reading)
		if t.shownUnits[r.Kind] == "" {
			t.shownUnits[r.Kind] = r.Unit
		}
	}
	return readings, nil
}

// one reads exactly one reading that mixes.
func (t *tankWater) one(where, text string) (journal.Reading, error) {
	readings, err := t.read(where, text)
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

// newest takes the newest value of each kind, and the volume.
func (t *tankWater) newest(tank *colony.Tank) {
	t.litres = tank.Volume
	for _, test := range slices.Backward(tank.Tests) {
		for _, r := range test.Readings {
			if day, had := t.days[r.Kind]; had && day >= test.Day {
				continue
			}
			t.set(r)
			t.days[r.Kind] = test.Day
		}
	}
}

// set takes a reading in place of an earlier one of its kind.
func (t *tankWater) set(r journal.Reading) {
	t.values = slices.DeleteFunc(t.values, func(old journal.Reading) bool { return old.Kind == r.Kind })
	t.values = append(t.values, r)
}

// unit returns the unit in which readings of a kind are written.
func (t *tankWater) unit(kind journal.ReadingKind) string {
	if unit := t.shownUnits[kind]; unit != "" {
		return unit
	}
	return t.units.Unit(kind.Quantity())
}

// shownNumber returns the value of a reading in its shown unit.
func (t *tankWater) shownNumber(kind journal.ReadingKind, value float64) float64 {
	return kind.Quantity().InUnit(value, t.unit(kind))
}

// text is a reading with its unit.
func (t *tankWater) text(r journal.Reading) string {
	unit := t.unit(r.Kind)
	text := strings.TrimSpace(wording.Number(t.shownNumber(r.Kind, r.Value), wording.Digits(r.Kind, unit)) + " " + wording.Sign(unit))
	if r.Below {
		return "below " + text
	}
	return text
}

// difference writes how far apart two readings are.
func (t *tankWater) difference(kind journal.ReadingKind, span float64) string {
	unit := t.unit(kind)
	value := t.shownNumber(kind, span) - t.shownNumber(kind, 0)
	return wording.Number(value, wording.Digits(kind, unit)) + " " + wording.Sign(unit)
}

// amount writes a volume in the unit of the tank's.
func (t *tankWater) amount(litres float64) string {
	return wording.Number(journal.QuantityVolume.InUnit(litres, t.volume), 1) + " " + map[bool]string{true: "US gal", false: t.volume}[t.volume == "gal"]
}

// share reads the size of a change as a share of the tank's water.
func (t *tankWater) share(size string) (float64, error) {
	share, litres, err := journal.ParseChange(size, t.units)
	switch {
	case err != nil:
		return 0, misuse{err}
	case share.Known:
		return share.Value, nil
	case !t.litres.Known:
		return 0, misuse{fmt.Errorf("%q is a volume, and the volume of the tank is not known; add --volume", size)}
	case litres.Value > t.litres.Value:
		return 0, misuse{fmt.Errorf("%s is more than the tank holds, %s", t.amount(litres.Value),
			t.amount(t.litres.Value))}
	}
	return litres.Value / t.litres.Value, nil
}

// litresOf returns the litres of a share, or nil where the volume of the tank is not known.
func (t *tankWater) litresOf(share float64) *float64 {
	if !t.litres.Known {
		return nil
	}
	litres := share * t.litres.Value
	return &litres
}

// sizeAlone writes the size of a change.
func (t *tankWater) sizeAlone(share float64) string {
	size := wording.Number(100*share, 1) + " %"
	if t.litres.Known {
		size += " (" + t.amount(share*t.litres.Value) + ")"
	}
	return size
}

// sizeWords says how large a change is.
func (t *tankWater) sizeWords(share float64, times int) string {
	size := wording.Number(100*share, 1) + " %"
	if t.litres.Known {
		size += fmt.Sprintf(" (%s of %s)", t.amount(share*t.litres.Value), t.amount(t.litres.Value))
	}
	if times > 1 {
		return fmt.Sprintf("%d changes of %s, one after the other:", times, size)
	}
	return fmt.Sprintf("A change of %s:", size)
}
