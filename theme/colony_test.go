package theme

import (
	"strings"
	"testing"

	"pleopod/journal/forecast"
)

func TestGenerationLines(t *testing.T) {
	tank := &forecast.Tank{Population: forecast.Population{Generations: []forecast.Generation{
		{Number: 1, From: 739000, To: 739199, EffectiveSize: 12.34, Inbreeding: 0.0405},
		{Number: 2, From: 739200, To: 739250, Newcomers: 3},
	}}}
	lines := generationLines(tank)
	if len(lines) != 2 || lines[0].Name != "2" || lines[1].Name != "1" {
		t.Fatalf("%+v, want the newest first", lines)
	}
	if lines[0].Blood != "3 newcomers" || lines[0].Parents != "no young" || lines[1].Blood != "none" || lines[1].Parents != "12" || lines[1].Inbreeding != "4.1\u00a0%" && lines[1].Inbreeding != "4\u00a0%" {
		t.Errorf("%+v", lines)
	}
}

func TestSelectingWords(t *testing.T) {
	for _, c := range []struct {
		probability float64
		want        string
	}{{0.99, "it seems so: from generation 1 to 3"}, {0.5, "cannot be told yet"}, {0.01, "the share falls"}} {
		s := forecast.Selecting{First: 1, Last: 3, Rise: 0.2, Low: -0.1, High: 0.5, Probability: c.probability}
		if got := selectingWords(s, "deep"); !strings.HasPrefix(got, c.want) || !strings.Contains(got, "the share of deep moved by +20 points") {
			t.Errorf("%v: %q", c.probability, got)
		}
	}
}

// Several tanks with a record have a page that sets them side by side, one tank has none.
func TestTanksSideBySide(t *testing.T) {
	b := shelfBook(t)
	if b.compared() != (len(b.inhabited()) > 1) {
		t.Error("compared is not about several tanks")
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
		if got := p.leaveWords(&c.n); !strings.HasPrefix(got, c.want) {
			t.Errorf("may leave of %+v: %q, want %q", c.n.SelectFrom, got, c.want)
		}
	}
}
