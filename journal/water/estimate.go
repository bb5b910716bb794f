package water

import "math"

// fitEvery is the number of observed days after which the law is estimated anew.
const fitEvery = 8

// The grid over which the law is estimated, in steps of ln, around the climate's own values.
const (
	gridStep = 0.47
	sdSteps  = 9
	sdBelow  = 5 // steps of the sd below the climate's: a good heater holds a tenth of the assumed spread
	tauSteps = 5
	tauBelow = 2
)

// The prior sd of ln of the spread and of the correlation time around the climate's own values: assumptions.
const (
	PriorLogSD  = 0.5
	PriorLogTau = 0.5
)

// settle returns the climate's law; weight 0 to 1 is how far the yearly course counts.
func (c Climate) settle(variance, tau, weight float64) law {
	l := law{
		n: level, mean: c.Mean, meanVar: c.MeanSD * c.MeanSD,
		variance: variance, tau: tau, phi: math.Exp(-1 / tau),
	}
	if l.yearVar = weight * weight * c.YearlySD * c.YearlySD; l.yearVar > 0 {
		l.n = yearly
	}
	return l
}

// doubt trusts a baseline no more than the record differs from it on average, in °C. Without that a heater's set-point
// would be believed the more, the more the readings contradict it: they make the spread large, and a large spread explains
// any reading.
func (l *law) doubt(difference float64) { l.meanVar = math.Max(l.meanVar, difference*difference) }

// estimate returns the law after every fitEvery-th observed day: the maximum of the likelihood times log-normal priors
// on sd and correlation. It weighs a constant baseline and a yearly course apart and passes from one to the other
// as the record grows over half a year.
func estimate(c Climate, days []measured) []law {
	plain := c.settle(c.SD*c.SD, c.CorrelationDays, 0)
	laws := make([]law, len(days)/fitEvery+1)
	for i := range laws {
		laws[i] = plain
	}
	constant := c
	constant.YearlySD = 0
	var level, season [][2]float64
	if !c.Fixed {
		level = constant.peaks(days)
		season = level
		if c.YearlySD > 0 {
			season = c.peaks(days)
		}
	}
	var sum float64
	for k := 1; k < len(laws); k++ {
		for _, d := range days[(k-1)*fitEvery : k*fitEvery] {
			sum += d.celsius
		}
		w := (days[k*fitEvery-1].covered - YearlyFrom) / (YearlyFull - YearlyFrom)
		w = math.Min(1, math.Max(0, w))
		var shift [2]float64
		if !c.Fixed {
			shift[0] = (1-w)*level[k][0] + w*season[k][0]
			shift[1] = (1-w)*level[k][1] + w*season[k][1]
		}
		sd, tau := c.SD*math.Exp(shift[0]), c.CorrelationDays*math.Exp(shift[1])
		laws[k] = c.settle(sd*sd, tau, w)
		if !c.Fixed {
			laws[k].doubt(sum/float64(k*fitEvery) - c.Mean)
		}
	}
	return laws
}

// grid holds the log-likelihood of each sd and correlation.
type grid [sdSteps][tauSteps]float64

// peaks returns, after every fitEvery-th day, where the posterior peaks: ln of sd and of correlation against the climate's.
func (c Climate) peaks(days []measured) [][2]float64 {
	count := len(days)/fitEvery + 1
	grids := make([]grid, count)
	for i := range sdSteps {
		for j := range tauSteps {
			u, v := float64(i-sdBelow)*gridStep, float64(j-tauBelow)*gridStep
			sd, tau := c.SD*math.Exp(u), c.CorrelationDays*math.Exp(v)
			ll := -0.5*u*u/(PriorLogSD*PriorLogSD) - 0.5*v*v/(PriorLogTau*PriorLogTau)
			c.settle(sd*sd, tau, 1).likelihood(days, func(k int, sum float64) { grids[k][i][j] = ll + sum })
		}
	}
	peaks := make([][2]float64, count)
	for k := range grids[1:] {
		peaks[k+1] = grids[k+1].peak()
	}
	return peaks
}

// likelihood passes over the record and reports the log-likelihood after every fitEvery-th day.
func (l law) likelihood(days []measured, report func(k int, sum float64)) {
	s := l.start()
	var sum float64
	product := 1.0
	for i := range days {
		innovation, variance, _ := l.see(&s, &days[i])
		product *= variance
		sum -= 0.5 * innovation * innovation / variance
		if (i+1)%fitEvery == 0 {
			sum -= 0.5 * math.Log(product)
			product = 1
			report((i+1)/fitEvery, sum)
		}
		if i+1 < len(days) {
			l.wait(&s, days[i+1].day-days[i].day)
		}
	}
}

// peak returns the top of the parabola through the highest point of the grid and its eight neighbours.
// Taking the highest point itself would make the estimate leap from step to step.
func (g *grid) peak() [2]float64 {
	a, b := 1, 1
	for i := 1; i < sdSteps-1; i++ {
		for j := 1; j < tauSteps-1; j++ {
			if g[i][j] > g[a][b] {
				a, b = i, j
			}
		}
	}
	du := (g[a+1][b] - g[a-1][b]) / 2
	dv := (g[a][b+1] - g[a][b-1]) / 2
	duu := g[a+1][b] - 2*g[a][b] + g[a-1][b]
	dvv := g[a][b+1] - 2*g[a][b] + g[a][b-1]
	duv := (g[a+1][b+1] - g[a+1][b-1] - g[a-1][b+1] + g[a-1][b-1]) / 4
	var u, v float64
	if det := duu*dvv - duv*duv; duu < 0 && det > 0 {
		u = clamp(-(dvv*du-duv*dv)/det, 1)
		v = clamp(-(duu*dv-duv*du)/det, 1)
	}
	return [2]float64{gridStep * (float64(a-sdBelow) + u), gridStep * (float64(b-tauBelow) + v)}
}

func clamp(x, limit float64) float64 { return math.Min(limit, math.Max(-limit, x)) }
