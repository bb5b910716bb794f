package figure

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// words joins the labels of ticks; a strong one has a star, the second row follows a slash.
func words(ticks []tick) string {
	var all []string
	for _, t := range ticks {
		word := t.label
		if t.strong {
			word += "*"
		}
		if t.under != "" {
			word += "/" + t.under
		}
		all = append(all, word)
	}
	return strings.Join(all, " ")
}

func TestNumericTicks(t *testing.T) {
	tests := []struct {
		low, high float64
		most      int
		mirrored  bool
		whole     bool
		want      string
		source    string
	}{
		{0, 100, 5, false, false, "0 20 40 60 80 100", "1-2-5 rule by hand"},
		{0, 87, 5, false, false, "0 20 40 60 80", "by hand"},
		{6.5, 7.5, 3, false, false, "6.5 7.0 7.5", "by hand"},
		{0, 0.06, 4, false, false, "0.00 0.02 0.04 0.06", "by hand"},
		{-3, 12, 4, false, false, "0 5 10", "by hand"},
		{-10, 10, 4, false, false, "−10 −5 0 5 10", "by hand"},
		{-10, 10, 4, true, false, "10 5 0* 5 10", "the sign is left out on mirrored axes"},
		{0, 25000, 3, false, false, "0 10,000 20,000", "by hand"},
		{1e-7, 3e-7, 2, false, false, "0.0000001 0.0000002 0.0000003", "limit case"},
		{0, 3, 8, false, true, "0 1 2 3", "no half shrimp"},
		{20, 20.4, 4, false, false, "20.0 20.1 20.2 20.3 20.4", "rounding errors must not eat the last tick"},
	}
	for _, test := range tests {
		if got := words(Axis{Mirrored: test.mirrored, Whole: test.whole}.ticks(extent{test.low, test.high}, test.most)); got != test.want {
			t.Errorf("ticks from %v to %v, %d parts: %s, want %s", test.low, test.high, test.most, got, test.want)
		}
	}
}

func TestNumericTicksLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low := rapid.Float64Range(-1e6, 1e6).Draw(t, "low")
		span := math.Pow(10, rapid.Float64Range(-3, 7).Draw(t, "log of the span"))
		most := rapid.IntRange(2, 12).Draw(t, "most")
		ticks := Axis{}.ticks(extent{low, low + span}, most)
		if len(ticks) > most+1 || len(ticks) < (most-1)/3 {
			t.Fatalf("%d ticks for at most %d parts", len(ticks), most)
		}
		for i, tick := range ticks {
			if tick.at < low-span*1e-6 || tick.at > low+span*(1+1e-6) {
				t.Fatalf("a tick at %v outside %v to %v", tick.at, low, low+span)
			}
			if i > 0 && tick.label == ticks[i-1].label {
				t.Fatalf("two ticks are called %s", tick.label)
			}
		}
	})
}

func TestCalendarTicks(t *testing.T) {
	day := func(text string) float64 {
		d, err := time.Parse(time.DateOnly, text)
		if err != nil {
			t.Fatal(err)
		}
		return dayOf(d.Year(), d.Month(), d.Day())
	}
	tests := []struct {
		low, high string
		width     float64
		want      string
	}{
		{"2026-04-28", "2026-05-03", 650, "28 Apr/2026 29 Apr 30 Apr 1 May 2 May 3 May"},
		{"2025-12-30", "2026-01-02", 650, "30 Dec/2025 31 Dec 1 Jan*/2026 2 Jan"},
		{"2026-04-28", "2026-05-31", 650, "4 May/2026 11 May 18 May 25 May"},
		{"2025-10-07", "2026-10-07", 650, "Nov/2025 Dec Jan*/2026 Feb Mar Apr May Jun Jul Aug Sep Oct"},
		{"2025-10-07", "2026-10-07", 300, "Nov/2025 Jan*/2026 Mar May Jul Sep"},
		{"2025-12-20", "2026-06-10", 240, "Jan*/2026 Feb Mar Apr May Jun"},
		{"2024-02-10", "2026-10-07", 500, "Apr/2024 Jul Oct Jan*/2025 Apr Jul Oct Jan*/2026 Apr Jul Oct"},
		{"2024-02-10", "2026-10-07", 200, "Jul Jan*/2025 Jul Jan*/2026 Jul"},
		{"2016-02-10", "2026-02-10", 650, "2017* 2018* 2019* 2020* 2021* 2022* 2023* 2024* 2025* 2026*"},
		{"2016-02-10", "2026-02-10", 300, "2018* 2020* 2022* 2024* 2026*"},
		{"0001-01-01", "9999-12-31", 300, "2000* 4000* 6000* 8000*"},
	}
	for _, test := range tests {
		labelled, _ := calendarTicks(day(test.low), day(test.high), test.width)
		if got := words(labelled); got != test.want {
			t.Errorf("calendarTicks(%s, %s, %v) = %s, want %s", test.low, test.high, test.width, got, test.want)
		}
	}
}

// TestCalendarTicksLaws checks that labels have room, ticks lie in the range, and weeks begin on Mondays.
func TestCalendarTicksLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low := rapid.Float64Range(dayOf(1900, 1, 1), dayOf(2100, 1, 1)).Draw(t, "low")
		span := math.Pow(10, rapid.Float64Range(0.5, 5).Draw(t, "log of the span"))
		width := rapid.Float64Range(150, 700).Draw(t, "width")
		labelled, minor := calendarTicks(low, low+span, width)
		months, days := 0, 0
		for i, tick := range labelled {
			if tick.at < low || tick.at > low+span {
				t.Fatalf("a tick outside")
			}
			if i > 0 {
				if apart := (tick.at - labelled[i-1].at) * width / span; apart < textWidth(labelled[i-1].label)*textSize+4 {
					t.Fatalf("%q has %.1f pixels", labelled[i-1].label, apart)
				}
			}
			if dateOf(tick.at).Day() == 1 {
				months++
			}
			if dateOf(tick.at).Weekday() == time.Monday {
				days++
			}
			if newYear := dateOf(tick.at).YearDay() == 1; newYear != tick.strong {
				t.Fatalf("%v: strong is %v", dateOf(tick.at), tick.strong)
			}
		}
		if len(labelled) > 2 && labelled[1].at-labelled[0].at > 1 && months < len(labelled) && days < len(labelled) {
			t.Fatalf("neither firsts of a month nor Mondays: %s", words(labelled))
		}
		for i := 1; i < len(minor); i++ {
			if (minor[i]-minor[i-1])*width/span < 2.5 {
				t.Fatal("small ticks run together")
			}
		}
	})
}

// TestDays compares the day numbers with published ones.
func TestDays(t *testing.T) {
	tests := []struct {
		year  int
		month time.Month
		day   int
		want  float64
	}{
		// Reingold & Dershowitz, Calendrical Calculations, appendix C: sample dates (from memory).
		{1, time.January, 1, 1},
		{1945, time.November, 12, 710347},
		{2000, time.January, 1, 730120},
	}
	for _, test := range tests {
		got := dayOf(test.year, test.month, test.day)
		if got != test.want {
			t.Errorf("dayOf(%d, %d, %d) = %v, want %v", test.year, test.month, test.day, got, test.want)
		}
		date := dateOf(test.want + 0.7)
		if diff := cmp.Diff(time.Date(test.year, test.month, test.day, 0, 0, 0, 0, time.UTC), date); diff != "" {
			t.Errorf("dateOf(%v): %s", test.want, diff)
		}
	}
	if dayOf(9999, 12, 31) != lastDay {
		t.Errorf("the last day is %v", dayOf(9999, 12, 31))
	}
}

func TestValue(t *testing.T) {
	length := Axis{Unit: "mm"}
	tests := []struct {
		axis Axis
		in   float64
		want string
	}{
		{length, 21, "21\u00a0mm"},
		{length, 21.04, "21.04\u00a0mm"},
		{length, 21.0449, "21.04\u00a0mm"},
		{length, 21.5, "21.5\u00a0mm"},
		{length, 0.004832, "0.004832\u00a0mm"},
		{length, -1.5, "−1.5\u00a0mm"},
		{length, 12345.6, "12,346\u00a0mm"},
		{length, math.Copysign(0, -1), "0\u00a0mm"},
		{length, math.NaN(), ""},
		{length, math.Inf(1), ""},
		{Axis{Unit: "%"}, 12.5, "12.5%"},
		{Axis{Mirrored: true}, -12, "12"},
		{Axis{Kind: Calendar, Unit: "day"}, dayOf(2026, 5, 1), "1 May 2026"},
		{length, 3e10, "3e+10\u00a0mm"},
		{length, -1e300, "−1e+300\u00a0mm"},
	}
	for _, test := range tests {
		got := test.axis.word(test.in)
		if got != test.want {
			t.Errorf("word(%v) with unit %q = %q, want %q", test.in, test.axis.Unit, got, test.want)
		}
	}
}
