package notice

import (
	"slices"
	"strings"
	"testing"

	"pleopod/journal"
	"pleopod/journal/forecast"
)

func TestABroodPastItsWindowIsTold(t *testing.T) {
	// 239 °C·d at 23 °C above 11 °C are 19.9 days; the window adds 0-2 days of noticing.
	start := "2026-03-01 {stocked: 10, age: 4 months} {water: {temperature: 23 C}}\n2026-03-10 {berried: 1, brood: amber, last-clear: 2026-03-09} {water: {temperature: 23 C}}\n2026-03-17+7x5 {water: {temperature: 23 C}}\n"
	tell(t, "overdue-brood", []story{
		{name: "still carried", lines: start, asOf: "2026-04-10", want: "2026-04-08.. look", p: 0.0616, tol: 0.015, source: "0.012 + 0.988·0.05: 19.9 d · e^(1.645·0.18) = 26.8 d after 9 March noon, noticed a day later"},
		{name: "the day before", lines: start, asOf: "2026-04-07"},
		{name: "hatched in time", lines: start + "2026-04-01 {hatched: amber}", asOf: "2026-04-20"},
		{name: "hatched late", lines: start + "2026-04-09 {hatched: amber}", asOf: "2026-04-20", want: "2026-04-08..2026-04-09 look", p: 0.0779, tol: 0.015, source: "0.029 + 0.971·0.05"},
		{name: "forgotten", lines: start, asOf: "2026-06-01", want: "2026-04-08..2026-04-30 look", p: 0.05, source: "0.05·10/10: it cannot still be carried"},
	})
}

func TestTheSecondLostBroodIsTold(t *testing.T) {
	start := `2026-03-01 {stocked: 20, age: 4 months}
		2026-03-10 {berried: 1, brood: amber} {berried: 1, brood: flint} {berried: [ruby], brood: jade}
		2026-03-12 {dropped: amber}
`
	tell(t, "eggs-dropped-again", []story{
		{name: "two of two", lines: start + "2026-03-20 {dropped: flint}", asOf: "2026-04-01", want: "2026-03-20.. look", p: 0.01, source: "0.1²"},
		{name: "one is normal", lines: start, asOf: "2026-04-01"},
		{name: "part of the eggs", lines: start + "2026-03-20 {dropped: flint, eggs: 3}", asOf: "2026-04-01"},
		{name: "two of three", lines: start + "2026-03-28 {hatched: jade}\n2026-03-29 {dropped: flint}", asOf: "2026-04-01", want: "2026-03-29.. look", p: 0.028, source: "3·0.1²·0.9 + 0.1³"},
		{name: "three of three", lines: start + "2026-03-20 {dropped: flint}\n2026-03-22 {dropped: jade}", asOf: "2026-04-01", want: "2026-03-20.. soon", p: 0.001, source: "0.1³"},
		{name: "one hatches after", lines: start + "2026-03-20 {dropped: flint}\n2026-03-31 {hatched: jade}", asOf: "2026-04-10", want: "2026-03-20..2026-03-31 look", p: 0.01, source: "0.1²"},
		{name: "far apart", lines: start + "2026-05-10 {berried: 1, brood: onyx}\n2026-05-20 {dropped: onyx}", asOf: "2026-06-01"},
		{name: "the mother died", lines: start + "2026-03-20 {died: [ruby]}", asOf: "2026-04-01"},
		{name: "ended by itself", lines: start + "2026-03-20 {dropped: flint}", asOf: "2026-06-01", want: "2026-03-20..2026-05-19 look", p: 0.01, source: "0.1²"},
	})
}

// Broods whose end nobody wrote of are taken as hatched: the notice of old founders says so instead of telling of no young.
func TestOldFoundersTellOfBroodsHatchedUnseen(t *testing.T) {
	start := "2026-03-01 {stocked: 10, age: 8 months} {water: {temperature: 23 C}}\n"
	for _, row := range []struct{ lines, want string }{
		{start, "grown up since."},
		{start + "2026-05-10 {berried: 1, brood: amber}", "grown up since. 1 brood is taken as hatched unseen"},
		{start + "2026-05-10 {berried: 2}", "grown up since. 2 broods are taken as hatched unseen"},
		{start + "2026-06-25 {berried: 1, brood: amber}", "grown up since."},
		{start + "2026-05-10 {berried: 1, brood: amber}\n2026-05-14 {dropped: amber}", "grown up since."},
	} {
		standing, _ := weighed(t, told(t, oneTank, row.lines), journal.NewDay(2026, 7, 10), forecast.Past)
		i := slices.IndexFunc(standing, func(n forecast.Notice) bool { return n.Kind == oldFounders.Word })
		if i < 0 || !strings.Contains(standing[i].Seen, row.want) || strings.Contains(standing[i].Seen, "unseen") != strings.Contains(row.want, "unseen") {
			t.Errorf("%q: %v does not say %q", row.lines, standing, row.want)
		}
	}
}
