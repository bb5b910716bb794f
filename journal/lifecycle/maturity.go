package lifecycle

// DaysToMature returns the days from hatched to mature at a constant temperature in °C, and +Inf at or below Base.
// The rate is Thermal.Rate. Against the published 75 d at 27 °C it gives 73.6 d, and 93.6 d at 24 °C where "within
// about 90 d" is published.
func (m Maturity) DaysToMature(celsius float64) float64 { return m.Days(celsius) }

// DaysToSexable returns the days from hatched until the sexes can be told by eye at a constant temperature in °C:
// SexableAt times the days to maturity, and +Inf at or below Base.
func (m Maturity) DaysToSexable(celsius float64) float64 { return m.SexableAt * m.Days(celsius) }
