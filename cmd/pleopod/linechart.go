package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"pleopod/journal/forecast"
	"pleopod/journal/wording"
)

// The size of the chart in a terminal, in characters.
const (
	chartWidth  = 60
	chartHeight = 14
)

// lineChart is a chart of characters. Row 0 is at the bottom.
type lineChart struct {
	top   float64 // what the upper edge of the highest row stands for
	cells [chartHeight][chartWidth]byte
}

// chartOf draws plans against the months: one as a band with its middle, several by their middles, each with
// its letter.
func chartOf(plans []*forecast.Planned) string {
	months := plans[0].Months
	chart := lineChart{top: chartTop(plans)}
	for i := range chart.cells {
		for j := range chart.cells[i] {
			chart.cells[i][j] = ' '
		}
	}
	if goal := float64(plans[0].Plan.Goal); goal > 0 && goal < chart.top {
		for x := range chartWidth {
			chart.put(x, goal, '-')
		}
	}
	for i, p := range plans {
		for x := range chartWidth {
			q := monthOf(p, float64(x)/(chartWidth-1)*float64(months))
			if len(plans) > 1 {
				chart.put(x, q.P50, lineName(i))
				continue
			}
			chart.fill(x, q.P05, q.P95, '.')
			chart.fill(x, q.P25, q.P75, '=')
			chart.put(x, q.P50, '#')
		}
	}
	legend := "# middle, = half of the times, . 9 in 10 times"
	if len(plans) > 1 {
		legend = "the middle of each; a letter that comes later covers an earlier one"
	}
	if plans[0].Plan.Goal > 0 {
		legend += ", - the goal"
	}
	return chart.write(months) + legend + "\n"
}

// chartTop returns a round number above everything that is drawn.
func chartTop(plans []*forecast.Planned) float64 {
	most := 1.0
	for _, p := range plans {
		most = math.Max(most, 1.1*float64(p.Plan.Goal))
		for _, at := range p.Ahead {
			if len(plans) == 1 {
				most = math.Max(most, at.P95)
			}
			most = math.Max(most, at.P50)
		}
	}
	step := math.Pow(10, math.Floor(math.Log10(most)))
	for _, f := range []float64{1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10} {
		if f*step >= most {
			return math.Ceil(f * step)
		}
	}
	return 10 * step
}

// monthOf returns the numbers at a moment in months, on straight lines between the months.
func monthOf(p *forecast.Planned, month float64) forecast.Quantiles {
	n := float64(p.Founders.Total())
	line := []forecast.Quantiles{{P05: n, P25: n, P50: n, P75: n, P95: n}}
	for _, at := range p.Ahead {
		line = append(line, forecast.Quantiles(at.Quantiles))
	}
	i := min(int(month), len(line)-2)
	share := month - float64(i)
	a, b := line[i], line[i+1]
	at := func(from, to float64) float64 { return from + share*(to-from) }
	return forecast.Quantiles{P05: at(a.P05, b.P05), P25: at(a.P25, b.P25), P50: at(a.P50, b.P50),
		P75: at(a.P75, b.P75), P95: at(a.P95, b.P95)}
}

// row returns the row in which a number lies.
func (c *lineChart) row(n float64) int {
	return min(max(0, int(n/c.top*chartHeight)), chartHeight-1)
}

func (c *lineChart) put(x int, n float64, mark byte) { c.cells[c.row(n)][x] = mark }

func (c *lineChart) fill(x int, low, high float64, mark byte) {
	for row := c.row(low); row <= c.row(high); row++ {
		c.cells[row][x] = mark
	}
}

// write puts the axes around the chart.
func (c *lineChart) write(months int) string {
	var b strings.Builder
	width := len(strconv.Itoa(int(c.top)))
	for row := chartHeight - 1; row >= 0; row-- {
		label := ""
		switch row {
		case chartHeight - 1:
			label = strconv.Itoa(int(c.top))
		case chartHeight / 2:
			label = strconv.Itoa(int(math.Round(c.top / 2)))
		case 0:
			label = "0"
		}
		fmt.Fprintf(&b, "%*s |%s\n", width, label, strings.TrimRight(string(c.cells[row][:]), " "))
	}
	b.WriteString(strings.Repeat(" ", width+1) + "+" + strings.Repeat("-", chartWidth) + "\n")
	last := wording.Count(months, "month", "months")
	b.WriteString(strings.Repeat(" ", width+2) + "founding" + strings.Repeat(" ", chartWidth-8-len(last)) + last + "\n")
	return b.String()
}
