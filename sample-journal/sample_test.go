package sample_test

import (
	"maps"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
	"pleopod/journal/notice"
)

// The warnings that are part of the story: a heater that failed, and an air pump that stopped.
var toldWarnings = []string{
	"entries/2026/2026-01-17-the-light-was-on.md outside-range",
	"entries/2026/2026-02-08-the-pump.md outside-range",
	"entries/2026/2026-02-08-the-pump.md outside-range",
	"entries/2026/2026-02-09-half.md outside-range",
	"entries/2026/2026-02-09-half.md outside-range",
	"entries/2026/2026-02-10-quarter.md outside-range",
}

// house is the sample with everything that follows from it.
type house struct {
	journal  *journal.Journal
	colony   *colony.Colony
	forecast *forecast.Forecast
}

// once keeps the tests from forecasting the same journal again and again.
var once = sync.OnceValue(func() house {
	j := journal.Read(os.DirFS("."))
	c := colony.Replay(j, j.Settings.AsOf)
	f := forecast.Make(c)
	f.Notices, f.Ended = notice.Weigh(f)
	return house{j, c, f}
})

// read returns the sample; no test changes it.
func read(t *testing.T) (*journal.Journal, *colony.Colony, *forecast.Forecast) {
	t.Helper()
	h := once()
	return h.journal, h.colony, h.forecast
}

func TestProblemsAreThoseOfTheStory(t *testing.T) {
	j, c, f := read(t)
	var got []string
	for _, p := range slices.Concat(j.Problems, c.Problems, f.Problems) {
		got = append(got, p.File+" "+p.Code)
		if p.Severity == journal.Error {
			t.Errorf("error in the sample: %v", p)
		}
	}
	slices.Sort(got)
	if diff := cmp.Diff(toldWarnings, got); diff != "" {
		t.Errorf("problems (-want +got):\n%s", diff)
	}
}

// happenings counts the events of every kind.
func happenings(c *colony.Colony) map[string]int {
	counts := map[string]int{}
	for _, e := range c.Entries {
		for _, event := range e.Events {
			counts[event.What.Kind()]++
		}
	}
	return counts
}

func TestSampleShowsEveryKind(t *testing.T) {
	_, c, _ := read(t)
	counts := happenings(c)
	for _, kind := range journal.Words().Kinds {
		if counts[kind.Name] == 0 {
			t.Errorf("the sample has no %q; it has %v", kind.Name, slices.Sorted(maps.Keys(counts)))
		}
	}
}

func TestSampleIsLargeEnoughToLearnFrom(t *testing.T) {
	j, c, f := read(t)
	private, pictures, generations := 0, map[string]bool{}, map[int]bool{}
	for _, e := range c.Entries {
		if e.Private {
			private++
		}
		for _, image := range e.Images {
			if image.Alt == "" {
				t.Errorf("%v: picture without a description", image.Position)
			}
			pictures[image.Path] = true
		}
	}
	for _, b := range c.Broods {
		generations[b.Generation] = true
	}
	months := (c.AsOf - c.Entries[0].Date) / 30
	for _, row := range []struct {
		what      string
		got, want int
	}{
		{"entries", len(c.Entries), 90},
		{"months", int(months), 14},
		{"tanks", len(c.Tanks), 3},
		{"broods", len(c.Broods), 14},
		{"generations of broods", len(generations), 3},
		{"named shrimp", len(c.Shrimp), 10},
		{"pictures", len(pictures), 10},
		{"private entries", private, 3},
		{"broods learned from", f.Learning.Incubation.Used, 14},
		{"logged days", len(j.Settings.Tank("landing").Logged), 365},
	} {
		if row.got < row.want {
			t.Errorf("%s: %d, want at least %d", row.what, row.got, row.want)
		}
	}
	if f.Learning.Incubation.Mean < 1.02 {
		t.Errorf("incubation multiplier %.2f: this keeper's eggs are meant to be slower than the default",
			f.Learning.Incubation.Mean)
	}
}

func TestBroodsOfEveryState(t *testing.T) {
	_, _, f := read(t)
	states := map[forecast.BroodState]int{}
	for _, b := range f.Broods {
		states[b.State]++
	}
	for state, want := range map[forecast.BroodState]int{forecast.Carried: 3, forecast.Overdue: 1, forecast.Dropped: 1, forecast.Hatched: 12} {
		if states[state] < want {
			t.Errorf("%d broods are %s, want at least %d; all: %v", states[state], state, want, states)
		}
	}
}

func TestCountsFitTheEstimate(t *testing.T) {
	_, c, f := read(t)
	for i, tank := range c.Tanks {
		last := tank.Censuses[len(tank.Censuses)-1]
		now := f.Tanks[i].Population.Now
		if seen := float64(last.Count.Total); seen > now.P95 {
			t.Errorf("%s: %v were counted on %v, more than the estimate of %v", tank.ID, seen, last.Day, now)
		}
	}
}

// TestCountingEverybody holds the one exact count against what a glance saw: the reason for the keeper's own survival.
func TestCountingEverybody(t *testing.T) {
	_, c, _ := read(t)
	for _, tank := range c.Tanks {
		for _, census := range tank.Censuses {
			if census.Method == journal.Emptied && census.Count.Total == 134 {
				return
			}
		}
	}
	t.Error("the workbench was emptied once and held 134; the text says so, the events do not")
}

func TestLinksBetweenEntriesResolve(t *testing.T) {
	j, _, _ := read(t)
	known, links := map[string]bool{}, 0
	for _, e := range j.Entries {
		known[e.Path[strings.LastIndex(e.Path, "/")+1:]] = true
	}
	for _, e := range j.Entries {
		for _, part := range strings.Split(string(e.Source), "](")[1:] {
			target, _, _ := strings.Cut(part, ")")
			if !strings.HasSuffix(target, ".md") {
				continue
			}
			links++
			if !known[target[strings.LastIndex(target, "/")+1:]] {
				t.Errorf("%s links to %s, which is not an entry", e.Path, target)
			}
		}
	}
	if links < 5 {
		t.Errorf("%d links between entries, want 5 or more", links)
	}
}

// TestSampleShowsNotices holds the story to what it is meant to show: something unusual of at least six kinds over its
// history, most of it over by the end, and each with entries of its own.
func TestSampleShowsNotices(t *testing.T) {
	_, c, f := read(t)
	kinds := map[string]int{}
	for _, n := range slices.Concat(f.Ended, f.Notices) {
		if !n.Public {
			continue
		}
		kinds[n.Kind]++
		if len(n.Events) == 0 || n.Seen == "" || n.Expected == "" || n.Odds == "" || len(n.Checks) < 2 || n.Ends == "" {
			t.Errorf("%s since %v does not say enough: %+v", n.Kind, n.Since, n)
		}
	}
	for _, kind := range []string{"ammonia", "nitrite", "temperature-change", "deaths-above-expected", "failed-moults", "overdue-brood", "too-few-to-select"} {
		if kinds[kind] == 0 {
			t.Errorf("no notice of the kind %q; there are %v", kind, kinds)
		}
	}
	if len(f.Ended) < 6 || len(f.Notices) == 0 || len(f.Notices) > 4 {
		t.Errorf("%d notices ended and %d stand on %v", len(f.Ended), len(f.Notices), c.AsOf)
	}
}
