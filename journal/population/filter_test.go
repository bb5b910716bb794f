package population

import (
	"fmt"
	"testing"

	"pleopod/journal/lifecycle"
)

// start is the first day of the records below.
const start Day = 738000

// profile is the default profile.
func profile(t testing.TB) lifecycle.Profile {
	t.Helper()
	p, ok := lifecycle.Default("neocaridina-davidi")
	if !ok {
		t.Fatal("no default profile")
	}
	return p
}

// tankOf is a record of a 40 L tank at a constant temperature.
func tankOf(t testing.TB, celsius float64, facts ...Fact) Record {
	t.Helper()
	return Record{
		Tank: "shelf", Profile: profile(t), Litres: 40, Capacity: -1, From: start,
		Water: []Temperature{{Mean: celsius, SD: 0.5}}, Facts: facts,
	}
}

// founders is so many unsexed shrimp of the ages that are assumed when nothing is known.
func founders(n int) Fact {
	return Fact{Day: start, Order: 1, What: Stocked{Group: Group{Unsexed: n}, Youngest: 91, Oldest: 213}}
}

// check fails when a particle's books do not balance.
func check(t testing.TB, f *Filter) {
	t.Helper()
	for _, tank := range f.tanks {
		for i := range tank.particles {
			if err := tank.audit(&tank.particles[i]); err != nil {
				t.Fatalf("particle %d on day %d: %v", i, tank.day-start, err)
			}
		}
	}
}

// audit compares the sums that a particle keeps with its animals.
func (t *tank) audit(p *particle) error {
	var living, women, clutch, rest int32
	for a := range ages {
		living += int32(p.herd[girl][a]) + int32(p.herd[woman][a]) + int32(p.herd[male][a])
		women += int32(p.herd[woman][a])
		if p.all[a] != p.herd[girl][a]+p.herd[woman][a]+p.herd[male][a] {
			return fmt.Errorf("age class %d holds %d, its kinds %d, %d and %d", a, p.all[a], p.herd[girl][a], p.herd[woman][a], p.herd[male][a])
		}
		if p.all[a] > 0 && a >= int(p.reach) {
			return fmt.Errorf("%d of age class %d, out of reach %d", p.all[a], a, p.reach)
		}
		if a >= t.table.span && int32(p.herd[girl][a])+int32(p.herd[woman][a])+int32(p.herd[male][a]) > 0 {
			return fmt.Errorf("animals of age class %d, but the tables end at %d", a, t.table.span)
		}
	}
	for bin := range bins {
		clutch += int32(p.clutch[bin])
		rest += int32(p.rest[bin])
	}
	switch {
	case living != p.living || women != p.grown:
		return fmt.Errorf("%d living and %d mature females, booked %d and %d", living, women, p.living, p.grown)
	case clutch != p.carrying || rest != p.resting:
		return fmt.Errorf("%d carrying and %d resting, booked %d and %d", clutch, rest, p.carrying, p.resting)
	case women != p.ready+p.resting+p.carrying+p.held:
		return fmt.Errorf("%d mature females, but %d ready, %d resting, %d carrying, %d held", women, p.ready, p.resting, p.carrying, p.held)
	case p.came < 0 || p.born < 0 || p.died < 0 || p.left < 0:
		return fmt.Errorf("negative books: %+v", p.ledger)
	case p.living != p.came+p.born-p.died-p.left:
		return fmt.Errorf("%d living, but %d came, %d born, %d died, %d left", p.living, p.came, p.born, p.died, p.left)
	}
	return nil
}

func BenchmarkFilter(b *testing.B) {
	b.ReportAllocs()
	defer reportCPU(b)()
	facts := []Fact{founders(10)}
	for day := Day(30); day < 730; day += 21 {
		facts = append(facts, Fact{start + day, int(day) + 2, Counted{Group{Unsexed: 5 + int(day)/8}, Unsexed, Glance}})
	}
	r := []Record{tankOf(b, 23, facts...)}
	for b.Loop() {
		f := New(r, 2000)
		f.Advance(start + 730)
	}
}

// BenchmarkTanks is twenty tanks side by side: with -cpu 1,2,4 its time must fall with the cores.
func BenchmarkTanks(b *testing.B) {
	defer reportCPU(b)()
	var records []Record
	for i := range 20 {
		r := tankOf(b, 20+float64(i)/4, founders(8+i))
		r.Tank = fmt.Sprint("tank-", i)
		records = append(records, r)
	}
	for b.Loop() {
		f := New(records, 250)
		f.Advance(start + 365)
		f.Outlooks()
	}
}

func BenchmarkOutlook(b *testing.B) {
	b.ReportAllocs()
	defer reportCPU(b)()
	f := New([]Record{tankOf(b, 23, founders(10))}, 1000)
	f.Advance(start + 200)
	for b.Loop() {
		f.Outlooks()
	}
}
