package lifecycle

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// The score of a window, Distribution.CRPS, against published values and against other scores that must add up to it.

func TestTheScoreIsZeroForASureDayAndTheErrorElsewhere(t *testing.T) {
	sure := members(3)
	for day, want := range map[int]float64{3: 0, 5: 2, 1: 2, 9: 6} {
		near(t, fmt.Sprintf("a sure day 3, for day %d: the error", day), sure.CRPS(day), want, 0)
	}
	// E|X − y| − ½E|X − X'| of equally likely members. Source: Gneiting & Raftery 2007, equation 21, worked out by hand; members
	// that are no whole days are doubled.
	for _, row := range []struct {
		members []int
		came    int
		want    float64
	}{{[]int{20, 22, 23, 27, 30}, 24, 1.2}, {[]int{2}, 5, 3}, {[]int{2, 4, 6, 8}, 5, 2 * 0.375}, {[]int{0, 2}, 1, 2 * 0.25}, {[]int{0, 1}, 0, 0.25}, {[]int{0, 1}, 1, 0.25}} {
		near(t, fmt.Sprintf("%v for day %d", row.members, row.came), members(row.members...).CRPS(row.came), row.want, 1e-12)
	}
}

// members is the distribution of equally likely days.
func members(of ...int) Distribution {
	d := Distribution{later: make([]float64, 40)}
	for day := range d.later {
		for _, member := range of {
			if member > day {
				d.later[day] += 1 / float64(len(of))
			}
		}
	}
	return d
}

func TestTheScoreOfANormalIsThePublishedOne(t *testing.T) {
	// In steps of a thousandth, each at its middle. Source: σ[z(2Φ(z) − 1) + 2φ(z) − 1/√π], T. Gneiting and A. E. Raftery,
	// J. Am. Stat. Assoc. 102 (2007) 359-378; the first is a test of the R package scoringRules.
	const step = 0.001
	for _, row := range []struct{ mean, sd, came, want float64 }{
		{0, 1, -3, 2.4365747251}, {0, 1, 0, (math.Sqrt2 - 1) / math.Sqrt(math.Pi)}, {0, 1, 1, 0.6024413576}, {0, 1, 2, 1.4527918217},
		{0, 2, 1, 0.6628070625}, {25, 1.5, 27, 1.2809009698}, {1, 0.5, 0.2, 0.5411471762},
	} {
		from := math.Min(row.mean-7*row.sd, row.came-1)
		d := Distribution{later: make([]float64, int(14*row.sd/step)+2000)}
		for i := range d.later {
			d.later[i] = upper((from + (float64(i)+0.5)*step - row.mean) / row.sd)
		}
		got := step * d.CRPS(int(math.Round((row.came-from)/step)))
		near(t, fmt.Sprintf("N(%v, %v²) for %v", row.mean, row.sd, row.came), got, row.want, 1e-6)
	}
}

// pinball is the loss of one quantile at a level. Source: R. Koenker and G. Bassett, Econometrica 46 (1978) 33-50 (from memory).
func pinball(quantile, level, came float64) float64 {
	return math.Max((came-quantile)*level, (quantile-came)*(1-level))
}

// winkler is the score of a central interval of a probability 1 − alpha. Source: R. L. Winkler 1972, in the form of Gneiting and
// Raftery.
func winkler(low, high, alpha, came float64) float64 {
	return high - low + 2/alpha*(math.Max(0, low-came)+math.Max(0, came-high))
}

// brier is the score of one probability. Source: G. W. Brier, Mon. Weather Rev. 78 (1950) 1-3, whose own score sums over both
// outcomes and is twice this one.
func brier(probability float64, happened bool) float64 {
	if happened {
		probability = 1 - probability
	}
	return probability * probability
}

func TestOtherScoresAreThePublishedOnes(t *testing.T) {
	near(t, "pinball(10, .9) for 12", pinball(10, .9, 12), 1.8, 1e-9)
	near(t, "pinball(12, .9) for 10", pinball(12, .9, 10), .2, 1e-9)
	near(t, "pinball(10, .1) for 12", pinball(10, .1, 12), .2, 1e-9)
	near(t, "winkler inside", winkler(10, 20, .1, 15), 10, 1e-9)
	near(t, "winkler above", winkler(10, 20, .1, 22), 50, 1e-9)
	near(t, "winkler below", winkler(10, 20, .2, 9), 20, 1e-9)
	rain := 0.0 // Brier 1950, ten forecasts
	for i, p := range []float64{.7, .9, .8, .4, .2, 0, 0, 0, 0, .1} {
		rain += brier(p, i >= 1 && i <= 3) / 10
	}
	near(t, "Brier 1950", rain, 0.19/2, 1e-12)
}

// The score of a window is the Brier score of "it has come by then" summed over days, twice the mean pinball loss over all levels,
// and the mean of half alpha times the Winkler score over all intervals.
func TestTheScoreIsTheSumOfOtherScores(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := members(rapid.SliceOfN(rapid.IntRange(0, 39), 1, 8).Draw(t, "members")...)
		came := rapid.IntRange(0, 39).Draw(t, "came")
		briers, pinballs, winklers := 0.0, 0.0, 0.0
		for day := range 40 {
			briers += brier(1-d.Later(day), came <= day)
		}
		const n = 840 * 4 // levels between those at which up to eight members jump
		at := func(level float64) float64 {
			day, _ := d.Quantile(level)
			return float64(day)
		}
		for i := range n {
			level := (float64(i) + 0.5) / n
			pinballs += 2 * pinball(at(level), level, float64(came)) / n
			winklers += level / 2 * winkler(at(level/2), at(1-level/2), level, float64(came)) / n
		}
		for name, got := range map[string]float64{"Brier": briers, "pinball": pinballs, "Winkler": winklers} {
			if want := d.CRPS(came); math.Abs(got-want) > 1e-3 {
				t.Fatalf("by %s %v, CRPS %v", name, got, want)
			}
		}
	})
}
