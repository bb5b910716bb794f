package forecast

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pleopod/journal"
)

// nurseryTruth is how the young of a room really grow up.
type nurseryTruth struct {
	random *rand.Rand // its own, so that broods stay the same whatever daughters do
	law    func(celsius float64) float64
	spread func() float64 // how long one daughter takes against the others
	names  float64        // probability that a daughter of a brood gets a name
}

func newNurseryTruth(seed uint64) nurseryTruth {
	r := rand.New(rand.NewPCG(seed, 1030))
	base := 13 + 0.5*r.NormFloat64()
	sum := 1030 * math.Exp(0.2*r.NormFloat64()) * (24 - base) / (24 - 13)
	return nurseryTruth{
		random: r, names: 0.6 * r.Float64(),
		law:    func(celsius float64) float64 { return math.Max(0, celsius-base) / sum },
		spread: func() float64 { return math.Exp(0.2 * r.NormFloat64()) },
	}
}

// raise gives a daughter of a brood a name when she is measured, and notes when she is seen grown.
func (k *keeper) raise(d *diary, w *pond, id string, hatched float64) {
	r := k.nursery.random
	grown, ok := w.reach(k.nursery.law, hatched, k.nursery.spread())
	measured, seen, eggs := hatched+30+20*r.Float64(), grown+14*r.Float64(), r.Float64() < 0.3
	if eggs {
		seen = grown + 2 + 14*r.Float64()
	}
	if !ok || r.Float64() > k.nursery.names || measured >= seen || seen > float64(k.days-10) {
		return
	}
	at := func(moment float64) journal.Day { return k.start + journal.Day(math.Ceil(moment)) }
	name := "daughter-of-" + id
	d.on(at(measured), w.id, &journal.Measured{Lengths: []float64{12}, Names: []string{name}, Brood: id})
	if !eggs {
		d.on(at(seen), w.id, &journal.Saddled{Shrimp: named(name)})
		return
	}
	d.on(at(seen), w.id, &journal.Berried{Shrimp: named(name), Broods: []string{name}})
	d.on(at(seen)+3, w.id, &journal.Dropped{Brood: name})
}

// TestMaturityAgainstHiddenTruth holds the windows of first grown daughters against rooms whose truth they are not told.
func TestMaturityAgainstHiddenTruth(t *testing.T) {
	for _, c := range []struct {
		name string
		room func(seed uint64, years float64) *keeper
	}{{"its own form", newKeeper}, {"other forms", newStranger}} {
		t.Run(c.name, func(t *testing.T) {
			keepers := 4
			if *full {
				keepers = 60
			}
			var first, half verdict
			for seed := range keepers {
				k := c.room(uint64(seed)+1, 3)
				for _, h := range newRecord(k.seen(k.write()), nil).trackRecord().Young {
					v := &first
					if h.Halfway {
						v = &half
					}
					v.count(h.Window, h.Observed, h.CRPS)
				}
			}
			t.Logf("on the day of the hatch: %v", first)
			t.Logf("half-way: %v", half)
			first.inside(t)
			half.inside(t)
			within(t, "error half-way against that of the first day", half.miss/first.miss, 0, 1.02)
		})
	}
}

// TestYoungHindcastsDoNotPeek holds each against the journal as it stood on the day it was made.
func TestYoungHindcastsDoNotPeek(t *testing.T) {
	held := 0
	for seed := range uint64(3) {
		k := newKeeper(seed+1, 1.5)
		k.nursery.names = 1
		c := k.seen(k.write())
		for i, h := range newRecord(c, nil).trackRecord().Young {
			if i%7 != int(seed) {
				continue
			}
			then := newRecord(c.Earlier(h.Made), nil)
			for _, f := range then.knownCohorts {
				if f.ID == h.Cohort.ID {
					again, _ := then.hindcastYoung(f, sign{day: h.Observed, eggs: h.Eggs}, h.Made, &scratch{})
					same(t, "hindcast of the young", f.ID, h.Made, again.Window, h.Window)
					held++
				}
			}
		}
	}
	if held < 10 {
		t.Errorf("only %d hindcasts were held against their day", held)
	}
}

func TestMaturityTrackRecord(t *testing.T) {
	start := day(t, "2026-01-10")
	write := func() *diary {
		d := newDiary(heated("shelf", 24))
		for i := range 80 {
			d.on(start+3*journal.Day(i), "shelf", temperature(24))
		}
		d.on(start, "shelf", berried("amber")).on(start+20, "shelf", &journal.Hatched{Brood: "amber"})
		return d.on(start+60, "shelf", &journal.Measured{Lengths: []float64{14}, Names: []string{"ruby"}, Brood: "amber"})
	}
	saddle := &journal.Saddled{Shrimp: named("ruby")}
	// 93.6 d at 24 °C (1030 °C·d above 13 °C), hatched a day before it was seen and noticed within 14 d.
	f := Days(write().on(start+120, "shelf", saddle).replay(start + 200))
	if len(f.Record.Young) != 2 || f.Record.Maturity.Count != 1 || f.Record.MaturityHalfway.Count != 1 {
		t.Fatalf("%d hindcasts, %+v and %+v; want one of the hatch day and one half-way", len(f.Record.Young), f.Record.Maturity, f.Record.MaturityHalfway)
	}
	if h := f.Record.Young[0]; h.Halfway || h.Eggs || h.Made != start+20 || h.Observed != start+120 || h.Window.P50 < start+115 || h.Window.P50 > start+122 {
		t.Errorf("first hindcast %+v, want made on %s for %s with its middle about %s", h, start+20, start+120, start+119)
	}
	if l := f.Learning.Maturity; l.Used != 1 || math.Abs(l.Mean-1) > 0.03 {
		t.Errorf("learned %+v, want one cohort that took the usual time", l)
	}
	open := NewDocument(f, true).TrackRecord.Maturity
	if open.Cohorts != 1 || open.MAEDays == nil || *open.MAEDays > 6 || open.Coverage80 == nil || *open.Coverage80 != 1 {
		t.Errorf("as open data %+v, want the one cohort, inside its window and a few days off", open)
	}
	// Eggs that a daughter carries come later than her saddle: as evidence they say less about a slow room.
	eggs := Days(write().on(start+120, "shelf", &journal.Berried{Shrimp: named("ruby"), Broods: []string{"flint"}}).replay(start + 200))
	if a, b := eggs.Learning.Maturity.Mean, f.Learning.Maturity.Mean; a >= b {
		t.Errorf("eggs on the same day teach a multiplier of %.3f, a saddle one of %.3f; want less", a, b)
	}
	// A saddle that nobody noted for most of a year is no evidence of slow growth.
	late := Days(write().on(start+380, "shelf", saddle).replay(start + 400))
	if l := late.Learning.Maturity; l.Used != 0 || len(l.LeftOut) != 1 || !strings.Contains(l.LeftOut[0], "amber: first seen grown 360 days after hatching") {
		t.Errorf("learned %+v, want the late saddle left out with its reason", l)
	}
	if late.Record.Maturity.Count != 1 {
		t.Error("the track record must count the late saddle: a miss is not hidden")
	}
	// Nothing to judge where the hatch was written down only when the daughter was already grown.
	d := newDiary(heated("shelf", 24)).on(start, "shelf", berried("amber")).late(start+130, start+20, "shelf", &journal.Hatched{Brood: "amber"})
	d.late(start+130, start+60, "shelf", &journal.Measured{Lengths: []float64{14}, Names: []string{"ruby"}, Brood: "amber"})
	d.late(start+130, start+120, "shelf", saddle)
	if r := Days(d.replay(start + 200)).Record; r.Maturity.Count != 0 {
		t.Errorf("%d hindcasts of a cohort that was written down afterwards, want none", r.Maturity.Count)
	}
}
