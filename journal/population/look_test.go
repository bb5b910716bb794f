package population

import (
	"math"
	"testing"
)

// ofTen is a tank of ten young adults at 24 °C with looks every few days up to a day, and no female with eggs ever noted.
func ofTen(t *testing.T, until, every Day, facts ...Fact) Record {
	t.Helper()
	r := tankOf(t, 24, append([]Fact{stock(Group{Females: 6, Males: 4})}, facts...)...)
	order := 10
	for day := every; every > 0 && day <= until; day += every {
		order++
		r.Facts = append(r.Facts, Fact{start + day, order, Looked{}})
	}
	return r
}

// Whoever writes about a tank for weeks and notes neither eggs nor young has fewer unseen broods than one who writes
// nothing, but the possibility stays.
func TestLooksMakeUnseenBroodsLessLikely(t *testing.T) {
	silent := after(t, 40, ofTen(t, 0, 0)).spread()
	watched := after(t, 40, ofTen(t, 40, 5)).spread()
	if watched.P50 > 0.7*silent.P50 || watched.P95 > silent.P95 || watched.P95 < 11 {
		t.Errorf("%+v live unwatched, %+v watched", silent, watched)
	}
}

// In a crowd nobody notes single females, so that looks say next to nothing.
func TestLooksSayLittleOfACrowd(t *testing.T) {
	count := Fact{start + 2, 2, Counted{Group{Unsexed: 200}, Unsexed, Emptied}}
	silent := after(t, 60, tankOf(t, 24, stock(Group{Females: 120, Males: 80}), count))
	watched := after(t, 60, func() Record {
		r := tankOf(t, 24, stock(Group{Females: 120, Males: 80}), count)
		for i := range Day(10) {
			r.Facts = append(r.Facts, Fact{start + 6 + 5*i, int(i) + 3, Looked{}})
		}
		return r
	}())
	carrying := func(p *particle) float64 { return float64(p.carrying) }
	if was, is := silent.mean(carrying), watched.mean(carrying); is < 0.7*was {
		t.Errorf("%.1f females carry unwatched, %.1f watched", was, is)
	}
}

// A keeper who notes one brood after the other is taken for one who notes most of them.
func TestDiligenceIsLearned(t *testing.T) {
	var noted, missed []Fact
	for i := range 4 {
		noted = append(noted, Fact{start + 3 + Day(i), 2 + i, Berried{Brood: string(rune('a' + i)), Earliest: start + 2}})
	}
	for i := range Day(8) {
		missed = append(missed, Fact{start + 20 + 5*i, 20 + int(i), Looked{}})
	}
	diligence := func(facts []Fact) float64 {
		tank := after(t, 60, ofTen(t, 0, 0, facts...))
		return tank.mean(func(p *particle) float64 { return tank.diligence(p, false) })
	}
	usual := profile(t).Detection.Berried
	if much, little := diligence(noted), diligence(missed); much < usual || much < 1.5*little {
		t.Errorf("%.2f after four broods noted, %.2f after eight looks without any, the usual share is %.2f", much, little, usual)
	}
}

// The weight of one look is (1 − d)^n for the n broods begun since the last; values by hand.
func TestALookWeighsWhatWasNotNoted(t *testing.T) {
	f := New([]Record{ofTen(t, 0, 0)}, 2)
	f.Advance(start)
	tank := f.tanks[0]
	tank.youngNoted = true
	for i := range tank.particles {
		p := &tank.particles[i]
		p.notice, p.living, p.grown, p.sires = 0, 10, 6, 4
		p.ready, p.resting, p.carrying = p.grown, 0, 0
		p.rest, p.clutch = [bins]uint16{}, [bins]uint16{}
	}
	tank.looked = look{start - 3, tank.table.bin - 3}
	p := &tank.particles[0]
	p.carrying = 5
	p.clutch[(tank.table.bin+perIncubation-2)%bins] = 3 // begun since
	p.clutch[(tank.table.bin+perIncubation-4)%bins] = 2 // overlooked before
	Looked{}.apply(tank, Fact{})
	// FirstBerried 0.5, among 10: 0.5/(1 + 0.25) = 0.4; 0.6³ = 0.216 against 1.
	if got, want := tank.cloud.weights[0]/tank.cloud.weights[1], 0.216; math.Abs(got-want) > 1e-9 {
		t.Errorf("three overlooked females weigh %v, want %v", got, want)
	}
}

// Ten that were stocked unsexed and are then told apart as six and four stay ten: the sexes are corrected, nobody is added.
func TestTellingSexesApartAddsNobody(t *testing.T) {
	for _, g := range []Group{{Females: 6, Males: 4}, {Females: 1, Males: 9}, {Females: 10}} {
		r := tankOf(t, 24, founders(10), Fact{start + 1, 2, Counted{g, Females | Males, Careful}})
		tank := after(t, 1, r)
		for i := range tank.particles {
			p := &tank.particles[i]
			if p.living != 10 || p.missing(tank.table, g) != 0 {
				t.Fatalf("%+v told apart: particle %d holds %+v, born %d, died %d", g, i, p.stock(tank.table), p.born, p.died)
			}
		}
	}
}
