package lifecycle

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"
)

func TestOddsOfBothSexesAreTheClosedForm(t *testing.T) {
	// Closed form 1 − p^n − q^n, tabulated to six digits.
	sizes := []int{2, 3, 4, 5, 6, 7, 8, 9, 10, 12}
	for p, row := range map[float64][]float64{
		0.5: {.5, .75, .875, .9375, .96875, .984375, .992188, .996094, .998047, .999512},
		0.6: {.48, .72, .8448, .912, .949248, .970368, .982548, .989660, .993849, .997806},
		0.7: {.42, .63, .7518, .8295, .881622, .917427, .942286, .959627, .971747, .986158},
	} {
		for i, want := range row {
			near(t, fmt.Sprintf("BothSexes(%d, %v)", sizes[i], p), BothSexes(sizes[i], p), want, 1e-6)
			near(t, fmt.Sprintf("BothSexes(%d, 1 − %v)", sizes[i], p), BothSexes(sizes[i], 1-p), want, 1e-6)
		}
	}
	near(t, "BothSexes(1, 0.5)", BothSexes(1, 0.5), 0, 0)
	near(t, "BothSexes(0, 0.5)", BothSexes(0, 0.5), 0, 0)
}

func TestTheSmallestFoundingIsTheFirstThatReachesTheOdds(t *testing.T) {
	for _, row := range []struct {
		p, target float64
		want      int
		source    string
	}{
		{0.5, 0.90, 5, "from the table of 1 − p^n − q^n"}, {0.5, 0.95, 6, "same"}, {0.5, 0.99, 8, "same"},
		{0.6, 0.90, 5, "same"}, {0.6, 0.95, 7, "same"}, {0.6, 0.99, 10, "same"},
		{0.7, 0.90, 7, "same"}, {0.7, 0.95, 9, "same"}, {0.7, 0.99, 13, "same"},
		{0, 0.9, 0, "limit: one sex only"}, {1, 0.9, 0, "limit: one sex only"}, {0.5, 1, 0, "limit: never certain"},
		{0.5, 0, 2, "limit: two at least"},
	} {
		if got := SmallestFounding(row.p, row.target); got != row.want {
			t.Errorf("SmallestFounding(%v, %v) = %d, want %d (%s)", row.p, row.target, got, row.want, row.source)
		}
	}
}

func TestAnUncertainShareOfFemalesLowersTheOddsOfBothSexes(t *testing.T) {
	near(t, "uniform share, two shrimp: E 2p(1 − p) = 1/3", BothSexesBeta(2, 1, 1), 1.0/3, 1e-12)
	near(t, "uniform share, n shrimp: 1 − 2/(n + 1)", BothSexesBeta(9, 1, 1), 0.8, 1e-12)
	near(t, "nearly certain share", BothSexesBeta(10, 5e8, 5e8), 0.998047, 1e-6)
	near(t, "one shrimp", BothSexesBeta(1, 3, 3), 0, 0)
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 60).Draw(t, "n")
		a, b := rapid.Float64Range(0.5, 50).Draw(t, "a"), rapid.Float64Range(0.5, 50).Draw(t, "b")
		got := BothSexesBeta(n, a, b)
		if got < -1e-12 || got > BothSexes(n, a/(a+b))+1e-12 {
			t.Fatalf("BothSexesBeta(%d, %v, %v) = %v, outside 0 to %v", n, a, b, got, BothSexes(n, a/(a+b)))
		}
		if BothSexesBeta(n+1, a, b) < got {
			t.Fatalf("one more shrimp lowers the odds at %d, %v, %v", n, a, b)
		}
	})
}

func TestSexesToldApartCountForTheOddsOfBoth(t *testing.T) {
	near(t, "both seen", BothSexesCounted(1, 1, 0, 5, 5), 1, 0)
	near(t, "one female and one unsexed, uniform: 1/3", BothSexesCounted(1, 0, 1, 1, 1), 1.0/3, 1e-12)
	near(t, "one male and one unsexed, uniform: 1/3", BothSexesCounted(0, 1, 1, 1, 1), 1.0/3, 1e-12)
	near(t, "only females, nobody else", BothSexesCounted(4, 0, 0, 5, 5), 0, 1e-12)
	near(t, "three females, one unsexed, uniform: 1/5", BothSexesCounted(3, 0, 1, 1, 1), 0.2, 1e-12)
	near(t, "the same for males", BothSexesCounted(0, 3, 1, 1, 1), 0.2, 1e-12)
	near(t, "nobody told apart", BothSexesCounted(0, 0, 9, 1, 1), 0.8, 1e-12)
}

func ExampleBothSexes() {
	fmt.Printf("%.1f %%\n", 100*BothSexes(10, 0.5))
	// Output: 99.8 %
}

func ExampleSmallestFounding() {
	fmt.Println(SmallestFounding(0.5, 0.95), SmallestFounding(0.5, 0.99))
	// Output: 6 8
}

func ExampleBothSexesBeta() {
	// A share of females surely one half, known from forty shrimp, and quite unknown.
	fmt.Printf("%.1f %%, %.1f %%, %.1f %%\n", 100*BothSexes(10, 0.5), 100*BothSexesBeta(10, 20, 20), 100*BothSexesBeta(10, 1, 1))
	// Output: 99.8 %, 99.5 %, 81.8 %
}
