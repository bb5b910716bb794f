package lifecycle

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// turtles is the loggerhead matrix of Crouse, Crowder & Caswell 1987, Ecology 68:1412-1423.
func turtles() *mat.Dense {
	return mat.NewDense(7, 7, []float64{
		0, 0, 0, 0, 127, 4, 80,
		.6747, .7370, 0, 0, 0, 0, 0,
		0, .0486, .6610, 0, 0, 0, 0,
		0, 0, .0147, .6907, 0, 0, 0,
		0, 0, 0, .0518, 0, 0, 0,
		0, 0, 0, 0, .8091, 0, 0,
		0, 0, 0, 0, 0, .8091, .8089,
	})
}

func TestProjectTurtles(t *testing.T) {
	g, err := Project(turtles())
	if err != nil {
		t.Fatal(err)
	}
	near(t, "λ [printed 0.945]", g.Lambda, 0.9450309807, 1e-9)
	near(t, "r", math.Log(g.Lambda), -0.056538, 1e-6)
	for i, want := range []float64{20.65048, 66.97503, 11.45997, 0.66237, 0.03631, 0.03108, 0.18475} {
		near(t, fmt.Sprintf("stable share of stage %d", i+1), 100*g.Stable[i], want, 5e-5)
	}
	for i, want := range []float64{1, 1.400668, 5.995523, 115.8445, 568.7809, 507.3730, 587.6693} {
		near(t, fmt.Sprintf("reproductive value of stage %d", i+1), g.Value[i], want, 2e-4)
	}
	for _, row := range []struct {
		i, j int
		want float64
	}{
		{2, 2, .180687}, {3, 3, .118693}, {4, 4, .138509}, {7, 7, .229523}, {2, 1, .051002}, {5, 4, .051002},
		{6, 5, .038952}, {7, 6, .038627}, {1, 5, .012050}, {1, 6, .000325}, {1, 7, .038627},
	} {
		near(t, fmt.Sprintf("elasticity %d,%d", row.i, row.j), g.Elasticity.At(row.i-1, row.j-1), row.want, 1e-6)
	}
	near(t, "law: elasticities add up", mat.Sum(g.Elasticity), 1, 1e-12)
	// Law: an elasticity is the relative answer to a relative change.
	more := turtles()
	more.Set(6, 6, more.At(6, 6)*1.000001)
	changed, _ := Project(more)
	near(t, "law: elasticity against a small change", math.Log(changed.Lambda/g.Lambda)/math.Log(1.000001), g.Elasticity.At(6, 6), 1e-5)
}

func TestStageStep(t *testing.T) {
	// Annual survival and duration of the turtles' stages, same paper.
	for _, row := range []struct{ survival, duration, stay, move float64 }{
		{.7857, 7, .73711, .04859}, {.6758, 8, .66105, .01475}, {.7425, 6, .69067, .05183}, {1, 4, .75, .25}, {.8, 1, 0, .8},
	} {
		stay, move := StageStep(row.survival, row.duration)
		near(t, fmt.Sprintf("stay %v, %v", row.survival, row.duration), stay, row.stay, 6e-6)
		near(t, fmt.Sprintf("move %v, %v", row.survival, row.duration), move, row.move, 6e-6)
	}
	stay, move := StageStep(1-1e-9, 4)
	near(t, "law: the limit of certain survival is met", stay, .75, 1e-6)
	near(t, "law: and of moving on", move, .25, 1e-6)
}

func TestProjectByAge(t *testing.T) {
	for _, row := range []struct {
		name          string
		a             []float64
		lambda        float64
		stable, value []float64
		source        string
	}{
		{"textbook", []float64{0, 2, 3, .6, 0, 0, 0, .4, 0}, 1.3210002079,
			[]float64{.628246, .285350, .086404}, []float64{1, 2.201667, 2.271006}, "root of λ³ = 1.2λ + 0.72"},
		{"classic", []float64{0, 9, 12, 1.0 / 3, 0, 0, 0, .5, 0}, 2,
			[]float64{24.0 / 29, 4.0 / 29, 1.0 / 29}, []float64{1, 6, 6}, "from memory"},
		{"Bernardelli's beetles", []float64{0, 0, 6, .5, 0, 0, 0, 1.0 / 3, 0}, 1,
			[]float64{.6, .3, .1}, []float64{1, 2, 6}, "Bernardelli 1941 (from memory); all eigenvalues have modulus 1"},
		{"imprimitive", []float64{0, 0, 2, .3, 0, 0, 0, .6, 0}, 0.7113786609, nil, nil, "0.36^(1/3); manual of popbio"},
		{"imprimitive, steady", []float64{0, 0, 8, .25, 0, 0, 0, .5, 0}, 1, nil, nil, "teaching page"},
		{"Leslie matrix of the life table", []float64{.9, 1.125, 1.125, 1.0 / 3, 0, 0, 0, 1.0 / 3, 0}, 1.2720502, nil, nil, "e^r of the table below"},
	} {
		g, err := Project(mat.NewDense(3, 3, row.a))
		if err != nil {
			t.Errorf("%s: %v", row.name, err)
			continue
		}
		tol := 1e-9
		if row.lambda == 1.2720502 {
			tol = 1e-7
		}
		near(t, row.name+" λ ["+row.source+"]", g.Lambda, row.lambda, tol)
		for i := range row.stable {
			near(t, row.name+" stable", g.Stable[i], row.stable[i], 1e-6)
			near(t, row.name+" value", g.Value[i], row.value[i], 1e-6)
		}
	}
}

func TestProjectRefuses(t *testing.T) {
	if _, err := Project(mat.NewDense(2, 3, nil)); err == nil {
		t.Error("a matrix that is not square was taken")
	}
	if _, err := Project(mat.NewDense(2, 2, nil)); !errors.Is(err, ErrNoGrowth) {
		t.Errorf("a matrix of zeros: %v, want ErrNoGrowth", err)
	}
}

func TestLifeTable(t *testing.T) {
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

func TestProfileLifeTable(t *testing.T) {
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
