package water

// Fahrenheit returns a temperature given in °C, in °F: 1.8·°C + 32. Source: NIST SP 811, appendix B.
func Fahrenheit(celsius float64) float64 { return 1.8*celsius + 32 }

// FahrenheitSpan returns a difference of temperatures given in °C, in °F: no offset. Use it for spreads, errors and "two
// degrees warmer". Source: NIST SP 811.
func FahrenheitSpan(celsius float64) float64 { return 1.8 * celsius }

// The gallons, in litres.
const (
	LitresPerUSGallon = 3.785411784 // L, exactly 231 cubic inches: NIST Handbook 44, appendix C
	LitresPerUKGallon = 4.54609     // L, exactly: NIST SP 811, appendix B
)

// MillimetresPerInch is exact: NIST SP 811, appendix B.
const MillimetresPerInch = 25.4 // mm
