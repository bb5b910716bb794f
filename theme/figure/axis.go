package figure

import (
	"math"
	"strconv"
	"strings"
)

var nan = math.NaN()

// plain writes a number in full, as a script reads it.
func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// digits returns how many digits behind the point show v with four significant ones; 0 for a whole number.
func digits(v float64) int {
	if v == math.Trunc(v) {
		return 0
	}
	return min(9, max(0, 3-int(math.Floor(math.Log10(math.Abs(v))))))
}

// rounded returns v as it is shown everywhere in numbers: a whole number as it is, others with four significant
// digits.
func rounded(v float64) float64 {
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'f', digits(v), 64), 64)
	if err != nil {
		return v
	}
	return r
}

// value writes a number for people without its unit; "" where it is not finite.
func (a Axis) value(v float64) string {
	if !finite(v) {
		return ""
	}
	if a.Kind == Calendar {
		return dateOf(v).Format("2 Jan 2006")
	}
	if a.Mirrored {
		v = math.Abs(v)
	}
	places := digits(v)
	text := number(v, places)
	if places > 0 {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text
}

// word writes a number for people with its unit.
func (a Axis) word(v float64) string {
	text := a.value(v)
	if text == "" || a.Unit == "" || a.Kind == Calendar {
		return text
	}
	if a.Unit == "%" {
		return text + a.Unit
	}
	return text + "\u00a0" + a.Unit
}

// xAxis draws the X axis below the height at and returns where the drawing ends. A calendar is drawn as a ruler:
// long ticks with their label to the right, short ones between.
func (d *drawing) xAxis(f Figure, fr frame, at float64) float64 {
	var base outline
	base.level(at, fr.left, fr.right)
	d.front("fig-base", base)
	if f.X.Kind == Calendar {
		return d.ruler(fr, at)
	}

	var ticks, strong outline
	last := 0.0 // where the label before ends
	for _, t := range f.X.ticks(fr.x.values, max(2, int((fr.right-fr.left)/70))) {
		x := fr.x.at(t.at)
		ticks.upright(x, at, at+5)
		if t.strong {
			strong.upright(x, fr.top, at)
		}
		half := textWidth(t.label) * textSize / 2
		if x-half < last || x+half > d.width {
			continue
		}
		last = x + half + 6
		d.text("fig-mid", x, at+19, t.label)
	}
	d.front("fig-ticks", ticks)
	d.back("fig-year", strong)
	if title := f.X.title(); title != "" {
		d.text("fig-axis fig-end", fr.right, at+37, shorten(title, fr.right/textSize))
		return at + 43
	}
	return at + 25
}

// ruler draws a calendar axis.
func (d *drawing) ruler(fr frame, at float64) float64 {
	labelled, minor := calendarTicks(fr.x.values.low, fr.x.values.high, fr.right-fr.left)
	var long, little, years, months outline
	for _, day := range minor {
		little.upright(fr.x.at(day), at, at+4)
	}
	bottom := at + 24.0
	for _, t := range labelled {
		x := fr.x.at(t.at)
		long.upright(x, at, at+16)
		if t.strong {
			years.upright(x, fr.top, at)
		} else {
			months.upright(x, fr.top, at)
		}
		room := (d.width - x - 4) / textSize
		if textWidth(t.label) > room {
			continue
		}
		class := "fig-start"
		if t.strong && t.under == "" {
			class += " fig-strong"
		}
		d.text(class, x+4, at+17, t.label)
		if t.under != "" && textWidth(t.under) <= room {
			d.text("fig-strong", x+4, at+33, t.under)
			bottom = at + 40
		}
	}
	d.front("fig-ticks", little)
	d.front("fig-ticks", long)
	d.back("fig-month", months)
	d.back("fig-year", years)
	return bottom
}
