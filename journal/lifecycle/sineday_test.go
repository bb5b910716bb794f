package lifecycle

import (
	"fmt"
	"math"
	"testing"
)

// sineDay is one day in 720 steps whose temperature, in °C, swings as a sine around a mean.
func sineDay(mean, amplitude float64) days {
	const n = 720
	d := days{mean: make([]float64, n)}
	for i := range d.mean {
		d.mean[i] = mean + amplitude*math.Sin(2*math.Pi*(float64(i)+0.5)/n)
	}
	return d
}

// overSine returns the mean rate of a law over such a day, as Progress adds it up.
func overSine(law Response, low, high float64) float64 {
	p := count(sineDay((low+high)/2, (high-low)/2), law)
	total, _ := p.Between(-0.5, float64(p.Days()))
	return total / float64(p.Days())
}

func TestASwingingDayDevelopsAsTheClosedFormSays(t *testing.T) {
	// Mean rate over a sine day against the rate at the mean. Source: closed forms; O. Kaufmann, Z. Morph. Ökol. Tiere 25 (1932)
	// 254-361 (from memory); of Q10 the modified Bessel function I0.
	q10 := func(q float64) Response {
		return Averaged(func(c float64) float64 { return math.Pow(q, (c-20)/10) })
	}
	for _, row := range []struct {
		name                 string
		law                  Response
		amplitude, want, tol float64
	}{
		{"linear above its threshold", kinked{{10, 1}}, 5, 1, 1e-12},
		{"quadratic: 1 + A²/(2·10²)", Averaged(func(c float64) float64 { return (c - 10) * (c - 10) }), 5, 1.125, 1e-9},
		{"Q10 of 2, ±2", q10(2), 2, 1.004810, 1e-5}, {"Q10 of 2, ±5", q10(2), 5, 1.030254, 1e-5},
		{"Q10 of 2, ±10", q10(2), 10, 1.123769, 1e-5}, {"Q10 of 3, ±2", q10(3), 2, 1.012106, 1e-5},
		{"Q10 of 3, ±5", q10(3), 5, 1.076869, 1e-5}, {"Q10 of 3, ±10", q10(3), 10, 1.325276, 1e-5},
	} {
		rate, _ := row.law.Over(20, 0)
		near(t, row.name, overSine(row.law, 20-row.amplitude, 20+row.amplitude)/rate, row.want, row.tol)
	}
	eggs := davidi(t).Incubation
	if swing := overSine(eggs.Response(), 26, 30); swing >= eggs.Rate(28) {
		t.Errorf("at the bend a swing gives %v, want less than the %v of its mean", swing, eggs.Rate(28))
	}
}

func TestDegreeDaysOverASineAreTheClosedForm(t *testing.T) {
	// G. L. Baskerville & P. Emin, Ecology 50 (1969) 514-517: [(M − T0)(π/2 − θ) + A cos θ]/π with sin θ = (T0 − M)/A.
	law := kinked{{10, 1}}
	near(t, "mean at the base: A/π", overSine(law, 5, 15), 1.5915494309, 1e-5)
	near(t, "8 to 22 °C on 10", overSine(law, 8, 22), 5.325635, 2e-5)
	near(t, "law: above the base it is the mean", overSine(law, 18, 26), 12, 1e-9)
	near(t, "law: no swing below the base", overSine(law, 9, 9), 0, 0)
}

func TestDegreeDaysOverASineAreThoseOfThePublishedTable(t *testing.T) {
	// °F, base 55, upper 90, horizontal cutoff. Source: Zalom et al. 1983, UC ANR Leaflet 21373, table 7 (as test data
	// of the R package degday 0.4.0). The double sine takes half a day from each minimum.
	cutoff := kinked{{55, 1}, {90, -1}}
	for _, row := range []struct{ low, high, next, single, double float64 }{
		{96, 110, 91, 35, 35}, {91, 105, 96, 35, 35}, {45, 54, 38, 0, 0}, {38, 50, 45, 0, 0},
		{50, 82, 45, 11.85, 11.31}, {45, 70, 50, 5.31, 5.70}, {60, 100, 75, 22.82, 26.26}, {75, 95, 60, 28.91, 25.30},
	} {
		single := overSine(cutoff, row.low, row.high)
		double := (single + overSine(cutoff, row.next, row.high)) / 2
		near(t, fmt.Sprintf("single sine %v-%v", row.low, row.high), single, row.single, 0.006)
		near(t, fmt.Sprintf("double sine %v-%v-%v", row.low, row.high, row.next), double, row.double, 0.006)
	}
}

func TestDegreeDaysOfAMeanAreThoseOfThePublishedTable(t *testing.T) {
	// McMaster & Wilhelm 1997, Agric. For. Meteorol. 87:291-300, table 1, base 0: method 1 takes the mean of the day.
	for _, row := range [][3]float64{
		{20, 10, 15}, {10, 1, 5.5}, {8, -2, 3}, {6, 0, 3}, {10, 5, 7.5}, {5, -5, 0}, {-2, -7, 0}, {-5, -10, 0}, {10, -2, 4}, {15, 2, 8.5},
	} {
		near(t, fmt.Sprintf("mean of %v and %v", row[0], row[1]), Thermal{Base: 0, DegreeDays: 1}.Rate((row[0]+row[1])/2), row[2], 0)
	}
}
