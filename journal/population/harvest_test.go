package population

import "testing"

// mayLeave returns what may leave a month after so many days, and the outlook it comes from.
func mayLeave(t *testing.T, days Day, r Record) Outlook {
	t.Helper()
	f := New([]Record{r}, 256)
	f.Advance(start + days)
	return f.Outlooks()[0]
}

// Nobody may leave where nobody lives, where nobody breeds, or where the colony is about to die out.
func TestNobodyMayLeaveAColonyWithoutAFuture(t *testing.T) {
	tiny := tankOf(t, 24, founders(10))
	tiny.Litres = 1
	full := tankOf(t, 24, founders(10))
	full.Capacity = 0
	emptied := tankOf(t, 24, founders(10), Fact{start + 100, 2, Counted{Group{}, Unsexed, Emptied}})
	for name, c := range map[string]struct {
		days Day
		r    Record
	}{
		"no facts at all":       {0, tankOf(t, 24)},
		"an emptied tank":       {100, emptied},
		"one founder":           {30, tankOf(t, 24, founders(1))},
		"females alone":         {30, tankOf(t, 24, stock(Group{Females: 20}))},
		"males alone":           {30, tankOf(t, 24, stock(Group{Males: 20}))},
		"no room":               {30, full},
		"a tank of one litre":   {200, tiny},
		"water that stops eggs": {30, tankOf(t, 15, stock(Group{Females: 5, Males: 5}))},
	} {
		if o := mayLeave(t, c.days, c.r); o.MayLeave != 0 {
			t.Errorf("%s: %d may leave a month of %+v", name, o.MayLeave, o.Now)
		}
	}
}

// Ten founders with their first broods could spare some in numbers, but each of them is an ancestor of all that come. A
// small tank that is full has nothing to wait for.
func TestNobodyMayLeaveASmallColonyThatGrows(t *testing.T) {
	r := tankOf(t, 24, founders(10))
	r.Litres = 120
	if o := mayLeave(t, 60, r); o.MayLeave != 0 || o.Select.Probability < 0.5 {
		t.Errorf("%d may leave a month of %+v, with a chance of %.2f to be enough within the year", o.MayLeave, o.Now, o.Select.Probability)
	}
	r.Litres = 12
	if o := mayLeave(t, 180, r); o.MayLeave == 0 || o.EffectiveSize.P50 >= SelectionSize {
		t.Errorf("%d may leave a month of a small full tank, %+v", o.MayLeave, o.Now)
	}
}

// A colony that grows or fills its tank can spare some, more in a larger tank, and never as many as there are.
func TestSomeMayLeaveAHealthyColony(t *testing.T) {
	last := 0
	for _, litres := range []float64{30, 120} {
		r := tankOf(t, 24, founders(12))
		r.Litres = litres
		o := mayLeave(t, 400, r)
		if o.MayLeave <= last || float64(o.MayLeave) > o.Now.P50/2 {
			t.Errorf("%v L: %d may leave a month of %+v", litres, o.MayLeave, o.Now)
		}
		last = o.MayLeave
	}
}

// The search must keep its promise: with the answer the colony shrinks in at most 5 % of the particles, with clearly
// more in more.
func TestHarvestKeepsItsPromise(t *testing.T) {
	f := New([]Record{tankOf(t, 24, founders(12))}, 256)
	f.Advance(start + 300)
	tank := f.tanks[0].clone()
	tank.freeze()
	h := newHarvest(tank, tank.almanac(tank.day+Horizon, month))
	share := func(each int) float64 {
		n := 0.0
		for i := range h.particles {
			if h.left(i, each) < h.floor[i] {
				n++
			}
		}
		return n / float64(len(h.particles))
	}
	most := h.most(h.undisturbed())
	if most < 1 || share(most) > 0.05 || share(most+max(1, most/10)) <= 0.05 {
		t.Errorf("%d may leave: the colony shrinks in %.3f, with a tenth more in %.3f", most, share(most), share(most+max(1, most/10)))
	}
}

// The walk along an almanac is the same life as day by day in the filter.
func TestAnAlmanacIsTheSameLifeDayByDay(t *testing.T) {
	f := New([]Record{tankOf(t, 24, founders(12))}, 40)
	f.Advance(start + 103)
	walked, lived := f.tanks[0].clone(), f.tanks[0].clone()
	for _, l := range walked.almanac(start+300, month) {
		for i := range walked.particles {
			walked.particles[i].walk(&l, &walked.streams[i])
		}
	}
	lived.live(start + 300)
	for i := range lived.particles {
		lived.particles[i].bornBefore = walked.particles[i].bornBefore // kept for the generations so far only
		if walked.particles[i] != lived.particles[i] {
			t.Fatalf("particle %d: %d live at the end of the walk, %d day by day", i, walked.particles[i].living, lived.particles[i].living)
		}
	}
}

// Crowding is the profile's law where it acts at once and with a bend of 1.
func TestCrowdingIsTheLawOfTheProfile(t *testing.T) {
	f := New([]Record{tankOf(t, 24)}, 2)
	tank := f.tanks[0]
	p := tank.particles[0]
	p.bend, p.atOnce, p.room = 1, 1, 1
	for _, fed := range []float64{0, 50, 100, 101, 150, 200, 400, 1000} {
		want := tank.law.profile.Density.YoungFactor(fed, tank.law.capacity, tank.law.perFemale)
		if first, risk := p.crowding(tank.table, fed); first < want-1e-9 || first > want+1e-9 || risk > 1e-12 {
			t.Errorf("%v adults: %v live through their first days and the hazard rises by %v, want %v and 0", fed, first, risk, want)
		}
	}
}
