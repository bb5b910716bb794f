package forecast

import (
	"slices"
	"testing"

	"pleopod/journal"
	model "pleopod/journal/population"
)

// looksOf returns the days, after the first, on which the only tank of a diary was looked at, and which of them were close.
func looksOf(t *testing.T, d *diary, first, asOf journal.Day) (days []int, closely int) {
	t.Helper()
	f := Days(d.replay(asOf))
	for _, fact := range newTranslator(f).record(&f.Tanks[0]).Facts {
		if look, ok := fact.What.(model.Looked); ok {
			days = append(days, int(fact.Day)-int(first))
			if look.Closely {
				closely++
			}
		}
	}
	return days, closely
}

// Every entry about a tank is a look, also one without events; two evenings close together are one look, unless the
// second holds a careful count of the females, or the tank was emptied for it. Before the first shrimp there is nothing to see.
func TestEntriesAreLooks(t *testing.T) {
	first := day(t, "2025-03-01")
	careful := census(10, journal.Careful)
	careful.Shrimp = journal.Count{Total: 10, Sorted: true, Females: journal.Known(6), Males: journal.Known(4)}
	d := newDiary(heated("shelf", 24))
	d.on(first-20, "shelf")
	d.on(first, "shelf", &journal.Stocked{Shrimp: some(10).Count})
	d.on(first+2, "shelf")
	d.on(first+6, "shelf")
	d.on(first+8, "shelf", careful)
	d.on(first+10, "shelf", census(9, journal.Careful))
	d.on(first+13, "shelf")
	d.on(first+15, "shelf", census(9, journal.Emptied))
	days, closely := looksOf(t, d, first, first+40)
	if !slices.Equal(days, []int{6, 8, 13, 15}) || closely != 2 {
		t.Errorf("looks on the days %v, %d of them close; want 6, 8, 13 and 15, two close", days, closely)
	}
	if days, _ := looksOf(t, newDiary(heated("shelf", 24)).on(first, "shelf"), first, first+40); len(days) != 0 {
		t.Errorf("an empty tank was looked at on %v", days)
	}
}

// Ten young shrimp in a small tank, written about twice a week without a word of eggs or young, are hardly fifty a few
// days later; a diary that says nothing leaves it open.
func TestSilenceOfAWatchfulKeeper(t *testing.T) {
	first := day(t, "2025-05-01")
	age := journal.Stocked{Shrimp: some(10).Count, Age: journal.Known(95.0)}
	silent := newDiary(heated("shelf", 24)).on(first, "shelf", &age)
	watchful := newDiary(heated("shelf", 24)).on(first, "shelf", &age)
	for after := journal.Day(4); after <= 42; after += 4 {
		watchful.on(first+after, "shelf")
	}
	now := func(d *diary) Quantiles { return Make(d.replay(first + 42)).Tanks[0].Population.Now }
	if quiet, seen := now(silent), now(watchful); seen.P50 > 0.6*quiet.P50 || seen.P95 <= 12 {
		t.Errorf("%+v live when nothing is written, %+v when nothing is seen", quiet, seen)
	}
}
