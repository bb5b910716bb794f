package lifecycle

import "math"

// SineDegreeDays returns the degree-days of one day whose temperature swings as a sine between its lowest and its
// highest.
//
//	mean over the day of min(T, upper) − base, where it is above 0      ("horizontal cutoff")
//
// low and high are in °C, low at most high; base is where development begins, upper where more warmth no longer helps;
// +Inf for none. Any other degree serves as well, if it is the same throughout. Source: G. L. Baskerville and P. Emin,
// Ecology 50 (1969) 514-517; F. G. Zalom et al. 1983, UC ANR Leaflet 21373, whose table 7 it meets to the last digit.
// For a day whose minima differ (double sine) take half of each half.
func SineDegreeDays(low, high, base, upper float64) float64 {
	return sineAbove(low, high, base) - sineAbove(low, high, upper)
}

// sineAbove returns the mean over a sine day of max(0, T − threshold).
//
//	[(M − T0)·(π/2 − θ) + A·cos θ]/π      sin θ = (T0 − M)/A
func sineAbove(low, high, threshold float64) float64 {
	mean, amplitude := (low+high)/2, (high-low)/2
	switch {
	case threshold <= low:
		return mean - threshold
	case threshold >= high:
		return 0
	}
	theta := math.Asin((threshold - mean) / amplitude)
	return ((mean-threshold)*(math.Pi/2-theta) + amplitude*math.Cos(theta)) / math.Pi
}

// SineRate returns the mean over a day of any rate of development, per day, when the temperature swings as a sine
// between its lowest and its highest, both in °C: rate summation.
//
// A warm day with a cold night is not the same as its mean: where the rate bends upwards, swings speed development up,
// where it bends downwards they slow it (O. Kaufmann, Z. Morph. Ökol. Tiere 25 (1932) 254-361, from memory). It sums 96
// evenly spaced moments: exact to rounding for smooth laws, and to about 0.001 of the swing at a kink.
func SineRate(rate func(celsius float64) float64, low, high float64) float64 {
	const moments = 96
	mean, amplitude, sum := (low+high)/2, (high-low)/2, 0.0
	for i := range moments {
		sum += rate(mean + amplitude*math.Sin(2*math.Pi*(float64(i)+0.5)/moments))
	}
	return sum / moments
}
