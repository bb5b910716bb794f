package notice

import (
	"fmt"
	"strings"
	"testing"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
)

func TestReach(t *testing.T) {
	for want, q := range map[string]forecast.Quantiles{"10": {P05: 9.8, P95: 10.3}, "10 to 24": {P05: 10, P95: 24.2}} {
		if got := reach(q); got != want {
			t.Errorf("%v: %q, want %q", q, got, want)
		}
	}
}

// counting is a tank's record of counts of shrimp that were thought to be 40.
func counting(rows ...tally) *history {
	h := &history{Tank: &forecast.Tank{Tank: &colony.Tank{Tank: &journal.Tank{ID: "shelf"}}}}
	for i, row := range rows {
		e := &journal.Event{Position: journal.Position{Line: i + 1}, Day: row.day, What: &journal.Counted{Shrimp: journal.Count{Total: row.total}, Method: row.method}}
		h.events = append(h.events, e)
		h.Population.Counts = append(h.Population.Counts, forecast.Checked{At: e.Position, Total: row.total, Expected: forecast.Quantiles{P50: 40}, Below: row.low, Above: 1 - row.low})
	}
	return h
}

// tally is a count, and the probability of one as low as the estimate before it stood.
type tally struct {
	day    journal.Day
	total  int
	low    float64
	method journal.Method
}

// Counts with the probabilities that the estimate gave them, so that no colony is simulated. The least of those tried is taken
// times as many as can be tried: four.
func TestCountsAreTakenTogether(t *testing.T) {
	usual := []tally{{10, 40, 0.5, ""}, {17, 40, 0.5, ""}, {24, 40, 0.5, ""}, {31, 40, 0.5, ""}}
	then := func(last tally) []tally { return append(usual[:4:4], last) }
	for _, row := range []struct {
		name string
		on   side
		rows []tally
		want string // since..until severity, in days
	}{
		{"four times 0.0004", below, []tally{{10, 9, 0.0004, ""}}, "10..40 soon"},
		{"four times 0.0006", below, []tally{{10, 9, 0.0006, ""}}, "10..40 look"},
		{"four times 0.013", below, []tally{{10, 9, 0.013, ""}}, ""},
		{"two of 0.02 in sixty days: four times 0.0018", below, []tally{{10, 20, 0.02, ""}, {70, 20, 0.02, ""}}, "70..100 look"},
		{"two of 0.02 further apart", below, []tally{{10, 20, 0.02, ""}, {71, 20, 0.02, ""}}, ""},
		{"then one that is low, if less so", below, []tally{{10, 20, 0.005, ""}, {20, 38, 0.4, ""}}, "10..40 look"},
		{"then one that is not low", below, []tally{{10, 20, 0.005, ""}, {20, 42, 0.6, ""}}, "10..20 look"},
		{"four times 0.001, above the number thought to live", above, []tally{{10, 41, 0.999, ""}}, "10..40 look"},
		{"as likely, but no more than live", above, []tally{{10, 40, 0.999, ""}}, ""},
		// t = (ln 8.5 − ln 40.5)/(s·√1.25) with s² = 6·0.25²/9: −6.8 with 9 degrees of freedom
		{"far below the counts before, as expected or not", below, then(tally{38, 8, 0.5, ""}), "38..68 soon"},
		{"counted in another way", below, then(tally{38, 8, 0.5, journal.Careful}), ""},
	} {
		var got []string
		for _, n := range counting(row.rows...).counts(row.on) {
			got = append(got, fmt.Sprintf("%d..%d %s", n.Since, n.Until, n.Severity))
		}
		if text := strings.Join(got, "; "); text != row.want {
			t.Errorf("%s: %q, want %q", row.name, text, row.want)
		}
	}
	// Half of the adults are gone, and so are half of those that are counted: of no account when they were taken out.
	for why, want := range map[colony.Why]int{colony.LeftRemoved: 0, colony.LeftMoved: 0, colony.LeftDied: 1} {
		h := counting(then(tally{38, 20, 0.5, ""})...)
		h.Population.Evenings = []forecast.Evening{{Day: 10, Adults: 40}, {Day: 17, Adults: 40}, {Day: 24, Adults: 40}, {Day: 31, Adults: 40}, {Day: 38, Adults: 20}}
		h.Ledger = []colony.Line{{Day: 35, Change: -20, Why: why}}
		if got := h.counts(below); len(got) != want {
			t.Errorf("%s: %v, want %d", why, brief(got), want)
		}
	}
}
