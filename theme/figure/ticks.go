package figure

import (
	"math"
	"strconv"
	"strings"
	"time"
)

// tick is one mark of an axis.
type tick struct {
	at     float64
	label  string
	under  string // second row, such as the year below a month
	strong bool   // the first of January, or zero between two mirrored groups
}

// step returns the smallest of 1, 2 and 5 times a power of ten that parts span into at most most pieces.
func step(span float64, most int) float64 {
	raw := span / float64(most)
	power := math.Pow(10, math.Floor(math.Log10(raw)))
	for _, factor := range []float64{1, 2, 5} {
		if factor*power >= raw*(1-1e-9) {
			return factor * power
		}
	}
	return 10 * power
}

// step returns the step of the ticks of an axis.
func (a Axis) step(e extent, most int) float64 {
	size := step(e.high-e.low, most)
	if a.Whole {
		return max(1, size)
	}
	return size
}

// ticks returns the multiples of a 1-2-5 step in a range, at most most+1 of them.
func (a Axis) ticks(e extent, most int) []tick {
	size := a.step(e, most)
	digits := max(0, int(math.Ceil(-math.Log10(size)-1e-9)))
	var ticks []tick
	for i := math.Ceil(e.low/size - 1e-9); i*size <= e.high+size*1e-9; i++ {
		value := i * size
		if a.Mirrored {
			value = math.Abs(value)
		}
		ticks = append(ticks, tick{at: i * size, label: number(value, digits), strong: a.Mirrored && i == 0})
	}
	return ticks
}

// number writes a value with a fixed count of digits behind the point and a true minus sign; from 10,000 on it
// parts thousands with a comma, and from a milliard on, or with more than nine digits behind
// the point, it writes a power of ten.
func number(value float64, digits int) string {
	text := strconv.FormatFloat(math.Abs(value), 'f', digits, 64)
	if math.Abs(value) >= 1e9 || digits > 9 {
		text = strconv.FormatFloat(math.Abs(value), 'g', 4, 64)
	}
	whole, rest, _ := strings.Cut(text, ".")
	if len(whole) > 4 && math.Abs(value) < 1e9 {
		for i := len(whole) - 3; i > 0; i -= 3 {
			whole = whole[:i] + "," + whole[i:]
		}
	}
	if rest != "" {
		whole += "." + rest
	}
	if value < 0 && strings.Trim(text, "0.") != "" {
		return "\u2212" + whole
	}
	return whole
}

// rung is one spacing of calendar ticks: every so many days or months, with smaller ticks between.
type rung struct {
	days, months           int     // one of the two
	apart                  float64 // days between two ticks, at least
	minorDays, minorMonths int     // spacing of the ticks without a label; 0 for none
	room                   float64 // pixels that a label needs
}

// rungs are the spacings of a calendar axis from fine to coarse.
var rungs = [...]rung{
	{days: 1, apart: 1, room: 56},
	{days: 7, apart: 7, minorDays: 1, room: 56},
	{months: 1, apart: 28, minorDays: 7, room: 34},
	{months: 2, apart: 59, minorMonths: 1, room: 34},
	{months: 3, apart: 90, minorMonths: 1, room: 34},
	{months: 6, apart: 181, minorMonths: 1, room: 34},
	{months: 12, apart: 365, minorMonths: 3, room: 40},
	{months: 24, apart: 730, minorMonths: 12, room: 40},
	{months: 60, apart: 1826, minorMonths: 12, room: 40},
	{months: 120, apart: 3652, minorMonths: 24, room: 40},
	{months: 240, apart: 7305, minorMonths: 60, room: 40},
	{months: 600, apart: 18262, minorMonths: 120, room: 40},
	{months: 1200, apart: 36524, minorMonths: 240, room: 40},
	{months: 12000, apart: 365242, minorMonths: 1200, room: 40},
	{months: 24000, apart: 730484, minorMonths: 12000, room: 40},
}

// calendarTicks returns labelled ticks and the places of unlabelled ones for days low to high on width pixels:
// days, Mondays, or the first of every 1, 2, 3, 6 or 12 months, whichever is the finest that leaves room for the
// labels. Years stand in a second row, at the first tick and at each January.
func calendarTicks(low, high, width float64) (labelled []tick, minor []float64) {
	perDay := width / (high - low)
	chosen := rungs[len(rungs)-1]
	for _, r := range rungs {
		if r.apart*perDay >= r.room {
			chosen = r
			break
		}
	}

	for _, at := range chosen.places(low, high) {
		labelled = append(labelled, chosen.tick(at))
	}
	if len(labelled) > 0 && labelled[0].under == "" && chosen.months < 12 {
		labelled[0].under = strconv.Itoa(dateOf(labelled[0].at).Year())
		dropCloseYear(labelled, perDay)
	}

	small := rung{days: chosen.minorDays, months: chosen.minorMonths}
	small.apart = float64(small.days + small.months*30)
	if small.apart*perDay >= 3 {
		minor = small.places(low, high)
	}
	return labelled, minor
}

// dropCloseYear takes the year from the first tick where January follows so soon that the two would touch.
func dropCloseYear(ticks []tick, perDay float64) {
	for _, t := range ticks[1:] {
		if t.under != "" && (t.at-ticks[0].at)*perDay < 40 {
			ticks[0].under = ""
		}
	}
}

// places returns the days of the rung from low to high.
func (r rung) places(low, high float64) []float64 {
	var days []float64
	if r.days > 0 {
		first := math.Ceil(low)
		if r.days == 7 {
			// Rata Die 1 is a Monday.
			first += math.Mod(7-math.Mod(first-1, 7), 7)
		}
		for at := first; at <= high; at += float64(r.days) {
			days = append(days, at)
		}
		return days
	}

	date := dateOf(low)
	month := date.Year()*12 + int(date.Month()) - 1
	for month -= month % r.months; ; month += r.months {
		at := dayOf(month/12, time.Month(month%12+1), 1)
		if at > high {
			return days
		}
		if at >= low {
			days = append(days, at)
		}
	}
}

// tick words one place of the rung.
func (r rung) tick(at float64) tick {
	date := dateOf(at)
	newYear := date.YearDay() == 1
	if r.months >= 12 {
		return tick{at: at, label: strconv.Itoa(date.Year()), strong: true}
	}
	t := tick{at: at, label: date.Format("Jan"), strong: newYear}
	if r.months == 0 {
		t.label = date.Format("2 Jan")
	}
	if newYear {
		t.under = strconv.Itoa(date.Year())
	}
	return t
}
