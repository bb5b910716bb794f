package evidence

import "math"

// LocalLevel is a number that wanders from step to step and is seen with an error: the simplest state-space model,
// whose exact answers are known and against which a particle filter can be checked.
//
//	level:       μ[t+1] = μ[t] + η,  η ~ N(0, Step²)
//	observation: y[t] = μ[t] + ε,    ε ~ N(0, Noise²)
type LocalLevel struct {
	First Normal  // belief about the level at the first observation, before it is seen
	Step  float64 // sd of the change from one step to the next, at least 0
	Noise float64 // sd of one observation, above 0
}

// Filter returns the belief about the level after each observation, and the log-likelihood of all of them, with the
// constant −½·ln 2π for each. NaN marks a step without an observation.
//
// Source: R. E. Kalman 1960, in the notation of J. Durbin and S. J. Koopman, Time Series Analysis by State Space
// Methods, section 2.2 (from memory).
func (l LocalLevel) Filter(observed []float64) (levels []Normal, logLikelihood float64) {
	belief := l.First
	for i, y := range observed {
		if i > 0 {
			belief = belief.Predict(l.Step)
		}
		if !math.IsNaN(y) {
			logLikelihood += belief.Predict(l.Noise).LogDensity(y)
			belief = belief.Update(y, l.Noise)
		}
		levels = append(levels, belief)
	}
	return levels, logLikelihood
}

// Ahead returns the distribution of an observation so many steps, at least 1, after the last filtered level.
func (l LocalLevel) Ahead(last Normal, steps int) Normal {
	return last.Predict(l.Step * math.Sqrt(float64(steps))).Predict(l.Noise)
}
