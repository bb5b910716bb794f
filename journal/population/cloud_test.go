package population

import (
	"math"
	"testing"

	"pleopod/journal/evidence"
)

// nile is the annual flow of the Nile at Aswan, 1871-1970, 10^8 m³. Source: R package datasets; J. Durbin and S. J. Koopman,
// Time Series Analysis by State Space Methods (2001, 2012).
var nile = []float64{
	1120, 1160, 963, 1210, 1160, 1160, 813, 1230, 1370, 1140, 995, 935, 1110, 994, 1020, 960, 1180, 799, 958, 1140,
	1100, 1210, 1150, 1250, 1260, 1220, 1030, 1100, 774, 840, 874, 694, 940, 833, 701, 916, 692, 1020, 1050, 969,
	831, 726, 456, 824, 702, 1120, 1100, 832, 764, 821, 768, 845, 864, 862, 698, 845, 744, 796, 1040, 759,
	781, 865, 845, 944, 984, 897, 822, 1010, 771, 676, 649, 846, 812, 742, 801, 1040, 860, 874, 848, 890,
	744, 749, 838, 1050, 918, 986, 797, 923, 975, 815, 1020, 906, 901, 1170, 912, 746, 919, 718, 714, 740,
}

// The local level of the Nile: maximum-likelihood variances of the same source, and a proper prior.
const (
	nileNoise, nileStep      = 15099.0, 1469.1
	priorLevel, priorSpread  = 1000.0, 500.0
	nileParticles, nileSeeds = 2000, 12
)

// filterNile runs the cloud over the series and returns the filtered means and the log-likelihood.
func filterNile(seed uint64) (means []float64, logLikelihood float64) {
	c, s := newCloud(nileParticles), newStream(seed, 0)
	levels := make([]float64, nileParticles)
	logs := make([]float64, nileParticles)
	for i := range levels {
		levels[i] = priorLevel + priorSpread*s.normal()
	}
	for year, flow := range nile {
		for i := range levels {
			if year > 0 {
				levels[i] += math.Sqrt(nileStep) * s.normal()
			}
			off := flow - levels[i]
			logs[i] = -off*off/(2*nileNoise) - math.Log(2*math.Pi*nileNoise)/2
		}
		c.weigh(logs, 1)
		mean, _ := evidence.Mean(levels, c.weights)
		means = append(means, mean)
		old := append([]float64(nil), levels...)
		for place, ancestor := range c.ancestors(s.uniform()) {
			levels[place] = old[ancestor]
		}
	}
	return means, c.logLikelihood
}

// The particle filter's own parts must agree with the exact filter: exact log-likelihood -639.711715 and filtered level of
// 1970 798.3703 (closed form), and within what a bootstrap filter with systematic resampling and 2,000 particles reached
// elsewhere over 12 seeds: log-likelihood within 1.2, RMS difference of filtered means below 5 at a posterior sd of 63.5.
func TestCloudAgreesWithTheExactFilter(t *testing.T) {
	exact, want := evidence.LocalLevel{
		First: evidence.Normal{Mean: priorLevel, SD: priorSpread}, Step: math.Sqrt(nileStep), Noise: math.Sqrt(nileNoise),
	}.Filter(nile)
	if math.Abs(want+639.711715) > 1e-3 || math.Abs(exact[99].Mean-798.3703) > 1e-3 {
		t.Fatalf("exact filter gives %v and %v", want, exact[99].Mean)
	}
	sum := 0.0
	for seed := range uint64(nileSeeds) {
		means, got := filterNile(seed)
		squares := 0.0
		for year, mean := range means {
			squares += (mean - exact[year].Mean) * (mean - exact[year].Mean) / float64(len(means))
		}
		if math.Abs(got-want) > 1.2 || math.Sqrt(squares) > 5 {
			t.Errorf("seed %d: log-likelihood %.3f, want %.3f; RMS %.2f", seed, got, want, math.Sqrt(squares))
		}
		sum += got / nileSeeds
	}
	if math.Abs(sum-want) > 0.3 {
		t.Errorf("mean log-likelihood over the seeds %.3f, want %.3f", sum, want)
	}
}

// An observation taken in steps must weigh as much as one taken at once.
func TestStepsOfAnObservationAddUp(t *testing.T) {
	s := newStream(3, 0)
	logs := make([]float64, 100)
	for i := range logs {
		logs[i] = -20 * s.uniform()
	}
	whole, parts := newCloud(100), newCloud(100)
	whole.weigh(logs, 1)
	for _, power := range []float64{0.2, 0.5, 0.3} {
		parts.weigh(logs, power)
	}
	if math.Abs(whole.logLikelihood-parts.logLikelihood) > 1e-9 {
		t.Errorf("log-likelihood %v in one, %v in parts", whole.logLikelihood, parts.logLikelihood)
	}
	for i := range whole.weights {
		if math.Abs(whole.weights[i]-parts.weights[i]) > 1e-12 {
			t.Fatalf("weight %d: %v in one, %v in parts", i, whole.weights[i], parts.weights[i])
		}
	}
	fresh := newCloud(100)
	power := fresh.bearable(logs, 1, 30)
	fresh.weigh(logs, power)
	if ess := fresh.effective(); ess < 30 || ess > 30.5 {
		t.Errorf("power %v leaves %v effective, want just above 30", power, ess)
	}
}

func TestImpossibleObservationChangesNothing(t *testing.T) {
	c := newCloud(3)
	never := math.Inf(-1)
	if c.weigh([]float64{never, never, never}, 1) {
		t.Error("an observation that nobody can explain was taken in")
	}
	if c.effective() != 3 || c.logLikelihood != 0 {
		t.Errorf("it changed the cloud: %+v", c)
	}
}
