package journal

import (
	"fmt"
	"math"
	"regexp"

	"pleopod/journal/lifecycle"
)

// Numbers outside of which a slip is likelier than the truth. Common practice, no source, unless one is named.
const (
	// shortestUsual and longestUsual are body lengths in mm, from hatchling to the largest female.
	shortestUsual = 1
	longestUsual  = 45
	// longestHatchling is a length in mm that no shrimp of centimetres has: twice the 2.3 mm at hatching of Nur &
	// Christianus 2013 (Asian J. Anim. Vet. Adv. 8:108-115).
	longestHatchling = 4.6
	// fewestEggs and mostEggs are the eggs that one female carries: far outside the 21 to 51 young of the same source.
	fewestEggs, mostEggs = 3, 150
	// leastShare is a share of the water below which a part of 1 was written in percent: 0.25 % for a quarter.
	leastShare = 0.01
	// mostStockedUsual is how many shrimp join a tank at once.
	mostStockedUsual = 500
)

// checkNumbers warns of numbers of an event that can be true and hardly are.
func (r *entryReader) checkNumbers(event *Event) {
	kind := event.What.Kind()
	switch what := event.What.(type) {
	case *Stocked:
		r.checkSpan(event, kind, Known(what.Shrimp.Total), [2]int{0, mostStockedUsual})
		r.checkAge(event, what.Age)
		if at := event.At("length"); what.Length.Known && what.Length.Value <= longestHatchling && r.units.Length == "mm" && r.unitless(at) {
			r.warn(at, hatchling(what.Length.Value))
		}
	case *Berried:
		r.checkSpan(event, "eggs", what.Eggs, [2]int{fewestEggs, mostEggs})
	case *WaterChange:
		r.checkVolume(event, what.Volume)
		if share := what.Share; share.Known && share.Value > 0 && share.Value < leastShare {
			r.warn(event.At(kind), issue{code: "unusual-number", message: "a change of " + decimal(round(100*share.Value, 3)) + " % of the water is hardly one",
				hint: "for a part of the whole write " + decimal(round(10000*share.Value, 1)) + " %"})
		}
	case *Measured:
		r.checkLengths(event, what)
	}
}

// checkSpan warns of a number outside its usual span.
func (r *entryReader) checkSpan(event *Event, key string, number Maybe[int], usual [2]int) {
	if number.Known && (number.Value < usual[0] || number.Value > usual[1]) {
		r.warn(event.At(key), issue{code: "unusual-number", message: fmt.Sprintf("%s is %d; %d to %d are usual", quote(key), number.Value, usual[0], usual[1]),
			hint: "if it is right, leave it; what you did not count is left out"})
	}
}

// checkAge warns of shrimp older than those of their species become.
func (r *entryReader) checkAge(event *Event, age Maybe[float64]) {
	if r.settings == nil || r.settings.Tank(event.Tank) == nil {
		return
	}
	profile, ok := lifecycle.Default(r.settings.Tank(event.Tank).Species)
	for _, override := range r.settings.Biology {
		ok = ok && profile.Set(override.Name, override.Value) == nil
	}
	if month := 365.25 / 12; ok && age.Known && age.Value > profile.Survival.LongLife {
		r.warn(event.At("age"), issue{code: "unusual-number", message: fmt.Sprintf("an age of %.0f months; few shrimp pass %.0f", age.Value/month, profile.Survival.LongLife/month),
			hint: "mend the number or its unit"})
	}
}

// checkVolume warns of a change of more water than the tank holds.
func (r *entryReader) checkVolume(event *Event, changed Maybe[float64]) {
	if r.settings == nil || r.settings.Tank(event.Tank) == nil {
		return
	}
	holds := r.settings.Tank(event.Tank).Volume
	if !changed.Known || !holds.Known || changed.Value <= holds.Value {
		return
	}
	litres := func(value float64) string {
		return decimal(round(QuantityVolume.InUnit(value, r.units.Volume), 1)) + " " + r.units.Volume
	}
	r.warn(event.At("water-change"), issue{code: "unusual-number",
		message: fmt.Sprintf("%s of water were changed, and %s holds %s", litres(changed.Value), quote(event.Tank), litres(holds.Value)),
		hint:    "mend the number or its unit, or the volume in journal.yaml"})
}

// checkLengths warns of lengths that can be true and hardly are, as when millimetres and centimetres were mixed up.
func (r *entryReader) checkLengths(event *Event, what *Measured) {
	young := what.Sex == "" && (what.Brood != "" || what.HatchedOn != 0)
	for i, length := range what.Lengths {
		at := event.AtItem("measured", i)
		found := issue{code: "unusual-length", message: fmt.Sprintf("a length of %s mm is unusual; dwarf shrimp have %d to %d mm",
			decimal(round(length, 3)), shortestUsual, longestUsual)}
		switch {
		case length <= longestHatchling && !young && r.units.Length == "mm" && r.unitless(at):
			found = hatchling(length)
		case length >= shortestUsual && length <= longestUsual:
			continue
		}
		r.warn(at, found)
	}
}

// hatchling says of a length without a unit that centimetres may be meant.
func hatchling(length float64) issue {
	written := decimal(round(length, 3))
	return issue{code: "unusual-length", message: "a length of " + written + " mm is that of a shrimp that just hatched",
		hint: "for " + written + " cm write " + decimal(math.Round(length*100)/10) + "; if it just hatched, write " + written + " mm"}
}

// bareNumber is a number without a unit behind it.
var bareNumber = regexp.MustCompile(`^[\d.]+\s*(?:[\],]|$|#)`)

// unitless reports whether a number without a unit stands at a place.
func (p *page) unitless(at Position) bool {
	line := []rune(lineAt(p.text, at.Line))
	return at.Column <= len(line) && bareNumber.MatchString(string(line[at.Column-1:]))
}
