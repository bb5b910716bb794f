package main

import (
	"errors"
	"fmt"
	"strings"

	"pleopod/journal"
	"pleopod/journal/water"
)

// waterMix is the sum "what do these waters make together?".
type waterMix struct {
	Parts []string `arg:"" help:"Each water: its volume and its readings, such as '30 L, gh 8, temperature 24C'."`
	outputFlag
}

// mixDocument is what water mix --json prints.
type mixDocument struct {
	Sum      string            `json:"sum"` // "mix"
	Litres   float64           `json:"litres"`
	Readings []readingDocument `json:"readings"`
	Notes    []string          `json:"notes"`
	Cautions []string          `json:"cautions"`
}

// readingDocument is one reading, in the unit of the format.
type readingDocument struct {
	Kind  string  `json:"kind"`
	Unit  string  `json:"unit"` // C, dGH, dKH, ppm, µS/cm or mg/L
	Value float64 `json:"value"`
	Below bool    `json:"below"` // value is an upper limit
}

// partOfMix is one water of a mixture.
type partOfMix struct {
	litres   float64
	readings []journal.Reading
}

// Run prints the mixture.
func (c *waterMix) Run(env *environment) error {
	t := &tankWater{units: journal.MetricUnits(), shownUnits: map[journal.ReadingKind]string{}, volume: ""}
	if len(c.Parts) < 2 {
		return misuse{errors.New("a mixture has at least two waters, each in quotes: '30 L, gh 8' '8 L, gh 2'")}
	}
	var parts []partOfMix
	total := 0.0
	for _, text := range c.Parts {
		part, err := t.readPart(text)
		if err != nil {
			return err
		}
		parts = append(parts, part)
		total += part.litres
	}
	if total == 0 {
		return misuse{errors.New("there is no water to mix: every volume is 0")}
	}
	r := result{sentence: "Together " + t.amount(total) + ":", head: []string{"", "together"},
		cautions: []string{cautionPower, cautionSlowly}}
	document := mixDocument{Sum: "mix", Litres: total, Readings: []readingDocument{}, Cautions: r.cautions}
	for _, kind := range journal.ReadingKinds() {
		mixture, note, err := mixtureOf(kind, parts)
		if err != nil {
			return err
		}
		if note != "" {
			r.notes = append(r.notes, note)
		}
		if mixture.Kind == "" {
			continue
		}
		r.rows = append(r.rows, []string{readingTitle(kind), t.text(mixture)})
		document.Readings = append(document.Readings,
			readingDocument{string(kind), baseUnit(kind), mixture.Value, mixture.Below})
	}
	if len(r.rows) == 0 {
		return misuse{errors.New("the waters have no reading in common that mixes")}
	}
	document.Notes = neverNil(r.notes)
	r.document = document
	return c.print(env.stdout, r)
}

// readPart reads one water: its volume, a comma, its readings.
func (t *tankWater) readPart(text string) (partOfMix, error) {
	size, rest, ok := strings.Cut(text, ",")
	volume, err := journal.ParseAmount(size, journal.QuantityVolume, t.units)
	if err != nil {
		return partOfMix{}, misuse{fmt.Errorf("%w; a water begins with its volume, such as '30 L, gh 8'", err)}
	}
	if !ok {
		return partOfMix{}, misuse{fmt.Errorf("%q has no reading; write for example '%s, gh 8'", text, text)}
	}
	if t.volume == "" {
		t.volume = volume.Unit
	}
	readings, err := t.read(fmt.Sprintf("%q", text), rest)
	return partOfMix{volume.Value, readings}, err
}

// mixtureOf mixes one reading of all parts. Where only some have it, or it does not mix, it says so instead.
func mixtureOf(kind journal.ReadingKind, parts []partOfMix) (mixture journal.Reading, note string, err error) {
	var waters []water.Part
	below := false
	for _, part := range parts {
		if r, ok := journal.ReadingOf(part.readings, kind); ok {
			waters = append(waters, water.Part{Litres: part.litres, Value: r.Value})
			below = below || r.Below
		}
	}
	switch {
	case len(waters) == 0:
		return mixture, "", nil
	case !mixes(kind):
		return mixture, readingTitle(kind) + " is left out: it does not follow from its parts; test it afterwards.", nil
	case len(waters) < len(parts):
		return mixture, capitalised(readingTitle(kind)) + " is left out: not every water has it.", nil
	}
	value, err := water.Mix(waters...)
	return journal.Reading{Kind: kind, Value: value, Below: below}, "", err
}
