package evidence

// Held returns how far a window of whole steps, such as days, held what was observed: 1 inside, 0 outside, and one half
// on either edge, because a window of whole days holds more than its name says. A window of one day counts one half.
func Held(low, high, observed float64) float64 {
	switch {
	case observed < low || observed > high:
		return 0
	case observed == low || observed == high:
		return 0.5
	}
	return 1
}
