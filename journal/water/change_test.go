package water

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// changed is the value after one change.
func changed(before, fresh, share float64) (float64, error) {
	values, err := Series(before, fresh, share, 1)
	if err != nil {
		return math.NaN(), err
	}
	return values[0], nil
}

func TestAChangeMixesOldAndFresh(t *testing.T) {
	for _, row := range []struct {
		before, fresh, share, want float64
		source                     string
	}{
		{40, 0, 0.25, 30, "by hand: a quarter of 40 taken out"},
		{12, 4, 0.5, 8, "by hand: the middle"},
		{24, 18, 0.1, 23.4, "by hand: temperature"},
		{7, 3, 0, 7, "limit: nothing changed"},
		{7, 3, 1, 3, "limit: all changed"},
	} {
		got, err := changed(row.before, row.fresh, row.share)
		if err != nil {
			t.Fatal(err)
		}
		near(t, fmt.Sprintf("changed(%v, %v, %v) [%s]", row.before, row.fresh, row.share, row.source), got, row.want, 1e-12)
	}
	for _, share := range []float64{-0.1, 1.1, math.NaN()} {
		if _, err := changed(1, 2, share); err == nil {
			t.Errorf("a share of %v was accepted", share)
		}
	}
}

func TestAChangeConservesWhatIsInTheWater(t *testing.T) {
	// What is in the tank afterwards is what was in it, less what left, plus what came; a mixture says the same.
	rapid.Check(t, func(t *rapid.T) {
		before, fresh := rapid.Float64Range(0, 500).Draw(t, "before"), rapid.Float64Range(0, 500).Draw(t, "fresh")
		share, litres := rapid.Float64Range(0, 1).Draw(t, "share"), rapid.Float64Range(1, 400).Draw(t, "litres")
		after, err := changed(before, fresh, share)
		if err != nil {
			t.Fatal(err)
		}
		balance := litres*before - share*litres*before + share*litres*fresh
		if math.Abs(litres*after-balance) > 1e-8*(1+balance) {
			t.Fatalf("the tank holds %v, want %v", litres*after, balance)
		}
		mixed, err := Mix(Part{litres * (1 - share), before}, Part{litres * share, fresh})
		if err != nil || math.Abs(mixed-after) > 1e-9*(1+after) {
			t.Fatalf("Mix gives %v (%v), a change %v", mixed, err, after)
		}
		if math.Abs(before-fresh) < 1e-3 {
			return
		}
		back, err := ShareFor(before, fresh, after)
		if err != nil || math.Abs(back-share) > 1e-6 {
			t.Fatalf("ShareFor(%v, %v, %v) = %v, %v, want %v", before, fresh, after, back, err, share)
		}
	})
}

func TestTheShareForATargetReachesIt(t *testing.T) {
	for _, row := range []struct{ before, fresh, target, want float64 }{
		{40, 0, 20, 0.5}, {4, 12, 6, 0.25}, {5, 5, 5, 0}, {5, 9, 9, 1},
	} {
		got, err := ShareFor(row.before, row.fresh, row.target)
		if err != nil {
			t.Fatal(err)
		}
		near(t, fmt.Sprintf("ShareFor(%v, %v, %v) [by hand]", row.before, row.fresh, row.target), got, row.want, 1e-12)
	}
	for _, bad := range [][3]float64{{10, 5, 11}, {10, 5, 4}, {5, 5, 6}, {math.NaN(), 1, 2}} {
		if got, err := ShareFor(bad[0], bad[1], bad[2]); !errors.Is(err, ErrUnreachable) {
			t.Errorf("ShareFor(%v) = %v, %v, want ErrUnreachable", bad, got, err)
		}
	}
}

func TestSeveralChangesCloseInOnTheFreshWater(t *testing.T) {
	values, err := Series(80, 0, 0.5, 3)
	if err != nil || len(values) != 3 {
		t.Fatalf("Series = %v, %v", values, err)
	}
	for i, want := range []float64{40, 20, 10} {
		near(t, fmt.Sprintf("half changed %d times [by hand]", i+1), values[i], want, 1e-12)
	}
	rapid.Check(t, func(t *rapid.T) {
		before, fresh := rapid.Float64Range(0, 90).Draw(t, "before"), rapid.Float64Range(0, 90).Draw(t, "fresh")
		share := rapid.Float64Range(0.01, 0.99).Draw(t, "share")
		values, _ := Series(before, fresh, share, 5)
		one := before
		for i, got := range values {
			one, _ = changed(one, fresh, share)
			if math.Abs(one-got) > 1e-9 {
				t.Fatalf("after %d changes %v, one by one %v", i+1, got, one)
			}
		}
	})
	if _, err := Series(1, 2, 2, 3); err == nil {
		t.Error("a share of 2 was accepted")
	}
}

func TestTheNumberOfChangesIsTheFirstThatReachesTheTarget(t *testing.T) {
	for _, row := range []struct {
		before, fresh, target, share float64
		want                         int
		source                       string
	}{
		{80, 0, 20, 0.5, 2, "by hand: met exactly"},
		{80, 0, 19, 0.5, 3, "by hand: just past"},
		{80, 0, 21, 0.5, 2, "by hand"},
		{4, 12, 4, 0.2, 0, "limit: there already"},
		{4, 12, 12, 1, 1, "limit: all changed"},
	} {
		got, err := ChangesFor(row.before, row.fresh, row.target, row.share)
		if err != nil || got != row.want {
			t.Errorf("ChangesFor(%v, %v, %v, %v) = %v, %v, want %d (%s)", row.before, row.fresh, row.target, row.share, got, err, row.want, row.source)
		}
	}
	for _, bad := range [][4]float64{{80, 0, 0, 0.5}, {80, 0, 20, 0}, {80, 0, 90, 0.5}, {80, 0, 20, 1.5}} {
		if got, err := ChangesFor(bad[0], bad[1], bad[2], bad[3]); err == nil {
			t.Errorf("ChangesFor(%v) = %v, want an error", bad, got)
		}
	}
}

func TestAMixtureLiesBetweenItsParts(t *testing.T) {
	got, err := Mix(Part{30, 24}, Part{10, 20}, Part{0, 90})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "30 L of 24 °C and 10 L of 20 °C [by hand]", got, 23, 1e-12)
	if _, err := Mix(); err == nil {
		t.Error("mixed nothing")
	}
	if _, err := Mix(Part{-1, 20}, Part{3, 20}); err == nil {
		t.Error("mixed a negative volume")
	}
	rapid.Check(t, func(t *rapid.T) {
		litres := rapid.Float64Range(0.1, 300).Draw(t, "litres")
		first, second := rapid.Float64Range(0, 30).Draw(t, "first"), rapid.Float64Range(31, 60).Draw(t, "second")
		target := rapid.Float64Range(first, second).Draw(t, "target")
		need, err := Blend(litres, first, second, target)
		if err != nil || need < 0 || need > litres {
			t.Fatalf("Blend = %v, %v of %v L", need, err, litres)
		}
		mixed, _ := Mix(Part{litres - need, first}, Part{need, second})
		if math.Abs(mixed-target) > 1e-9 {
			t.Fatalf("the blend has %v, want %v", mixed, target)
		}
	})
	for _, bad := range [][4]float64{{-1, 0, 10, 5}, {20, 0, 10, 11}, {20, 3, 10, 2}} {
		if got, err := Blend(bad[0], bad[1], bad[2], bad[3]); err == nil {
			t.Errorf("Blend(%v) = %v, want an error", bad, got)
		}
	}
}

// TestMixturesConserveWhatTheyCarry holds mixtures of any number of waters: what they carry stays, the order and the way of pouring do not
// matter, and no mixture lies outside its parts. With temperatures for values it is the conservation of heat.
func TestMixturesConserveWhatTheyCarry(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		parts := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Part {
			return Part{rapid.Float64Range(0.1, 200).Draw(t, "litres"), rapid.Float64Range(0, 500).Draw(t, "value")}
		}), 2, 6).Draw(t, "parts")
		mixed, err := Mix(parts...)
		if err != nil {
			t.Fatal(err)
		}
		litres, carried, low, high := 0.0, 0.0, math.Inf(1), math.Inf(-1)
		var one Part
		for _, p := range parts {
			litres, carried = litres+p.Litres, carried+p.Litres*p.Value
			low, high = min(low, p.Value), max(high, p.Value)
			value, err := Mix(p, one)
			if err != nil {
				t.Fatal(err)
			}
			one = Part{one.Litres + p.Litres, value}
		}
		tolerance := 1e-9 * (1 + high)
		if math.Abs(mixed*litres-carried) > tolerance*litres || math.Abs(one.Value-mixed) > tolerance || mixed < low-tolerance || mixed > high+tolerance {
			t.Fatalf("together %v, poured one by one %v, between %v and %v", mixed, one.Value, low, high)
		}
		fahrenheit := make([]Part, len(parts))
		for i, p := range parts {
			fahrenheit[i] = Part{p.Litres, Fahrenheit(p.Value)}
		}
		if warm, _ := Mix(fahrenheit...); math.Abs((warm-32)/1.8-mixed) > tolerance {
			t.Fatalf("in °F the mixture is %v °C, in °C %v", (warm-32)/1.8, mixed)
		}
	})
}

func TestFreshWaterOfThatTemperatureReachesTheTarget(t *testing.T) {
	got, err := FreshTemperature(22, 23, 0.25)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "a quarter that warms 22 to 23 °C [by hand]", got, 26, 1e-12)
	after, _ := changed(22, got, 0.25)
	near(t, "law: a change turns it round", after, 23, 1e-12)
	for _, bad := range [][3]float64{{22, 30, 0.1}, {22, 10, 0.1}, {22, 23, 0}, {22, 23, 1.2}} {
		if got, err := FreshTemperature(bad[0], bad[1], bad[2]); err == nil {
			t.Errorf("FreshTemperature(%v) = %v, want an error", bad, got)
		}
	}
}

func TestFreshWaterOfThatValueReachesTheTarget(t *testing.T) {
	got, err := FreshValue(12, 10, 0.25)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "a quarter that takes 12 to 10 [by hand]", got, 4, 1e-12)
	if _, err := FreshValue(12, 8, 0.25); !errors.Is(err, ErrTooSmall) {
		t.Errorf("a quarter cannot take 12 to 8, got %v", err)
	}
	rapid.Check(t, func(t *rapid.T) {
		before, fresh := rapid.Float64Range(0, 300).Draw(t, "before"), rapid.Float64Range(0, 300).Draw(t, "fresh")
		share := rapid.Float64Range(0.05, 1).Draw(t, "share")
		after, _ := changed(before, fresh, share)
		back, err := FreshValue(before, after, share)
		if math.Abs(back-fresh) > 1e-9 && !(fresh < 1e-9 && errors.Is(err, ErrTooSmall)) {
			t.Fatalf("FreshValue(%v, %v, %v) = %v, %v, want %v", before, after, share, back, err, fresh)
		}
	})
}

func TestSaltRaisesHardnessInProportion(t *testing.T) {
	packet := Salt{Grams: 2, Litres: 10, Raises: 1}
	got, err := SaltFor(10, 0, 6, packet)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "10 L to 6 degrees at 2 g a degree [by hand]", got, 12, 1e-12)
	rapid.Check(t, func(t *rapid.T) {
		litres, from := rapid.Float64Range(0, 300).Draw(t, "litres"), rapid.Float64Range(0, 10).Draw(t, "from")
		middle, to := from+rapid.Float64Range(0, 5).Draw(t, "first"), from+rapid.Float64Range(5, 10).Draw(t, "both")
		whole, _ := SaltFor(litres, from, to, packet)
		one, _ := SaltFor(litres, from, middle, packet)
		two, err := SaltFor(litres, middle, to, packet)
		if err != nil || math.Abs(one+two-whole) > 1e-9*(1+whole) {
			t.Fatalf("in two steps %v and %v g, at once %v (%v)", one, two, whole, err)
		}
	})
	if _, err := SaltFor(10, 6, 4, packet); !errors.Is(err, ErrUnreachable) {
		t.Errorf("salt softened the water: %v", err)
	}
	for _, bad := range []Salt{{0, 10, 1}, {2, 0, 1}, {2, 10, 0}, {math.NaN(), 10, 1}} {
		if _, err := SaltFor(10, 0, 4, bad); err == nil {
			t.Errorf("the packet %+v was accepted", bad)
		}
	}
	if _, err := SaltFor(-1, 0, 4, packet); err == nil {
		t.Error("a negative volume was accepted")
	}
}

func ExampleShareFor() {
	share, _ := ShareFor(40, 5, 20)
	fmt.Printf("change %.0f %% to bring nitrate from 40 to 20 mg/L with water of 5 mg/L\n", 100*share)
	_, err := ShareFor(10, 4, 3)
	fmt.Println(err)
	// Output:
	// change 57 % to bring nitrate from 40 to 20 mg/L with water of 5 mg/L
	// the target does not lie between the two waters: from 10 with water of 4 to 3
}

func ExampleBlend() {
	litres, _ := Blend(38, 11, 2, 8)
	fmt.Printf("%.1f L of remineralised water of 2 dGH bring 38 L from 11 to 8 dGH\n", litres)
	// Output: 12.7 L of remineralised water of 2 dGH bring 38 L from 11 to 8 dGH
}

func ExampleMix() {
	celsius, _ := Mix(Part{Litres: 30, Value: 24}, Part{Litres: 8, Value: 15})
	fmt.Printf("%.1f °C\n", celsius)
	// Output: 22.1 °C
}
