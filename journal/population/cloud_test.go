package population

import (
	"math"
	"testing"
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
		sum, total := 0.0, 0.0
		for i, w := range c.weights {
			sum, total = sum+w*levels[i], total+w
		}
		means = append(means, sum/total)
		old := append([]float64(nil), levels...)
		for place, ancestor := range c.ancestors(s.uniform()) {
			levels[place] = old[ancestor]
		}
	}
	return means, c.logLikelihood
}

// level is what is believed of a number that wanders: a normal distribution.
type level struct{ mean, variance float64 }

// exactFilter returns the belief about a level that takes a normal step each year and is seen with a normal error, after each
// observation, and the log-likelihood of each. Source: R. E. Kalman 1960, in the notation of J. Durbin and S. J. Koopman,
// Time Series Analysis by State Space Methods, section 2.2 (from memory).
func exactFilter(belief level, step, noise float64, observed []float64) (levels []level, logs []float64) {
	for i, y := range observed {
		if i > 0 {
			belief.variance += step
		}
		variance, off := belief.variance+noise, y-belief.mean
		logs = append(logs, -off*off/(2*variance)-math.Log(2*math.Pi*variance)/2)
		gain := belief.variance / variance
		belief = level{belief.mean + gain*off, belief.variance * (1 - gain)}
		levels = append(levels, belief)
	}
	return levels, logs
}

func sumOf(numbers []float64) (sum float64) {
	for _, x := range numbers {
		sum += x
	}
	return sum
}

func TestTheExactFilterMeetsPublishedLikelihoods(t *testing.T) {
	near := func(what string, got, want, tol float64) {
		t.Helper()
		if !(math.Abs(got-want) <= tol) {
			t.Errorf("%s: %.6f, want %.6f", what, got, want)
		}
	}
	levels, logs := exactFilter(level{priorLevel, priorSpread * priorSpread}, nileStep, nileNoise, nile)
	near("log-likelihood with the proper prior", sumOf(logs), -639.711715, 1e-3)
	for year, want := range map[int]float64{1871: 1113.1653, 1872: 1137.0456, 1890: 1026.1332, 1970: 798.3703} {
		near("filtered level", levels[year-1871].mean, want, 1e-3)
	}
	near("variance of 1871", levels[0].variance, 14239.02, 1e-2)
	near("steady variance: P·noise/(P + noise), P = 5501.2579", levels[99].variance, 4032.158, 1e-2)
	near("sd of 1971", math.Sqrt(levels[99].variance+nileStep+nileNoise), 143.5279, 1e-3)
	near("sd of 1980", math.Sqrt(levels[99].variance+10*nileStep+nileNoise), 183.9080, 1e-3)
	// A prior of almost no weight stands for the diffuse start of Durbin and Koopman: the first term carries the prior alone.
	levels, logs = exactFilter(level{0, 1e14}, nileStep, nileNoise, nile)
	near("log-likelihood of the other 99", sumOf(logs[1:]), -632.5456, 1e-3)
	for i, want := range map[int]float64{1: 7899.736, 2: 5781.470, 9: 4051.284} {
		near("variance after the diffuse start", levels[i].variance, want, 1e-2)
	}
	_, logs = exactFilter(level{0, 0}, 0, 1, []float64{1})
	near("log density of N(0, 1) at 1", logs[0], -1.4189385332, 1e-9)
}

// The particle filter's own parts must agree with the exact filter, within what a bootstrap filter with systematic resampling
// and 2,000 particles reached elsewhere over 12 seeds: log-likelihood within 1.2, RMS difference of filtered means below 5 at a
// posterior sd of 63.5.
func TestCloudAgreesWithTheExactFilter(t *testing.T) {
	exact, logs := exactFilter(level{priorLevel, priorSpread * priorSpread}, nileStep, nileNoise, nile)
	want := sumOf(logs)
	sum := 0.0
	for seed := range uint64(nileSeeds) {
		means, got := filterNile(seed)
		squares := 0.0
		for year, mean := range means {
			squares += (mean - exact[year].mean) * (mean - exact[year].mean) / float64(len(means))
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

func TestAnImpossibleObservationChangesNothing(t *testing.T) {
	c := newCloud(3)
	never := math.Inf(-1)
	if c.weigh([]float64{never, never, never}, 1) {
		t.Error("an observation that nobody can explain was taken in")
	}
	if c.effective() != 3 || c.logLikelihood != 0 {
		t.Errorf("it changed the cloud: %+v", c)
	}
}
