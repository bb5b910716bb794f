package lifecycle

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// Projection matrices of published animals judge the life table, which stands behind the simulation: see TestRateIsThatOfTheMatrix.

// stageStep returns what an animal of a stage does in one time step: stays in it (p), or survives and moves on (g),
// both 0 to 1.
//
//	P = s·(1 − s^(d−1))/(1 − s^d)      G = s^d·(1 − s)/(1 − s^d)
//
// survival is s, the chance to live through a step, 0 to 1; duration is d, the steps that the stage lasts, at least 1.
// With s = 1 the limits P = (d − 1)/d and G = 1/d hold. P + G = s. Source: D. T. Crouse, L. B. Crowder and H. Caswell,
// Ecology 68 (1987) 1412-1423. Animals of a stage are taken to be of all ages in it, as in a population of steady size.
func stageStep(survival, duration float64) (stay, move float64) {
	if survival == 1 {
		return (duration - 1) / duration, 1 / duration
	}
	lived := math.Pow(survival, duration)
	move = lived * (1 - survival) / (1 - lived)
	return survival - move, move
}

// projection is how a population goes on whose stages follow a projection matrix.
type projection struct {
	lambda     float64    // by how much it multiplies in a step, in the long run
	stable     []float64  // share of each stage in the long run; they add up to 1
	value      []float64  // reproductive value of each stage, of the first stage 1
	elasticity *mat.Dense // how lambda answers to each entry, in shares; they add up to 1
}

// project returns the long-run growth of a square matrix of stages: entry (i, j) is what one animal of stage j gives to
// stage i in a step.
//
//	A·w = λ·w      vᵀ·A = λ·vᵀ      e[i,j] = A[i,j]·v[i]·w[j]/(λ·vᵀ·w)
//
// All entries are at least 0, and every stage leads to every other, else the shares can be NaN. λ is the real
// eigenvalue of the greatest modulus (Perron), also where others share the modulus and a power iteration would never
// settle. Source: H. Caswell, Matrix Population Models (2001), chapters 4 and 9 (from memory).
func project(t *testing.T, a mat.Matrix) projection {
	t.Helper()
	rows, _ := a.Dims()
	var eigen mat.Eigen
	if !eigen.Factorize(a, mat.EigenBoth) {
		t.Fatal("no eigenvalues")
	}
	dominant, lambda := -1, 0.0
	for i, value := range eigen.Values(nil) {
		if real(value) > lambda { // no other eigenvalue has as great a real part: Perron and Frobenius
			dominant, lambda = i, real(value)
		}
	}
	if dominant < 0 {
		t.Fatal("no growth rate")
	}
	var right, left mat.CDense
	eigen.VectorsTo(&right)
	eigen.LeftVectorsTo(&left)
	g := projection{lambda: lambda, stable: column(&right, dominant), value: column(&left, dominant), elasticity: mat.NewDense(rows, rows, nil)}
	total, product := 0.0, 0.0
	for i := range rows {
		total += g.stable[i]
		product += g.value[i] * g.stable[i]
	}
	first := g.value[0]
	for i := range rows {
		for j := range rows {
			g.elasticity.Set(i, j, a.At(i, j)*g.value[i]*g.stable[j]/(lambda*product))
		}
	}
	for i := range rows {
		g.stable[i] /= total
		g.value[i] /= first
	}
	return g
}

// column returns the real parts of a column.
func column(m *mat.CDense, j int) []float64 {
	rows, _ := m.Dims()
	values := make([]float64, rows)
	for i := range values {
		values[i] = real(m.At(i, j))
	}
	return values
}

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

func TestTheMatrixOfTurtlesGivesThePublishedGrowth(t *testing.T) {
	g := project(t, turtles())
	near(t, "λ [printed 0.945]", g.lambda, 0.9450309807, 1e-9)
	near(t, "r", math.Log(g.lambda), -0.056538, 1e-6)
	for i, want := range []float64{20.65048, 66.97503, 11.45997, 0.66237, 0.03631, 0.03108, 0.18475} {
		near(t, fmt.Sprintf("stable share of stage %d", i+1), 100*g.stable[i], want, 5e-5)
	}
	for i, want := range []float64{1, 1.400668, 5.995523, 115.8445, 568.7809, 507.3730, 587.6693} {
		near(t, fmt.Sprintf("reproductive value of stage %d", i+1), g.value[i], want, 2e-4)
	}
	for _, row := range []struct {
		i, j int
		want float64
	}{
		{2, 2, .180687}, {3, 3, .118693}, {4, 4, .138509}, {7, 7, .229523}, {2, 1, .051002}, {5, 4, .051002},
		{6, 5, .038952}, {7, 6, .038627}, {1, 5, .012050}, {1, 6, .000325}, {1, 7, .038627},
	} {
		near(t, fmt.Sprintf("elasticity %d,%d", row.i, row.j), g.elasticity.At(row.i-1, row.j-1), row.want, 1e-6)
	}
	near(t, "law: elasticities add up", mat.Sum(g.elasticity), 1, 1e-12)
	// Law: an elasticity is the relative answer to a relative change.
	more := turtles()
	more.Set(6, 6, more.At(6, 6)*1.000001)
	changed := project(t, more)
	near(t, "law: elasticity against a small change", math.Log(changed.lambda/g.lambda)/math.Log(1.000001), g.elasticity.At(6, 6), 1e-5)
}

func TestStagesStayAndMoveAsPublished(t *testing.T) {
	// Annual survival and duration of the turtles' stages, same paper.
	for _, row := range []struct{ survival, duration, stay, move float64 }{
		{.7857, 7, .73711, .04859}, {.6758, 8, .66105, .01475}, {.7425, 6, .69067, .05183}, {1, 4, .75, .25}, {.8, 1, 0, .8},
	} {
		stay, move := stageStep(row.survival, row.duration)
		near(t, fmt.Sprintf("stay %v, %v", row.survival, row.duration), stay, row.stay, 6e-6)
		near(t, fmt.Sprintf("move %v, %v", row.survival, row.duration), move, row.move, 6e-6)
	}
	stay, move := stageStep(1-1e-9, 4)
	near(t, "law: the limit of certain survival is met", stay, .75, 1e-6)
	near(t, "law: and of moving on", move, .25, 1e-6)
}

func TestMatricesByAgeGiveThePublishedGrowth(t *testing.T) {
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
		g := project(t, mat.NewDense(3, 3, row.a))
		tol := 1e-9
		if row.lambda == 1.2720502 {
			tol = 1e-7
		}
		near(t, row.name+" λ ["+row.source+"]", g.lambda, row.lambda, tol)
		for i := range row.stable {
			near(t, row.name+" stable", g.stable[i], row.stable[i], 1e-6)
			near(t, row.name+" value", g.value[i], row.value[i], 1e-6)
		}
	}
}
