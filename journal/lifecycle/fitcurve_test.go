package lifecycle

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// plain returns the growth problem without any penalty and with equal weights, from a length of start at 0. The usual
// curve is far from every answer on purpose: no start may matter.
func plain(start float64, x, y []float64) growthProblem {
	p := growthProblem{greatest: 1, kappa: 1, maxSD: math.Inf(1), logKappaSD: math.Inf(1)}
	for i := range x {
		p.add(math.Max(start, 1e-300), y[i], x[i], 1)
	}
	return p
}

func TestFitsMeetCertifiedValues(t *testing.T) {
	// y = b1 (1 − e^(−b2 x)), the curve from a length of 0.
	for _, row := range []struct {
		name                  string
		x, y                  []float64
		b1, b2, rss, sd1, tol float64
		source                string
	}{
		{"BoxBOD", []float64{1, 2, 3, 5, 7, 10}, []float64{109, 149, 149, 191, 213, 224},
			213.80940889, 0.54723748542, 1168.0088766, 12.354515176, 1e-6, "NIST StRD, certified (from memory)"},
	} {
		problem := plain(0, row.x, row.y)
		got := problem.solve()
		near(t, row.name+" b1 ["+row.source+"]", got.greatest/row.b1, 1, row.tol)
		near(t, row.name+" b2", got.kappa/row.b2, 1, row.tol)
		near(t, row.name+" residual sum of squares", got.squares/row.rss, 1, row.tol)
		near(t, row.name+" standard error of b1", math.Sqrt(got.covariance.max*got.squares/float64(len(row.x)-2))/row.sd1, 1, 1e-4)
	}
}

func TestTheFitMeetsTheCertifiedMisraData(t *testing.T) {
	problem := misra()
	got := problem.solve()
	near(t, "b1 [NIST StRD, certified]", got.greatest/238.94212918, 1, 1e-7)
	near(t, "b2", got.kappa/5.5015643181e-4, 1, 1e-7)
	near(t, "standard error of b1", math.Sqrt(got.covariance.max*got.squares/12)/2.7070075241, 1, 1e-6)
}

func TestTheFitGivesThePublishedCurveOfHake(t *testing.T) {
	// Females of Pacific hake, mean length (cm) at age. Source: Kimura 1980, US Fishery Bulletin 77:765-776: Linf
	// 61.23, K 0.296, t0 −0.057; recomputed without rounding 61.2332996, 0.296253, −0.0572644. The fit holds the length
	// at age 0 at its published value.
	ages := []float64{1.0, 2.0, 3.3, 4.3, 5.3, 6.3, 7.3, 8.3, 9.3, 10.3, 11.3, 12.3, 13.3}
	lengths := []float64{15.40, 28.03, 41.18, 46.20, 48.23, 50.26, 51.82, 54.27, 56.98, 58.93, 59.00, 60.91, 61.83}
	start := 61.2332996 * (1 - math.Exp(-0.296253*0.0572644))
	problem := plain(start, ages, lengths)
	got := problem.solve()
	near(t, "Linf", got.greatest/61.2332996, 1, 1e-4)
	near(t, "K", got.kappa/0.296253, 1, 1e-4)
	near(t, "residual sum of squares", got.squares/28.80038, 1, 1e-4)
}

func TestRecapturesGiveTheirCurveBack(t *testing.T) {
	// Exact recaptures of Linf 60, K 0.3; Fabens 1965, Growth 29:265-289.
	p := growthProblem{greatest: 1, kappa: 1, maxSD: math.Inf(1), logKappaSD: math.Inf(1)}
	for _, row := range [][3]float64{{20, 30.367271, 1}, {30, 34.178761, 0.5}, {40, 49.023767, 2}, {50, 52.591818, 1}, {55, 55.361283, 0.25}} {
		p.add(row[0], row[1], row[2], 1)
	}
	got := p.solve()
	near(t, "Linf", got.greatest, 60, 1e-4)
	near(t, "K", got.kappa, 0.3, 1e-6)
	// Ford and Walford: lengths a year apart lie on a line of slope e^(−K) and intercept Linf (1 − e^(−K)).
	curve := NewCurve(0, got.greatest, got.kappa)
	near(t, "slope", (curve.Length(curve.Phi(40)+1)-curve.Length(curve.Phi(30)+1))/10, 0.740818, 1e-6)
	near(t, "intercept", curve.Length(1), 15.550907, 1e-5)
	// Francis 1988, N.Z. J. Mar. Freshw. Res. 22:42-51: yearly growth at 30 and 50.
	near(t, "growth at 30", curve.Length(curve.Phi(30)+1)-30, 7.775453, 1e-5)
	near(t, "growth at 50", curve.Length(curve.Phi(50)+1)-50, 2.591818, 1e-5)
}

func TestGrowthIndependentOfSize(t *testing.T) {
	// After the tag returns of Pacific bonito (Campbell & Collins 1975): yearly growth at 35 and 55 cm is the same, and
	// least squares has no finite optimum. Here: shrimp that grow 6 mm in the time to maturity whatever their length,
	// give or take a little.
	p := growthProblem{greatest: 20, kappa: 2, maxSD: math.Inf(1), logKappaSD: math.Inf(1)}
	var recaptures []Recapture
	for i := range 40 {
		first, span := 8+float64(i)*0.4, 0.3+0.01*float64(i%7)
		recaptures = append(recaptures, Recapture{first, first + 6*span + 0.05*float64(i%3-1), span})
		p.add(first, recaptures[i].Second, span, 1)
	}
	if got := p.solve(); got.inside {
		t.Errorf("plain least squares finds Linf %v and kappa %v, want no finite optimum", got.greatest, got.kappa)
	}
	growth := davidi(t).Growth
	fit := growth.Fit(growth.Female, nil, recaptures)
	if fit.Estimable || fit.Curve != growth.Female || !strings.Contains(fit.Reason, "does not slow") {
		t.Errorf("Fit = %+v, want the usual curve and the reason", fit)
	}
}

// simulated returns measured lengths of a true curve, each animal with its own size and a measuring error, and
// recaptures of other animals.
func simulated(seed uint64, truth Curve, growth Growth, n int) (lengths []Measured, recaptures []Recapture) {
	random := rand.New(rand.NewPCG(seed, 1))
	for range n {
		phi := 0.1 + 1.6*random.Float64()
		mm := truth.Length(phi)*(1+growth.CV*random.NormFloat64()) + growth.MeasureSD*random.NormFloat64()
		lengths = append(lengths, Measured{phi, mm})
		greatest := truth.Max * (1 + growth.CV*random.NormFloat64())
		first, span := 8+10*random.Float64(), 0.1+0.5*random.Float64()
		second := greatest - (greatest-first)*math.Exp(-truth.Kappa()*span)
		recaptures = append(recaptures, Recapture{first, second + math.Sqrt2*growth.MeasureSD*random.NormFloat64(), span})
	}
	return lengths, recaptures
}

func TestAFitRecoversTheTruthWithinItsError(t *testing.T) {
	growth := davidi(t).Growth
	truth := NewCurve(2.3, 29, 1.5)
	within, total := 0, 0
	for seed := range uint64(60) {
		lengths, recaptures := simulated(seed, truth, growth, 40)
		for _, fit := range []CurveFit{
			growth.Fit(growth.Female, lengths, nil),
			growth.Fit(growth.Female, nil, recaptures),
			growth.Fit(growth.Female, lengths, recaptures),
		} {
			if !fit.Estimable || fit.Reason != "" {
				t.Fatalf("seed %d: not estimable: %s", seed, fit.Reason)
			}
			total++
			if math.Abs(fit.Curve.Length(1)-truth.Length(1)) < 2*fit.MeanSD(1) {
				within++
			}
		}
	}
	// A 2 sd band holds 95 % when its sd is right; the penalty pulls towards the usual curve, which is off here.
	if share := float64(within) / float64(total); share < 0.85 || share > 0.995 {
		t.Errorf("the mean at maturity lies within two standard errors in %v of the fits, want 0.85 to 0.995", share)
	}
}

func TestMoreLengthsMakeAFitSurer(t *testing.T) {
	growth := davidi(t).Growth
	truth := NewCurve(2.3, 29, 1.5)
	last := math.Inf(1)
	for _, n := range []int{3, 10, 30, 100, 300} {
		lengths, _ := simulated(7, truth, growth, n)
		fit := growth.Fit(growth.Female, lengths, nil)
		if sd := fit.MeanSD(1); sd >= last {
			t.Errorf("%d lengths give an error of %v at maturity, not below %v with fewer", n, sd, last)
		}
		last = fit.MeanSD(1)
		if fit.Lengths != n {
			t.Errorf("used %d of %d lengths", fit.Lengths, n)
		}
	}
	near(t, "mean at maturity from 300 lengths", last, 0, 0.25)
}

func TestAFitSaysWhyItCannotBeMade(t *testing.T) {
	growth := davidi(t).Growth
	nan := math.NaN()
	for _, row := range []struct {
		name       string
		lengths    []Measured
		recaptures []Recapture
		reason     string
	}{
		{"nothing", nil, nil, "Too few lengths"},
		{"two lengths", []Measured{{0.5, 15}, {1, 22}}, nil, "Too few lengths"},
		{"lengths that cannot be", []Measured{{0.5, 15}, {nan, 22}, {1, -3}, {-1, 20}, {0, 3}, {1, math.Inf(1)}}, []Recapture{{20, 21, 0}, {0, 5, 1}}, "Too few lengths"},
		{"hatchlings only", []Measured{{0.02, 3.1}, {0.03, 3.4}, {0.02, 3.0}}, nil, "almost nothing"},
		{"another animal", []Measured{{0.5, 60}, {1, 80}, {1.5, 95}, {1.2, 90}}, nil, "do not follow"},
		{"shrinking", nil, []Recapture{{24, 10, 0.5}, {25, 9, 0.5}, {26, 8, 0.5}, {25, 7, 0.5}}, "do not follow"},
	} {
		fit := growth.Fit(growth.Male, row.lengths, row.recaptures)
		if fit.Estimable || fit.Curve != growth.Male || !strings.Contains(fit.Reason, row.reason) {
			t.Errorf("%s: Fit = %+v, want the usual curve because %q", row.name, fit, row.reason)
		}
		near(t, row.name+": error of the greatest length between journals", fit.MeanSD(50), growth.MaxPriorSD*growth.Male.Max, 1e-6)
	}
}

func TestAFittedCurveRises(t *testing.T) {
	growth := davidi(t).Growth
	rapid.Check(t, func(t *rapid.T) {
		var lengths []Measured
		for range rapid.IntRange(0, 12).Draw(t, "n") {
			lengths = append(lengths, Measured{rapid.Float64Range(0, 3).Draw(t, "phi"), rapid.Float64Range(1, 40).Draw(t, "mm")})
		}
		fit := growth.Fit(growth.Female, lengths, nil)
		last := fit.Curve.Hatch
		for phi := 0.0; phi < 4; phi += 0.25 {
			length, sd := fit.Curve.Length(phi), fit.MeanSD(phi)
			if !(length >= last) || !(sd >= 0) || math.IsInf(sd, 0) || length > 60 {
				t.Fatalf("length %v ± %v at %v after %v, from %+v", length, sd, phi, last, lengths)
			}
			last = length
		}
		if fit.Estimable == (fit.Reason != "") {
			t.Fatalf("estimable %v with reason %q", fit.Estimable, fit.Reason)
		}
	})
}

func TestAFitScalesWithItsUnit(t *testing.T) {
	// Everything twice as long gives a curve twice as long.
	growth := davidi(t).Growth
	lengths, recaptures := simulated(3, NewCurve(2.3, 25, 2), growth, 20)
	fit := growth.Fit(growth.Female, lengths, recaptures)
	double := growth
	double.MeasureSD *= 2
	usual := Curve{2 * growth.Female.Hatch, 2 * growth.Female.Mature, 2 * growth.Female.Max}
	for i := range lengths {
		lengths[i].MM *= 2
		recaptures[i].First *= 2
		recaptures[i].Second *= 2
	}
	twice := double.Fit(usual, lengths, recaptures)
	near(t, "Max", twice.Curve.Max, 2*fit.Curve.Max, 1e-5)
	near(t, "kappa", twice.Curve.Kappa(), fit.Curve.Kappa(), 1e-6)
	near(t, "error at maturity", twice.MeanSD(1), 2*fit.MeanSD(1), 1e-5)
}

func BenchmarkFit(b *testing.B) {
	p, _ := Default("neocaridina-davidi")
	lengths, recaptures := simulated(1, p.Growth.Female, p.Growth, 50)
	for b.Loop() {
		p.Growth.Fit(p.Growth.Female, lengths, recaptures)
	}
}

func ExampleGrowth_Fit() {
	p, _ := Default("neocaridina-davidi")
	lengths := []Measured{{0.2, 9}, {0.4, 15.5}, {0.6, 20}, {0.9, 25}, {1.1, 26.5}, {1.5, 28}}
	fit := p.Growth.Fit(p.Growth.Female, lengths, nil)
	fmt.Printf("usual %.1f mm at maturity, here %.1f ± %.1f mm\n", p.Growth.Female.Length(1), fit.Curve.Length(1), fit.MeanSD(1))
	fmt.Println(p.Growth.Fit(p.Growth.Female, lengths[:1], nil).Reason)
	// Output:
	// usual 23.0 mm at maturity, here 24.4 ± 0.8 mm
	// Too few lengths of known age, or pairs of lengths of one shrimp: 1 of at least 3.
}
