package figure

import (
	"encoding/xml"
	"io"
	"math"
	"regexp"
	"strings"
	"testing"
	"time"
)

// svgOf returns the SVG of a figure, and fails the test where there is none.
func svgOf(t testing.TB, f Figure) string {
	t.Helper()
	svg, err := f.SVG()
	if err != nil {
		t.Fatalf("SVG of %s: %v", f.ID, err)
	}
	return string(svg)
}

// element is one start tag of a drawing with the text up to the next tag.
type element struct {
	name  string
	attrs map[string]string
	text  string
}

// elements reads a drawing as XML.
func elements(t testing.TB, svg string) []element {
	t.Helper()
	var all []element
	decoder := xml.NewDecoder(strings.NewReader(svg))
	for {
		token, err := decoder.Token()
		if err == io.EOF {
			return all
		}
		if err != nil {
			t.Fatalf("the drawing is not well-formed: %v", err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			e := element{name: token.Name.Local, attrs: map[string]string{}}
			for _, a := range token.Attr {
				e.attrs[a.Name.Local] = a.Value
			}
			all = append(all, e)
		case xml.CharData:
			if len(all) > 0 {
				all[len(all)-1].text += string(token)
			}
		}
	}
}

// hostile has markup and worse in every text.
func hostile() Figure {
	const evil = `"><script>alert(1)</script>&amp;'` + "\x00\x01\u2028"
	day := day1
	return Figure{
		ID: "hostile", Title: evil, Description: evil, X: Axis{Kind: Calendar, Label: evil, Unit: evil},
		Y: Axis{Label: evil, Unit: evil}, Empty: evil,
		Bands: []Band{{Name: evil, Edges: []Edge{{day, 1, 2}, {day + 9, 2, 3}}}},
		Lines: []Line{{Name: evil, Points: []XY{{day, 1}, {day + 9, 2}}}},
		Points: []Points{{Name: evil, Marks: []Mark{{day + 1, 2, evil, "javascript:alert(1)"},
			{day + 2, 2, evil, `x.html" onclick="alert(1)`}}}},
		Lanes: []Lane{{Label: evil, Link: "javascript:alert(2)",
			Spans: []Span{{From: day, To: day + 9, Label: evil, Link: "data:text/html,x"}},
			Marks: []LaneMark{{X: day, Label: evil, Link: "vbscript:x"}}}},
		Strips: []Strip{{From: day, To: day + 4, Label: evil}},
		Rules:  []Rule{{Value: day + 3, Label: evil}, {Value: 1.5, Level: true, Label: evil}},
		Keys:   []Key{{Name: evil, Shape: Dot}, {Name: evil}},
	}
}

// TestDrawingsHoldOnlyDrawing reads every sample and the hostile figure, and lists what may be there.
func TestDrawingsHoldOnlyDrawing(t *testing.T) {
	allowed := map[string]string{
		"div": "class", "svg": "class role viewBox width height aria-labelledby aria-describedby data-left data-right data-from data-to",
		"title": "id", "desc": "id", "pattern": "id class patternUnits width height patternTransform", "clipPath": "id",
		"path": "class d fill", "g": "class clip-path", "text": "class x y",
		"a": "class href tabindex aria-label",
	}
	links := regexp.MustCompile(`^([a-z]+/)?[A-Za-z0-9%. ="()-]+\.html|^#ZgotmplZ$|^x\.html`)
	for _, f := range append(samples(), hostile()) {
		ids := map[string]bool{}
		for _, e := range elements(t, svgOf(t, f)) {
			may, ok := allowed[e.name]
			if !ok {
				t.Errorf("%s: an element <%s>", f.ID, e.name)
			}
			for name, value := range e.attrs {
				switch {
				case !strings.Contains(" "+may+" ", " "+name+" "):
					t.Errorf("%s: <%s %s=%q>", f.ID, e.name, name, value)
				case name == "id" && (ids[value] || !strings.HasPrefix(value, f.ID+"-")):
					t.Errorf("%s: the id %q is there twice, or not the figure's", f.ID, value)
				case name == "href" && !links.MatchString(value):
					t.Errorf("%s: a link to %q", f.ID, value)
				case strings.ContainsAny(value, "\x00\x01"):
					t.Errorf("%s: a control character in %s", f.ID, name)
				}
				if name == "id" {
					ids[value] = true
				}
			}
		}
		for _, e := range elements(t, svgOf(t, f)) {
			for _, value := range e.attrs {
				for _, found := range regexp.MustCompile(`url\(#([^)]*)\)`).FindAllStringSubmatch(value, -1) {
					if !ids[found[1]] {
						t.Errorf("%s: %s leads nowhere", f.ID, value)
					}
				}
			}
			for _, id := range strings.Fields(e.attrs["aria-labelledby"] + " " + e.attrs["aria-describedby"]) {
				if !ids[id] {
					t.Errorf("%s: there is no %s", f.ID, id)
				}
			}
		}
	}
}

// TestRole checks that a drawing with links is a group, because the parts of a picture are hidden from screen readers.
func TestRole(t *testing.T) {
	for _, test := range []struct {
		figure Figure
		want   string
	}{{growth(), "img"}, {timeline(), "group"}, {fan(), "group"}, {empty(), "img"}, {ruler(), "img"}} {
		for _, e := range elements(t, svgOf(t, test.figure)) {
			if e.name == "svg" && e.attrs["role"] != test.want {
				t.Errorf("%s has the role %q, want %q", test.figure.ID, e.attrs["role"], test.want)
			}
		}
	}
}

func TestSVGRefuses(t *testing.T) {
	good := growth()
	tests := []struct {
		name   string
		change func(*Figure)
		want   string
	}{
		{"no id", func(f *Figure) { f.ID = "" }, "the ID"},
		{"an id with markup", func(f *Figure) { f.ID = `a"b` }, "the ID"},
		{"no title", func(f *Figure) { f.Title = "" }, "no title"},
		{"unknown tone", func(f *Figure) { f.Lines = []Line{{Tone: "pink"}} }, `unknown tone "pink"`},
		{"unknown shape", func(f *Figure) { f.Points = []Points{{Shape: "star"}} }, `unknown shape "star"`},
		{"a range without an end", func(f *Figure) { f.X.Max = math.Inf(1) }, "an axis from"},
	}
	for _, test := range tests {
		f := good
		test.change(&f)
		_, err := f.SVG()
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v, want an error with %q", test.name, err, test.want)
		}
		if _, other := f.Option(); other == nil || other.Error() != err.Error() {
			t.Errorf("%s: Option says %v", test.name, other)
		}
	}
}

// TestGaps counts the pieces of lines and bands with holes, and looks for what cannot be drawn.
func TestGaps(t *testing.T) {
	inf := math.Inf(1)
	f := Figure{ID: "gaps", Title: "Gaps",
		Lines: []Line{{Points: []XY{{0, 1}, {1, 2}, {2, nan}, {3, 1}, {4, inf}, {nan, 1}, {5, 2}, {6, 1}}}},
		Bands: []Band{{Edges: []Edge{{0, 1, 2}, {1, 1, 2}, {2, nan, 2}, {3, 1, 2}, {4, 1, 3}, {5, 1, -inf}}}},
		Points: []Points{{Marks: []Mark{{X: nan, Y: 1, Label: "a"}, {X: 1, Y: inf, Label: "b"},
			{X: 1, Y: 1, Label: "c"}}}}}
	svg := svgOf(t, f)
	for _, bad := range []string{"NaN", "Inf", "e+"} {
		if strings.Contains(svg, bad) {
			t.Errorf("the drawing holds %s", bad)
		}
	}
	pieces := map[string]int{}
	items := 0
	for _, e := range elements(t, svg) {
		if class, _, _ := strings.Cut(e.attrs["class"], " "); e.name == "path" {
			pieces[class] += strings.Count(e.attrs["d"], "M")
		} else if class == "fig-item" {
			items++
		}
	}
	if pieces["fig-line"] != 2*3 || pieces["fig-band"] != 2*2 || items != 2 {
		t.Errorf("two drawings have %d pieces of line, %d of bands and %d marks; want 6, 4 and 2",
			pieces["fig-line"], pieces["fig-band"], items)
	}
}

// TestNothingToDraw gives figures without anything finite.
func TestNothingToDraw(t *testing.T) {
	far := Figure{ID: "far", Title: "Far", Empty: "No broods yet", X: Axis{Kind: Calendar}, Lanes: []Lane{{Label: "a"}}}
	for _, test := range []struct {
		figure Figure
		want   string
	}{{empty(), "No data yet"}, {far, "No broods yet"}, {Figure{ID: "none", Title: "None"}, "No data yet"}} {
		if !test.figure.Blank() {
			t.Errorf("%s is not blank", test.figure.ID)
		}
		if svg := svgOf(t, test.figure); strings.Count(svg, test.want) != 2 {
			t.Errorf("%s does not say %q twice:\n%s", test.figure.ID, test.want, svg)
		}
		if rows := test.figure.Table().Rows; len(rows) != 0 {
			t.Errorf("the table of %s has %d rows", test.figure.ID, len(rows))
		}
	}
	for _, f := range samples() {
		if f.Blank() != (f.ID == "empty") {
			t.Errorf("%s: Blank is %v", f.ID, f.Blank())
		}
	}
}

// TestSinglePoints draws ranges that are a point.
func TestSinglePoints(t *testing.T) {
	for _, at := range []XY{{0, 0}, {5, 1e-12}, {day1, -7}, {1e15, 1e15}, {math.MaxFloat64, math.MaxFloat64}, {-1e300, 1e300}, {5e-324, 5e-324}} {
		for _, kind := range []AxisKind{Numeric, Calendar} {
			f := Figure{ID: "point", Title: "Point", X: Axis{Kind: kind}, Lines: []Line{{Points: []XY{at}}}}
			start := time.Now()
			svg := svgOf(t, f)
			f.Table()
			if _, err := f.Option(); err != nil {
				t.Errorf("Option at %v: %v", at, err)
			}
			if took := time.Since(start); took > time.Second || len(svg) > 20_000 {
				t.Errorf("a point at %v takes %v and %d bytes", at, took, len(svg))
			}
			if strings.Contains(svg, "NaN") || strings.Contains(svg, "Inf") {
				t.Errorf("a point at %v is drawn at no number", at)
			}
		}
	}
}

// TestSameBytes draws every sample again, from a copy whose maps and slices lie elsewhere.
func TestSameBytes(t *testing.T) {
	again := samples()
	for i, f := range samples() {
		for range 3 {
			if svgOf(t, f) != svgOf(t, again[i]) {
				t.Fatalf("the drawings of %s differ", f.ID)
			}
		}
		one, _ := f.Option()
		two, _ := again[i].Option()
		if string(one) != string(two) {
			t.Errorf("the options of %s differ", f.ID)
		}
	}
}
