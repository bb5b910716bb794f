package figure

import (
	_ "embed"
	"fmt"
	"html/template"
	"regexp"
	"slices"
	"strings"
)

//go:embed figure.svg.tmpl
var source string

//go:embed figure.css
var style string

var page = template.Must(template.New("figure.svg.tmpl").Parse(source))

// Style returns the style sheet of all figures. It sets no colour of the page: a page may set the variables that
// begin with --fig- itself.
func Style() string { return style }

// SVG returns the figure as two drawings in one box, a wide one and a narrow one whose text a phone can show; the
// style sheet shows one of them. It needs no script. The error names a mistake of the caller: an unusable ID, no
// title, an unknown tone or shape, or a fixed range that is not finite.
func (f Figure) SVG() (template.HTML, error) {
	if err := f.check(); err != nil {
		return "", err
	}
	var drawings []drawing
	for _, s := range sheets {
		drawings = append(drawings, f.draw(s))
	}
	var out strings.Builder
	if err := page.Execute(&out, drawings); err != nil {
		return "", fmt.Errorf("figure %s: %w", f.ID, err)
	}
	return template.HTML(out.String()), nil
}

var idForm = regexp.MustCompile(`^[a-z][a-z0-9-]*$`)

// check returns the first mistake of the caller.
func (f Figure) check() error {
	if !idForm.MatchString(f.ID) {
		return fmt.Errorf("figure: the ID %q is not lower-case letters, digits and hyphens", f.ID)
	}
	if f.Title == "" {
		return fmt.Errorf("figure %s: no title", f.ID)
	}
	for _, a := range []Axis{f.X, f.Y} {
		if !finite(a.Min) || !finite(a.Max) {
			return fmt.Errorf("figure %s: an axis from %v to %v", f.ID, a.Min, a.Max)
		}
	}
	for _, t := range f.usedTones() {
		if !slices.Contains(tones, t.or()) {
			return fmt.Errorf("figure %s: unknown tone %q", f.ID, t)
		}
	}
	for _, s := range f.usedShapes() {
		if !slices.Contains(shapes, s.or()) {
			return fmt.Errorf("figure %s: unknown shape %q", f.ID, s)
		}
	}
	return nil
}

func (f Figure) usedTones() []Tone {
	var used []Tone
	for _, l := range f.Lines {
		used = append(used, l.Tone)
	}
	for _, b := range f.Bands {
		used = append(used, b.Tone)
	}
	for _, p := range f.Points {
		used = append(used, p.Tone)
	}
	for _, r := range f.Rules {
		used = append(used, r.Tone)
	}
	for _, k := range f.Keys {
		used = append(used, k.Tone)
	}
	for _, lane := range f.Lanes {
		for _, s := range lane.Spans {
			used = append(used, s.Tone)
		}
		for _, m := range lane.Marks {
			used = append(used, m.Tone)
		}
	}
	return used
}

func (f Figure) usedShapes() []Shape {
	var used []Shape
	for _, p := range f.Points {
		used = append(used, p.Shape)
	}
	for _, k := range f.Keys {
		used = append(used, k.Shape)
	}
	for _, lane := range f.Lanes {
		for _, m := range lane.Marks {
			used = append(used, m.Shape)
		}
	}
	return used
}
