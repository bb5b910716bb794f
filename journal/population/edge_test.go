package population

import (
	"strings"
	"testing"

	"pleopod/journal/lifecycle"
)

// after runs one tank for days and returns it.
func after(t *testing.T, days Day, r Record) *tank {
	t.Helper()
	f := New([]Record{r}, 200)
	f.Advance(start + days)
	check(t, f)
	return f.tanks[0]
}

func stock(g Group) Fact {
	return Fact{Day: start, Order: 1, What: Stocked{Group: g, Youngest: 120, Oldest: 150}}
}

// born returns the smallest and largest number of births over the particles.
func (t *tank) born() (low, high int32) {
	low = t.particles[0].born
	for i := range t.particles {
		low, high = min(low, t.particles[i].born), max(high, t.particles[i].born)
	}
	return low, high
}

func TestNoBirthsWithoutBothSexes(t *testing.T) {
	for name, g := range map[string]Group{
		"one founder": {Unsexed: 1}, "females alone": {Females: 9}, "males alone": {Males: 9}, "nobody": {},
	} {
		tank := after(t, 300, tankOf(t, 24, stock(g)))
		if _, high := tank.born(); high > 0 {
			t.Errorf("%s: %d born", name, high)
		}
		if q := tank.spread(); q.P95 > float64(g.Total()) {
			t.Errorf("%s: %+v live", name, q)
		}
	}
}

// No tank can be founded by a group of 5 % fewer or more survivors than both sexes at even odds allow: with n unsexed
// founders at an uncertain share of females, the share of particles in which anything is born must be the closed form
// 1 − 2·E p^n within four standard errors, less those whose founders died early.
func TestFoundersHoldBothSexesAsOftenAsTheClosedForm(t *testing.T) {
	for _, n := range []int{2, 3, 5} {
		f := New([]Record{tankOf(t, 24, stock(Group{Unsexed: n}))}, 1500)
		f.Advance(start + 70)
		bred := 0.0
		for i := range f.tanks[0].particles {
			if f.tanks[0].particles[i].born > 0 {
				bred++
			}
		}
		want := lifecycle.BothSexesBeta(n, 100, 100)
		if got := bred / 1500; got > want+0.05 || got < want-0.15 {
			t.Errorf("%d founders breed in %.3f of the particles, both sexes are there in %.3f", n, got, want)
		}
	}
}

func TestNoRoomNoYoung(t *testing.T) {
	r := tankOf(t, 24, stock(Group{Females: 5, Males: 5}))
	r.Capacity = 0
	if _, high := after(t, 200, r).born(); high > 0 {
		t.Errorf("%d young lived through their first days in a tank without capacity", high)
	}
}

func TestColdStopsClutches(t *testing.T) {
	r := tankOf(t, 15.5, stock(Group{Females: 5, Males: 5}))
	r.Water = []Temperature{{Mean: 15.5}}
	if _, high := after(t, 200, r).born(); high > 0 {
		t.Errorf("%d born at 15.5 °C", high)
	}
}

func TestFishEatTheYoung(t *testing.T) {
	r := tankOf(t, 24, founders(10))
	r.Capacity = 5000
	free := after(t, 120, r).spread().P50
	r.Fish = true
	eaten := after(t, 120, r).spread().P50
	if eaten > 0.5*free {
		t.Errorf("%v shrimp with fish, %v without", eaten, free)
	}
}

func TestAnEmptiedTankBeginsAgain(t *testing.T) {
	r := tankOf(t, 24, founders(10),
		Fact{start + 100, 2, Counted{Group{}, Unsexed, Emptied}},
		Fact{start + 150, 3, Stocked{Group: Group{Unsexed: 7}, Youngest: 100, Oldest: 200}},
	)
	if q := after(t, 140, r).spread(); q.P95 != 0 {
		t.Errorf("%+v live in an emptied tank", q)
	}
	if q := after(t, 150, r).spread(); q.P05 != 7 || q.P95 != 7 {
		t.Errorf("%+v live after 7 were stocked", q)
	}
}

func TestImpossibleFactsAreDoubtedAndFollowed(t *testing.T) {
	for _, c := range []struct {
		name  string
		fact  What
		want  string
		lives float64 // at least
	}{
		{"more removed than live", Left{Group: Group{Unsexed: 60}}, "60 removed, but at most 10 can be alive (10 stocked)", 0},
		{"more counted than live", Counted{Group{Unsexed: 60}, Unsexed, Careful}, "60 counted, but at most 10 can be alive", 60},
		{"more counted in an emptied tank", Counted{Group{Unsexed: 60}, Unsexed, Emptied}, "60 counted, but at most 10 can be alive", 60},
		{"more found dead than live", Left{Group{Unsexed: 30}, true}, "30 found dead, but at most 10 can be alive", 0},
		{"more females than came", Counted{Group{Females: 14, Males: 1}, Females | Males, Careful}, "15 counted, but at most 9 grown females can be alive", 10},
		{"more moved than live", MovedOut{Group: Group{Unsexed: 30}, Parcel: 1}, "30 moved out, but at most 10 can be alive", 0},
	} {
		tank := after(t, 3, tankOf(t, 24, founders(10), Fact{start + 2, 2, c.fact}))
		if len(tank.doubts) != 1 || !strings.HasPrefix(tank.doubts[0].Message(), c.want) || tank.doubts[0].Order != 2 {
			t.Errorf("%s: doubts %+v, want %q", c.name, tank.doubts, c.want)
		}
		if q := tank.spread(); q.P05 < 0.9*c.lives {
			t.Errorf("%s: the model goes on with %+v", c.name, q)
		}
	}
	tank := after(t, 30, tankOf(t, 24, stock(Group{Males: 10}), Fact{start + 20, 2, Berried{Brood: "amber", Earliest: start + 19}}))
	if len(tank.doubts) != 1 || !strings.Contains(tank.doubts[0].Message(), "no grown female can be alive") {
		t.Errorf("a berried female among males: %+v", tank.doubts)
	}
}

func TestPossibleFactsAreNotDoubted(t *testing.T) {
	tank := after(t, 200, tankOf(t, 24, founders(10),
		Fact{start + 20, 2, Berried{Brood: "amber", Earliest: start + 18}},
		Fact{start + 38, 3, Hatched{Brood: "amber", Seen: 12}},
		Fact{start + 60, 4, Counted{Group{Unsexed: 30}, Unsexed, Careful}},
		Fact{start + 160, 5, Left{Group: Group{Unsexed: 15}}},
	))
	if len(tank.doubts) != 0 {
		t.Errorf("doubts %+v", tank.doubts)
	}
}

// With no count the band is wide, a glance narrows it, a careful count more.
func TestCountsNarrowTheBand(t *testing.T) {
	width := func(facts ...Fact) float64 {
		q := after(t, 120, tankOf(t, 24, append([]Fact{founders(10)}, facts...)...)).spread()
		return q.P95 / max(1, q.P05)
	}
	none := width()
	glance := width(Fact{start + 120, 2, Counted{Group{Unsexed: 90}, Unsexed, Glance}})
	careful := width(Fact{start + 120, 2, Counted{Group{Unsexed: 160}, Unsexed, Careful}})
	if none < 3 || glance > 0.9*none || careful > 0.9*glance {
		t.Errorf("95 %% over 5 %%: %.2f without a count, %.2f with a glance, %.2f with a careful count", none, glance, careful)
	}
}

// A careless keeper's glances teach the filter that they see little of what was stocked.
func TestDetectionIsLearned(t *testing.T) {
	facts := []Fact{founders(100)}
	for i := range Day(8) {
		facts = append(facts, Fact{start + 1 + i, int(i) + 3, Counted{Group{Unsexed: 15}, Unsexed, Glance}})
	}
	tank := after(t, 9, tankOf(t, 24, facts...))
	before := profile(t).Detection.Glance
	if q := tank.quantiles(func(p *particle) float64 { return p.seen(Glance) }); q.P95 > before {
		t.Errorf("glances of 15 in 100 leave the share seen at %+v", q)
	}
}

// A mother of a followed brood stays alive while the journal follows it, and the young hatch when it says so.
func TestFollowedBroodHatchesOnItsDay(t *testing.T) {
	r := tankOf(t, 24, stock(Group{Females: 1, Males: 1}),
		Fact{start + 3, 2, Berried{Brood: "amber", Earliest: start + 2}}, Fact{start + 24, 3, Hatched{Brood: "amber", Seen: 8}},
	)
	if q := after(t, 23, r).spread(); q.P95 > 2 {
		t.Errorf("%+v live before the hatch", q)
	}
	tank := after(t, 24, r)
	if low, _ := tank.born(); low < 8 {
		t.Errorf("a particle has %d young, 8 were seen", low)
	}
	for i := range tank.particles {
		if tank.particles[i].grown < 1 {
			t.Fatal("a mother died while her brood was followed")
		}
	}
}

// A journal may begin in the middle: what was there before is guessed from what is told first, and doubted by nobody.
func TestAJournalMayBeginInTheMiddle(t *testing.T) {
	for name, c := range map[string]struct {
		fact      What
		low, high float64 // around the median
	}{
		"a glance":         {Counted{Group{Unsexed: 40}, Unsexed, Glance}, 60, 180},
		"a careful count":  {Counted{Group{Unsexed: 40}, Unsexed, Careful}, 45, 90},
		"an emptied tank":  {Counted{Group{Unsexed: 40}, Unsexed, Emptied}, 40, 40},
		"a berried female": {Berried{Brood: "amber", Earliest: start}, 1, 8},
		"a sale":           {Left{Group: Group{Unsexed: 10}}, 8, 50},
		"nobody":           {Counted{Group{}, Unsexed, Glance}, 0, 0},
	} {
		tank := after(t, 0, tankOf(t, 24, Fact{start, 1, c.fact}))
		if q := tank.spread(); q.P50 < c.low || q.P50 > c.high {
			t.Errorf("%s: %+v live", name, q)
		}
		if len(tank.doubts) > 0 {
			t.Errorf("%s: doubts %+v", name, tank.doubts)
		}
	}
}

// A death that the model has already drawn is the one that is found: it is not asked for again.
func TestFoundDeadIsTheSameDeath(t *testing.T) {
	r := tankOf(t, 24, stock(Group{Males: 30}), Fact{start + 14, 2, Left{Group{Unsexed: 1}, true}})
	f := New([]Record{r}, 4000)
	f.Advance(start + 13)
	drawn := f.tanks[0].mean(func(p *particle) float64 { return float64(p.died) })
	dead := f.tanks[0].mean(func(p *particle) float64 { return min(1, float64(p.died)) })
	f.Advance(start + 14)
	got := f.tanks[0].mean(func(p *particle) float64 { return float64(p.died) })
	// One more where no death was drawn yet, and a day's deaths.
	if want := drawn + (1 - dead); got < want || got > want+0.15 {
		t.Errorf("%.3f dead after one was found, %.3f drawn before, in %.3f of the particles", got, drawn, dead)
	}
}

// A failed moult kills with the profile's probability, one animal and no more; when it is found dead, nobody else dies for it.
func TestFailedMoultIsARisk(t *testing.T) {
	moult := Fact{start + 1, 2, FailedMoult{Group{Females: 1}}}
	died := func(facts ...Fact) float64 {
		r := tankOf(t, 24, append([]Fact{stock(Group{Females: 10, Males: 10})}, facts...)...)
		f := New([]Record{r}, 4000)
		f.Advance(start + 2)
		return f.tanks[0].mean(func(p *particle) float64 { return float64(p.died) })
	}
	chance := profile(t).Survival.FailedMoult
	usual, stuck := died(), died(moult)
	if got := stuck - usual; got < chance-0.03 || got > chance+0.03 {
		t.Errorf("a failed moult adds %.3f deaths, want %.3f", got, chance)
	}
	found := died(moult, Fact{start + 2, 3, Left{Group{Females: 1}, true}})
	if found < 1 || found > 1+usual+0.03 {
		t.Errorf("%.3f dead after the one with the failed moult was found, want hardly more than one", found)
	}
}
