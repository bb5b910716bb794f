package forecast

import (
	"math"

	"pleopod/journal"
	"pleopod/journal/lifecycle"
)

// outlook is the distribution of a brood's hatch day, with what it rests on.
type outlook struct {
	facts  facts
	first  journal.Day // day 0 of the distribution
	dist   lifecycle.Distribution
	stage  lifecycle.Stage
	warmth lifecycle.Warmth
	ok     bool // all quantiles lie within the distribution
}

// The days that a prediction looks ahead at first, and at most.
const (
	firstLook = 48
	lastLook  = 420
)

// eyesUnseen is how many days eyes may be there before the keeper notes them: an assumption.
const eyesUnseen = 3

// longestDoubt is the most days that she may have been berried before she was seen, whatever last-clear says.
const longestDoubt = 60

// eggs returns the outlook for a brood that is carried, given what is known of it but not that it is still carried.
func (v view) eggs(f facts) outlook {
	knownTank := v.knownTanks[f.tank()]
	incubation := knownTank.profile.Incubation
	begun := lifecycle.Interval{From: float64(f.berried) - incubation.DatingDays, To: float64(f.berried)}
	if f.lastClear != 0 {
		begun.From = float64(max(f.lastClear, f.berried-longestDoubt))
	}
	o := outlook{facts: f, first: journal.Day(math.Floor(begun.From))}
	begun.From -= float64(o.first)
	begun.To -= float64(o.first)
	m := v.multiplier(f.tank())
	o.stage = lifecycle.Stage{
		Begun: begun, Share: 1, LogMean: m.Mean, LogSD: math.Hypot(m.SD, logSD(incubation.BroodCV)),
		Notice: lifecycle.Interval{To: incubation.NoticeDays}, Through: int(v.asOf - o.first),
	}
	if f.eyed != 0 {
		o.stage.Sign = &lifecycle.Sign{
			Day: int(f.eyed - o.first), Share: incubation.EyedAt, SD: incubation.EyedSD,
			Lag: eyesUnseen,
		}
	}
	for ahead := firstLook; !o.ok && ahead <= lastLook; ahead *= 3 {
		last := max(o.first+journal.Day(ahead), v.asOf+firstLook)
		o.warmth = v.journey(f.stays, o.first, last)
		v.scratch.progress.Count(o.warmth, knownTank.eggs)
		o.dist = v.scratch.progress.Window(o.stage)
		_, o.ok = o.dist.After(int(v.asOf - o.first)).Quantile(0.95)
	}
	return o
}

// logSD returns the sd of ln of a log-normal number with a coefficient of variation.
func logSD(cv float64) float64 { return math.Sqrt(math.Log1p(cv * cv)) }

// day returns a quantile of the outlook, and zero beyond its end.
func (o outlook) day(d lifecycle.Distribution, p float64) journal.Day {
	day, ok := d.Quantile(p)
	if !ok {
		return 0
	}
	return o.first + journal.Day(day)
}

// still returns the distribution given that the eggs were carried at the end of a day.
func (o outlook) still(asOf journal.Day) lifecycle.Distribution {
	return o.dist.After(int(asOf - o.first))
}

// window returns the outlook as it is shown: given that the eggs are still carried, and without a date where the water
// is too cold or too warm for one.
func (v view) window(o outlook) Window {
	return v.windowOf(o, v.meanCelsius(o))
}

func (v view) windowOf(o outlook, celsius float64) Window {
	incubation := v.knownTanks[o.facts.tank()].profile.Incubation
	validity, why := incubation.Validity(celsius)
	if validity == lifecycle.NoDate {
		return Window{Reason: why}
	}
	if !o.ok {
		return Window{Reason: "The water is expected to be too cold for the eggs to develop within a year."}
	}
	w := spread(o.first, o.still(v.asOf))
	if validity == lifecycle.Flagged {
		w.Doubts = append(w.Doubts, why)
	}
	w.Doubts = append(w.Doubts, v.doubts(o.facts)...)
	return w
}

// spread returns the quantiles of a distribution whose day 0 is first.
func spread(first journal.Day, d lifecycle.Distribution) Window {
	at := func(p float64) journal.Day {
		day, ok := d.Quantile(p)
		if !ok {
			return 0
		}
		return first + journal.Day(day)
	}
	return Window{P05: at(0.05), P10: at(0.1), P25: at(0.25), P50: at(0.5), P75: at(0.75), P90: at(0.9), P95: at(0.95)}
}

// meanCelsius returns the mean temperature over the days from berried to the likeliest hatch.
func (v view) meanCelsius(o outlook) float64 {
	from, to := v.carriedDays(o)
	var sum float64
	for i := from; i <= to; i++ {
		mean, _ := o.warmth.Day(i)
		sum += mean
	}
	return sum / float64(to-from+1)
}

// carriedDays returns the first and last index of the days carried and still expected.
func (v view) carriedDays(o outlook) (from, to int) {
	from, to = int(o.facts.berried-o.first), o.warmth.Days()-1
	if middle, ok := o.still(v.asOf).Quantile(0.5); ok {
		to = min(middle, to)
	}
	return from, max(from, to)
}

// meanSpread returns the sd of the mean temperature over the days carried and still expected.
func (v view) meanSpread(o outlook) float64 {
	from, to := v.carriedDays(o)
	weights, sums := make([]float64, o.warmth.Days()), make([]float64, o.warmth.Days())
	for i := from; i <= to; i++ {
		weights[i] = 1 / float64(to-from+1)
	}
	o.warmth.SumVariance(weights, sums)
	return math.Sqrt(sums[to])
}

// alternative returns the median day by the alternative law, from the same water and the same knowledge.
func (v view) alternative(o outlook) journal.Day {
	incubation := v.knownTanks[o.facts.tank()].profile.Incubation
	v.scratch.progress.Count(o.warmth, lifecycle.Averaged(incubation.AltRate))
	o.dist = v.scratch.progress.Window(o.stage)
	return o.day(o.still(v.asOf), 0.5)
}

// eyes returns when eyes show, from the same water; it is zero once they were seen.
func (v view) eyes(o outlook) Window {
	if o.facts.eyed != 0 {
		return Window{}
	}
	incubation := v.knownTanks[o.facts.tank()].profile.Incubation
	stage := o.stage
	stage.Share, stage.Notice, stage.Sign = incubation.EyedAt, lifecycle.Interval{}, nil
	stage.LogSD = math.Hypot(stage.LogSD, incubation.EyedSD/incubation.EyedAt)
	return spread(o.first, v.scratch.progress.Window(stage))
}
