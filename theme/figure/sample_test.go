package figure

import (
	"flag"
	"fmt"
	"html/template"
	"math"
	"os"
	"strings"
	"testing"
)

var gallery = flag.String("gallery", "", "write the sample figures to this HTML file, to be looked at")

// day1 is 2025-10-07, a Tuesday.
var day1 = dayOf(2025, 10, 7)

// samples are the figures that the tests of the package share: each kind once.
func samples() []Figure {
	return []Figure{fan(), growth(), timeline(), together(), strip(), pyramid(), ruler(), agreement(),
		crowded(), empty(), decade()}
}

// fan is a forecast of numbers with two bands, counts, a day and a target.
func fan() Figure {
	f := Figure{
		ID: "fan", Title: "Shrimp in the tank", Description: "Numbers from October 2025, with the year ahead.",
		X: Axis{Kind: Calendar}, Y: Axis{Label: "Shrimp", FromZero: true},
		Strips: []Strip{{From: day1 + 206, To: day1 + 400, Label: "ahead"}},
		Rules: []Rule{{Value: day1 + 206, Label: "1 May", Tone: Stone},
			{Value: 100, Level: true, Label: "room for 100", Tone: Shrimp}},
	}
	wide, middle := Band{Name: "9 of 10 runs", Tone: Water, Faint: true}, Band{Name: "half of the runs", Tone: Water}
	line := Line{Name: "median", Tone: Water}
	for i := range 366 {
		t := float64(i)
		m := 10 + 110/(1+math.Exp(-(t-170)/45)) + 3*math.Sin(t/9)
		s := 1 + 0.2*math.Max(0, t-206)
		if t < 206 {
			s = 3 + 2*math.Sin(t/5)*math.Sin(t/5)
		}
		wide.Edges = append(wide.Edges, Edge{day1 + t, m - 1.64*s, m + 1.64*s})
		middle.Edges = append(middle.Edges, Edge{day1 + t, m - 0.67*s, m + 0.67*s})
		line.Points = append(line.Points, XY{day1 + t, m})
	}
	counts := Points{Name: "counted", Tone: Shrimp, Shape: Ring}
	for i := 0; i < 206; i += 14 {
		counts.Marks = append(counts.Marks,
			Mark{X: day1 + float64(i), Y: math.Round(line.Points[i].Y + 5*math.Sin(float64(i))),
				Label: "counted by torch", Link: "entries/count.html"})
	}
	f.Bands, f.Lines, f.Points = []Band{wide, middle}, []Line{line}, []Points{counts}
	return f
}

// growth has two lines of different tones, and points.
func growth() Figure {
	f := Figure{
		ID: "growth", Title: "Growth of brood amber", Description: "Body length against age.",
		X: Axis{Label: "Age", Unit: "days"}, Y: Axis{Label: "Body length", Unit: "mm", FromZero: true},
	}
	for i, name := range []string{"female", "male"} {
		l := Line{Name: name, Tone: []Tone{Shrimp, Water}[i]}
		b := Band{Name: name + ", 8 of 10", Tone: l.Tone, Faint: true}
		for a := 0.0; a <= 300; a += 5 {
			v := []float64{26, 20.5}[i] * (1 - math.Exp(-(a+9)/95))
			l.Points = append(l.Points, XY{a, v})
			b.Edges = append(b.Edges, Edge{a, v * 0.92, v * 1.08})
		}
		f.Lines, f.Bands = append(f.Lines, l), append(f.Bands, b)
	}
	f.Lines = append(f.Lines, Line{Name: "by the book", Tone: Stone, Dashed: true,
		Points: []XY{{0, 2.3}, {100, 16}, {200, 21}, {300, 23}}})
	f.Points = []Points{{Name: "measured", Tone: Eggs, Shape: Diamond,
		Marks: []Mark{{30, 8.5, "", ""}, {62, 13, "", ""}, {95, 16.8, "berried for the first time", ""}}}}
	return f
}

// timeline has lanes only.
func timeline() Figure {
	f := Figure{
		ID: "timeline", Title: "Broods of the north shelf", Description: "One row for each brood.",
		X: Axis{Kind: Calendar, Min: day1 - 20, Max: day1 + 280},
		Keys: []Key{
			{Name: "carried", Tone: Eggs}, {Name: "hatch expected", Tone: Eggs, Soft: true}, {Name: "shrimplets", Tone: Water},
			{Name: "sexable", Tone: Shrimp, Soft: true}, {Name: "mature", Tone: Moss}, {Name: "hatched", Tone: Shrimp, Shape: Diamond},
			{Name: "dropped", Tone: Stone, Shape: Wedge}, {Name: "resting", Tone: Sand}, {Name: "moved", Tone: Stone},
		},
		Rules:  []Rule{{Value: day1 + 206, Label: "today", Tone: Shrimp}, {Value: day1 + 150}},
		Strips: []Strip{{From: day1 + 206, To: day1 + 300, Label: "ahead"}},
	}
	for i, name := range []string{"amber", "flint", "fern", "the brood with a name that is far too long for its row", "شروق", "小虾", "moss & <rock>"} {
		at := day1 + float64(i*31)
		lane := Lane{Label: name, Link: "broods/" + fmt.Sprint(i) + ".html", Spans: []Span{
			{From: at, To: at + 24, Tone: Eggs, Label: "carried", Link: "entries/a.html"},
			{From: at + 24, To: at + 80, Tone: Water, Label: "shrimplets"},
			{From: at + 70, To: at + 100, Tone: Shrimp, Soft: true, Label: "sexable"},
			{From: at + 100, To: at + 170, Tone: Moss, Label: "mature", Link: "cohorts/x.html"},
		}, Marks: []LaneMark{{X: at + 24, Tone: Shrimp, Shape: Diamond, Label: "hatched, about 24", Link: "entries/b.html"}}}
		if i == 5 {
			lane.Spans = []Span{{From: at, To: at + 40, Tone: Sand, Label: "resting"},
				{From: at + 40, To: at + 75, Tone: Stone, Label: "moved"}}
			lane.Marks = []LaneMark{{X: at + 9, Tone: Stone, Shape: Wedge, Label: "dropped"}}
		}
		if i == 6 {
			lane.Spans = []Span{{From: at, To: at + 20, Tone: Eggs, Label: "carried"},
				{From: at + 20, To: at + 33, Tone: Eggs, Soft: true, Label: "hatch expected"}}
			lane.Marks = nil
		}
		f.Lanes = append(f.Lanes, lane)
	}
	return f
}

// together has lanes above a plot.
func together() Figure {
	f := timeline()
	f.ID, f.Title = "together", "Broods and temperature"
	f.Lanes, f.Keys = f.Lanes[:3], f.Keys[:5]
	f.Y = Axis{Label: "Temperature", Unit: "°C"}
	line := Line{Name: "temperature", Tone: Stone}
	for i := range 200 {
		y := 22 + 2*math.Sin(float64(i)/30) + 0.4*math.Sin(float64(i)*1.7)
		if i > 90 && i < 100 {
			y = math.NaN()
		}
		line.Points = append(line.Points, XY{day1 + float64(i), y})
	}
	f.Lines = []Line{line}
	return f
}

// strip is a small figure with a range that the keeper wants.
func strip() Figure {
	f := Figure{ID: "ph", Title: "pH", Description: "pH since spring.", X: Axis{Kind: Calendar},
		Y: Axis{Label: "pH"}, Height: 90}
	f.Bands = []Band{{Name: "wanted", Tone: Moss, Faint: true, Edges: []Edge{{day1, 6.8, 7.4}, {day1 + 40, 6.8, 7.4}}}}
	f.Points = []Points{{Name: "measured", Tone: Water}}
	f.Lines = []Line{{Tone: Water}}
	for i := range 9 {
		p := XY{day1 + float64(i*5), 7 + 0.3*math.Sin(float64(i))}
		f.Lines[0].Points = append(f.Lines[0].Points, p)
		f.Points[0].Marks = append(f.Points[0].Marks, Mark{X: p.X, Y: p.Y})
	}
	return f
}

// pyramid has mirrored lanes.
func pyramid() Figure {
	f := Figure{
		ID: "pyramid", Title: "Ages", Description: "Females to the left, males to the right.",
		X:    Axis{Label: "Shrimp", Mirrored: true},
		Keys: []Key{{Name: "females", Tone: Shrimp}, {Name: "males", Tone: Water}},
	}
	for i, name := range []string{"over a year", "8–12 months", "4–8 months", "1–4 months", "under a month"} {
		n := float64(3 + i*i*2)
		f.Lanes = append(f.Lanes, Lane{Label: name,
			Spans: []Span{{From: -n, To: 0, Tone: Shrimp, Label: fmt.Sprint(n)},
				{From: 0, To: n - 1, Tone: Water, Label: fmt.Sprint(n - 1)}}})
	}
	return f
}

// ruler is one month with marks.
func ruler() Figure {
	return Figure{
		ID: "ruler", Title: "April 2026", Description: "What happened on which day.",
		X: Axis{Kind: Calendar, Min: dayOf(2026, 4, 1), Max: dayOf(2026, 5, 1)},
		Lanes: []Lane{{Label: "April", Marks: []LaneMark{
			{X: dayOf(2026, 4, 3), Tone: Eggs, Shape: Dot, Label: "berried"}, {X: dayOf(2026, 4, 8), Tone: Stone, Shape: Ring, Label: "counted"},
			{X: dayOf(2026, 4, 9), Tone: Shrimp, Shape: Diamond, Label: "hatched"}, {X: dayOf(2026, 4, 22), Tone: Sand, Shape: Bar, Label: "moved"},
			{X: dayOf(2026, 4, 28), Tone: Moss, Shape: Wedge, Label: "sold"},
		}}},
	}
}

// agreement compares two numbers, with a line where they are equal.
func agreement() Figure {
	f := Figure{ID: "agreement", Title: "Foretold and seen", Description: "Days from eggs to shrimplets.",
		X: Axis{Label: "Foretold", Unit: "days"}, Y: Axis{Label: "Seen", Unit: "days"},
		Lines:  []Line{{Name: "equal", Tone: Stone, Points: []XY{{14, 14}, {34, 34}}}},
		Points: []Points{{Name: "broods", Tone: Moss, Shape: Dot}}}
	for i := range 14 {
		x := 16 + float64(i)*1.2
		f.Points[0].Marks = append(f.Points[0].Marks,
			Mark{X: x, Y: x + 2*math.Sin(float64(i)*2), Label: fmt.Sprintf("brood %d", i), Link: "b.html"})
	}
	return f
}

// crowded has more rules and names than there is room for.
func crowded() Figure {
	f := Figure{ID: "crowded", Title: "Many rules", Description: "Rules close to each other.",
		X: Axis{Kind: Calendar}, Y: Axis{Label: "Ammonia", Unit: "mg/L"}}
	l := Line{Name: "a line with quite a long name that has to be cut somewhere, because no screen is as wide as this", Tone: Water}
	for i := range 120 {
		l.Points = append(l.Points, XY{day1 + float64(i), 0.02 + 0.02*math.Sin(float64(i)/11)})
	}
	f.Lines = []Line{l, {Name: "second", Tone: Moss, Points: []XY{{day1, 0}, {day1 + 119, 0.04}}},
		{Name: "third", Tone: Eggs, Points: []XY{{day1, 0.01}, {day1 + 119, 0.05}}}, {Name: "fourth", Tone: Sand, Points: []XY{{day1, 0.02}, {day1 + 119, 0.06}}}}
	for i := range 6 {
		f.Rules = append(f.Rules, Rule{Value: day1 + 60 + float64(i)*9,
			Label: fmt.Sprintf("water change %d", i+1), Tone: Stone})
	}
	f.Rules = append(f.Rules, Rule{Value: 0.02, Level: true, Label: "limit one", Tone: Shrimp},
		Rule{Value: 0.022, Level: true, Label: "limit two", Tone: Shrimp},
		Rule{Value: 0.024, Level: true, Label: "limit three", Tone: Shrimp})
	return f
}

// empty has nothing to draw.
func empty() Figure {
	return Figure{ID: "empty", Title: "Nothing yet", Description: "No numbers.", X: Axis{Kind: Calendar},
		Y: Axis{Label: "Shrimp"}, Lines: []Line{{Name: "median", Points: []XY{{math.NaN(), 1}, {3, math.Inf(1)}}}}}
}

// decade is ten years of daily means.
func decade() Figure {
	f := Figure{ID: "decade", Title: "Ten years of temperature", Description: "Daily means.",
		X: Axis{Kind: Calendar}, Y: Axis{Label: "Temperature", Unit: "°C"}}
	l := Line{Name: "daily mean", Tone: Water}
	for i := range 3650 {
		l.Points = append(l.Points, XY{day1 + float64(i),
			22 + 3*math.Sin(float64(i)/58.1) + 0.6*math.Sin(float64(i)*2.3)})
	}
	f.Lines = []Line{l}
	return f
}

// TestSamplesAreWrittenToAPage writes the samples to a page, each with its table.
func TestSamplesAreWrittenToAPage(t *testing.T) {
	if *gallery == "" {
		t.Skip("no -gallery")
	}
	var page strings.Builder
	page.WriteString(`<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>Figures</title>
<style>body{max-width:46rem;margin:1rem auto;padding:0 1rem;background:var(--fig-paper);color:var(--fig-ink);font-family:sans-serif}figure{margin:0}table{font-size:.8rem;display:block;overflow-x:auto}td{padding-right:1em}a{color:var(--fig-link)}
` + Style() + `</style></head><body><main><h1>Figures</h1>
`)
	for _, f := range samples() {
		fmt.Fprintf(&page, "<figure>\n<figcaption>%s</figcaption>\n%s<details><summary>Numbers of %s</summary>\n", f.Title, svgOf(t, f), f.Title)
		writeTable(&page, f.Table())
		page.WriteString("</details>\n</figure>\n")
	}
	page.WriteString("</main></body></html>\n")
	if err := os.WriteFile(*gallery, []byte(page.String()), 0o644); err != nil {
		t.Fatal(err)
	}
}

func writeTable(page *strings.Builder, table Table) {
	page.WriteString("<table><tr><th>" + strings.Join(table.Head, "</th><th>") + "</th></tr>\n")
	for _, row := range table.Rows {
		page.WriteString("<tr>")
		for _, cell := range row.Cells {
			page.WriteString("<td>" + template.HTMLEscapeString(cell.Text) + "</td>")
		}
		page.WriteString("</tr>\n")
	}
	page.WriteString("</table><p>" + table.Note + "</p>\n")
}
