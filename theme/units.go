package theme

import (
	"math"
	"strconv"
	"strings"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/water"
)

// units shows values in the journal's own units. It is the one place that converts and rounds them for people.
type units struct{ journal.Units }

// joined parts a number from its unit without a line break between them.
const joined = "\u00a0"

// decimal writes a number with at most the given digits after the point, without trailing zeros and without "-0".
func decimal(value float64, digits int) string {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return "unknown"
	}
	text := strconv.FormatFloat(value, 'f', digits, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text == "-0" {
		return "0"
	}
	return strings.Replace(text, "-", "−", 1)
}

// degrees turns °C into the journal's scale.
func (u units) degrees(celsius float64) float64 {
	if u.Temperature == "F" {
		return water.Fahrenheit(celsius)
	}
	return celsius
}

// degreeSpan turns a difference in °C into the journal's scale.
func (u units) degreeSpan(celsius float64) float64 {
	if u.Temperature == "F" {
		return water.FahrenheitSpan(celsius)
	}
	return celsius
}

// degreeUnit returns "°C" or "°F".
func (u units) degreeUnit() string {
	if u.Temperature == "F" {
		return "°F"
	}
	return "°C"
}

// temperature writes a temperature of the water with its unit, to a tenth.
func (u units) temperature(celsius float64) string {
	return decimal(u.degrees(celsius), 1) + joined + u.degreeUnit()
}

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
	return decimal(u.size(mm), digits) + joined + u.sizeUnit()
}

// volume writes a volume with its unit.
func (u units) volume(litres float64) string {
	if u.Volume == "gal" {
		return decimal(litres/water.LitresPerUSGallon, 1) + joined + "US gal"
	}
	return decimal(litres, 1) + joined + "L"
}

// readingName is what people call a reading.
var readingName = map[journal.ReadingKind]string{
	journal.Temperature: "temperature", journal.PH: "pH", journal.GH: "general hardness", journal.KH: "carbonate hardness",
	journal.TDS: "dissolved solids", journal.Conductivity: "conductivity", journal.Ammonia: "total ammonia",
	journal.Nitrite: "nitrite", journal.Nitrate: "nitrate", journal.Copper: "copper", journal.Oxygen: "oxygen",
}

// readingOrder is the order in which readings are shown.
var readingOrder = []journal.ReadingKind{
	journal.Temperature, journal.PH, journal.GH, journal.KH, journal.TDS, journal.Conductivity,
	journal.Ammonia, journal.Nitrite, journal.Nitrate, journal.Copper, journal.Oxygen,
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
	return readingName[kind]
}

// reading turns the value of a reading into the journal's unit.
func (u units) reading(kind journal.ReadingKind, value float64) float64 {
	switch kind {
	case journal.Temperature:
		return u.degrees(value)
	case journal.GH, journal.KH:
		if u.Hardness == "ppm" {
			return value * water.PPMPerDegree
		}
	}
	return value
}

// readingUnit returns the unit that reading gives values in.
func (u units) readingUnit(kind journal.ReadingKind) string {
	switch kind {
	case journal.Temperature:
		return u.degreeUnit()
	case journal.PH:
		return ""
	case journal.GH, journal.KH:
		if u.Hardness == "ppm" {
			return "ppm"
		}
		return map[journal.ReadingKind]string{journal.GH: "dGH", journal.KH: "dKH"}[kind]
	case journal.TDS:
		return "ppm"
	case journal.Conductivity:
		return "µS/cm"
	}
	return "mg/L"
}

// digits is how many places after the point a reading is shown with.
func (u units) digits(kind journal.ReadingKind) int {
	switch kind {
	case journal.Temperature, journal.PH, journal.Oxygen:
		return 1
	case journal.GH, journal.KH:
		if u.Hardness == "ppm" {
			return 0
		}
		return 1
	case journal.TDS, journal.Conductivity:
		return 0
	}
	return 3
}

// amount writes a reading with its unit, and "below" where the test said so.
func (u units) amount(r journal.Reading) string {
	text := decimal(u.reading(r.Kind, r.Value), u.digits(r.Kind))
	if unit := u.readingUnit(r.Kind); unit != "" {
		text += joined + unit
	}
	if r.Below {
		return "below " + text
	}
	return text
}

// span writes the range that a keeper wants.
func (u units) span(r journal.WaterRange) string {
	digits := u.digits(r.Kind)
	text := decimal(u.reading(r.Kind, r.Low), digits) + " to " + decimal(u.reading(r.Kind, r.High), digits)
	if unit := u.readingUnit(r.Kind); unit != "" {
		text += joined + unit
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
	moved := u.reading(r.Kind, r.After) - u.reading(r.Kind, r.Before)
	text := decimal(moved, max(1, u.digits(r.Kind)))
	if moved > 0 {
		text = "+" + text
	}
	if unit := u.readingUnit(r.Kind); unit != "" {
		text += joined + unit
	}
	return text
}
