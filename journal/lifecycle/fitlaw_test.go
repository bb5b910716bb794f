package lifecycle

import (
	"errors"
	"fmt"
	"math"
	"testing"
)

func TestFitThermal(t *testing.T) {
	// Honěk, Jarošík & Martinková 2003, Eur. J. Entomol. 100: Gastrophysa viridula, egg to adult; 7.1 °C and 304.6
	// degree-days.
	law, err := FitThermal([]float64{18, 21.5, 25, 28}, []float64{28.2, 21.6, 16.1, 15.0})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "threshold", law.Base, 7.1, 0.05)
	near(t, "degree-days", law.DegreeDays, 304.6, 0.1)
	// Law: two exact times are enough, and come back.
	exact := Thermal{Base: 11, DegreeDays: 239}
	law, err = FitThermal([]float64{20, 27}, []float64{exact.Days(20), exact.Days(27)})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "exact base", law.Base, 11, 1e-9)
	near(t, "exact degree-days", law.DegreeDays, 239, 1e-9)
}

// norris is a straight line with certified answers. Source: NIST StRD, Norris.
var norris = [][2]float64{
	{0.2, 0.1}, {337.4, 338.8}, {118.2, 118.1}, {884.6, 888.0}, {10.1, 9.2}, {226.5, 228.1}, {666.3, 668.5}, {996.3, 998.5}, {448.6, 449.1},
	{777.0, 778.9}, {558.2, 559.2}, {0.4, 0.3}, {0.6, 0.1}, {775.5, 778.1}, {666.9, 668.8}, {338.0, 339.3}, {447.5, 448.9}, {11.6, 10.8},
	{556.0, 557.7}, {228.1, 228.3}, {995.8, 998.0}, {887.6, 888.8}, {120.2, 119.6}, {0.3, 0.3}, {0.3, 0.6}, {556.8, 557.6}, {339.1, 339.3},
	{887.2, 888.0}, {999.0, 998.5}, {779.0, 778.9}, {11.1, 10.2}, {118.3, 117.6}, {229.2, 228.9}, {669.1, 668.4}, {448.9, 449.2}, {0.5, 0.2},
}

func TestFitThermalOnNorris(t *testing.T) {
	var celsius, days []float64
	for _, point := range norris {
		celsius, days = append(celsius, point[0]), append(days, 1/point[1])
	}
	law, err := FitThermal(celsius, days)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "slope", 1/law.DegreeDays/1.00211681802045, 1, 1e-10)
	near(t, "intercept", -law.Base/law.DegreeDays/-0.262323073774029, 1, 1e-9)
}

func TestFitBelehradek(t *testing.T) {
	celsius := []float64{6, 9, 12, 15, 18, 21}
	truth := Belehradek{Scale: 17840, Zero: -7.439, Power: 2.128} // sea lice: J. Fish Dis. 41 (2018) 973-993
	var days, rounded []float64
	for i, want := range []float64{70.8321, 46.1330, 32.2921, 23.7936, 18.2176, 14.3703} {
		near(t, fmt.Sprintf("Days(%v)", celsius[i]), truth.Days(celsius[i]), want, 5e-5)
		days = append(days, truth.Days(celsius[i]))
		rounded = append(rounded, math.Round(want*100)/100)
	}
	law, err := FitBelehradek(celsius, days)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "exact scale", law.Scale/17840, 1, 1e-8)
	near(t, "exact zero", law.Zero/-7.439, 1, 1e-8)
	near(t, "exact power", law.Power/2.128, 1, 1e-8)
	near(t, "days a little above the zero", law.Days(-7.439+0.5), 17840/math.Pow(0.5, 2.128), 1)
	near(t, "days at the zero", law.Days(law.Zero), math.Inf(1), 0)
	three, err := FitBelehradek(celsius[:3], days[:3])
	if err != nil {
		t.Fatal(err)
	}
	near(t, "three temperatures are enough", three.Power, 2.128, 1e-4)
	// Two decimals only: the numbers move together, the predictions stay.
	law, err = FitBelehradek(celsius, rounded)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "rounded scale", law.Scale/17757, 1, 0.01)
	near(t, "rounded power", law.Power, 2.1268, 0.002)
	for i, want := range days {
		near(t, fmt.Sprintf("rounded Days(%v)", celsius[i]), law.Days(celsius[i])/want, 1, 1e-3)
	}
}

func TestFitLawRefuses(t *testing.T) {
	for _, row := range []struct {
		name          string
		celsius, days []float64
		estimable     bool
	}{
		{"nothing", nil, nil, false},
		{"one temperature", []float64{20, 20}, []float64{26, 27}, false},
		{"slower when warmer", []float64{20, 24, 28}, []float64{14, 18, 26}, false},
		{"a time of nothing", []float64{20, 24, 28}, []float64{26, 0, 14}, true},
		{"no temperature", []float64{20, math.NaN(), 28}, []float64{26, 18, 14}, true},
		{"uneven lists", []float64{20, 24}, []float64{26}, true},
	} {
		_, thermal := FitThermal(row.celsius, row.days)
		_, power := FitBelehradek(row.celsius, row.days)
		for _, err := range []error{thermal, power} {
			if err == nil || errors.Is(err, ErrNotEstimable) == row.estimable {
				t.Errorf("%s: error %v, want one that is not-estimable %v", row.name, err, !row.estimable)
			}
		}
	}
}

func TestFitBelehradekWithoutZero(t *testing.T) {
	// D = 163.1 e^(−0.1 T) has no zero: the best one runs away to −∞.
	_, err := FitBelehradek([]float64{10, 15, 20, 25}, []float64{60, 36.39184, 22.07277, 13.38781})
	if !errors.Is(err, ErrNotEstimable) {
		t.Errorf("an exponential law gives %v, want not estimable", err)
	}
}

func ExampleFitThermal() {
	law, err := FitThermal([]float64{20, 22, 24, 26}, []float64{27, 21.5, 18.5, 16})
	fmt.Printf("base %.1f °C, %.0f degree-days, %v\n", law.Base, law.DegreeDays, err)
	// Output: base 11.1 °C, 238 degree-days, <nil>
}
