package forecast

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"pleopod/journal"
	"pleopod/journal/lifecycle"
)

func stock(n int) *journal.Stocked { return &journal.Stocked{Shrimp: journal.Count{Total: n}} }

func census(n int, method journal.Method) *journal.Counted {
	return &journal.Counted{Shrimp: journal.Count{Total: n}, Method: method}
}

// twoTanks is a journal with broods, counts, a move of a berried female, deaths and a sale.
func twoTanks(t *testing.T) *diary {
	t.Helper()
	start := day(t, "2025-03-01")
	d := newDiary(heated("shelf", 24), heated("window", 22))
	d.on(start, "shelf", stock(12), temperature(24))
	d.on(start+14, "shelf", &journal.Berried{Shrimp: named("ruby"), Broods: []string{"amber"}})
	d.on(start+20, "shelf", &journal.Moved{Shrimp: named("ruby"), To: "window"})
	d.on(start+34, "window", &journal.Hatched{Brood: "amber", Shrimplets: journal.Known(9)})
	d.on(start+60, "shelf", &journal.Died{Shrimp: some(1)}, census(30, journal.Careful))
	d.on(start+90, "window", census(18, journal.Glance))
	d.on(start+120, "shelf", &journal.Removed{Shrimp: some(10), Reason: journal.Sold})
	d.on(start+125, "shelf", &journal.Berried{Shrimp: some(2), Broods: []string{"flint", "opal"}})
	return d
}

func TestNumbersFollowTheJournal(t *testing.T) {
	d := twoTanks(t)
	f := Make(d.replay(day(t, "2025-07-10")))
	for _, tank := range f.Tanks {
		p := tank.Population
		if p.Now.P05 < 1 || p.Now.P95 <= p.Now.P05 || len(p.Past) == 0 || len(p.Ahead) < 53 {
			t.Errorf("%s: now %+v, %d past, %d ahead", tank.ID, p.Now, len(p.Past), len(p.Ahead))
		}
		if !strings.Contains(strings.Join(p.Evidence, " "), "counted") {
			t.Errorf("%s: no word of the count in %q", tank.ID, p.Evidence)
		}
	}
	if got := f.Tanks[1].Population.Past[4].P05; got < 10 {
		t.Errorf("ruby and nine young were seen in the second tank, but its 5 %% is %v", got)
	}
	if got := f.Tanks[0].Founders; got.Stocked != 12 || got.BothSexes != 1 || got.For99 != 8 {
		t.Errorf("founders %+v, want 12, certain after a hatch, 8 for 99 %%", got)
	}
	if len(f.Problems) != 0 {
		t.Errorf("problems %v", f.Problems)
	}
}

// TestTheOrderOfTanksChangesNothing lists the same tanks in another order in journal.yaml.
func TestTheOrderOfTanksChangesNothing(t *testing.T) {
	on := day(t, "2025-07-10")
	d := twoTanks(t)
	f := Make(d.replay(on))
	slices.Reverse(d.journal.Settings.Tanks)
	reversed := Make(d.replay(on))
	slices.Reverse(reversed.Tanks)
	for i := range f.Tanks {
		if diff := cmp.Diff(f.Tanks[i].Population, reversed.Tanks[i].Population); diff != "" {
			t.Errorf("%s, listed first and last (-first +last):\n%s", f.Tanks[i].ID, diff)
		}
	}
}

func TestAnEmptiedTankIsExact(t *testing.T) {
	d := twoTanks(t)
	last := day(t, "2025-07-10")
	d.on(last, "shelf", census(57, journal.Emptied))
	got := Make(d.replay(last)).Tanks[0].Population.Now
	want := Quantiles{57, 57, 57, 57, 57}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestSameJournalSameNumbers(t *testing.T) {
	last := day(t, "2025-07-10")
	a, b := Make(twoTanks(t).replay(last)), Make(twoTanks(t).replay(last))
	for i := range a.Tanks {
		if diff := cmp.Diff(a.Tanks[i].Population, b.Tanks[i].Population); diff != "" {
			t.Error(diff)
		}
	}
}

func TestMoreCountedThanCanLive(t *testing.T) {
	start := day(t, "2025-03-01")
	d := newDiary(heated("shelf", 24)).on(start, "shelf", stock(6))
	d.on(start+3, "shelf", census(40, journal.Careful))
	f := Make(d.replay(start + 30))
	var all []string
	for _, p := range append(f.Colony.Problems, f.Problems...) {
		all = append(all, p.Error())
	}
	text := strings.Join(all, "\n")
	if !strings.Contains(text, "40 counted, but at most 6 can be alive (6 stocked)") {
		t.Errorf("no arithmetic in %q", text)
	}
	if f.Tanks[0].Population.Now.P50 < 30 {
		t.Errorf("the model went on with %v", f.Tanks[0].Population.Now)
	}
}

func TestAgesOfStockedShrimp(t *testing.T) {
	// Of the length, by hand: the mean of both sexes' curves goes from 2.3 mm over 21.25 mm at maturity to 23.85 mm, so that
	// 15 mm is ln(21.55/8.85)/ln(21.55/2.6) = 0.421 of the way, or 43.3 of the 103 days that 1030 °C·d above 13 °C take at
	// 23 °C. Assumptions: a quarter of that either way, nobody past two and a half times maturity, a tenth around an age.
	for _, row := range []struct {
		name             string
		what             journal.Stocked
		youngest, oldest float64
	}{
		{"nothing written", journal.Stocked{}, 91, 213},
		{"an age", journal.Stocked{Age: journal.Known(100.0)}, 90, 110},
		{"a length", journal.Stocked{Length: journal.Known(15.0)}, 32.5, 54.2},
		{"the length at maturity", journal.Stocked{Length: journal.Known(21.25)}, 77.25, 128.75},
		{"longer than they grow on average", journal.Stocked{Length: journal.Known(26.0)}, 193.125, 321.875},
		{"an age says more than a length", journal.Stocked{Age: journal.Known(100.0), Length: journal.Known(15.0)}, 90, 110},
	} {
		usual, _ := lifecycle.Default("neocaridina-davidi")
		got := stocked(&row.what, &usual)
		if math.Abs(got.Youngest-row.youngest) > 0.05 || math.Abs(got.Oldest-row.oldest) > 0.05 {
			t.Errorf("%s: %.2f to %.2f days old, want %.2f to %.2f", row.name, got.Youngest, got.Oldest, row.youngest, row.oldest)
		}
	}
}

// TestEggsHatchWhereTheirMotherIs moves females with eggs in awkward ways. Nobody but the young can join those that the ledger
// knows of, so that the tank without them must hold its balance, now and a year ahead.
func TestEggsHatchWhereTheirMotherIs(t *testing.T) {
	start := day(t, "2026-03-01")
	females := func(n int) journal.Count { return journal.Count{Total: n, Sorted: true, Females: journal.Known(n)} }
	ruby := &journal.Berried{Shrimp: named("ruby"), Broods: []string{"amber"}, Eggs: journal.Known(10)}
	begun := func(open *journal.Berried) *diary {
		return newDiary(heated("b", 23), heated("a", 23)).on(start, "a", &journal.Stocked{Shrimp: females(2), Age: journal.Known(150.0)}).on(start+5, "a", open)
	}
	hatched := &journal.Hatched{Brood: "amber"}
	for _, c := range []struct {
		name          string
		diary         *diary
		with, without string
		most          float64 // shrimp where the young are
	}{
		{"a move without names", begun(berried("amber")).on(start+10, "a", &journal.Moved{Shrimp: journal.Who{Count: females(1)}, To: "b"}).
			on(start+28, "b", hatched), "b", "a", 200},
		{"the eggs were counted", begun(ruby).on(start+10, "a", &journal.Moved{Shrimp: named("ruby"), To: "b"}).on(start+28, "b", hatched), "b", "a", 11},
		{"a hatch that is written of the wrong tank", begun(berried("amber")).on(start+28, "b", hatched), "a", "b", 200},
		{"a move of one whose eggs are taken as hatched", begun(ruby).on(start+35, "a", &journal.Moved{Shrimp: named("ruby"), To: "b"}).
			on(start+80, "b", &journal.Moulted{Shrimp: named("ruby")}), "a", "b", 11},
		{"her death long after they must have hatched", begun(ruby).on(start+100, "a", &journal.Died{Shrimp: named("ruby")}), "a", "b", 11},
	} {
		f := Make(c.diary.replay(start + 100))
		tanks := map[string]Tank{f.Tanks[0].ID: f.Tanks[0], f.Tanks[1].ID: f.Tanks[1]}
		with, without := tanks[c.with].Population, tanks[c.without].Population
		balance := float64(tanks[c.without].Totals().Balance())
		if without.Now.P95 > balance || without.Ahead[len(without.Ahead)-1].P95 > balance {
			t.Errorf("%s: %s holds %v, and %v in a year, of %v", c.name, c.without, without.Now, without.Ahead[len(without.Ahead)-1], balance)
		}
		if with.Now.P50 < 2 || with.Now.P95 > c.most {
			t.Errorf("%s: %s holds %v, want the young, and %v at most", c.name, c.with, with.Now, c.most)
		}
	}
}

// TestEveryTankHoldsItsBalance moves males, who have no young, back and forth between tanks listed in any order, some on one day:
// each tank must hold what its ledger says, but for a few deaths that nobody saw.
func TestEveryTankHoldsItsBalance(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		names := rapid.Permutation([]string{"a", "b", "c"}).Draw(r, "order of tanks")
		d := newDiary(heated(names[0], 23), heated(names[1], 23), heated(names[2], 23))
		start, held := day(t, "2026-03-01"), map[string]int{}
		for _, name := range []string{"a", "b", "c"} {
			held[name] = rapid.IntRange(0, 20).Draw(r, "stocked")
			if held[name] > 0 {
				males := journal.Count{Total: held[name], Sorted: true, Males: journal.Known(held[name])}
				d.on(start, name, &journal.Stocked{Shrimp: males, Age: journal.Known(150.0)})
			}
		}
		on := start
		for range rapid.IntRange(1, 8).Draw(r, "moves") {
			on += journal.Day(rapid.IntRange(0, 1).Draw(r, "later"))
			from := rapid.SampledFrom(names).Draw(r, "from")
			to := rapid.SampledFrom(slices.DeleteFunc(slices.Clone(names), func(n string) bool { return n == from })).Draw(r, "to")
			if held[from] == 0 {
				continue
			}
			n := rapid.IntRange(1, held[from]).Draw(r, "moved")
			d.on(on, from, &journal.Moved{Shrimp: some(n), To: to})
			held[from], held[to] = held[from]-n, held[to]+n
		}
		for _, tank := range Make(d.replay(on + 1)).Tanks {
			now, want := tank.Population.Now, float64(tank.Totals().Balance())
			if now.P95 > want+0.5 || now.P05 < want-3.5 {
				r.Fatalf("%s holds %v to %v of %v", tank.ID, now.P05, now.P95, want)
			}
		}
	})
}
