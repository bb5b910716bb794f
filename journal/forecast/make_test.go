package forecast

import (
	"testing"

	"pleopod/journal"
)

func TestOneBrood(t *testing.T) {
	start := day(t, "2026-01-10")
	d := newDiary(heated("shelf", 24))
	for i := range 30 {
		d.on(start-20+3*journal.Day(i), "shelf", temperature(24))
	}
	d.on(start, "shelf", berried("amber"))
	f := Days(d.replay(start + 8))
	b := find(t, f, "amber")
	// 18.4 d at 24 °C (239 °C·d above 11 °C), begun a day before she was seen and noticed a day after it was done, on
	// average, and noted at the next look.
	if want := start + 19; b.Hatch.P50 != want {
		t.Errorf("median %s, want %s", b.Hatch.P50, want)
	}
	if b.State != Carried || b.Progress < 0.4 || b.Progress > 0.6 {
		t.Errorf("%s at %.2f of development, want carried at about the half", b.State, b.Progress)
	}
}
