package figure

import (
	"fmt"
	"image/color"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// styleSheet is what a card needs to know of the style sheet.
type styleSheet struct {
	colours map[string]color.NRGBA       // by their name without --fig-
	rules   map[string]map[string]string // properties by class
}

// look is how a shape or text is painted.
type look struct {
	fill, stroke   color.NRGBA // unseen where A is 0
	width, opacity float64
	dashes         []float64
	bold           bool
}

var (
	colourForm = regexp.MustCompile(`--fig-([a-z]+): (#[0-9a-f]+);`)
	ruleForm   = regexp.MustCompile(`(?m)^([.][^{@]*) \{ ([^}]*) \}`)
	classForm  = regexp.MustCompile(`^(?:\.fig )?\.(fig-[a-z-]+)$`)
)

// readStyle reads the colours for light pages and the rules of single classes, in the form of our own style sheet.
func readStyle(text string, replaced map[string]string) (styleSheet, error) {
	s := styleSheet{colours: map[string]color.NRGBA{}, rules: map[string]map[string]string{}}
	light, _, _ := strings.Cut(text, "@media")
	values := map[string]string{}
	for _, pair := range colourForm.FindAllStringSubmatch(light, -1) {
		values[pair[1]] = pair[2]
	}
	maps.Copy(values, replaced)
	for _, name := range slices.Sorted(maps.Keys(values)) {
		c, err := readColour(values[name])
		if err != nil {
			return s, fmt.Errorf("the colour %s: %w", name, err)
		}
		s.colours[name] = c
	}

	for _, rule := range ruleForm.FindAllStringSubmatch(text, -1) {
		for selector := range strings.SplitSeq(rule[1], ", ") {
			class := classForm.FindStringSubmatch(selector)
			if class == nil {
				continue
			}
			if s.rules[class[1]] == nil {
				s.rules[class[1]] = map[string]string{}
			}
			maps.Copy(s.rules[class[1]], readProperties(rule[2]))
		}
	}
	return s, nil
}

// readProperties reads what stands between the braces of a rule.
func readProperties(text string) map[string]string {
	properties := map[string]string{}
	for property := range strings.SplitSeq(text, ";") {
		if name, value, ok := strings.Cut(strings.TrimSpace(property), ": "); ok {
			properties[name] = value
		}
	}
	return properties
}

// readColour reads #rgb or #rrggbb.
func readColour(text string) (color.NRGBA, error) {
	digits := strings.TrimPrefix(text, "#")
	if len(digits) == 3 {
		digits = strings.Repeat(digits[:1], 2) + strings.Repeat(digits[1:2], 2) + strings.Repeat(digits[2:], 2)
	}
	n, err := strconv.ParseUint(digits, 16, 24)
	if err != nil || len(digits) != 6 {
		return color.NRGBA{}, fmt.Errorf("%q is not a colour like #1d6a80", text)
	}
	return color.NRGBA{uint8(n >> 16), uint8(n >> 8), uint8(n), 255}, nil
}

// look returns how something of these classes is painted; later classes have the last word.
func (s styleSheet) look(classes string) look {
	properties := map[string]string{"fill": "var(--fig-ink)"}
	for class := range strings.FieldsSeq(classes) {
		maps.Copy(properties, s.rules[class])
	}
	l := look{
		fill: s.colour(properties["fill"], properties), stroke: s.colour(properties["stroke"], properties),
		width: 1, opacity: 1, bold: properties["font-weight"] == "700",
	}
	if width, err := strconv.ParseFloat(strings.TrimSuffix(properties["stroke-width"], "px"), 64); err == nil {
		l.width = width
	}
	if opacity, err := strconv.ParseFloat(properties["opacity"], 64); err == nil {
		l.opacity = opacity
	}
	for dash := range strings.FieldsSeq(properties["stroke-dasharray"]) {
		if length, err := strconv.ParseFloat(dash, 64); err == nil {
			l.dashes = append(l.dashes, length)
		}
	}
	return l
}

// colour returns the value of a colour property; an unseen one for none.
func (s styleSheet) colour(value string, properties map[string]string) color.NRGBA {
	name := strings.TrimSuffix(strings.TrimPrefix(value, "var(--fig-"), ")")
	if name == "tone" {
		return s.colour(properties["--fig-tone"], properties)
	}
	return s.colours[name]
}
