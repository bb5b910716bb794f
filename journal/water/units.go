package water

// Celsius returns a temperature given in °F, in °C: (°F − 32)/1.8. Source: NIST SP 811, appendix B.
func Celsius(fahrenheit float64) float64 { return (fahrenheit - 32) / 1.8 }

// Fahrenheit returns a temperature given in °C, in °F: 1.8·°C + 32.
func Fahrenheit(celsius float64) float64 { return 1.8*celsius + 32 }

// CelsiusSpan returns a difference of temperatures given in °F, in °C: no offset, 1.8 °F = 1 °C. Use it for spreads,
// errors and "two degrees warmer". Source: NIST SP 811.
func CelsiusSpan(fahrenheit float64) float64 { return fahrenheit / 1.8 }

// FahrenheitSpan returns a difference of temperatures given in °C, in °F.
func FahrenheitSpan(celsius float64) float64 { return 1.8 * celsius }

// The gallons, in litres.
const (
	LitresPerUSGallon = 3.785411784 // L, exactly 231 cubic inches: NIST Handbook 44, appendix C
	LitresPerUKGallon = 4.54609     // L, exactly: NIST SP 811, appendix B
)

// MillimetresPerInch is exact: NIST SP 811, appendix B.
const MillimetresPerInch = 25.4 // mm
