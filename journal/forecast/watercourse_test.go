package forecast

import (
	"math"
	"testing"

	"pleopod/journal"
)

func TestWaterOfADayWithTwoTests(t *testing.T) {
	start := day(t, "2026-01-10")
	d := newDiary(heated("shelf", 24))
	d.on(start-3, "shelf", tested(read(journal.PH, 6)))
	d.on(start, "shelf", tested(read(journal.Ammonia, 1)))
	d.on(start, "shelf", tested(read(journal.PH, 8), read(journal.Temperature, 24)))
	d.on(start+1, "shelf", tested(journal.Reading{Kind: journal.Ammonia, Value: 0.5, Below: true}, read(journal.PH, 8), read(journal.Temperature, 24)))
	d.on(start+2, "shelf", tested(read(journal.Conductivity, 420)))
	d.on(start+3, "shelf", tested(read(journal.Conductivity, 420), read(journal.TDS, 290)))
	colony := d.replay(start + 10)
	colony.Settings.TDSFactor = 0.5
	days := WaterOf(colony.Tanks[0], nil, colony.Settings)
	// The worked example of Francis-Floyd et al., UF/IFAS fact sheet FA031, told in two tests of one day.
	if got := days[1]; math.Abs(got.UnionisedAmmonia.Value-0.0502) > 6e-5 || got.InterpolatedPH || got.EstimatedTemperature {
		t.Errorf("pH and temperature of another test of the day: %+v", got)
	}
	if got := days[3]; got.UnionisedAmmonia.Known || math.Abs(got.UnionisedAtMost.Value-0.0251) > 6e-5 {
		t.Errorf("an upper limit of ammonia gives one of the un-ionised part, got %+v", got)
	}
	if got := days[4]; got.TDS != journal.Known(210.0) || !got.ConvertedTDS {
		t.Errorf("420 µS/cm at the factor 0.5 is 210 ppm, converted; got %+v", got)
	}
	if got := days[5]; got.TDS != journal.Known(290.0) || got.ConvertedTDS {
		t.Errorf("what was measured stands before what was converted; got %+v", got)
	}
}

func TestRatesOf(t *testing.T) {
	start := day(t, "2026-01-10")
	d := newDiary(heated("shelf", 24))
	d.on(start, "shelf", tested(read(journal.GH, 8), read(journal.PH, 7)))
	d.on(start+2, "shelf", tested(read(journal.GH, 10)))
	d.on(start+2, "shelf", tested(read(journal.GH, 12)))
	d.on(start+9, "shelf", tested(journal.Reading{Kind: journal.GH, Value: 1, Below: true}))
	d.on(start+16, "shelf", tested(read(journal.GH, 9)))
	rates := RatesOf(d.replay(start + 20).Tanks[0])
	want := []WaterRate{{journal.GH, start, start + 2, 8, 11}, {journal.GH, start + 2, start + 16, 11, 9}}
	if len(rates) != 2 || rates[0] != want[0] || rates[1] != want[1] {
		t.Fatalf("got %+v, want %+v", rates, want)
	}
	if got := rates[1].PerWeek(); got != -1 {
		t.Errorf("2 degrees in 14 days are 1 a week, got %v", got)
	}
}

func TestCreepOf(t *testing.T) {
	start := day(t, "2026-01-01")
	d := newDiary(heated("shelf", 24))
	// by hand: half a degree a week beside changes of a fifth with water of 6 degrees
	gh := 8.0
	for week := range 12 {
		at := start + journal.Day(7*week)
		d.on(at, "shelf", tested(read(journal.GH, gh)))
		change := &journal.WaterChange{Share: journal.Known(0.2)}
		if week == 0 {
			change.With = []journal.Reading{read(journal.GH, 6)}
		}
		d.on(at, "shelf", change)
		gh = 0.8*gh + 0.2*6 + 0.5
	}
	colony := d.replay(start + 80)
	all := CreepOf(colony.Tanks[0], colony.AsOf)
	if len(all) != 1 || all[0].Kind != journal.GH {
		t.Fatalf("got %+v", all)
	}
	c := all[0]
	if math.Abs(c.PerWeek-0.5) > 1e-9 || c.Taken != 11 || c.Fresh != journal.Known(6.0) {
		t.Errorf("half a degree a week with the water of the first note, 11 times taken again; got %+v", c)
	}
	// twelve changes of a fifth in 81 days, in a week on average 1 − 0.8^(12·7/81)
	if want := 1 - math.Pow(0.8, 12*7/81.0); math.Abs(c.Share-want) > 1e-9 {
		t.Errorf("a weekly share of %v, want %v", c.Share, want)
	}
	if want := 6 + 0.5*(1-c.Share)/c.Share; math.Abs(c.Settles.Value-want) > 1e-9 {
		t.Errorf("settles at %v, want %v", c.Settles.Value, want)
	}
	for _, row := range []struct {
		perWeek, sd float64
		want        bool
	}{{0.5, 0.1, false}, {-0.5, 0.1, false}, {0.5, 0.4, true}, {0.01, 0.001, true}} {
		c.PerWeek, c.SD = row.perWeek, row.sd
		if c.Slight() != row.want {
			t.Errorf("%v ± %v dGH a week: slight is %v", row.perWeek, row.sd, c.Slight())
		}
	}
	short := d.replay(start + 8)
	if all := CreepOf(short.Tanks[0], short.AsOf); len(all) != 0 {
		t.Errorf("two readings made %+v", all)
	}
}
