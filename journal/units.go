package journal

import (
	"slices"
	"strings"

	"pleopod/journal/water"
)

// Quantity is what an amount measures. It decides which units may follow the number.
type Quantity string

// The quantities of the format, with the unit that the reader turns them into.
const (
	NoQuantity           Quantity = ""
	QuantityTemperature  Quantity = "temperature"             // °C
	QuantitySpan         Quantity = "temperature difference"  // °C
	QuantityDegreeDays   Quantity = "degree-days"             // °C·d
	QuantityVolume       Quantity = "volume"                  // L
	QuantityLength       Quantity = "length"                  // mm
	QuantityAge          Quantity = "age"                     // days; the unit is always written
	QuantityDays         Quantity = "days"                    // days
	QuantityGH           Quantity = "general hardness"        // dGH
	QuantityKH           Quantity = "carbonate hardness"      // dKH
	QuantityMass         Quantity = "concentration"           // mg/L
	QuantityTDS          Quantity = "total dissolved solids"  // ppm
	QuantityConductivity Quantity = "conductivity"            // µS/cm
	QuantityShare        Quantity = "share"                   // a pure number or a percentage; its word or parameter gives the span
	QuantityChange       Quantity = "share or volume"         // 0 to 1, or L
	QuantityDaily        Quantity = "daily rate"              // per day
	QuantityDensity      Quantity = "shrimp per litre"        // per L
	QuantityNumber       Quantity = "number without any unit" // as written
)

// unit is one way to write an amount: base = (written + shift) * scale.
type unit struct {
	symbol string   // how the program writes it
	also   []string // other spellings that are understood; letter case never matters
	scale  float64
	shift  float64
}

// measure is the units of one quantity, the unit of the reader first.
type measure struct {
	quantity Quantity
	units    []unit
	bare     bool // a number without a unit is understood
}

// times is the units of an age or a duration. A month is a twelfth of the Julian year of 365.25 days.
var times = []unit{
	{"days", []string{"day", "d"}, 1, 0},
	{"weeks", []string{"week", "wk", "wks", "w"}, 7, 0},
	{"months", []string{"month", "mo", "mos"}, 365.25 / 12, 0},
	{"years", []string{"year", "yr", "yrs", "y"}, 365.25, 0},
}

// measures lists every quantity with its units.
var measures = []measure{
	{QuantityTemperature, []unit{
		{"C", []string{"°C", "℃", "º C", "ºC", "deg C", "celsius", "degrees C"}, 1, 0},
		{"F", []string{"°F", "℉", "ºF", "deg F", "fahrenheit", "degrees F"}, 1 / 1.8, -32}}, true},
	{QuantitySpan, []unit{
		{"C", []string{"°C", "℃", "K", "celsius"}, 1, 0},
		{"F", []string{"°F", "℉", "fahrenheit"}, 1 / 1.8, 0}}, true},
	{QuantityDegreeDays, []unit{
		{"C·d", []string{"C d", "C-days", "°C·d", "°C d", "degree-days", "degree days", "Cd"}, 1, 0},
		{"F·d", []string{"F d", "F-days", "°F·d", "°F d"}, 1 / 1.8, 0}}, true},
	{QuantityVolume, []unit{
		{"L", []string{"litre", "litres", "liter", "liters", "ltr"}, 1, 0},
		{"gal", []string{"gallon", "gallons", "US gal", "gal US", "gal (US)", "US gallon", "US gallons"}, water.LitresPerUSGallon, 0},
		{"UK gal", []string{"imp gal", "UK gallon", "UK gallons", "imperial gallon", "imperial gallons", "gal (UK)"}, water.LitresPerUKGallon, 0},
		{"mL", []string{"millilitre", "millilitres", "milliliter", "milliliters"}, 0.001, 0}}, true},
	{QuantityLength, []unit{
		{"mm", []string{"millimetre", "millimetres", "millimeter", "millimeters"}, 1, 0},
		{"cm", []string{"centimetre", "centimetres", "centimeter", "centimeters"}, 10, 0},
		{"in", []string{"inch", "inches", "\"", "″"}, water.MillimetresPerInch, 0}}, true},
	{QuantityAge, times, false},
	{QuantityDays, times, true},
	{QuantityGH, []unit{
		{"dGH", []string{"°dGH", "dH", "°dH", "GH", "degrees"}, 1, 0},
		{"ppm", []string{"mg/L", "ppm CaCO3", "mg/L CaCO3", "ppm as CaCO3", "mg/L as CaCO3"}, 1 / water.PPMPerDegree, 0}}, true},
	{QuantityKH, []unit{
		{"dKH", []string{"°dKH", "dH", "°dH", "KH", "degrees"}, 1, 0},
		{"ppm", []string{"mg/L", "ppm CaCO3", "mg/L CaCO3", "ppm as CaCO3", "mg/L as CaCO3"}, 1 / water.PPMPerDegree, 0}}, true},
	{QuantityMass, []unit{
		{"mg/L", []string{"ppm"}, 1, 0},
		{"µg/L", []string{"μg/L", "ug/L", "ppb"}, 0.001, 0}}, true},
	{QuantityTDS, []unit{{"ppm", []string{"mg/L"}, 1, 0}}, true},
	{QuantityConductivity, []unit{
		{"µS/cm", []string{"μS/cm", "uS/cm", "µS", "μS", "uS"}, 1, 0},
		{"mS/cm", []string{"mS"}, 1000, 0}}, true},
	{QuantityShare, []unit{{"", nil, 1, 0}, {"%", []string{"percent", "per cent"}, 0.01, 0}}, true},
	{QuantityDaily, []unit{{"/d", []string{"per day", "/day", "1/d"}, 1, 0}}, true},
	{QuantityDensity, []unit{{"/L", []string{"1/L", "per L", "per litre", "per liter"}, 1, 0}}, true},
	{QuantityNumber, []unit{{"", nil, 1, 0}}, true},
}

// measureOf returns the units of a quantity.
func measureOf(quantity Quantity) measure {
	for _, m := range measures {
		if m.quantity == quantity {
			return m
		}
	}
	return measure{quantity: quantity, units: []unit{{"", nil, 1, 0}}, bare: true}
}

// find returns the unit that text spells, and false when none does.
func (m measure) find(text string) (unit, bool) {
	text = strings.Join(strings.Fields(strings.TrimSuffix(text, ".")), " ")
	for _, u := range m.units {
		if strings.EqualFold(u.symbol, text) || slices.ContainsFunc(u.also, func(s string) bool { return strings.EqualFold(s, text) }) {
			return u, true
		}
	}
	return unit{}, false
}

// symbols lists the units of the quantity as the program writes them.
func (m measure) symbols() []string {
	var symbols []string
	for _, u := range m.units {
		if u.symbol != "" {
			symbols = append(symbols, u.symbol)
		}
	}
	return symbols
}

// base turns a written number into the reader's unit.
func (u unit) base(written float64) float64 { return (written + u.shift) * u.scale }

// bareUnit returns the unit that a number without one has in a journal with these units.
func (units Units) bareUnit(quantity Quantity) (unit, bool) {
	m := measureOf(quantity)
	if !m.bare {
		return unit{}, false
	}
	symbol := m.units[0].symbol
	switch quantity {
	case QuantityTemperature, QuantitySpan:
		symbol = units.Temperature
	case QuantityDegreeDays:
		symbol = units.Temperature + "·d"
	case QuantityVolume:
		symbol = units.Volume
	case QuantityLength:
		symbol = units.Length
	case QuantityGH, QuantityKH:
		if units.Hardness == "ppm" {
			symbol = "ppm"
		}
	}
	if u, ok := m.find(symbol); ok {
		return u, true
	}
	return m.units[0], true
}

// MetricUnits is what a journal's pages and bare numbers use unless journal.yaml says otherwise.
func MetricUnits() Units {
	return Units{Temperature: "C", Volume: "L", Length: "mm", Hardness: "dGH"}
}
