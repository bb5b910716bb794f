package theme

import (
	"strings"
	"testing"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
)

func TestGrowthFigureHasBands(t *testing.T) {
	p := shelfBook(t).pen("tanks/x.html")
	found := 0
	for i := range p.Tanks {
		tank := &p.Tanks[i]
		f := p.growth("growth", "Body length", tank, nil)
		if len(f.Lines) != 2 || len(f.Bands) != 4 || len(f.Rules) != 1 || f.Rules[0].Label != "mature" {
			t.Fatalf("%d lines, %d bands, rules %+v; want a line and two bands for each sex, and the line of maturity", len(f.Lines), len(f.Bands), f.Rules)
		}
		for k, line := range f.Lines {
			animals, mean := f.Bands[2*k], f.Bands[2*k+1]
			if !animals.Faint || mean.Faint {
				t.Errorf("%q is the wider band and %q the narrower", animals.Name, mean.Name)
			}
			for j, at := range line.Points {
				a, m := animals.Edges[j], mean.Edges[j]
				if a.X != at.X || !(a.Low <= m.Low && m.Low <= at.Y && at.Y <= m.High && m.High <= a.High) {
					t.Fatalf("at %g %%: animals %+v, mean %+v, curve %g; want each inside the other", at.X, a, m, at.Y)
				}
			}
		}
		found += len(f.Points)
	}
	if found == 0 {
		t.Error("no tank draws its measured lengths")
	}
}

func TestGrowthPageCompares(t *testing.T) {
	text := visible(t, site(t, "full").Files["growth.html"])
	b := shelfBook(t)
	for _, g := range b.GrowthGroups() {
		if want := b.pen("growth.html").groupName(g); !strings.Contains(text, want) {
			t.Errorf("the growth page does not name %q", want)
		}
	}
	if len(b.GrowthGroups()) == 0 || strings.Contains(text, "..") {
		t.Errorf("no group, or a sentence with two ends: %q", text)
	}
	if _, found := site(t, "empty").Files["growth.html"]; found {
		t.Error("a journal without a length has a page of growth")
	}
}

func TestAgainstCurveWords(t *testing.T) {
	for _, c := range []struct {
		low, ratio, high float64
		want             string
	}{
		{0.92, 0.996, 1.08, "0\u00a0%, 90\u00a0% range \u22128 to +8\u00a0%: cannot be told from the species' curve"},
		{1.02, 1.1, 1.19, "+10\u00a0%, 90\u00a0% range +2 to +19\u00a0%: longer than the species' curve at the same warmth"},
		{0.8, 0.88, 0.95, "\u221212\u00a0%, 90\u00a0% range \u221220 to \u22125\u00a0%: shorter than the species' curve at the same warmth"},
	} {
		got := againstCurve(forecast.GrowthGroup{Sex: journal.Female, Low: c.low, Ratio: c.ratio, High: c.high})
		if strings.ReplaceAll(got, wording.Joined, "\u00a0") != c.want {
			t.Errorf("againstCurve(%g to %g) = %q, want %q", c.low, c.high, got, c.want)
		}
	}
}

func TestAgeClassWords(t *testing.T) {
	for class, want := range map[forecast.AgeClass]string{
		{FromDays: 0, ToDays: 28}:                  "under 4 weeks",
		{FromDays: 28, ToDays: 56}:                 "4 to 8 weeks",
		{FromDays: 168, ToDays: 196}:               "24 to 28 weeks",
		{FromDays: 504, ToDays: 532}:               "72 to 76 weeks",
		{FromDays: 616, ToDays: 9999}:              "over 88 weeks",
		{FromDays: 196, ToDays: 224, Females: 1.5}: "28 to 32 weeks",
	} {
		if got := ageClass(class); got != want {
			t.Errorf("days %d to %d are %q, want %q", class.FromDays, class.ToDays, got, want)
		}
	}
}
