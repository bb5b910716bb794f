package figure

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// palettes reads the three lists of colours: light, dark and print.
func palettes(t *testing.T) [3]map[string]string {
	t.Helper()
	var all [3]map[string]string
	blocks := regexp.MustCompile(`(?s):root \{(.*?)\}`).FindAllStringSubmatch(Style(), -1)
	if len(blocks) != 3 {
		t.Fatalf("the style sheet has %d lists of colours, want 3", len(blocks))
	}
	for i, block := range blocks {
		all[i] = map[string]string{}
		for _, pair := range regexp.MustCompile(`--fig-([a-z]+): (#[0-9a-f]+);`).FindAllStringSubmatch(block[1], -1) {
			all[i][pair[1]] = pair[2]
		}
	}
	return all
}

// luminance returns the relative luminance of a colour (WCAG 2.2, definition of relative luminance).
func luminance(t *testing.T, colour string) float64 {
	t.Helper()
	digits := strings.TrimPrefix(colour, "#")
	if len(digits) == 3 {
		digits = strings.Repeat(digits[:1], 2) + strings.Repeat(digits[1:2], 2) + strings.Repeat(digits[2:], 2)
	}
	sum := 0.0
	for i, weight := range [3]float64{0.2126, 0.7152, 0.0722} {
		v, err := strconv.ParseUint(digits[2*i:2*i+2], 16, 8)
		if err != nil {
			t.Fatalf("the colour %q: %v", colour, err)
		}
		c := float64(v) / 255
		if c <= 0.04045 {
			sum += weight * c / 12.92
		} else {
			sum += weight * math.Pow((c+0.055)/1.055, 2.4)
		}
	}
	return sum
}

// TestContrast checks texts at 4.5 : 1 and lines at 3 : 1 on paper and shade (WCAG 2.2, 1.4.3 and 1.4.11).
func TestContrast(t *testing.T) {
	for i, colours := range palettes(t) {
		need := map[string]float64{"ink": 4.5, "quiet": 4.5}
		for _, tone := range tones {
			need[string(tone)] = 3
		}
		need["water"] = 4.5 // also the colour of links
		for name, least := range need {
			for _, ground := range []string{"paper", "shade"} {
				a, b := luminance(t, colours[name]), luminance(t, colours[ground])
				if ratio := (max(a, b) + 0.05) / (min(a, b) + 0.05); ratio < least {
					t.Errorf("list %d: %s on %s has a contrast of %.2f, want %.1f", i, name, ground, ratio, least)
				}
			}
		}
	}
}

// TestSheetAndDrawingsAgree compares the classes in use with those of the style sheet.
func TestSheetAndDrawingsAgree(t *testing.T) {
	used := map[string]bool{"fig-here": true} // set by the page's script
	figures := append(samples(), hostile())
	var everyLine, everySpan Figure
	for _, tone := range tones {
		everyLine.Lines = append(everyLine.Lines, Line{Tone: tone, Points: []XY{{0, 0}, {1, 1}}})
		everySpan.Lanes = append(everySpan.Lanes, Lane{Spans: []Span{{To: 1, Tone: tone}}})
	}
	everyLine.ID, everyLine.Title, everySpan.ID, everySpan.Title = "lines", "Lines", "spans", "Spans"
	for _, f := range append(figures, everyLine, everySpan) {
		for _, e := range elements(t, svgOf(t, f)) {
			for _, class := range strings.Fields(e.attrs["class"]) {
				used[class] = true
			}
		}
	}
	// These have no rule of their own: an anchor for scripts, and looks that are the default.
	plain := map[string]bool{"fig-item": true, "fig-key": true, "fig-start": true, "fig-lane": true,
		"fig-dash-water": true}
	sheet := map[string]bool{}
	for _, found := range regexp.MustCompile(`\.(fig[a-z-]*)`).FindAllStringSubmatch(Style(), -1) {
		sheet[found[1]] = true
	}
	for class := range used {
		if !sheet[class] && !plain[class] {
			t.Errorf("the style sheet lacks %s", class)
		}
	}
	for class := range sheet {
		if !used[class] {
			t.Errorf("no drawing uses %s", class)
		}
	}
	for _, bad := range []string{"url(", "@import", "http"} {
		if strings.Contains(Style(), bad) {
			t.Errorf("the style sheet asks for more: %s", bad)
		}
	}
}

func zipped(data string) int {
	var out bytes.Buffer
	w, _ := gzip.NewWriterLevel(&out, gzip.BestCompression)
	w.Write([]byte(data))
	w.Close()
	return out.Len()
}

// TestSize bounds what figures add to a page.
func TestSize(t *testing.T) {
	for _, test := range []struct {
		what string
		data string
		most int
	}{
		{"style sheet", Style(), 1800}, {"fan", svgOf(t, fan()), 5000}, {"timeline", svgOf(t, timeline()), 4500}, {"ten years", svgOf(t, decade()), 12000},
	} {
		if got := zipped(test.data); got > test.most {
			t.Errorf("%s: %d bytes zipped, want at most %d", test.what, got, test.most)
		}
	}
}

func BenchmarkSVG(b *testing.B) {
	for _, f := range []Figure{fan(), timeline(), decade()} {
		b.Run(f.ID, func(b *testing.B) {
			var svg string
			for b.Loop() {
				svg = svgOf(b, f)
			}
			b.ReportMetric(float64(len(svg)), "bytes")
			b.ReportMetric(float64(zipped(svg)), "zipped")
		})
	}
}

func BenchmarkOption(b *testing.B) {
	for _, f := range []Figure{fan(), timeline()} {
		b.Run(f.ID, func(b *testing.B) {
			var option []byte
			for b.Loop() {
				option, _ = f.Option()
			}
			b.ReportMetric(float64(len(option)), "bytes")
			b.ReportMetric(float64(zipped(string(option))), "zipped")
		})
	}
}

func ExampleFigure_Table() {
	f := Figure{
		ID: "length", Title: "Length", X: Axis{Kind: Calendar}, Y: Axis{Label: "Length", Unit: "mm"},
		Lines:  []Line{{Name: "expected", Points: []XY{{739720, 12.25}, {739727, 13}}}},
		Points: []Points{{Name: "measured", Marks: []Mark{{X: 739727, Y: 12.5, Label: "three of them"}}}},
	}
	for _, row := range f.Table().Rows {
		fmt.Printf("%s: expected %q, measured %q, %q\n", row.Cells[0].Text, row.Cells[1].Text,
			row.Cells[2].Text, row.Cells[3].Text)
	}
	// Output:
	// 14 Apr 2026: expected "12.25", measured "", ""
	// 21 Apr 2026: expected "13", measured "12.5", "three of them"
}
