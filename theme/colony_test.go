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
	begun := &forecast.Tank{Population: forecast.Population{Generations: []forecast.Generation{
		{Number: 1, From: 739000, To: 739199, EffectiveSize: 12.34}, {Number: 2, From: 739200, To: 739206}}}}
	if got := generationLines(begun)[0].Parents; got != "just begun" {
		t.Errorf("a generation of six days has %q", got)
	}
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
	if got := selectingWords(forecast.Selecting{Last: 2}, "deep"); !strings.Contains(got, "from the founders to generation 2") {
		t.Errorf("%q", got)
	}
}

func TestAShareIsAboutWhatIsNotRounded(t *testing.T) {
	for share, want := range map[float64]string{0.004: "under 1\u00a0%", 0.08: "about 8\u00a0%", 0.999: "over 99\u00a0%"} {
		if got := aboutPercent(share); got != want {
			t.Errorf("%v: %q, want %q", share, got, want)
		}
	}
}
