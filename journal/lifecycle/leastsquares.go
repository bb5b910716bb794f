package lifecycle

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// model fills the residuals of a least-squares problem at x, and their derivatives by each parameter, row by row.
type model func(x, residuals []float64, jacobian *mat.Dense)

// polish improves x, which must be near the optimum already, by Gauss-Newton steps that are halved until the sum of
// squares falls. It returns the sum of squares and the inverse of JᵀJ, which is nil when the residuals do not determine
// x.
func polish(x []float64, rows int, residuals model) (squares float64, inverse *mat.SymDense) {
	r, jacobian := make([]float64, rows), mat.NewDense(rows, len(x), nil)
	residuals(x, r, jacobian)
	squares = sumOfSquares(r)
	trial, rest := make([]float64, len(x)), make([]float64, rows)
	for range 100 {
		inverse = informationInverse(jacobian)
		if inverse == nil {
			return squares, nil
		}
		var gradient, step mat.VecDense
		gradient.MulVec(jacobian.T(), mat.NewVecDense(rows, r))
		step.MulVec(inverse, &gradient)
		size, better := 1.0, false
		for ; size > 1e-6 && !better; size /= 2 {
			for i := range x {
				trial[i] = x[i] - size*step.AtVec(i)
			}
			residuals(trial, rest, jacobian)
			better = sumOfSquares(rest) < squares
		}
		if !better {
			residuals(x, r, jacobian)
			break
		}
		copy(x, trial)
		copy(r, rest)
		squares = sumOfSquares(r)
	}
	return squares, informationInverse(jacobian)
}

// informationInverse returns (JᵀJ)⁻¹, or nil when it does not exist. Columns are scaled first, because the parameters
// of a growth curve differ by powers of ten.
func informationInverse(jacobian *mat.Dense) *mat.SymDense {
	rows, n := jacobian.Dims()
	scaled, scale := mat.DenseCopyOf(jacobian), make([]float64, n)
	for j := range n {
		scale[j] = mat.Norm(jacobian.ColView(j), 2)
		for i := range rows {
			scaled.Set(i, j, scaled.At(i, j)/scale[j])
		}
	}
	var information mat.SymDense
	information.SymOuterK(1, scaled.T())
	var factor mat.Cholesky
	if !factor.Factorize(&information) || factor.Cond() > 1e12 {
		return nil
	}
	inverse := mat.NewSymDense(n, nil)
	if err := factor.InverseTo(inverse); err != nil {
		return nil
	}
	for i := range n {
		for j := i; j < n; j++ {
			inverse.SetSym(i, j, inverse.At(i, j)/(scale[i]*scale[j]))
		}
	}
	return inverse
}

func sumOfSquares(values []float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += v * v
	}
	if math.IsNaN(sum) {
		return math.Inf(1)
	}
	return sum
}

// lowest returns where on the stretch from low to high a function is lowest: it looks at steps+1 evenly spaced places,
// so that no start is needed, and then narrows the best of them by golden section. inside is false when the lowest
// place is an end.
func lowest(low, high float64, steps int, f func(float64) float64) (at float64, inside bool) {
	best, value, width := 0, math.Inf(1), (high-low)/float64(steps)
	for i := range steps + 1 {
		if here := f(low + float64(i)*width); here < value {
			best, value = i, here
		}
	}
	at = low + float64(best)*width
	if best == 0 || best == steps {
		return at, false
	}
	a, b := at-width, at+width
	ratio := (math.Sqrt(5) - 1) / 2
	for b-a > 1e-9*(1+math.Abs(at)) {
		left, right := b-ratio*(b-a), a+ratio*(b-a)
		if f(left) < f(right) {
			b = right
		} else {
			a = left
		}
	}
	return (a + b) / 2, true
}
