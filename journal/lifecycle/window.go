package lifecycle

import (
	"math"
	"sort"
)

// Interval is a stretch of moments, or of days of delay; something lies evenly between From and To.
type Interval struct{ From, To float64 }

// Stage asks when a development is done.
//
//	done when  Σ rate·day = Share·m,  ln m ~ N(LogMean, LogSD²)
type Stage struct {
	Begun   Interval // moments between which it began
	Share   float64  // share of the whole development that is asked for, above 0
	LogMean float64  // ln of the multiplier on the duration
	LogSD   float64  // its sd, with the spread from one to the next; above 0
	Notice  Interval // days between being done and being noticed
	Sign    *Sign    // nil when none was seen
	Through int      // index of a day that the distribution must pass, however unlikely; 0 when there is none
}

// Window returns the distribution of the day on which the keeper notes that the stage is done, without random numbers:
// ln of the development is taken as normal, so that the probability to be done by a moment is a normal one; it is averaged
// over when the stage began, weighed by the sign, and spread over the delay. Everything in it is smooth in every input.
func (p *Progress) Window(stage Stage) Distribution {
	half := p.undone(stage)
	d := Distribution{later: make([]float64, min(p.Days(), len(half)/2+1+int(math.Ceil(stage.Notice.To))))}
	const steps = 4
	width := (stage.Notice.To - stage.Notice.From) / steps
	for day := range d.later {
		var sum float64
		for k := range steps + 1 {
			weight := 1.0 / steps
			if k == 0 || k == steps {
				weight /= 2
			}
			sum += weight * interpolate(half, float64(day)-stage.Notice.From-width*float64(k))
		}
		d.later[day] = sum
	}
	if len(d.later) < p.Days() {
		d.later = append(d.later, 0)
	}
	return d
}

// interpolate reads a list whose index i stands for the moment (i−1)/2; before it everything is undone.
func interpolate(half []float64, moment float64) float64 {
	x := 2*moment + 1
	if x <= 0 {
		return 1
	}
	i := int(x)
	if i >= len(half)-1 {
		return half[len(half)-1]
	}
	return half[i] + (x-float64(i))*(half[i+1]-half[i])
}

// unlikely is a probability that no quantile looks at: a distribution ends there, unless Stage.Through is later.
const unlikely = 1e-4

// beyond is how many days a distribution reaches past Stage.Through: to whatever is left of it.
const beyond = 20

// undone returns the probability that the stage is not done at the moments −½, 0, ½, 1 and so on, given the sign.
func (p *Progress) undone(stage Stage) []float64 {
	half := make([]float64, 2*p.Days()+1)
	starts, total := p.starts(stage)
	var covariances []float64
	signed := math.Inf(-1)
	if stage.Sign != nil {
		covariances = p.covariances(stage.Sign.Day)
		signed = float64(stage.Sign.Day)
	}
	past := 1.0
	for i := range half {
		moment := float64(i-1) / 2
		if moment > signed && past > 0 {
			doubt, covariance := at(p.doubt, moment), covarianceAt(covariances, moment)
			var sum float64
			for k := range starts {
				mean, slope, sd := p.logShare(stage, &starts[k], moment, doubt, covariance)
				sum += starts[k].undone(mean/sd, slope/sd)
			}
			past = math.Min(past, sum/total)
		}
		half[i] = past
		if past < unlikely && moment > float64(stage.Through+beyond) {
			return half[:i+1]
		}
	}
	return half
}

// start is a moment at which a stage may have begun, with what a sign says of it. Without a sign it has one case.
type start struct {
	begun float64
	own   float64 // variance of ln development on the day of the sign, before the sign is used; 0 without one
	cell  float64 // share of own that one case stands for; without it the cases would show as steps
	cases []instance
}

// instance is a value that ln development may have had on the day of the sign, against its expectation.
type instance struct{ weight, log float64 }

// undone adds up the weights of the cases times their probability to be undone, where ln development is mean + slope·log
// in units of its sd.
func (s *start) undone(mean, slope float64) (sum float64) {
	for _, c := range s.cases {
		sum += c.weight * upper(mean+slope*c.log)
	}
	return sum
}

// logShare returns what is known of ln(development/(Share·m)) at a moment: mean + slope·log for a case, and the sd.
func (p *Progress) logShare(stage Stage, s *start, moment, doubt, covariance float64) (mean, slope, sd float64) {
	share := at(p.done, moment) - at(p.done, s.begun)
	if share <= 0 || moment <= s.begun {
		return math.Inf(-1), 0, 1
	}
	mean = math.Log(share/stage.Share) - 0.5*doubt - stage.LogMean
	variance := doubt + stage.LogSD*stage.LogSD
	if s.own > 0 {
		covariance += stage.LogSD * stage.LogSD
		slope = covariance / s.own
		variance = math.Max(variance-slope*covariance, 0) + slope*covariance*s.cell
	}
	return mean, slope, math.Sqrt(variance)
}

// starts spreads a stage over the moments at which it may have begun, and returns the sum of all weights.
func (p *Progress) starts(stage Stage) (starts []start, total float64) {
	for _, m := range spread(stage.Begun) {
		s := start{begun: m.at, cases: []instance{{weight: 1}}}
		if stage.Sign != nil {
			s = p.weigh(stage, m.at)
		}
		for i := range s.cases {
			s.cases[i].weight *= m.weight
			total += s.cases[i].weight
		}
		starts = append(starts, s)
	}
	return starts, total
}

// moment is a point of an interval with its share of it.
type moment struct{ at, weight float64 }

// spread returns moments with the mean and variance of an even distribution: the two Gauss-Legendre nodes of each stretch
// of three days, counted from the start of the interval, in at most eight stretches. The last stretch is what is left and
// weighs by its length, so that a longer interval never makes a jump.
func spread(in Interval) []moment {
	const days, most = 3, 8
	width := in.To - in.From
	if width <= 0 {
		return []moment{{in.To, 1}}
	}
	step := math.Max(days, width/most)
	var moments []moment
	for k := range most {
		from := in.From + float64(k)*step
		length := math.Min(step, in.To-from)
		if length <= 0 {
			break
		}
		middle, offset, weight := from+length/2, length/(2*math.Sqrt(3)), length/(2*width)
		moments = append(moments, moment{middle - offset, weight}, moment{middle + offset, weight})
	}
	return moments
}

// Done returns the expected share of the development that is done at a moment, given that it is not over: 0 to 1.
func (p *Progress) Done(stage Stage, moment float64) float64 {
	doubt, covariance := at(p.doubt, moment), 0.0
	if sign := stage.Sign; sign != nil {
		// up to the day of the sign, what the sign says of its own day stands for every earlier one
		covariance = covarianceAt(p.covariances(sign.Day), math.Max(moment, float64(sign.Day)+0.5))
	}
	var sum, total float64
	starts, _ := p.starts(stage)
	for k := range starts {
		mean, slope, sd := p.logShare(stage, &starts[k], moment, doubt, covariance)
		for _, c := range starts[k].cases {
			// E(e^X given X < 0) for a normal X
			m := mean + slope*c.log
			total += c.weight * upper(m/sd)
			if !math.IsInf(m, -1) {
				sum += c.weight * math.Exp(m+sd*sd/2) * upper(m/sd+sd)
			}
		}
	}
	if total < 1e-200 {
		return 1
	}
	return math.Min(1, sum/total)
}

// Distribution is the distribution of a day, as probabilities that it is later than each of a run of days from 0 on.
type Distribution struct {
	later []float64
	after int  // with given: it is known to be later than this day
	given bool // whether after is in use
	by    int  // with bound: it is known not to be later than this day
	bound bool // whether by is in use
}

// Later returns the probability that the day is later than the given one.
func (d Distribution) Later(day int) float64 {
	if d.given && day <= d.after {
		return 1
	}
	if d.bound && day >= d.by {
		return 0
	}
	rest, whole := 0.0, 1.0
	if d.bound {
		rest = d.raw(d.by)
	}
	if d.given {
		whole = d.raw(d.after)
	}
	if whole-rest < 1e-290 {
		return 0
	}
	return math.Max(0, math.Min(1, (d.raw(day)-rest)/(whole-rest)))
}

func (d Distribution) raw(day int) float64 {
	if day < 0 {
		return 1
	}
	return d.later[min(day, len(d.later)-1)]
}

// After returns the distribution given that the day is later than the given one. Where that is all but impossible,
// what remains is the next day.
func (d Distribution) After(day int) Distribution {
	if d.given {
		day = max(day, d.after)
	}
	d.after, d.given = day, true
	return d
}

// By returns the distribution given that the day is not later than the given one. Where that is all but impossible,
// what remains is that day.
func (d Distribution) By(day int) Distribution {
	if d.bound {
		day = min(day, d.by)
	}
	d.by, d.bound = day, true
	if 1-d.raw(day) < 1e-12 {
		d.after, d.given = day-1, true
	}
	return d
}

// Last returns the last day that the distribution looks at.
func (d Distribution) Last() int { return len(d.later) - 1 }

// Quantile returns the first day by which the probability p, between 0 and 1, is reached, and false when that is later
// than Last.
func (d Distribution) Quantile(p float64) (day int, ok bool) {
	first := 0
	if d.given {
		first = max(0, d.after+1)
	}
	rest := max(0, len(d.later)-first)
	i := sort.Search(rest, func(i int) bool { return d.Later(first+i) <= 1-p })
	return first + i, i < rest
}

// CRPS returns the continuous ranked probability score of the distribution for the day that came, in days; 0 is best.
//
//	Σ over days of (P(by the day) − [it had come by the day])²
//
// Source: T. Gneiting & A. E. Raftery, "Strictly Proper Scoring Rules, Prediction, and Estimation", J. Am. Stat. Assoc. 102
// (2007) 359-378, equation 20, for a distribution on whole days.
func (d Distribution) CRPS(day int) float64 {
	var sum float64
	for k := min(0, day); k <= max(d.Last(), day); k++ {
		p := d.Later(k)
		if k >= day {
			sum += p * p
		} else {
			sum += (1 - p) * (1 - p)
		}
	}
	return sum
}
