package theme

import (
	"strings"
	"testing"

	"pleopod/theme/figure"
)

// Every mark and every stretch of a timeline and of a life is explained by the legend, once, in the words of its label:
// what came is not called hatched.
func TestLegendExplainsEveryMark(t *testing.T) {
	b := shelfBook(t)
	var figures []figure.Figure
	for i := range b.Tanks {
		from, to := b.pen("").stretch(&b.Tanks[i])
		figures = append(figures, b.pen("").timeline("timeline", &b.Tanks[i], from-400, to))
	}
	for _, s := range b.Colony.Shrimp {
		figures = append(figures, b.pen("").life(s))
	}
	seen := map[string]string{}
	for _, f := range figures {
		for _, lane := range f.Lanes {
			for _, m := range lane.Marks {
				name := keyName(t, f, m.Shape, m.Tone, false)
				seen[name] = m.Label
				if lane.Label == "stock" && !strings.Contains(m.Label, name) {
					t.Errorf("%s: the mark of %q is called %q", f.Title, m.Label, name)
				}
			}
			for _, s := range lane.Spans {
				keyName(t, f, "", s.Tone, s.Soft)
			}
		}
	}
	for _, want := range []string{"stocked", "hatched", "moved in", "moved out", "left", "died", "counted"} {
		if seen[want] == "" {
			t.Errorf("nothing is marked as %q", want)
		}
	}
}

// keyName returns what the legend of a figure calls a look.
func keyName(t *testing.T, f figure.Figure, shape figure.Shape, tone figure.Tone, soft bool) string {
	t.Helper()
	var names []string
	for _, key := range f.Keys {
		if key.Shape == shape && key.Tone == tone && key.Soft == soft {
			names = append(names, key.Name)
		}
	}
	if len(names) != 1 {
		t.Errorf("%s: the legend calls a %s %s (soft %v) %q", f.Title, tone, shape, soft, names)
		return ""
	}
	return names[0]
}
