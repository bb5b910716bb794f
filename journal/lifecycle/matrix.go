package lifecycle

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// StageStep returns what an animal of a stage does in one time step: stays in it (p), or survives and moves on (g),
// both 0 to 1.
//
//	P = s·(1 − s^(d−1))/(1 − s^d)      G = s^d·(1 − s)/(1 − s^d)
//
// survival is s, the chance to live through a step, 0 to 1; duration is d, the steps that the stage lasts, at least 1.
// With s = 1 the limits P = (d − 1)/d and G = 1/d hold. P + G = s. Source: D. T. Crouse, L. B. Crowder and H. Caswell,
// Ecology 68 (1987) 1412-1423. Animals of a stage are taken to be of all ages in it, as in a population of steady size.
func StageStep(survival, duration float64) (stay, move float64) {
	if survival == 1 {
		return (duration - 1) / duration, 1 / duration
	}
	lived := math.Pow(survival, duration)
	move = lived * (1 - survival) / (1 - lived)
	return survival - move, move
}

// Growing is how a population goes on whose stages follow a projection matrix.
type Growing struct {
	Lambda     float64    // by how much it multiplies in a step, in the long run
	Stable     []float64  // share of each stage in the long run; they add up to 1
	Value      []float64  // reproductive value of each stage, of the first stage 1
	Elasticity *mat.Dense // how Lambda answers to each entry, in shares; they add up to 1
}

// ErrNoGrowth is what Project returns for a matrix without a growth rate.
var ErrNoGrowth = errors.New("the matrix has no positive growth rate")

// Project returns the long-run growth of a square matrix of stages: entry (i, j) is what one animal of stage j gives to
// stage i in a step.
//
//	A·w = λ·w      vᵀ·A = λ·vᵀ      e[i,j] = A[i,j]·v[i]·w[j]/(λ·vᵀ·w)
//
// All entries are at least 0, and every stage leads to every other, else the shares can be NaN. λ is the real
// eigenvalue of the greatest modulus (Perron), also where others share the modulus and a power iteration would never
// settle. Source: H. Caswell, Matrix Population Models (2001), chapters 4 and 9 (from memory).
func Project(a mat.Matrix) (Growing, error) {
	rows, columns := a.Dims()
	if rows != columns {
		return Growing{}, fmt.Errorf("the matrix is %d by %d, not square", rows, columns)
	}
	var eigen mat.Eigen
	if !eigen.Factorize(a, mat.EigenBoth) {
		return Growing{}, ErrNoGrowth
	}
	dominant, lambda := -1, 0.0
	for i, value := range eigen.Values(nil) {
		if real(value) > lambda { // no other eigenvalue has as great a real part: Perron and Frobenius
			dominant, lambda = i, real(value)
		}
	}
	if dominant < 0 {
		return Growing{}, ErrNoGrowth
	}
	var right, left mat.CDense
	eigen.VectorsTo(&right)
	eigen.LeftVectorsTo(&left)
	g := Growing{Lambda: lambda, Stable: column(&right, dominant), Value: column(&left, dominant), Elasticity: mat.NewDense(rows, rows, nil)}
	total, product := 0.0, 0.0
	for i := range rows {
		total += g.Stable[i]
		product += g.Value[i] * g.Stable[i]
	}
	first := g.Value[0]
	for i := range rows {
		for j := range rows {
			g.Elasticity.Set(i, j, a.At(i, j)*g.Value[i]*g.Stable[j]/(lambda*product))
		}
	}
	for i := range rows {
		g.Stable[i] /= total
		g.Value[i] /= first
	}
	return g, nil
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
