package lifecycle

import (
	"fmt"
	"math"
	"testing"
)

func TestZalom(t *testing.T) {
	// °F, base 55, upper 90, horizontal cutoff. Source: Zalom et al. 1983, UC ANR Leaflet 21373, table 7 (as test data
	// of the R package degday 0.4.0). The double sine takes half a day from each minimum.
	for _, row := range []struct{ low, high, next, single, double float64 }{
		{96, 110, 91, 35, 35}, {91, 105, 96, 35, 35}, {45, 54, 38, 0, 0}, {38, 50, 45, 0, 0},
		{50, 82, 45, 11.85, 11.31}, {45, 70, 50, 5.31, 5.70}, {60, 100, 75, 22.82, 26.26}, {75, 95, 60, 28.91, 25.30},
	} {
		single := SineDegreeDays(row.low, row.high, 55, 90)
		double := (single + SineDegreeDays(row.next, row.high, 55, 90)) / 2
		near(t, fmt.Sprintf("single sine %v-%v", row.low, row.high), single, row.single, 0.006)
		near(t, fmt.Sprintf("double sine %v-%v-%v", row.low, row.high, row.next), double, row.double, 0.006)
	}
}

func TestSineDegreeDays(t *testing.T) {
	none := math.Inf(1)
	near(t, "mean at the base: A/π", SineDegreeDays(5, 15, 10, none), 1.5915494309, 1e-9)
	near(t, "Baskerville & Emin 1969, 8 to 22 °C on 10", SineDegreeDays(8, 22, 10, none), 5.325635, 1e-6)
	near(t, "law: above the base it is the mean", SineDegreeDays(18, 26, 11, none), 11, 1e-12)
	near(t, "law: no swing", SineDegreeDays(20, 20, 11, none), 9, 1e-12)
	near(t, "law: no swing below the base", SineDegreeDays(9, 9, 11, none), 0, 0)
	near(t, "law: agrees with rate summation", SineRate(Thermal{10, 1}.Rate, 8, 22), SineDegreeDays(8, 22, 10, none), 5e-3)
}

func TestAverageDegreeDays(t *testing.T) {
	// McMaster & Wilhelm 1997, Agric. For. Meteorol. 87:291-300, table 1, base 0: method 1 takes the mean of the day.
	for _, row := range [][3]float64{
		{20, 10, 15}, {10, 1, 5.5}, {8, -2, 3}, {6, 0, 3}, {10, 5, 7.5}, {5, -5, 0}, {-2, -7, 0}, {-5, -10, 0}, {10, -2, 4}, {15, 2, 8.5},
	} {
		near(t, fmt.Sprintf("mean of %v and %v", row[0], row[1]), Thermal{Base: 0, DegreeDays: 1}.Rate((row[0]+row[1])/2), row[2], 0)
	}
}

func TestSineRate(t *testing.T) {
	// Ratio of the mean rate to the rate at the mean, closed forms; I0 is the modified Bessel function.
	power := func(q float64) func(float64) float64 {
		return func(celsius float64) float64 { return math.Pow(q, celsius/10) }
	}
	for _, row := range []struct {
		name            string
		rate            func(float64) float64
		mean, amplitude float64
		want, tol       float64
	}{
		{"linear", func(c float64) float64 { return c - 10 }, 20, 5, 1, 1e-12},
		{"quadratic: 1 + A²/(2·10²)", func(c float64) float64 { return (c - 10) * (c - 10) }, 20, 5, 1.125, 1e-9},
		{"Q10 2, ±2", power(2), 23, 2, 1.004810, 1e-5}, {"Q10 2, ±5", power(2), 23, 5, 1.030254, 1e-5},
		{"Q10 2, ±10", power(2), 23, 10, 1.123769, 1e-5}, {"Q10 3, ±2", power(3), 23, 2, 1.012106, 1e-5},
		{"Q10 3, ±5", power(3), 23, 5, 1.076869, 1e-5}, {"Q10 3, ±10", power(3), 23, 10, 1.325276, 1e-5},
	} {
		got := SineRate(row.rate, row.mean-row.amplitude, row.mean+row.amplitude) / row.rate(row.mean)
		near(t, row.name, got, row.want, row.tol)
	}
	eggs := davidi(t).Incubation
	if swing := SineRate(eggs.Rate, 26, 30); swing >= eggs.Rate(28) {
		t.Errorf("at the bend a swing gives %v, want less than the %v of its mean", swing, eggs.Rate(28))
	}
}

func ExampleSineDegreeDays() {
	fmt.Printf("%.2f degree-days above 11 °C\n", SineDegreeDays(9, 17, 11, 28))
	// Output: 2.44 degree-days above 11 °C
}
