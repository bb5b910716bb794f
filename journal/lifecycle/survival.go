package lifecycle

import "math"

// Late is the hazard of old age: a Weibull hazard that begins at an age.
//
//	H(a) = ((a − From)/Scale)^Shape      cumulative hazard from age From to age a, in days
type Late struct {
	From  float64 // days of age
	Scale float64 // days after From at which the cumulative hazard is 1
	Shape float64 // above 1 when old animals die faster
}

// fewLeft is the share of grown animals that pass Survival.LongLife: "few" in the sources, made a number by assumption.
const fewLeft = 0.05

// leastLate is the least cumulative hazard of old age at MedianLife. It keeps the hazard defined where the daily
// survival alone leaves fewer than half alive at MedianLife.
const leastLate = 0.05

// Late returns the hazard of old age that, together with the daily survival Adult, leaves half of the animals that were
// alive at GrownDays alive at MedianLife and one in twenty at LongLife.
//
//	H(M) = ln 2 − h·(M − G)      H(L) = ln 20 − h·(L − G)      with h = −ln Adult, G = GrownDays
//
// give Shape = ln[H(L)/H(M)]/ln[(L − G)/(M − G)] and Scale = (M − G)/H(M)^(1/Shape). Where h alone kills more than half
// by MedianLife, H(M) is held at 0.05 and the median life becomes shorter than MedianLife; Shape is at least 1.
// It needs GrownDays < MedianLife < LongLife. Source: lifespan 12-21 months (Schoolmann & Arndt 2018,
// doi 10.1016/j.limno.2018.05.001); the Weibull form is an assumption.
func (s Survival) Late() Late {
	h := -math.Log(s.Adult)
	toMedian, toLong := s.MedianLife-s.GrownDays, s.LongLife-s.GrownDays
	atMedian := math.Max(leastLate, math.Ln2-h*toMedian)
	atLong := math.Max(atMedian, -math.Log(fewLeft)-h*toLong)
	shape := math.Max(1, math.Log(atLong/atMedian)/math.Log(toLong/toMedian))
	return Late{From: s.GrownDays, Scale: toMedian / math.Pow(atMedian, 1/shape), Shape: shape}
}

// Cumulative returns the cumulative hazard of old age from From to an age in days; 0 up to From.
func (l Late) Cumulative(ageDays float64) float64 {
	return math.Pow(math.Max(0, ageDays-l.From)/l.Scale, l.Shape)
}

// Survival returns the probability, 0 to 1, that old age spares an animal from one age to a later one, both in days.
func (l Late) Survival(from, to float64) float64 {
	return math.Exp(l.Cumulative(from) - l.Cumulative(to))
}

// daily returns the probability, 0 to 1, that an animal of an age in days lives through the next day. mature says
// whether it has reached maturity, fish whether fish eat the young.
//
//	immature with fish: the smaller of YoungFish and the value below
//	before YoungDays:   Young
//	after:              Adult · survival of old age
//
// late is Late, to be found once where many days are needed.
func (s Survival) daily(late Late, ageDays float64, mature, fish bool) float64 {
	daily := s.Adult * late.Survival(ageDays, ageDays+1)
	if ageDays < s.YoungDays {
		daily = s.Young
	}
	if fish && !mature {
		daily = math.Min(daily, s.YoungFish)
	}
	return daily
}
