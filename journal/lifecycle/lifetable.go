package lifecycle

import "math"

// LifeTable is survival and births by age, one row per time step from age 0.
type LifeTable struct {
	Alive  []float64 // probability to be alive at that age, 0 to 1; of age 0 it is 1
	Births []float64 // daughters in that step, of a female alive; at least 0
}

// Daughters returns the daughters of one female over her life, R0.
//
//	R0 = Σ l·m
//
// Source: A. J. Lotka, as in any textbook of ecology.
func (t LifeTable) Daughters() float64 {
	sum := 0.0
	for age, alive := range t.Alive {
		sum += alive * t.Births[age]
	}
	return sum
}

// Generation returns the mean age of mothers, in steps: T = Σ x·l·m/R0. NaN without births.
func (t LifeTable) Generation() float64 {
	sum := 0.0
	for age, alive := range t.Alive {
		sum += float64(age) * alive * t.Births[age]
	}
	return sum / t.Daughters()
}

// Rate returns the rate at which a population with this table grows in the long run, per step: r of Euler and Lotka.
//
//	Σ e^(−r·x)·l·m = 1
//
// It is exact to 1e-12, above 0 when R0 is above 1, and −Inf without births. Source: L. Euler 1760, A. J. Lotka 1907.
// ln R0/T only approaches it. The simulation is held against it.
func (t LifeTable) Rate() float64 {
	if t.Daughters() == 0 {
		return math.Inf(-1)
	}
	excess := func(r float64) float64 {
		sum := -1.0
		for age, alive := range t.Alive {
			sum += math.Exp(-r*float64(age)) * alive * t.Births[age]
		}
		return sum
	}
	low, high := -1.0, 1.0
	for excess(low) < 0 && low > -1e3 {
		low *= 2
	}
	for excess(high) > 0 && high < 1e3 {
		high *= 2
	}
	for high-low > 1e-13*(1+math.Abs(low)) {
		middle := (low + high) / 2
		if middle == low || middle == high {
			break
		}
		if excess(middle) > 0 {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}

// LifeTable returns the expected life of a female at a constant temperature in °C, in days from hatching, up to an age
// in days, in a tank that is not crowded; fish says whether fish eat the young.
//
// Survival is that of each day by Survival. From maturity and her first eggs on she has FemaleShare·hatchlings·readiness/interval
// daughters a day, counted as hatched: hatchlings by her length and the heat, readiness by temperature and age,
// interval by the incubation. Every animal is taken as the mean one. It is the deterministic skeleton of the
// simulation, and far too smooth for a small colony.
func (p Profile) LifeTable(celsius, upTo float64, fish bool) LifeTable {
	days := int(math.Max(0, upTo))
	table := LifeTable{Alive: make([]float64, days+1), Births: make([]float64, days+1)}
	late, mature := p.Survival.Late(), p.Maturity.Days(celsius)
	rate := p.Breeding.FemaleShare * p.Fecundity.HeatFactor(celsius) * p.Breeding.ReadinessAt(celsius) /
		p.Breeding.IntervalDays(p.Incubation.Days(celsius))
	firstHatch := mature + p.Maturity.FirstEggs + p.Incubation.Days(celsius)
	alive := 1.0
	for day := range table.Alive {
		age := float64(day)
		table.Alive[day] = alive
		if age >= firstHatch {
			table.Births[day] = rate * p.Breeding.ReadinessOf(age) * p.Fecundity.Hatchlings(p.Growth.Female.Length(age/mature))
		}
		alive *= p.Survival.daily(late, age, age >= mature, fish)
	}
	return table
}
