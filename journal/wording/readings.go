package wording

import "pleopod/journal"

// ReadingName is what people call a reading.
func ReadingName(kind journal.ReadingKind) string {
	switch kind {
	case journal.PH:
		return "pH"
	case journal.GH:
		return "general hardness"
	case journal.KH:
		return "carbonate hardness"
	case journal.TDS:
		return "dissolved solids"
	case journal.Ammonia:
		return "total ammonia"
	}
	return string(kind)
}

// Units writes readings in the units that a journal uses. The zero value writes °C and dGH.
type Units struct{ journal.Units }

// Reading turns the value of a reading, in the unit of the format, into the journal's unit.
func (u Units) Reading(kind journal.ReadingKind, value float64) float64 {
	return kind.Quantity().InUnit(value, u.Unit(kind.Quantity()))
}

// ReadingUnit returns the sign of the unit that Reading gives values in, "" for pH.
func (u Units) ReadingUnit(kind journal.ReadingKind) string {
	return Sign(u.Unit(kind.Quantity()))
}

// Sign writes a unit of the format as people do: with a degree sign before C and F.
func Sign(unit string) string {
	if unit == "C" || unit == "F" {
		return "°" + unit
	}
	return unit
}

// Digits is how many places after the point a reading is shown with.
func (u Units) Digits(kind journal.ReadingKind) int { return Digits(kind, u.Unit(kind.Quantity())) }

// Digits is how many places after the point a reading is shown with in a unit.
func Digits(kind journal.ReadingKind, unit string) int {
	if kind == journal.TDS || unit == "ppm" || unit == "µS/cm" || unit == "µg/L" {
		return 0
	}
	switch kind {
	case journal.Temperature, journal.PH, journal.GH, journal.KH, journal.Oxygen:
		return 1
	}
	return 3
}

// Amount writes the value of a reading with its unit.
func (u Units) Amount(kind journal.ReadingKind, value float64) string {
	text := Number(u.Reading(kind, value), u.Digits(kind))
	if unit := u.ReadingUnit(kind); unit != "" {
		text += Joined + unit
	}
	return text
}
