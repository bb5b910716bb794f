package forecast

import (
	"math"
	"testing"

	"pleopod/journal"
	"pleopod/journal/lifecycle"
)

// pool is water that is known but for a thermometer that is wrong by the same share on every day.
type pool struct {
	lifecycle.Warmth // what nobody asks for here
	celsius          []float64
	wrong            float64 // sd of that share
}

func (p pool) Days() int { return len(p.celsius) }

func (p pool) Day(i int) (mean, sd float64) { return p.celsius[i], p.wrong * p.celsius[i] }

func (p pool) SumVariance(weights, out []float64) {
	var sum float64
	for i, weight := range weights {
		sum += weight * p.wrong * p.celsius[i]
		out[i] = sum * sum
	}
}

// taken asks for the development between two intervals in water of 10 °C before day 10 and of 30 °C from it on, under a
// law of a thousandth a day for every degree.
func (p pool) taken(begun, end lifecycle.Interval) (log, sd float64) {
	for i := range 30 {
		p.celsius = append(p.celsius, 10)
		if i >= 10 {
			p.celsius[i] = 30
		}
	}
	var d scratch
	d.progress.Count(p, lifecycle.Averaged(func(celsius float64) float64 { return celsius / 1000 }))
	const first journal.Day = 100
	end.From, end.To = end.From+float64(first), end.To+float64(first)
	return view{scratch: &d}.taken(first, begun, end)
}

func TestVagueDatesMakeALessonLessSure(t *testing.T) {
	// Law: where only the days are vague, the sd is that of ln of the development between a beginning and an end that are
	// each spread evenly over their interval. It is summed here; the formula takes development as linear around the middles,
	// which is good to a few parts in a hundred.
	done := func(moment float64) float64 { return 0.01*math.Min(moment, 9.5) + 0.03*math.Max(0, moment-9.5) }
	for _, row := range []struct{ begun, end lifecycle.Interval }{
		{lifecycle.Interval{From: 0, To: 7}, lifecycle.Interval{From: 22, To: 22}},
		{lifecycle.Interval{From: 3, To: 3}, lifecycle.Interval{From: 19, To: 25}},
		{lifecycle.Interval{From: 0, To: 7}, lifecycle.Interval{From: 19, To: 25}},
	} {
		const n = 100
		var sum, squares float64
		for i := range n * n {
			along := func(in lifecycle.Interval, k int) float64 { return in.From + (in.To-in.From)*(float64(k)+0.5)/n }
			log := math.Log(done(along(row.end, i/n)) - done(along(row.begun, i%n)))
			sum, squares = sum+log, squares+log*log
		}
		want := math.Sqrt(squares/(n*n) - sum*sum/(n*n*n*n))
		if _, got := (pool{}).taken(row.begun, row.end); math.Abs(got/want-1) > 0.03 {
			t.Errorf("begun %v, ended %v: sd %.4f, want %.4f", row.begun, row.end, got, want)
		}
	}
}

func TestUnsureWaterTeachesTheMeanOfLn(t *testing.T) {
	// Development X with a relative variance of c² has the mean of ln X below ln of its mean. Law, for a log-normal X:
	// E ln X = ln E X − ½·ln(1 + c²), and the sd of ln X is √ln(1 + c²); the formula takes c² for ln(1 + c²).
	begun, end := lifecycle.Interval{From: 3, To: 3}, lifecycle.Interval{From: 22, To: 22}
	sure, _ := pool{}.taken(begun, end)
	for _, wrong := range []float64{0.05, 0.1, 0.2} {
		log, sd := pool{wrong: wrong}.taken(begun, end)
		variance := math.Log1p(wrong * wrong)
		if math.Abs((sure-log)/(variance/2)-1) > 0.03 || math.Abs(sd/math.Sqrt(variance)-1) > 0.03 {
			t.Errorf("thermometer off by %g: mean %.4f below that of sure water, sd %.4f; want %.4f and %.4f", wrong, sure-log, sd, variance/2, math.Sqrt(variance))
		}
	}
}
