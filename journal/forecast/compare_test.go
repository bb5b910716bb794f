package forecast

import (
	"math"
	"testing"

	"pleopod/journal"
	"pleopod/journal/lifecycle"
)

func TestCompare(t *testing.T) {
	profile, _ := lifecycle.Default("neocaridina-davidi")
	law, usual := profile.Growth, profile.Growth.Female
	at := func(name string, phi, ratio float64) GrowthPoint {
		p := GrowthPoint{Phi: phi, MM: ratio * usual.Length(phi)}
		p.Length.Name = name
		return p
	}
	// One animal at phi 1: its own ratio, and the assumed spread √(CV² + (0.5/23)²) times 1.645 on either side in ln. By hand.
	one := compare([]GrowthPoint{at("", 1, 1.05)}, usual, law)
	half := 1.6448536 * math.Hypot(law.CV, law.MeasureSD/23)
	if one.Animals != 1 || math.Abs(one.Ratio-1.05) > 1e-12 || math.Abs(math.Log(one.High/one.Ratio)-half) > 1e-6 || math.Abs(math.Log(one.Ratio/one.Low)-half) > 1e-6 {
		t.Errorf("one animal: %+v, want 1.05 and a half width of %.4f in ln", one, half)
	}
	// Laws: age does not matter, four times the animals halve the range, a named animal counts once, other units change nothing.
	var four, named, scattered []GrowthPoint
	for i := range 4 {
		four = append(four, at("", 1, 1.05))
		named = append(named, at("ruby", 0.5+0.2*float64(i), 1.05))
		scattered = append(scattered, at("", 1, math.Exp(float64(2*(i%2)-1)*0.4)))
	}
	if g := compare(four, usual, law); g.Animals != 4 || math.Abs(math.Log(g.High/g.Low)-half) > 1e-6 {
		t.Errorf("four animals: %+v, want half the range of one", g)
	}
	if g := compare(named, usual, law); g.Animals != 1 || g.Lengths != 4 || math.Abs(g.Ratio-1.05) > 1e-12 {
		t.Errorf("one named animal four times: %+v, want one animal with a ratio of 1.05", g)
	}
	if g, want := compare(scattered, usual, law), 1.6448536*math.Sqrt(4*0.16/3)/2; math.Abs(g.Ratio-1) > 1e-9 || math.Abs(math.Log(g.High)-want) > 1e-6 {
		t.Errorf("lengths that scatter: %+v, want 1 and the observed spread %.4f", g, want)
	}
}

func TestGrowthGroups(t *testing.T) {
	usual, _ := lifecycle.Default("neocaridina-davidi")
	big := lifecycle.Curve{Hatch: 2.3, Mature: 25.3, Max: 29.15}
	d, hatched := growing(t, big, 60, 80, 100, 120, 150)
	d.journal.Settings.Tanks = append(d.journal.Settings.Tanks, heated("cellar", 21))
	d.on(hatched, "cellar", berried("flint")).on(hatched+25, "cellar", &journal.Hatched{Brood: "flint"})
	for i := range 40 {
		d.on(hatched-10+5*journal.Day(i), "cellar", temperature(21))
	}
	for _, age := range []int{80, 110, 140} {
		mm := usual.Growth.Female.Length(float64(age) * 8 / 1030)
		d.on(hatched+25+journal.Day(age), "cellar", &journal.Measured{Lengths: []float64{mm}, Sex: journal.Female, Brood: "flint"})
	}
	groups := Days(d.replay(hatched + 170)).GrowthGroups()
	if len(groups) != 2 || groups[0].Tank != "shelf" || groups[1].Tank != "cellar" {
		t.Fatalf("%+v, want one group of each tank", groups)
	}
	a, b := groups[0], groups[1]
	if a.Generation != 1 || a.Sex != journal.Female || a.Lengths != 10 || a.Ratio < 1.06 || a.Low <= 1 {
		t.Errorf("the shelf: %+v, want ten lengths a tenth above the curve", a)
	}
	// The cold tank's young are shorter at the same age in days, and just as long at the same thermal age.
	if math.Abs(b.Ratio-1) > 0.02 || b.Low > 1 || b.High < 1 {
		t.Errorf("the cellar: %+v, want lengths on the curve at its own warmth", b)
	}
}
