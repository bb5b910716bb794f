package forecast

import (
	"math"
	"testing"

	"pleopod/journal"
)

// tested is a water test.
func tested(readings ...journal.Reading) *journal.WaterTest {
	return &journal.WaterTest{Readings: readings}
}

func read(kind journal.ReadingKind, value float64) journal.Reading {
	return journal.Reading{Kind: kind, Value: value}
}

func TestUnionisedAmmonia(t *testing.T) {
	start := day(t, "2026-01-10")
	d := newDiary(heated("shelf", 24))
	// 1 mg/L at pH 8.0 and 24 °C gives 0.0502: the worked example of Francis-Floyd et al., UF/IFAS fact sheet FA031
	d.on(start, "shelf", tested(read(journal.Ammonia, 1), read(journal.PH, 8), read(journal.Temperature, 24)))
	// no pH of its own: half-way between 8.0 and 7.0 lies 7.5
	d.on(start+5, "shelf", tested(read(journal.Ammonia, 1), read(journal.Temperature, 20)))
	d.on(start+10, "shelf", tested(read(journal.PH, 7)))
	d.on(start+40, "shelf", tested(read(journal.Ammonia, 1), read(journal.Temperature, 24)))
	d.on(start+41, "shelf", tested(journal.Reading{Kind: journal.Ammonia, Value: 0.25, Below: true}, read(journal.PH, 8)))
	d.on(start+60, "shelf", tested(read(journal.Ammonia, 0.5), read(journal.PH, 8)))
	days := Days(d.replay(start + 60)).Tanks[0].Water
	for i, c := range []struct {
		name  string
		known bool
		want  float64
		tol   float64
		drawn bool
	}{
		{"pH and temperature of the day", true, 0.0502, 6e-5, false},
		{"pH between two days; .012361 at pH 7.5 and 20 °C by the formula of Emerson et al. 1975", true, 0.012361, 1e-6, true},
		{"no ammonia", false, 0, 0, false},
		{"no pH within two weeks, the next a day later only says what it was then", true, 0.0502, 6e-5, true},
		{"only a limit", false, 0, 0, false},
		{"temperature from the course, near the set-point", true, 0.0251, 2e-3, false},
	} {
		got := days[i]
		if got.UnionisedAmmonia.Known != c.known || math.Abs(got.UnionisedAmmonia.Value-c.want) > c.tol || got.InterpolatedPH != c.drawn {
			t.Errorf("%s: %+v, interpolated %v; want %g, %v", c.name, got.UnionisedAmmonia, got.InterpolatedPH, c.want, c.drawn)
		}
	}
}
