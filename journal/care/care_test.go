package care

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
	"pleopod/journal/lifecycle"
)

var today = journal.NewDay(2026, 5, 10)

// shelf is a forecast of one tank with shrimp, whose parts a test fills in.
func shelf(events ...journal.Day) *forecast.Forecast {
	tank := &colony.Tank{Tank: &journal.Tank{ID: "shelf", Name: "The shelf"}}
	for _, day := range append([]journal.Day{today - 200}, events...) {
		tank.Events = append(tank.Events, &journal.Event{Day: day})
	}
	profile := lifecycle.Profile{}
	profile.Breeding.Interval = 1.5
	return &forecast.Forecast{
		Colony: &colony.Colony{AsOf: today},
		Tanks:  []forecast.Tank{{Tank: tank, Profile: profile, Population: forecast.Population{Now: forecast.Quantiles{P50: 20}}}},
	}
}

// told writes the items of a task as days from today.
func told(items []Item, tasks ...Task) string {
	var said []string
	for _, i := range items {
		if slices.Contains(tasks, i.Task) {
			said = append(said, fmt.Sprintf("%s %s %d..%d..%d", i.Task, i.Brood, i.From-today, i.Likely-today, i.To-today))
		}
	}
	return strings.Join(said, "; ")
}

func brood(id string, state forecast.BroodState, berried journal.Day) forecast.Brood {
	return forecast.Brood{Brood: &colony.Brood{ID: id, Stays: []colony.Stay{{Tank: "shelf", From: berried}}, Berried: berried}, State: state}
}

func TestEggsAreLookedAtForEyesAndHatch(t *testing.T) {
	f := shelf()
	amber := brood("amber", forecast.Carried, today-5)
	amber.Eyes, amber.Hatch = forecast.Window{P10: today + 4, P50: today + 6, P90: today + 9}, forecast.Window{P10: today + 12, P50: today + 15, P90: today + 19}
	seen := brood("flint", forecast.Carried, today-14)
	seen.Eyed, seen.Hatch = today-2, forecast.Window{P10: today + 1, P50: today + 3, P90: today + 6}
	next := seen // its window opens a week from today
	next.Brood, next.Hatch = brood("next", forecast.Carried, today-7).Brood, forecast.Window{P10: today + 7, P50: today + 10, P90: today + 13}
	next.Eyed = today
	f.Broods = []forecast.Brood{amber, seen, next, brood("cold", forecast.Carried, today-3), brood("lost", forecast.Dropped, today-9)}
	calendar := Calendar(f)
	if got, want := told(calendar, Eyes, Hatch), "hatch flint 1..3..6; eyes amber 4..6..9; hatch next 7..10..13; hatch amber 12..15..19"; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	if got, want := told(Week(calendar, today), Eyes, Hatch), "hatch flint 1..3..6; eyes amber 4..6..9"; got != want {
		t.Errorf("this week %s\nwant %s", got, want)
	}
}

func TestEggsThatShouldHaveHatchedAreAskedAbout(t *testing.T) {
	late, unseen, forgotten := brood("late", forecast.Overdue, today-31), brood("unseen", forecast.Unseen, today-60), brood("forgotten", forecast.Unseen, today-90)
	late.LateFrom, late.Hatch = today-2, forecast.Window{P10: today + 1, P50: today + 1, P90: today + 2}
	unseen.Foreseen.P95, forgotten.Foreseen.P95 = today-forecast.Forgotten-asked, today-forecast.Forgotten-asked-1
	f := shelf()
	f.Broods = []forecast.Brood{late, unseen, forgotten}
	if got, want := told(Calendar(f), Eyes, Hatch, End), "end late 0..0..0; end unseen 0..0..0"; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

func TestTheNextSaddleFollowsTheHatchByTheInterval(t *testing.T) {
	ruby := &colony.Shrimp{Name: "ruby"}
	hatched := func(id string, mother *colony.Shrimp) forecast.Brood {
		b := brood(id, forecast.Hatched, today-25)
		b.Brood.Hatched, b.Mother = today-5, mother
		return b
	}
	f := shelf()
	f.Broods = []forecast.Brood{hatched("amber", ruby)}
	// carried for 20 days, so the next eggs come 10 days after the hatch, by the interval of 1.5
	if got, want := told(Calendar(f), Saddle), "saddle amber -4..4..9"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	again := brood("birch", forecast.Carried, today-1)
	again.Mother = ruby
	f.Broods = append(f.Broods, again)
	if got := told(Calendar(f), Saddle); got != "" {
		t.Errorf("she carries again, and yet %s", got)
	}
	for _, day := range []journal.Day{today - 25, today - 1} { // berried with hers, and after it
		f.Broods = []forecast.Brood{hatched("amber", nil), brood("birch", forecast.Carried, day)}
		if got := told(Calendar(f), Saddle); got != "" {
			t.Errorf("nobody knows which female it was, and yet %s", got)
		}
	}
	gone := &colony.Shrimp{Name: "opal", Gone: today - 1}
	f.Broods = []forecast.Brood{hatched("amber", gone)}
	if got := told(Calendar(f), Saddle); got != "" {
		t.Errorf("she is gone, and yet %s", got)
	}
}

func TestYoungAreLookedForThenSexedThenLookedAtForSaddles(t *testing.T) {
	f := shelf()
	young := func(id string, hatched journal.Day) forecast.Cohort {
		return forecast.Cohort{Cohort: &colony.Cohort{ID: id, Tank: "shelf", Hatched: hatched}}
	}
	old := young("old", today-60)
	old.Sexable = forecast.Window{P10: today - 3, P50: today + 2, P90: today + 9}
	old.Mature = forecast.Window{P10: today + 10, P50: today + 20, P90: today + 30}
	known := old
	known.Cohort = &colony.Cohort{ID: "known", Tank: "shelf", Hatched: today - 60, FirstBerried: today - 1}
	f.Cohorts = []forecast.Cohort{young("new", today-2), old, known}
	if got, want := told(Calendar(f), Young, Sexing, Saddle), "young new -2..2..2; sexing old -3..2..9; sexing known -3..2..9; saddle old 10..20..30"; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

func TestCountsAndTestsFollowTheKeepersRhythm(t *testing.T) {
	for _, row := range []struct {
		name          string
		counts, tests []int // days before today
		want          string
	}{
		{"nothing yet: by what is usual, long ago", nil, nil, "count  0..0..0; test  0..0..0"},
		{"once: a usual time after it", []int{10}, []int{4}, "test  10..10..10; count  18..18..18"},
		{"her own rhythm, the median of the gaps", []int{92, 62, 33, 2}, []int{23, 16, 9, 2}, "test  5..5..5; count  28..28..28"},
		{"two tests in one day make no gap", nil, []int{23, 16, 16, 16, 16, 16, 9, 2}, "count  0..0..0; test  5..5..5"},
		{"only the newest eight gaps", []int{130, 120, 100, 80, 60, 40, 30, 20, 10, 0}, nil, "test  0..0..0; count  20..20..20"},
		{"daily tests and yearly counts", []int{1095, 730, 365, 0}, []int{3, 2, 1, 0}, "test  3..3..3; count  60..60..60"},
		{"long past: today", []int{100}, []int{80}, "count  0..0..0; test  0..0..0"},
	} {
		f := shelf()
		tank := f.Tanks[0].Tank
		for _, ago := range row.counts {
			tank.Censuses = append(tank.Censuses, colony.Census{Day: today - journal.Day(ago)})
		}
		for _, ago := range row.tests {
			tank.Tests = append(tank.Tests, colony.Test{Day: today - journal.Day(ago)})
		}
		if got := told(Calendar(f), Count, Test); got != row.want {
			t.Errorf("%s: %s, want %s", row.name, got, row.want)
		}
	}
	f := shelf()
	f.Tanks[0].Tank.Events = []*journal.Event{{Day: today - 3}}
	if got, want := told(Calendar(f), Count, Test), "test  4..4..4; count  25..25..25"; got != want {
		t.Errorf("a new tank: %s, want %s", got, want)
	}
	for age, want := range map[journal.Day]string{55: "test  7..7..7", 56: "test  14..14..14"} {
		f.Tanks[0].Tank.Events[0].Day, f.Tanks[0].Tank.Tests = today-age, []colony.Test{{Day: today}}
		if got := told(Calendar(f), Test); got != want {
			t.Errorf("a tank of %d days: %s, want %s", age, got, want)
		}
	}
	f.Tanks[0].Population.Now.P50 = 0
	if got := told(Calendar(f), Count, Test); got != "" {
		t.Errorf("nobody lives there, and yet %s", got)
	}
}

// TestATankThatAllHaveLeftIsAskedAbout: young may have hatched there unseen, and only the keeper can say that none did.
func TestATankThatAllHaveLeftIsAskedAbout(t *testing.T) {
	f := shelf(today - 100)
	tank := f.Tanks[0].Tank
	tank.Ledger = []colony.Line{{Why: colony.CameStocked, Change: 5}, {Why: colony.LeftMoved, Change: -5}}
	items := Calendar(f)
	if len(items) != 1 || items[0].Task != Count || !strings.Contains(items[0].Why, "method: emptied") {
		t.Errorf("after all have left: %+v", items)
	}
	f.Tanks[0].Population.AdultFemales.P95 = 3
	if items := Calendar(f); len(items) != 2 {
		t.Errorf("young that grew up there unseen: %+v", items)
	}
	f.Tanks[0].Population.AdultFemales.P95, tank.Ledger = 0, tank.Ledger[:1]
	if items := Calendar(f); len(items) != 2 {
		t.Errorf("a tank of young ones: %+v", items)
	}
}

// TestAnItemKeepsItsKeyFromDayToDay holds that an item keeps its key from day to day, and shares it with no other.
func TestAnItemKeepsItsKeyFromDayToDay(t *testing.T) {
	keys := func(asOf journal.Day) []string {
		f := shelf()
		f.Colony.AsOf = asOf
		amber := brood("amber", forecast.Carried, today-5)
		amber.Eyes, amber.Hatch = forecast.Window{P10: today + 4, P50: today + 6, P90: today + 9}, forecast.Window{P10: today + 12, P50: today + 15, P90: today + 19}
		f.Broods = []forecast.Brood{amber}
		var keys []string
		for _, i := range Calendar(f) {
			keys = append(keys, i.Key())
		}
		slices.Sort(keys)
		return keys
	}
	first, later := keys(today), keys(today+4)
	if len(first) != 4 || !slices.Equal(first, later) || len(slices.Compact(slices.Clone(first))) != 4 {
		t.Errorf("keys %q, four days later %q", first, later)
	}
}
