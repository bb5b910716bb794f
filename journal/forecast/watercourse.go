package forecast

import (
	"math"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/water"
)

// The sd of one reading, for the readings that creep: a test that counts in whole degrees, a meter that holds to a few
// ppm. Assumptions.
const (
	hardnessNoise     = 0.3 // dGH or dKH
	solidsNoise       = 5   // ppm
	conductivityNoise = 10  // µS/cm
)

// creepNoise is the readings that creep, with the sd of each.
var creepNoise = []struct {
	kind journal.ReadingKind
	sd   float64
}{{journal.GH, hardnessNoise}, {journal.KH, hardnessNoise}, {journal.TDS, solidsNoise}, {journal.Conductivity, conductivityNoise}}

// The stretches of days that creep, and the usual water change, are taken from.
const (
	creepBack  = 365
	changeBack = 91
)

// creepTests is how many readings a creep rests on at least: an assumption.
const creepTests = 6

// RatesOf returns how far the readings of a tank moved from one day to the next that has them. Upper limits are left out.
func RatesOf(tank *colony.Tank) []WaterRate {
	var rates []WaterRate
	for _, kind := range journal.ReadingKinds() {
		days := warmthOf(tank)
		if kind != journal.Temperature {
			days = valuesOf(tank, kind)
		}
		for i := 1; i < len(days); i++ {
			rates = append(rates, WaterRate{kind, days[i-1].day, days[i].day, days[i-1].value, days[i].value})
		}
	}
	return rates
}

// CreepOf estimates how hardness and dissolved solids creep, up to a day.
func CreepOf(tank *colony.Tank, asOf journal.Day) []WaterCreep {
	var all []WaterCreep
	for _, one := range creepNoise {
		var samples []water.Sample
		for _, v := range valuesOf(tank, one.kind) {
			if v.day > asOf-creepBack {
				samples = append(samples, water.Sample{Day: int(v.day), Value: v.value})
			}
		}
		changes, taken := exchanges(tank, one.kind)
		drift, ok := water.FitDrift(samples, changes, one.sd)
		if !ok || drift.Samples < creepTests {
			continue
		}
		c := WaterCreep{Kind: one.kind, Drift: drift, Taken: taken}
		c.usual(changes, asOf, tank.Events[0].Day)
		all = append(all, c)
	}
	return all
}

// exchanges returns the water changes of a tank as one reading meets them. New water without a value of its own is taken
// for that of the note before; how often is returned too.
func exchanges(tank *colony.Tank, kind journal.ReadingKind) (all []water.Exchange, taken int) {
	last := math.NaN()
	for _, e := range tank.Events {
		change, ok := e.What.(*journal.WaterChange)
		if !ok {
			continue
		}
		if value, ok := journal.MeasuredOf(change.With, kind); ok {
			last = value
		} else if !math.IsNaN(last) {
			taken++
		}
		all = append(all, water.Exchange{Day: int(e.Day), Share: shareOf(change, tank), Fresh: last})
	}
	return all, taken
}

// shareOf returns the share of a tank that was changed, and NaN where it is not known.
func shareOf(change *journal.WaterChange, tank *colony.Tank) float64 {
	switch {
	case change.Share.Known:
		return change.Share.Value
	case tank.Volume.Known && tank.Volume.Value > 0:
		return math.Min(1, change.Volume.Value/tank.Volume.Value)
	}
	return math.NaN()
}

// Slight reports whether the creep does not stand out: its 90 % interval holds none, or a year of it would hardly show in
// the test.
func (c WaterCreep) Slight() bool {
	for _, one := range creepNoise {
		if one.kind == c.Kind && 52*math.Abs(c.PerWeek) < 3*one.sd {
			return true
		}
	}
	return math.Abs(c.PerWeek) < 1.645*c.SD
}

// usual fills in the weekly water change of the past quarter and where it leads. Several changes of a week take out less
// than one of their sum: the logarithms of what they leave add up.
func (c *WaterCreep) usual(changes []water.Exchange, asOf, first journal.Day) {
	weeks := float64(max(7, min(changeBack, asOf-first+1))) / 7
	kept := 0.0
	for _, change := range changes {
		if change.Day <= int(asOf)-changeBack {
			continue
		}
		if math.IsNaN(change.Share) || change.Share >= 1 {
			return
		}
		kept += math.Log1p(-change.Share)
		if !math.IsNaN(change.Fresh) {
			c.Fresh = journal.Known(change.Fresh)
		}
	}
	c.Share = -math.Expm1(kept / weeks)
	if c.Share > 0 && c.Fresh.Known {
		c.Settles = journal.Known(c.Drift.Settles(c.Share, c.Fresh.Value))
	}
}
