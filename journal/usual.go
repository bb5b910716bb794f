package journal

import (
	"fmt"
	"math"
)

// UsualRanges is what readings of a dwarf shrimp tank usually lie in. A reading outside is a warning where the keeper
// gave no range of her own. Common practice, no source; wide on purpose, to catch slips and not opinions.
func UsualRanges() []WaterRange {
	return []WaterRange{
		{Temperature, 10, 32},
		{PH, 5.5, 8.8},
		{GH, 1, 25},
		{KH, 0, 20},
		{TDS, 30, 800},
		{Conductivity, 50, 1600},
		{Ammonia, 0, 4},
		{Nitrite, 0, 5},
		{Nitrate, 0, 160},
		{Copper, 0, 0.5},
		{Oxygen, 3, 14},
	}
}

// unusualLength is the body length in mm above which a dwarf shrimp is more likely a slip. Common practice, no source.
const unusualLength = 45

// warnUnusual warns of lengths that can be true and hardly are.
func (r *entryReader) warnUnusual(main *value) {
	if main.word.Name != "measured" {
		return
	}
	for i, length := range main.numbers {
		if length > unusualLength || length < 1 {
			r.warn(main.places[i], issue{code: "unusual-length", message: fmt.Sprintf("a length of %s mm; dwarf shrimp measure 2 to %d mm", decimal(round(length)), unusualLength)})
		}
	}
}

// round keeps four decimals, so that converted units read well.
func round(value float64) float64 { return math.Round(value*1e4) / 1e4 }

// warnOutOfRange warns of readings outside the tank's range, or the usual one.
func (r *entryReader) warnOutOfRange(tank string, what Happening) {
	test, ok := what.(*WaterTest)
	if !ok || r.settings == nil || r.settings.Tank(tank) == nil {
		return
	}
	for _, reading := range test.Readings {
		span, whose := rangeFor(r.settings.Tank(tank), reading.Kind)
		if reading.Below || (reading.Value >= span.Low && reading.Value <= span.High) {
			continue
		}
		r.warn(reading.Position, issue{code: "out-of-range", message: fmt.Sprintf("%s is %s; %s is %s to %s", reading.Kind, decimal(round(reading.Value)), whose, decimal(round(span.Low)), decimal(round(span.High)))})
	}
}

// rangeFor returns the span that one reading should stay in, and whose span it is.
func rangeFor(tank *Tank, kind ReadingKind) (span WaterRange, whose string) {
	for _, span := range tank.Range {
		if span.Kind == kind {
			return span, "your range for " + tank.ID
		}
	}
	for _, span := range UsualRanges() {
		if span.Kind == kind {
			return span, "the usual range"
		}
	}
	return WaterRange{Kind: kind, High: 1e9}, ""
}
