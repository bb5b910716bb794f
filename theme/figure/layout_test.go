package figure

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// box returns the place that a text takes, by the same estimate as the layout.
func (l label) box(t fataler) area {
	x, err := strconv.ParseFloat(l.X, 64)
	if err != nil {
		t.Fatalf("x = %q", l.X)
	}
	y, err := strconv.ParseFloat(l.Y, 64)
	if err != nil {
		t.Fatalf("y = %q", l.Y)
	}
	width := textWidth(l.Text) * textSize
	switch {
	case strings.Contains(l.Class, "fig-mid"):
		x -= width / 2
	case strings.Contains(l.Class, "fig-end"):
		x -= width
	}
	return area{x, y - 10, x + width, y + 3}
}

// fataler is what testing and rapid have in common.
type fataler interface {
	Fatalf(format string, args ...any)
}

// checkTexts fails where two texts of a drawing touch, or one lies outside.
func checkTexts(t fataler, f Figure) {
	for _, s := range sheets {
		d := f.draw(s)
		height, err := strconv.ParseFloat(d.Height, 64)
		if err != nil {
			t.Fatalf("%s: height %q", f.ID, d.Height)
		}
		for i, l := range d.Labels {
			a := l.box(t)
			if a.left < -0.5 || a.right > s.width+0.5 || a.top < -0.5 || a.bottom > height+0.5 {
				t.Fatalf("%s, %s: %q at %v lies outside of %v × %v", f.ID, s.Name, l.Text, a, s.width, height)
			}
			for _, other := range d.Labels[:i] {
				b := other.box(t)
				if a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom {
					t.Fatalf("%s, %s: %q at %v and %q at %v touch", f.ID, s.Name, l.Text, a, other.Text, b)
				}
			}
		}
	}
}

// TestInsetLinesUp holds the left ends of figures with short and long labels together, as wide as a page and narrow.
func TestInsetLinesUp(t *testing.T) {
	for _, s := range sheets {
		var left []string
		for _, top := range []float64{0.02, 8, 400} {
			f := Figure{ID: "f", Inset: 60, Points: []Points{{Name: "p", Marks: []Mark{{X: 1, Y: 0}, {X: 9, Y: top}}}}}
			left = append(left, f.draw(s).Left)
		}
		if left[0] != left[1] || left[1] != left[2] {
			t.Errorf("%s: the axes begin at %v", s.Name, left)
		}
	}
}

func TestTextsKeepApart(t *testing.T) {
	for _, f := range append(samples(), hostile()) {
		checkTexts(t, f)
	}
}

// TestTextsKeepApartAnywhere draws random figures.
func TestTextsKeepApartAnywhere(t *testing.T) {
	name := rapid.SampledFrom([]string{"", "a", "today", "water change",
		"the brood with a very long name that goes on and on", "小虾小虾小虾小虾小虾小虾小虾小虾小虾小虾"})
	tone, shape := rapid.SampledFrom(tones), rapid.SampledFrom(shapes)
	rapid.Check(t, func(t *rapid.T) {
		f := Figure{ID: "random", Title: "Random", Height: rapid.IntRange(0, 300).Draw(t, "height")}
		if f.Height > 0 && f.Height < 60 {
			f.Height = 60
		}
		f.X.Kind = AxisKind(rapid.IntRange(0, 1).Draw(t, "kind"))
		low, span := day1, rapid.Float64Range(1, 4000).Draw(t, "span")
		f.X.Label, f.Y.Label = name.Draw(t, "x label"), name.Draw(t, "y label")
		value := rapid.Float64Range(-20, 5000)
		place := func(what string) float64 { return low + span*rapid.Float64Range(-0.1, 1.1).Draw(t, what) }
		for i := range rapid.IntRange(0, 3).Draw(t, "lines") {
			l := Line{Name: fmt.Sprint(name.Draw(t, "line"), i), Tone: tone.Draw(t, "tone")}
			for j := range 5 {
				l.Points = append(l.Points, XY{low + span*float64(j)/4, value.Draw(t, "y")})
			}
			f.Lines = append(f.Lines, l)
		}
		for range rapid.IntRange(0, 8).Draw(t, "rules") {
			r := Rule{Value: place("rule"), Label: name.Draw(t, "rule label")}
			if rapid.Bool().Draw(t, "level") {
				r.Level, r.Value = true, value.Draw(t, "level value")
			}
			f.Rules = append(f.Rules, r)
		}
		for range rapid.IntRange(0, 2).Draw(t, "strips") {
			f.Strips = append(f.Strips, Strip{From: place("from"), To: place("to"), Label: name.Draw(t, "strip")})
		}
		for range rapid.IntRange(0, 4).Draw(t, "lanes") {
			lane := Lane{Label: name.Draw(t, "lane")}
			for range rapid.IntRange(0, 4).Draw(t, "spans") {
				from := place("from")
				lane.Spans = append(lane.Spans,
					Span{From: from, To: from + span*rapid.Float64Range(0, 0.5).Draw(t, "length"),
						Label: name.Draw(t, "span"), Tone: tone.Draw(t, "tone")})
			}
			f.Lanes = append(f.Lanes, lane)
		}
		if len(f.Lanes) > 0 {
			f.Keys = []Key{{Name: name.Draw(t, "key"), Tone: tone.Draw(t, "tone"), Shape: shape.Draw(t, "shape")}}
		}
		checkTexts(t, f)
		if _, err := f.SVG(); err != nil {
			t.Fatal(err)
		}
	})
}

// TestLegendNamesEachLookOnce draws two lines of one name and tone.
func TestLegendNamesEachLookOnce(t *testing.T) {
	f := fan()
	f.Lines = append(f.Lines, f.Lines[0], Line{Name: "other", Tone: Water, Points: f.Lines[0].Points})
	count := map[string]int{}
	for _, s := range f.swatches() {
		count[s.name]++
	}
	if count["median"] != 1 || count["other"] != 1 || len(count) != 5 {
		t.Errorf("the legend has %v", count)
	}
}

// TestDashesOnlyWhereTonesDiffer looks at the lines of one and of several tones.
func TestDashesOnlyWhereTonesDiffer(t *testing.T) {
	one := Figure{Lines: []Line{{Tone: Shrimp}, {Tone: Shrimp}}}
	two := Figure{Lines: []Line{{Tone: Shrimp}, {Tone: Water}, {Tone: Moss, Dashed: true}}}
	for _, test := range []struct {
		figure Figure
		line   int
		want   string
	}{
		{one, 0, "fig-line fig-shrimp"}, {two, 0, "fig-line fig-shrimp fig-dash-shrimp"},
		{two, 1, "fig-line fig-water fig-dash-water"}, {two, 2, "fig-line fig-moss fig-dotted"},
	} {
		if got := test.figure.lineClass(test.figure.Lines[test.line]); got != test.want {
			t.Errorf("line %d has %q, want %q", test.line, got, test.want)
		}
	}
}

// TestLegendLeavesOutWhatNoLaneShows narrows the range of the timeline until one brood is left.
func TestLegendLeavesOutWhatNoLaneShows(t *testing.T) {
	names := func(f Figure) string {
		var all []string
		for _, s := range f.swatches() {
			all = append(all, s.name)
		}
		return strings.Join(all, ", ")
	}
	f := timeline()
	if got, want := names(f), "carried, hatch expected, shrimplets, sexable, mature, hatched, dropped, resting, moved"; got != want {
		t.Errorf("the whole timeline explains %s, want %s", got, want)
	}
	f.X.Min, f.X.Max = day1-5, day1+20
	if got, want := names(f), "carried"; got != want {
		t.Errorf("its first days explain %s, want %s", got, want)
	}
	f.X.Max = day1 + 30
	if got, want := names(f), "carried, shrimplets, hatched"; got != want {
		t.Errorf("its first month explains %s, want %s", got, want)
	}
}

func TestRanges(t *testing.T) {
	tests := []struct {
		name string
		axis Axis
		data extent
		want extent
	}{
		{"as the data", Axis{}, extent{3, 8}, extent{3, 8}},
		{"from zero", Axis{FromZero: true}, extent{3, 8}, extent{0, 8}},
		{"from zero downwards", Axis{FromZero: true}, extent{-8, -3}, extent{-8, 0}},
		{"fixed", Axis{Min: 1, Max: 2}, extent{3, 8}, extent{1, 2}},
		{"only zero", Axis{FromZero: true}, extent{0, 0}, extent{0, 1}},
		{"one value", Axis{}, extent{7, 7}, extent{6.3, 7.7}},
		{"one small value", Axis{}, extent{0.1, 0.1}, extent{-0.4, 0.6}},
		{"one day", Axis{Kind: Calendar}, extent{day1, day1}, extent{day1 - 3, day1 + 3}},
		{"two groups", Axis{Mirrored: true}, extent{-5, 8}, extent{-8, 8}},
		{"nothing", Axis{FromZero: true}, nothing, nothing},
	}
	for _, test := range tests {
		if got := test.axis.settle(test.data); got != test.want {
			t.Errorf("%s: %v becomes %v, want %v", test.name, test.data, got, test.want)
		}
	}
}
