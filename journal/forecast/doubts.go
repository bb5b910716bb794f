package forecast

import (
	"cmp"
	"fmt"
	"slices"

	"pleopod/journal"
	"pleopod/journal/wording"
)

// The limits beyond which a doubt is worth a sentence, in days.
const (
	staleReading = 30
	vagueStart   = 5
)

// disagreement is how far temperatures of one day may lie apart without a word, °C: a thermometer's error and a day's swing.
const disagreement = 2.0

// doubts returns what makes a brood's date less sure than usual, as sentences.
func (v view) doubts(f facts) []string {
	var doubts []string
	if why := v.waterDoubt(f.tank()); why != "" {
		doubts = append(doubts, why)
	}
	if f.lastClear != 0 && f.berried-f.lastClear > vagueStart {
		doubts = append(doubts, fmt.Sprintf("She was last seen without eggs %d days before she was seen with them.", f.berried-f.lastClear))
	}
	return doubts
}

// waterDoubt returns what makes the temperature of a tank less sure than usual, or "".
func (v view) waterDoubt(tank string) string {
	knownTank, course := v.knownTanks[tank], v.course(tank)
	name := nameOf(knownTank.tank.Tank)
	if course.Readings > 0 {
		if age := v.asOf - journal.Day(course.Last); age > staleReading {
			return fmt.Sprintf("The last water temperature of %s is %d days old.", name, age)
		}
		if apart := v.apart(tank); apart > disagreement {
			return fmt.Sprintf("Temperatures of the same day differ by up to %s in %s: the water swings, or a thermometer is off.", v.degrees(apart), name)
		}
		return ""
	}
	if knownTank.tank.Heater.Known {
		return fmt.Sprintf("No water temperature of %s was ever noted: the heater's set-point of %s is taken.", name, v.celsius(knownTank.climate.Mean))
	}
	return fmt.Sprintf("No water temperature of %s was ever noted: %s is taken, which may be wrong by %s.",
		name, v.celsius(knownTank.climate.Mean), v.degrees(2*knownTank.climate.MeanSD))
}

// apart returns by how much temperatures of one day differ at most, °C, among those that became known within the last
// weeks.
func (v view) apart(tank string) float64 {
	type extent struct{ low, high float64 }
	all := v.knownTanks[tank].seen
	n, _ := slices.BinarySearchFunc(all, v.water+1, func(s seen, day journal.Day) int { return cmp.Compare(s.known, day) })
	days := map[int]extent{}
	var most float64
	for i := n - 1; i >= 0 && all[i].known > v.asOf-staleReading; i-- {
		c := all[i].Celsius
		day, again := days[all[i].Day]
		if !again {
			day = extent{c, c}
		}
		day = extent{min(day.low, c), max(day.high, c)}
		days[all[i].Day] = day
		most = max(most, day.high-day.low)
	}
	return most
}

// nameOf returns what a tank is called.
func nameOf(tank *journal.Tank) string {
	if tank.Name != "" {
		return tank.Name
	}
	return tank.ID
}

// celsius writes a temperature in the keeper's unit.
func (r *record) celsius(c float64) string {
	if r.colony.Settings.Units.Temperature == "F" {
		return wording.Number(c*1.8+32, 1) + " °F"
	}
	return wording.Number(c, 1) + " °C"
}

// degrees writes a difference of temperatures in the keeper's unit.
func (r *record) degrees(c float64) string {
	if r.colony.Settings.Units.Temperature == "F" {
		return wording.Number(c*1.8, 1) + " °F"
	}
	return wording.Number(c, 1) + " °C"
}
