package water

// The values from which a reading deserves a word, for a shrimp tank.
const (
	// UnionisedCaution is where un-ionised ammonia begins to harm fish: University of Florida, IFAS EDIS FA031.
	UnionisedCaution = 0.05 // mg/L
	// QuickTemperature and QuickHardness are how far a water change moves a tank at once before it deserves a word. Common
	// practice, no source.
	QuickTemperature = 2.0 // °C
	QuickHardness    = 2.0 // dGH or dKH
)
