package lifecycle

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// Measured is the length of an animal of known age.
type Measured struct {
	Phi float64 // share of the way to maturity, at least 0
	MM  float64 // mm, above 0
}

// Recapture is one named animal measured twice, of known age or not.
type Recapture struct {
	First, Second float64 // mm, above 0
	Phi           float64 // thermal time between, as a share of the way from hatching to maturity; above 0
}

// CurveFit is a growth curve estimated from a keeper's measurements.
type CurveFit struct {
	Curve      Curve // the usual curve when it is not estimable
	Estimable  bool
	Reason     string // why it is not estimable, as a sentence, or ""
	Lengths    int    // measured lengths used
	Pairs      int    // recaptures used
	covariance covariance
}

// covariance is that of Max, in mm, and ln kappa.
type covariance struct{ max, both, logKappa float64 }

// MeanSD returns the standard error of the mean length at phi, in mm: how sure the curve is, not how animals differ.
//
// It follows from the covariance of Max and ln kappa by the delta method, and is 0 at hatching, whose length is taken
// as known. For a curve that is not estimable it is the uncertainty of the usual curve between journals.
func (f CurveFit) MeanSD(phi float64) float64 {
	phi = math.Max(0, phi)
	kappa := f.Curve.Kappa()
	left := math.Exp(-kappa * phi)
	byMax, byLogKappa := 1-left, (f.Curve.Max-f.Curve.Hatch)*kappa*phi*left
	variance := byMax*byMax*f.covariance.max + 2*byMax*byLogKappa*f.covariance.both + byLogKappa*byLogKappa*f.covariance.logKappa
	return math.Sqrt(math.Max(0, variance))
}

// fewest is how many lengths or pairs a fit needs; with the usual curve as a third voice two would be one too few to
// see a slip.
const fewest = 3

// conflict is how much the usual curve may worsen the fit, in units of −2·ln likelihood: the 99.9 % point of χ² with
// two degrees of freedom.
const conflict = 13.816

// Fit estimates greatest length and kappa of one sex from lengths of animals of known age, from recaptures, or from
// both, starting from the usual curve of the species.
//
//	Σ [L − Max + (Max − Hatch)·e^(−κ·φ)]²/σ²            measured lengths
//	+ Σ [L2 − Max + (Max − L1)·e^(−κ·φ)]²/σ²           recaptures, in the form of Fabens
//	+ [(Max − Max0)/(s·Max0)]² + [(ln κ − ln κ0)/q]²    the usual curve, s = MaxPriorSD and q = KappaPriorSD
//
// is least, with σ² = (CV·mean length)² + MeasureSD² of a length and (CV·growth)² + 2·MeasureSD² of a recapture, both
// by the usual curve. No starting values are needed: for each κ the best Max is known, so that only κ is searched. When
// the lengths scatter around their own best curve more than σ says, σ grows by that much. Lengths and spans that cannot
// be are left out.
//
// The curve is not estimable with fewer than three lengths and recaptures, when they say almost nothing about the
// length at maturity, and when they contradict the usual curve outright (growth that does not slow with size, or
// lengths of some other animal); then it is the usual curve, with the reason. Source: A. J. Fabens 1965, Growth
// 29:265-289 (from memory); D. K. Kimura 1980, Fish. Bull. 77:765-776 for the curve; penalty and rules are ours.
func (g Growth) Fit(usual Curve, lengths []Measured, recaptures []Recapture) CurveFit {
	problem := g.problem(usual)
	fit := CurveFit{Curve: usual, covariance: covariance{max: problem.maxSD * problem.maxSD, logKappa: problem.logKappaSD * problem.logKappaSD}}
	for _, l := range lengths {
		if problem.add(usual.Hatch, l.MM, l.Phi, g.lengthSD(usual, l)) {
			fit.Lengths++
		}
	}
	for _, r := range recaptures {
		if problem.add(r.First, r.Second, r.Phi, g.recaptureSD(usual, r)) {
			fit.Pairs++
		}
	}
	if n := fit.Lengths + fit.Pairs; n < fewest {
		fit.Reason = fmt.Sprintf("Too few lengths of known age, or pairs of lengths of one shrimp: %d of at least %d.", n, fewest)
		return fit
	}
	alone := problem
	alone.maxSD, alone.logKappaSD = math.Inf(1), math.Inf(1)
	own := alone.solve()
	scatter := math.Max(1, own.squares/math.Max(1, float64(len(problem.segments)-2)))
	problem.widen(math.Sqrt(scatter))
	best := problem.solve()
	if !best.inside || best.greatest <= usual.Hatch || best.squares-own.squares/scatter > conflict {
		fit.Reason = "The lengths do not follow the growth of this species; look for slips in lengths, ages or names."
		if !own.inside && own.kappa < problem.kappa {
			fit.Reason = "Growth does not slow with size in these lengths, so that no greatest length follows from them."
		}
		return fit
	}
	found := CurveFit{Curve: NewCurve(usual.Hatch, best.greatest, best.kappa), covariance: best.covariance}
	if found.MeanSD(1) > 0.9*fit.MeanSD(1) {
		fit.Reason = "The lengths say almost nothing about the length at maturity: they are too few, or too early."
		return fit
	}
	found.Estimable, found.Lengths, found.Pairs = true, fit.Lengths, fit.Pairs
	return found
}

// lengthSD returns how far a measured length scatters around the usual curve, in mm.
func (g Growth) lengthSD(usual Curve, l Measured) float64 {
	return math.Hypot(g.CV*usual.Length(l.Phi), g.MeasureSD)
}

// recaptureSD returns how far the second length of a recapture scatters around what the first and the usual curve say,
// in mm: single animals head for different greatest lengths, and both lengths have their error.
func (g Growth) recaptureSD(usual Curve, r Recapture) float64 {
	grown := (usual.Max - r.First) * -math.Expm1(-usual.Kappa()*r.Phi)
	return math.Hypot(g.CV*grown, math.Sqrt2*g.MeasureSD)
}

// segment is a stretch of growth: from a length to a length over a span of phi.
type segment struct {
	start, end float64 // mm
	span       float64 // of phi
	sd         float64 // mm
}

// growthProblem is the least-squares problem of Growth.Fit.
type growthProblem struct {
	segments          []segment
	greatest, kappa   float64 // of the usual curve
	maxSD, logKappaSD float64 // mm and of ln kappa; +Inf for no penalty
	longest           float64 // greatest span
}

// solution is the optimum of a growthProblem. inside is false when the problem has no finite optimum: the best kappa
// lies at the edge of what was searched, or the lengths do not determine both numbers. Then there is no covariance.
type solution struct {
	greatest, kappa float64
	squares         float64
	inside          bool
	covariance      covariance
}

func (g Growth) problem(usual Curve) growthProblem {
	return growthProblem{greatest: usual.Max, kappa: usual.Kappa(), maxSD: g.MaxPriorSD * usual.Max, logKappaSD: g.KappaPriorSD}
}

// add takes in a stretch of growth and reports whether it could be one.
func (p *growthProblem) add(start, end, span, sd float64) bool {
	const shortest = 0.005 // of phi: half a day of growth says nothing
	if !(start > 0 && end > 0 && span >= shortest && sd > 0) || math.IsInf(start+end+span+sd, 0) {
		return false
	}
	p.segments = append(p.segments, segment{start, end, span, sd})
	p.longest = math.Max(p.longest, span)
	return true
}

// widen multiplies the sd of every stretch.
func (p *growthProblem) widen(by float64) {
	p.segments = slices.Clone(p.segments)
	for i := range p.segments {
		p.segments[i].sd *= by
	}
}

// bestMax returns the greatest length that fits best with a kappa: the problem is linear in it.
func (p *growthProblem) bestMax(kappa float64) float64 {
	weight := 1 / (p.maxSD * p.maxSD)
	sum, total := weight*p.greatest, weight
	for _, s := range p.segments {
		grown := -math.Expm1(-kappa * s.span)
		sum += grown * (s.end - s.start*(1-grown)) / (s.sd * s.sd)
		total += grown * grown / (s.sd * s.sd)
	}
	return sum / total
}

// residuals is the problem in the parameters Max and ln kappa; the two rows of the penalty come last.
func (p *growthProblem) residuals(x, residuals []float64, jacobian *mat.Dense) {
	kappa := math.Exp(x[1])
	for i, s := range p.segments {
		left := math.Exp(-kappa * s.span)
		residuals[i] = (x[0] - (x[0]-s.start)*left - s.end) / s.sd
		jacobian.SetRow(i, []float64{(1 - left) / s.sd, (x[0] - s.start) * kappa * s.span * left / s.sd})
	}
	n := len(p.segments)
	residuals[n], residuals[n+1] = (x[0]-p.greatest)/p.maxSD, (x[1]-math.Log(p.kappa))/p.logKappaSD
	jacobian.SetRow(n, []float64{1 / p.maxSD, 0})
	jacobian.SetRow(n+1, []float64{0, 1 / p.logKappaSD})
}

func (p *growthProblem) solve() solution {
	rows := len(p.segments) + 2
	rest, jacobian := make([]float64, rows), mat.NewDense(rows, 2, nil)
	// From a curve that is straight over the longest span to one that ends within a tenth of it, and well around the
	// usual one.
	low := math.Min(math.Log(1e-4/p.longest), math.Log(p.kappa)-5)
	high := math.Max(math.Log(50/p.longest), math.Log(p.kappa)+5)
	logKappa, inside := lowest(low, high, 150, func(logKappa float64) float64 {
		p.residuals([]float64{p.bestMax(math.Exp(logKappa)), logKappa}, rest, jacobian)
		return sumOfSquares(rest)
	})
	x := []float64{p.bestMax(math.Exp(logKappa)), logKappa}
	p.residuals(x, rest, jacobian)
	if !inside {
		return solution{greatest: x[0], kappa: math.Exp(logKappa), squares: sumOfSquares(rest)}
	}
	squares, inverse := polish(x, rows, p.residuals)
	found := solution{greatest: x[0], kappa: math.Exp(x[1]), squares: squares, inside: inverse != nil}
	if inverse != nil {
		found.covariance = covariance{max: inverse.At(0, 0), both: inverse.At(0, 1), logKappa: inverse.At(1, 1)}
	}
	return found
}
