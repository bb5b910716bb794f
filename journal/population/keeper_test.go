package population

import (
	"fmt"
	"math"
	"testing"
)

// keeper is somebody who looks after a hidden colony, counts badly, and writes down part of what happens.
type keeper struct {
	c       *colony
	record  Record
	glance  float64 // share of the grown that one glance shows, on average
	careful float64
	hides   float64 // how much worse the small are seen
	looks   float64 // chance to notice a brood while the colony is small
	sells   bool
	broods  int
	last    Counted
	lastDay Day
	written bool // something today
	looked  Day  // last day that counts as a look
}

// newKeeper draws a keeper for a colony.
func newKeeper(t testing.TB, seed uint64) *keeper {
	c := newColony(seed)
	k := &keeper{
		c: c, record: tankOf(t, 23), glance: 0.25 + 0.3*c.r.Float64(), careful: 0.58 + 0.25*c.r.Float64(),
		hides: 0.5 + 0.5*c.r.Float64(), looks: 0.8 * c.r.Float64(), sells: c.r.Float64() < 0.6,
	}
	k.record.Tank = fmt.Sprintf("tank-%d", seed)
	k.record.Litres = c.litres * (0.9 + 0.2*c.r.Float64())
	k.record.Water = nil
	k.write(Stocked{Group: Group{Unsexed: len(c.animals)}, Youngest: 91, Oldest: 213})
	return k
}

// today is the day of the hidden colony as the records have it.
func (k *keeper) today() Day { return start + Day(k.c.day) }

func (k *keeper) write(what What) {
	k.written = true
	k.record.Facts = append(k.record.Facts, Fact{k.today(), len(k.record.Facts) + 1, what})
}

// keep lives through days with the keeper at work.
func (k *keeper) keep(days int) {
	for range days {
		k.c.live()
		k.record.Water = append(k.record.Water, Temperature{Mean: k.c.water() + 0.3*k.c.r.NormFloat64(), SD: 0.4})
		k.follow()
		if k.c.dead > 0 && k.c.r.Float64() < 0.25 {
			k.write(Left{Group: Group{Unsexed: 1}, Found: true})
		}
		if k.c.r.Float64() < 1.0/24 {
			k.look()
		}
		if int(k.c.day)%30 == 0 {
			k.sell()
		}
		k.rest()
	}
}

// rest ends a day. Whoever has written something has also looked at the females, but two evenings close together are one.
func (k *keeper) rest() {
	if k.written && k.today() >= k.looked+4 {
		k.looked = k.today()
		k.write(Looked{})
	}
	k.written = false
}

// follow notes new broods, and the ends of those that have a name.
func (k *keeper) follow() {
	for _, h := range k.c.hatches {
		if h.name != "" {
			k.write(Hatched{Brood: h.name, Seen: int(float64(h.young) * 0.3 * k.c.r.Float64())})
		}
	}
	if len(k.c.animals) > 120 {
		return
	}
	for _, s := range k.c.animals {
		if s.clutch >= 0 && s.clutch < 0.08 && s.named == "" && k.c.r.Float64() < k.looks {
			k.broods++
			s.named = fmt.Sprintf("brood-%d", k.broods)
			k.write(Berried{Brood: s.named, Earliest: k.today() - 2})
		}
	}
	// A mother of a named brood that dies takes it along.
	for _, fact := range k.record.Facts {
		b, ok := fact.What.(Berried)
		if ok && !k.ended(b.Brood) && k.c.count(func(s *shrimp) bool { return s.named == b.Brood }) == 0 {
			k.write(Dropped{Brood: b.Brood})
		}
	}
}

func (k *keeper) ended(brood string) bool {
	for _, fact := range k.record.Facts {
		switch what := fact.What.(type) {
		case Hatched:
			if what.Brood == brood {
				return true
			}
		case Dropped:
			if what.Brood == brood {
				return true
			}
		}
	}
	return false
}

// look counts: mostly at a glance, sometimes with care.
func (k *keeper) look() {
	method, share := Glance, k.glance
	if k.c.r.Float64() < 0.3 {
		method, share = Careful, k.careful
	}
	// Good days and bad days: the share of one count varies around the keeper's own.
	share = shifted(share, 0.35*k.c.r.NormFloat64())
	n := 0
	for _, s := range k.c.animals {
		p := share
		if l := s.length(); l < 14 {
			p *= k.hides * math.Max(0.1, l/14)
		}
		if k.c.r.Float64() < p {
			n++
		}
	}
	k.last, k.lastDay = Counted{Group{Unsexed: n}, Unsexed, method}, k.today()
	k.write(k.last)
}

// sell takes grown animals out once there are many.
func (k *keeper) sell() {
	if !k.sells || len(k.c.animals) < 120 {
		return
	}
	n := 5 + k.c.r.IntN(15)
	sold := 0
	for i := len(k.c.animals) - 1; i >= 0 && sold < n; i-- {
		s := k.c.animals[i]
		if s.named == "" && s.heat > 0.6*s.matures {
			k.c.animals = append(k.c.animals[:i], k.c.animals[i+1:]...)
			sold++
		}
	}
	if sold > 0 {
		k.write(Left{Group: Group{Unsexed: sold}})
	}
}

// naive is the usual reckoning: the last count over the mean share that its method sees.
func (k *keeper) naive(t testing.TB) float64 {
	detection := profile(t).Detection
	mean := detection.Glance
	if k.last.Method == Careful {
		mean = detection.Careful
	}
	return float64(k.last.Unsexed) / mean
}
