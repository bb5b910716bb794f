package journal

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"pleopod/journal/water"
)

// UsualRanges is what readings of a tank of dwarf shrimp usually lie in, in the units of Reading.Value. A
// reading outside is a warning where the keeper gave no range of her own. Common practice, no source: spans
// that keepers quote, widened, because a warning should mean a slip of the hand or a trouble and not an
// opinion. They say nothing of what shrimp want: of ammonia, nitrite and copper that is none, see package notice.
func UsualRanges() []WaterRange {
	return []WaterRange{
		{Temperature, 14, 31},
		{PH, 5.8, 8.6},
		{GH, 2, 22},
		{KH, 0, 16},
		{TDS, 50, 600},
		{Conductivity, 80, 1200},
		{Ammonia, 0, 1},
		{Nitrite, 0, 1},
		{Nitrate, 0, 80},
		{Copper, 0, 0.1},
		{Oxygen, 3, 14},
	}
}

// usual is UsualRanges by kind.
var usual = func() map[ReadingKind]WaterRange {
	byKind := map[ReadingKind]WaterRange{}
	for _, span := range UsualRanges() {
		byKind[span.Kind] = span
	}
	return byKind
}()

// checkReadings warns of readings outside the keeper's range or, without one, outside the usual.
func (r *entryReader) checkReadings(tank string, readings []Reading) {
	var own []WaterRange
	if r.settings != nil && r.settings.Tank(tank) != nil {
		own = r.settings.Tank(tank).Range
	}
	for _, reading := range readings {
		span, mine := rangeOf(own, reading.Kind)
		if !outside(reading, span) {
			continue
		}
		found := issue{code: "unusual-reading", hint: r.slipHint(reading, span),
			message: fmt.Sprintf("%s %s is unusual; %s is usual", reading.Kind, r.show(reading), r.showSpan(span))}
		switch {
		case mine:
			found.code = "outside-range"
			found.message = fmt.Sprintf("%s %s is outside the range of %s, %s", reading.Kind, r.show(reading), quote(tank), r.showSpan(span))
		case reading.Kind == Ammonia || reading.Kind == Nitrite || reading.Kind == Copper:
			found.message = fmt.Sprintf("%s %s is unusual; a settled tank shows 0", reading.Kind, r.show(reading))
		}
		r.warn(reading.Position, found)
	}
}

// rangeOf returns the keeper's range of a reading, else the usual one.
func rangeOf(own []WaterRange, kind ReadingKind) (span WaterRange, mine bool) {
	for _, span := range own {
		if span.Kind == kind {
			return span, true
		}
	}
	return usual[kind], false
}

// outside reports whether a reading is surely outside a span. A reading "below x" may be anything from zero to x.
func outside(reading Reading, span WaterRange) bool {
	if reading.Below {
		return reading.Value <= span.Low && span.Low > 0
	}
	return reading.Value < span.Low-1e-9 || reading.Value > span.High+1e-9
}

// orLostPoint returns the hint of a number that has no meaning, or that its point or its unit is missing.
func (units Units) orLostPoint(problem issue, word *Word, written amount) string {
	if problem.code != "" && word.Quantity == QuantityTemperature && units.Temperature == "F" && written.unit == "" && written.number >= 0 && written.number <= 45 {
		return "a number without a unit is Fahrenheit in this journal; for Celsius write " + decimal(written.number) + " C"
	}
	if problem.code == "" || problem.hint != "" {
		return problem.hint
	}
	return units.lostPoint(usual[ReadingKind(word.Name)], written)
}

// slipHint names the slips that a reading outside its span may come from.
func (r *entryReader) slipHint(reading Reading, span WaterRange) string {
	hints := []string{hardnessHint(reading, span)}
	if !reading.Below {
		hints = append(hints, r.units.lostPoint(span, r.units.writtenFor(reading.Kind, reading.Value)))
	}
	return strings.Join(slices.DeleteFunc(hints, func(hint string) bool { return hint == "" }), "; ")
}

// hardnessHint names the usual slip behind a hardness outside its span, which the other unit would put inside:
// ppm noted as degrees, or degrees noted as ppm. The value itself stays as it was written.
func hardnessHint(reading Reading, span WaterRange) string {
	if reading.Kind != GH && reading.Kind != KH || reading.Below {
		return ""
	}
	as := func(value float64) Reading { return Reading{Kind: reading.Kind, Value: value} }
	degrees := "d" + strings.ToUpper(string(reading.Kind))
	switch less, more := reading.Value/water.PPMPerDegree, reading.Value*water.PPMPerDegree; {
	case reading.Value > span.High && !outside(as(less), span):
		return fmt.Sprintf("if the test reports ppm, write %s ppm, which is %.1f degrees",
			decimal(round(reading.Value, 3)), less)
	case reading.Value < span.Low && reading.Value > 0 && !outside(as(more), span):
		return fmt.Sprintf("if the test reports degrees, write %s %s, which is %.0f ppm",
			decimal(round(more, 3)), degrees, more*water.PPMPerDegree)
	}
	return ""
}

// withPoint is the readings whose tests tell tenths.
var withPoint = []ReadingKind{Temperature, PH, GH, KH}

// lostPoint proposes a tenth of a whole number that lies outside its span, where the span holds that, as for a pH of 72.
func (units Units) lostPoint(span WaterRange, written amount) string {
	tenth := amount{number: round(written.number/10, 9), unit: written.unit}
	value, problem := units.convert(tenth, span.Kind.Quantity())
	if problem.code != "" || value < span.Low || value > span.High || written.number != math.Trunc(written.number) || !slices.Contains(withPoint, span.Kind) {
		return ""
	}
	return "if the decimal point is missing, write " + decimal(tenth.number) + suffix(tenth.unit)
}

// show writes a reading in the journal's units.
func (r *entryReader) show(reading Reading) string {
	sign := ""
	if reading.Below {
		sign = "<"
	}
	value, unit := r.shown(reading.Kind, reading.Value)
	return sign + value + unit
}

func (r *entryReader) showSpan(span WaterRange) string {
	low, unit := r.shown(span.Kind, span.Low)
	high, _ := r.shown(span.Kind, span.High)
	return low + " to " + high + unit
}

// shown turns a value into the journal's unit, with a space before the unit where there is one.
func (r *entryReader) shown(kind ReadingKind, value float64) (number, unit string) {
	written := r.units.writtenFor(kind, value)
	return decimal(written.number), suffix(written.unit)
}

// writtenFor returns a value of a reading in the journal's unit.
func (units Units) writtenFor(kind ReadingKind, value float64) amount {
	bare, _ := units.bareUnit(kind.Quantity())
	return amount{number: round(value/bare.scale-bare.shift, 3), unit: bare.symbol}
}

// suffix puts a space before a unit.
func suffix(unit string) string {
	if unit == "" {
		return ""
	}
	return " " + unit
}
