package lifecycle

import "math"

// Sign is a mark of development that was seen, such as eyes in the eggs.
type Sign struct {
	Day   int     // index of the day it was first seen
	Share float64 // share of the development at which it appears, below 1
	SD    float64 // spread of that share, above 0
	Lag   float64 // days for which it may have been there unseen, above 0
}

// LateLook is the share of signs that are noted at any time after they appeared, instead of within Sign.Lag: an assumption.
const LateLook = 0.2

// weigh returns one beginning with the values that ln development may have had on the day of the sign, each with its
// prior probability times the likelihood of the sign. Values that hardly weigh are left out.
func (p *Progress) weigh(stage Stage, begun float64) start {
	sign := stage.Sign
	share, doubt := p.Between(begun, float64(sign.Day))
	if share <= 0 || float64(sign.Day) <= begun {
		return start{begun: begun, cases: []instance{{weight: 1e-12}}}
	}
	const nodes, reach = 31, 3.5
	const step = 2 * reach / (nodes - 1)
	s := start{begun: begun, own: doubt + stage.LogSD*stage.LogSD, cell: step * step / 4}
	sd, center := math.Sqrt(s.own), math.Log(share)-0.5*doubt-stage.LogMean
	lag := math.Min(sign.Lag, float64(sign.Day)-begun) * p.rates[sign.Day] / share
	var all [nodes]instance
	var heaviest float64
	for k := range all {
		z := step*float64(k) - reach
		all[k] = instance{normalDensity(z)*sign.likelihood(math.Exp(center+z*sd), lag) + 1e-30, z * sd}
		heaviest = math.Max(heaviest, all[k].weight)
	}
	for _, c := range all {
		if c.weight >= 1e-3*heaviest {
			s.cases = append(s.cases, c)
		}
	}
	return s
}

// covarianceAt interpolates a list whose index i stands for the moment i+½.
func covarianceAt(list []float64, moment float64) float64 {
	if list == nil {
		return 0
	}
	return at(list, moment-1)
}

// likelihood returns how likely the sign was first noted when a share of the development was done, of which the part lag
// (of that share) came within the days that it may have gone unseen. Up to a factor, per unit of development.
func (s *Sign) likelihood(share, lag float64) float64 {
	shown := upper((s.Share - share) / s.SD)
	before := upper((s.Share - share*(1-lag)) / s.SD)
	timely := (1 - LateLook) * (shown - before) / math.Max(share*lag, 1e-9)
	late := LateLook * shown / (1 - s.Share)
	const edge = 0.03 // eggs that are hatched show nothing; the soft edge keeps the answer smooth
	return (timely + late) * upper((share-1)/edge)
}
