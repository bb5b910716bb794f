package lifecycle

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
)

func TestALifeTableGivesThePublishedRates(t *testing.T) {
	// Ecology notes of the University of North Carolina Wilmington.
	table := LifeTable{Alive: []float64{1, .45, .15, .05}, Births: []float64{0, 2, 2.5, 2.5}}
	near(t, "R0", table.Daughters(), 1.4, 1e-12)
	near(t, "T [printed 1.45]", table.Generation(), 1.446429, 1e-6)
	near(t, "ln R0/T [printed .232]", math.Log(table.Daughters())/table.Generation(), 0.232623, 1e-6)
	near(t, "r", table.Rate(), 0.2406299, 1e-7)
	near(t, "no births", LifeTable{Alive: []float64{1, 1}, Births: []float64{0, 0}}.Rate(), math.Inf(-1), 0)
	near(t, "one daughter at age 1: steady", LifeTable{Alive: []float64{1, 1}, Births: []float64{0, 1}}.Rate(), 0, 1e-12)
	near(t, "e⁻³ daughters at age 2: r = −1.5", LifeTable{Alive: []float64{1, 1, 1}, Births: []float64{0, 0, math.Exp(-3)}}.Rate(), -1.5, 1e-12)
	near(t, "e⁵ daughters at age 2: r = 2.5", LifeTable{Alive: []float64{1, 1, 1}, Births: []float64{0, 0, math.Exp(5)}}.Rate(), 2.5, 1e-12)
	near(t, "e² daughters at age 2: r = 1", LifeTable{Alive: []float64{1, 1, 1}, Births: []float64{0, 0, math.Exp(2)}}.Rate(), 1, 1e-12)
}

// A projection matrix and a life table of the same animals must give the same growth: λ = e^r. The cohort of one newborn,
// followed through the published matrices, is such a table.
func TestRateIsThatOfTheMatrix(t *testing.T) {
	for name, a := range map[string]*mat.Dense{
		"loggerhead turtles": turtles(),
		"textbook":           mat.NewDense(3, 3, []float64{0, 2, 3, .6, 0, 0, 0, .4, 0}),
		"beetles":            mat.NewDense(3, 3, []float64{0, 0, 6, .5, 0, 0, 0, 1.0 / 3, 0}),
	} {
		g := project(t, a)
		stages, _ := a.Dims()
		living, births := make([]float64, stages), []float64{0}
		living[0] = 1
		for range 1000 {
			next, born := make([]float64, stages), 0.0
			for j, n := range living {
				born += a.At(0, j) * n
				for i := 1; i < stages; i++ {
					next[i] += a.At(i, j) * n
				}
			}
			living, births = next, append(births, born)
		}
		alive := make([]float64, len(births)) // births are counted per newborn already
		for age := range alive {
			alive[age] = 1
		}
		near(t, name, LifeTable{Alive: alive, Births: births}.Rate(), math.Log(g.lambda), 1e-9)
	}
}

func TestAColonyDoublesInOneToThreeMonths(t *testing.T) {
	p := davidi(t)
	table := p.LifeTable(24, 900, false)
	if r0 := table.Daughters(); r0 < 20 || r0 > 300 {
		t.Errorf("%v daughters per female at 24 °C, want tens to hundreds", r0)
	}
	doubling := math.Ln2 / table.Rate()
	// Common practice, no source: a young colony doubles in one to three months.
	if doubling < 20 || doubling > 90 {
		t.Errorf("the colony doubles in %v days at 24 °C, want 20 to 90", doubling)
	}
	// Law: survival by the table is that of the functions.
	near(t, "alive at the median life", table.Alive[457], math.Pow(.995, 60)*math.Pow(.9985, 62)*.5, 1e-9)
	if rows := len(p.LifeTable(24, 0, false).Alive); rows != 1 {
		t.Errorf("a life table up to day 0 has %d rows, want 1", rows)
	}
	for day := range 94 + 2 + 18 {
		if table.Births[day] != 0 {
			t.Fatalf("births on day %d, before the first eggs can hatch", day)
		}
	}
	if fish := p.LifeTable(24, 900, true).Daughters(); fish >= table.Daughters()/10 {
		t.Errorf("fish leave %v of %v daughters", fish, table.Daughters())
	}
	for _, celsius := range []float64{5, 13, 17, 32, 35} {
		if got := p.LifeTable(celsius, 900, false).Daughters(); got != 0 {
			t.Errorf("%v daughters at %v °C, want none", got, celsius)
		}
	}
}

func ExampleProfile_LifeTable() {
	p, _ := Default("neocaridina-davidi")
	for _, celsius := range []float64{21, 24, 27} {
		table := p.LifeTable(celsius, 900, false)
		fmt.Printf("%v °C: %.0f daughters, doubling in %.0f days\n", celsius, table.Daughters(), math.Ln2/table.Rate())
	}
	// Output:
	// 21 °C: 113 daughters, doubling in 36 days
	// 24 °C: 174 daughters, doubling in 26 days
	// 27 °C: 236 daughters, doubling in 21 days
}
