package population

import (
	"fmt"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// story draws two tanks with facts as a journal may tell them, sensible or not.
func story(t *rapid.T, p testing.TB) []Record {
	celsius := rapid.Float64Range(15, 31).Draw(t, "celsius")
	a, b := tankOf(p, celsius), tankOf(p, 22)
	b.Tank = "window"
	a.Capacity = float64(rapid.SampledFrom([]int{-1, 0, 5, 200}).Draw(t, "capacity"))
	a.Fish = rapid.Bool().Draw(t, "fish")
	day, order, broods := start, 0, []string{}
	group := func(most int) Group {
		n := func(label string) int { return rapid.IntRange(0, most).Draw(t, label) }
		if rapid.Bool().Draw(t, "sorted") {
			return Group{Females: n("females"), Males: n("males"), Juveniles: n("juveniles")}
		}
		return Group{Unsexed: n("unsexed")}
	}
	add := func(r *Record, what What) {
		r.Facts = append(r.Facts, Fact{day, order, what})
	}
	for range rapid.IntRange(1, 14).Draw(t, "facts") {
		order++
		day += Day(rapid.IntRange(0, 40).Draw(t, "days"))
		switch rapid.SampledFrom([]string{"stocked", "left", "moult", "moved", "berried", "ended", "sighted", "alive", "counted"}).Draw(t, "kind") {
		case "stocked":
			youngest := rapid.Float64Range(0, 500).Draw(t, "youngest")
			add(&a, Stocked{group(12), youngest, youngest + rapid.Float64Range(0, 300).Draw(t, "span")})
		case "left":
			add(&a, Left{group(8), rapid.Bool().Draw(t, "found")})
		case "moult":
			add(&a, FailedMoult{group(3)})
		case "moved":
			add(&a, MovedOut{Group: group(6), Parcel: order, Broods: broods})
			add(&b, MovedIn{Parcel: order})
			broods = nil
		case "berried":
			id := fmt.Sprint("brood-", order)
			broods = append(broods, id)
			add(&a, Berried{Brood: id, Earliest: day - 3, Young: float64(rapid.IntRange(0, 30).Draw(t, "young"))})
		case "ended":
			if len(broods) == 0 {
				continue
			}
			id := broods[0]
			broods = broods[1:]
			if rapid.Bool().Draw(t, "dropped") {
				add(&a, Dropped{id})
				continue
			}
			add(&a, Hatched{id, rapid.IntRange(0, 30).Draw(t, "seen")})
		case "sighted":
			add(&a, Sighted{rapid.IntRange(0, 20).Draw(t, "sighted")})
		case "alive":
			add(&a, Alive{group(5)})
		case "counted":
			add(&a, census(t, group(25)))
		}
	}
	for _, id := range broods {
		a.Open = append(a.Open, OpenBrood{Brood: id})
	}
	return []Record{a, b}
}

// census draws a count, possibly of some classes only.
func census(t *rapid.T, g Group) Counted {
	method := rapid.SampledFrom([]Method{Glance, Careful, Emptied}).Draw(t, "method")
	if g.Unsexed > 0 || g.Total() == 0 {
		return Counted{Group{Unsexed: g.Total()}, Unsexed, method}
	}
	known := Classes(rapid.IntRange(1, 15).Draw(t, "known"))
	return Counted{g, known, method}
}

// Whatever a journal says, the books of every particle balance on every day, and no particle holds fewer shrimp than
// the day's facts prove.
func TestBooksBalance(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		records := story(r, t)
		f := New(records, 25)
		for i := range records {
			if len(records[i].Facts) == 0 {
				continue
			}
			last := records[i].Facts[len(records[i].Facts)-1].Day
			for day := start; day <= last; day++ {
				f.Advance(day)
				for _, tank := range f.tanks {
					for j := range tank.particles {
						if err := tank.audit(&tank.particles[j]); err != nil {
							r.Fatalf("tank %s, particle %d, day %d: %v", tank.record.Tank, j, day-start, err)
						}
					}
				}
			}
		}
		if rapid.IntRange(0, 9).Draw(r, "outlook") == 0 {
			o := f.tanks[0].outlook()
			if o.Now.P05 > o.Now.P95 || o.Extinct < 0 || o.Extinct > 1 {
				r.Fatalf("now %+v, extinct %v", o.Now, o.Extinct)
			}
		}
	})
}

// Every particle holds at least what was counted, sighted or seen, on that day.
func TestNobodyProvenAliveIsMissing(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		n := rapid.IntRange(1, 90).Draw(r, "counted")
		wait := Day(rapid.IntRange(0, 200).Draw(r, "days"))
		method := rapid.SampledFrom([]Method{Glance, Careful}).Draw(r, "method")
		known := rapid.SampledFrom([]Classes{Unsexed, Females, Males, Juveniles, Females | Males}).Draw(r, "known")
		g := Group{Females: n, Males: n, Juveniles: n, Unsexed: n}
		counted := Counted{g, known, method}
		f := New([]Record{tankOf(t, 24, founders(8), Fact{start + wait, 2, counted})}, 30)
		f.Advance(start + wait)
		check(t, f)
		tank := f.tanks[0]
		for i := range tank.particles {
			p := &tank.particles[i]
			if short := p.missing(tank.table, counted.known()); short > 0 {
				r.Fatalf("particle %d lacks %d of %+v: it holds %+v", i, short, counted.known(), p.stock(tank.table))
			}
		}
	})
}

// When a tank is emptied and everybody counted, every particle holds just that number, and the filter is healthy.
func TestAnEmptiedTankIsKnownExactly(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		n := rapid.IntRange(0, 300).Draw(r, "counted")
		wait := Day(rapid.IntRange(0, 300).Draw(r, "days"))
		f := New([]Record{tankOf(t, 24, founders(8), Fact{start + wait, 2, Counted{Group{Unsexed: n}, Unsexed, Emptied}})}, 60)
		f.Advance(start + wait)
		check(t, f)
		want := Quantiles{float64(n), float64(n), float64(n), float64(n), float64(n)}
		if diff := cmp.Diff(want, f.tanks[0].spread()); diff != "" {
			r.Fatal(diff)
		}
		ancestors := map[traits]bool{}
		for i := range f.tanks[0].particles {
			ancestors[f.tanks[0].particles[i].traits] = true
		}
		if len(ancestors) < 40 {
			r.Fatalf("only %d of 60 particles differ in their traits", len(ancestors))
		}
	})
}

// A move changes no total: what one tank loses the other gains, particle by particle, whichever is listed first.
func TestMovesKeepTotals(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		n := rapid.IntRange(1, 12).Draw(r, "moved")
		wait := Day(rapid.IntRange(0, 150).Draw(r, "days"))
		a, b := tankOf(t, 24, founders(12)), tankOf(t, 21)
		b.Tank = "window"
		a.Facts = append(a.Facts, Fact{start + wait, 2, MovedOut{Group: Group{Unsexed: n}, Parcel: 1}})
		b.Facts = append(b.Facts, Fact{start + wait, 2, MovedIn{Parcel: 1}})
		records, sender := []Record{a, b}, 0
		if rapid.Bool().Draw(r, "receiver first") {
			records, sender = []Record{b, a}, 1
		}
		f := New(records, 20)
		f.Advance(start + wait)
		for i := range f.tanks[0].particles {
			from, to := &f.tanks[sender].particles[i], &f.tanks[1-sender].particles[i]
			if from.left != int32(n) || to.came != int32(n) || to.living != int32(n) {
				r.Fatalf("particle %d: %d left, %d came, %d live, want %d", i, from.left, to.came, to.living, n)
			}
		}
		check(t, f)
	})
}

// It makes no difference in which steps the days are lived through, nor whether a clone goes on in place of the original.
func TestStoppingChangesNothing(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		records := story(r, t)
		last := start + 300
		whole := New(records, 15)
		whole.Advance(last)
		pieces := New(slices.Clone(records), 15)
		for day := start; day < last; day += Day(rapid.IntRange(1, 60).Draw(r, "step")) {
			pieces.Advance(day)
			if rapid.Bool().Draw(r, "clone") {
				kept := pieces
				pieces = kept.Clone()
				kept.Advance(last)
			}
		}
		pieces.Advance(last)
		for i := range whole.tanks {
			if !slices.Equal(whole.tanks[i].particles, pieces.tanks[i].particles) {
				r.Fatalf("tank %d: %+v, in pieces %+v", i, whole.tanks[i].spread(), pieces.tanks[i].spread())
			}
			if diff := cmp.Diff(whole.tanks[i].history, pieces.tanks[i].history); diff != "" {
				r.Fatal(diff)
			}
		}
	})
}

// A filter that follows a journal which has grown gives what a fresh one gives on the whole journal.
func TestFollowingAGrownJournalIsReadingItAnew(t *testing.T) {
	known := []Record{tankOf(t, 24, founders(9), Fact{start + 40, 2, Counted{Group{Unsexed: 20}, Unsexed, Glance}})}
	grown := []Record{known[0]}
	grown[0].Facts = append(slices.Clone(known[0].Facts), Fact{start + 120, 3, Counted{Group{Unsexed: 60}, Unsexed, Careful}})
	kept, fresh := New(known, 30), New(grown, 30)
	kept.Advance(start + 100)
	kept.Follow(grown)
	kept.Advance(start + 150)
	fresh.Advance(start + 150)
	if !slices.Equal(kept.tanks[0].particles, fresh.tanks[0].particles) || len(kept.tanks[0].findings) != 2 {
		t.Errorf("followed %+v, fresh %+v", kept.tanks[0].spread(), fresh.tanks[0].spread())
	}
}
