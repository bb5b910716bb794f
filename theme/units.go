package theme

import (
	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/water"
	"pleopod/journal/wording"
)

// units shows values in the journal's own units. It is the one place of the theme that converts and rounds them.
type units struct{ wording.Units }

// degreeSpan turns a difference in °C into the journal's scale.
func (u units) degreeSpan(celsius float64) float64 {
	if u.Temperature == "F" {
		return water.FahrenheitSpan(celsius)
	}
	return celsius
}

// temperature writes a temperature of the water with its unit.
func (u units) temperature(celsius float64) string { return u.Amount(journal.Temperature, celsius) }

// size turns millimetres into the journal's unit of length.
func (u units) size(mm float64) float64 {
	if u.Length == "in" {
		return mm / water.MillimetresPerInch
	}
	return mm
}

// sizeUnit returns "mm" or "in".
func (u units) sizeUnit() string {
	if u.Length == "in" {
		return "in"
	}
	return "mm"
}

// length writes a body length with its unit: to half a tenth of a millimetre, or a hundredth of an inch.
func (u units) length(mm float64) string {
	digits := 1
	if u.Length == "in" {
		digits = 2
	}
	return wording.Number(u.size(mm), digits) + wording.Joined + u.sizeUnit()
}

// volume writes a volume with its unit.
func (u units) volume(litres float64) string {
	if u.Volume == "gal" {
		return wording.Number(litres/water.LitresPerUSGallon, 1) + wording.Joined + "US gal"
	}
	return wording.Number(litres, 1) + wording.Joined + "L"
}

// shortName is the reading's name where room is scarce.
func shortName(kind journal.ReadingKind) string {
	switch kind {
	case journal.GH:
		return "GH"
	case journal.KH:
		return "KH"
	case journal.TDS:
		return "TDS"
	case journal.Ammonia:
		return "ammonia"
	}
	return wording.ReadingName(kind)
}

// amount writes a reading with its unit, and "below" where the test said so.
func (u units) amount(r journal.Reading) string {
	text := u.Amount(r.Kind, r.Value)
	if r.Below {
		return "below " + text
	}
	return text
}

// span writes the range that a keeper wants.
func (u units) span(r journal.WaterRange) string {
	digits := u.Digits(r.Kind)
	text := wording.Number(u.Reading(r.Kind, r.Low), digits) + " to " + wording.Number(u.Reading(r.Kind, r.High), digits)
	if unit := u.ReadingUnit(r.Kind); unit != "" {
		text += wording.Joined + unit
	}
	return text
}

// otherUnit writes a hardness in the unit that the journal does not use, and "" for other readings.
func (u units) otherUnit(r journal.Reading) string {
	if r.Kind != journal.GH && r.Kind != journal.KH {
		return ""
	}
	other := u
	other.Hardness = map[bool]string{true: "dGH", false: "ppm"}[u.Hardness == "ppm"]
	return other.amount(r)
}

// step writes how far a reading moved, with its sign and unit.
func (u units) step(r forecast.WaterRate) string {
	moved := u.Reading(r.Kind, r.After) - u.Reading(r.Kind, r.Before)
	text := wording.Number(moved, max(1, u.Digits(r.Kind)))
	if moved > 0 {
		text = "+" + text
	}
	if unit := u.ReadingUnit(r.Kind); unit != "" {
		text += wording.Joined + unit
	}
	return text
}
