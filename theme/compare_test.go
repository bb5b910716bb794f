package theme

import (
	"strings"
	"testing"

	"pleopod/journal/colony"
	"pleopod/journal/forecast"
)

// Several tanks with a record have a page that sets them side by side, one tank has none.
func TestTanksSideBySide(t *testing.T) {
	b := shelfBook(t)
	if one := (&book{Forecast: &forecast.Forecast{Tanks: b.Tanks[:1]}}); !b.compared() || one.compared() {
		t.Errorf("%d tanks are compared: %v; one is: %v", len(b.inhabited()), b.compared(), one.compared())
	}
	if _, found := site(t, "empty").Files["numbers.html"]; found {
		t.Error("a journal without shrimp compares tanks")
	}
	p := b.pen("numbers.html")
	out := p.comparePage().(*ComparePage)
	if len(out.Tanks) != len(b.inhabited()) || len(p.tankNumbers().Lines) != len(out.Tanks) {
		t.Fatalf("%d tanks and %d lines for %d tanks with a record", len(out.Tanks), len(p.tankNumbers().Lines),
			len(b.inhabited()))
	}
	n := &forecast.Population{Ahead: []forecast.At{{Day: b.asOf + 7},
		{Day: b.asOf + 91, Quantiles: forecast.Quantiles{P05: 40, P50: 56, P95: 74}}}}
	if got := p.aheadWords(n, 90); got != "about 56 (40 to 74)" {
		t.Errorf("in 90 days %q", got)
	}
	if got := p.aheadWords(n, 364); got != "unknown" {
		t.Errorf("in a year %q", got)
	}
	for _, c := range []struct {
		n    forecast.Population
		want string
	}{
		{forecast.Population{MayLeavePerMonth: 7}, "7 a month"},
		{forecast.Population{SelectFrom: forecast.Window{P50: b.asOf + 90}}, "none before there are enough"},
		{forecast.Population{SelectFrom: forecast.Window{P50: b.asOf}}, "none for now"},
		{forecast.Population{SelectFrom: forecast.Window{Reason: "not likely within a year"}}, "none for now"},
	} {
		if got := p.leaveWords(&forecast.Tank{Tank: &colony.Tank{}, Population: c.n}); !strings.HasPrefix(got, c.want) {
			t.Errorf("may leave of %+v: %q, want %q", c.n.SelectFrom, got, c.want)
		}
	}
}
