package figure

import (
	"fmt"
	"os"
	"regexp"
	"strings"
	"testing"
)

// texts returns every text in a JSON value.
func texts(v any) []string {
	switch v := v.(type) {
	case string:
		return []string{v}
	case []any:
		var all []string
		for _, inner := range v {
			all = append(all, texts(inner)...)
		}
		return all
	case map[string]any:
		var all []string
		for _, inner := range v {
			all = append(all, texts(inner)...)
		}
		return all
	}
	return nil
}

// TestOptionHoldsNoCode looks for markup, code and unknown markers in the options of all figures.
func TestOptionHoldsNoCode(t *testing.T) {
	manual, err := os.ReadFile("doc.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range append(samples(), hostile()) {
		raw, err := f.Option()
		if err != nil {
			t.Fatalf("%s: %v", f.ID, err)
		}
		for _, bad := range []string{"<", ">", "function", "__f__", "NaN", "Inf", "\u2028"} {
			if strings.Contains(string(raw), bad) {
				t.Errorf("%s: the option holds %q", f.ID, bad)
			}
		}
		for _, text := range texts(optionOf(t, f)) {
			kind, name, found := strings.Cut(text, ":")
			switch {
			case !found:
			case kind == "fn" && !strings.Contains(string(manual), fmt.Sprintf("//\t%q ", text)):
				t.Errorf("%s: %s is not in the package comment", f.ID, text)
			case kind == "tone" && !strings.Contains(Style(), "--fig-"+name+":"):
				t.Errorf("%s: %s is not in the style sheet", f.ID, text)
			}
		}
	}
}

// TestOptionTextsCannotBeMarkers names a line like a marker; the script must not take it for one.
func TestOptionTextsCannotBeMarkers(t *testing.T) {
	f := growth()
	f.Title, f.Lines[0].Name, f.Points[0].Marks[2].Label, f.Rules = "fn:fan", "fn:lanes", "tone:water",
		[]Rule{{Value: 50, Label: "fn:unsigned"}}
	f.X.Label, f.Y.Label = "fn:fan", "tone:water"
	f.X.Unit, f.Y.Unit = "", ""
	f.Points[0].Marks[2].Link = "javascript:alert(1)"
	markers := 0
	for _, text := range texts(optionOf(t, f)) {
		if strings.HasPrefix(text, "fn:") {
			markers++
		}
		if strings.Contains(text, "javascript") {
			t.Errorf("a link to %s", text)
		}
	}
	if markers != 1 {
		t.Errorf("%d texts look like functions, want the tooltip's only", markers)
	}
}

// TestGapsAreNull reads the gaps of the temperature.
func TestGapsAreNull(t *testing.T) {
	points := seriesOf(t, optionOf(t, together()), "temperature")
	for i, p := range points {
		if (p[1] == nil) != (i > 90 && i < 100) {
			t.Errorf("point %d is %v", i, p)
		}
	}
}

// TestStacksAddUp adds the two series of every band.
func TestStacksAddUp(t *testing.T) {
	for _, f := range []Figure{fan(), strip()} {
		stacks := map[string][]map[string]any{}
		for _, s := range optionOf(t, f)["series"].([]any) {
			s := s.(map[string]any)
			if name, ok := s["stack"].(string); ok {
				stacks[name] = append(stacks[name], s)
			}
		}
		if len(stacks) != len(f.Bands) {
			t.Errorf("%s has %d stacks for %d bands", f.ID, len(stacks), len(f.Bands))
		}
		for name, pair := range stacks {
			if len(pair) != 2 || pair[0]["stackStrategy"] != "all" || !strings.HasPrefix(fmt.Sprint(pair[0]["id"]), unseen) {
				t.Fatalf("%s, %s: %v", f.ID, name, pair)
			}
			for i, p := range pair[0]["data"].([]any) {
				low, rest := p.([]any), pair[1]["data"].([]any)[i].([]any)
				if sum := low[1].(float64) + rest[1].(float64); sum < rest[3].(float64)-0.01 || sum > rest[3].(float64)+0.01 || low[0] != rest[0] {
					t.Fatalf("%s: %v and %v do not reach the upper edge", f.ID, low, rest)
				}
			}
		}
	}
}

// TestPartsOfDays keeps the time within a day.
func TestPartsOfDays(t *testing.T) {
	a := Axis{Kind: Calendar}
	for x, want := range map[float64]any{day1: "2025-10-07", day1 + 0.5: "2025-10-07 12:00:00", nan: nil} {
		if got := a.json(x); got != want {
			t.Errorf("json(%v) = %v, want %v", x, got, want)
		}
	}
}

// TestDashesOfChartAndSheet compares the two lists of dashes.
func TestDashesOfChartAndSheet(t *testing.T) {
	for _, tone := range tones {
		want := ""
		if d := dashes[tone]; d != nil {
			want = strings.Trim(fmt.Sprint(d), "[]")
		}
		got := ""
		if found := regexp.MustCompile(`\.fig-dash-` + string(tone) + ` \{ stroke-dasharray: ([0-9 ]+);`).FindStringSubmatch(Style()); found != nil {
			got = found[1]
		}
		if got != want {
			t.Errorf("the style sheet draws %s as %q, the chart as %q", tone, got, want)
		}
	}
}
