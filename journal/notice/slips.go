package notice

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"pleopod/journal"
	"pleopod/journal/evidence"
	"pleopod/journal/forecast"
	"pleopod/journal/water"
	"pleopod/journal/wording"
)

// A reading looks like a slip when it is so many sd from the tank's earlier ones, and one usual slip of the pen brings it
// back to within a fifth of them. Assumptions.
const (
	slipFar    = 6
	slipNear   = 0.18 // of the logarithm: a fifth
	slipBefore = 3    // earlier readings that are needed
	slipLatest = 20   // of the earlier readings are looked at
	slipKeep   = 30
)

var typingSlip = Kind{
	Word: "typing-slip", Name: "A reading that looks like a slip",
	Watches:     "A reading is far from all before it, and a lost decimal point, another unit of hardness or two digits in the wrong order would explain it.",
	Probability: "Of a reading at least as far from the tank's earlier ones, if those are normally distributed.",
	find:        (*history).slipNotices,
}

// slip is a reading that looks like one, with what may have been meant.
type slip struct {
	reading
	usual, p float64
	meant    float64
	how      string
	possible bool             // the water can really be so
	private  []*journal.Event // readings of private entries that it is held against
}

// slipKinds are the readings whose slips can be told from troubles: those that never jump tenfold by themselves.
func slipKinds() []journal.ReadingKind {
	return []journal.ReadingKind{journal.Temperature, journal.GH, journal.KH, journal.TDS, journal.Conductivity}
}

// findSlips returns the readings that look like slips, each judged by the good ones before it.
func (h *history) findSlips() []slip {
	if h.slipped != nil {
		return h.mistyped
	}
	h.slipped = map[journal.Position]bool{}
	var all []slip
	for _, kind := range slipKinds() {
		all = append(all, slipsAmong(h.readings(kind))...)
	}
	for _, s := range all {
		h.slipped[s.Position] = !s.possible
	}
	h.mistyped = all
	return all
}

// slipsAmong judges each of the readings of one kind by the good ones before it.
func slipsAmong(readings []reading) (all []slip) {
	var good []float64
	var private []*journal.Event
	for _, x := range readings {
		if x.Below {
			continue
		}
		s, slipped := slipOf(x, good[max(0, len(good)-slipLatest):])
		if slipped {
			s.private = private
			all = append(all, s)
		}
		if slipped && !s.possible {
			continue
		}
		good = append(good, x.Value)
		if x.event.Entry.Private {
			private = append(private, x.event)
		}
	}
	return all
}

// slips returns the places of the readings that look like slips and can be nothing else.
func (h *history) slips() map[journal.Position]bool {
	h.findSlips()
	return h.slipped
}

// slipOf judges a reading by those before it.
func slipOf(x reading, before []float64) (slip, bool) {
	if len(before) < slipBefore {
		return slip{}, false
	}
	low, high := slices.Min(before), slices.Max(before) // the usual lies between, and no spread is smaller than that of low
	if math.Max(x.Value-low, high-x.Value) < slipFar*leastSpread(x.Kind, low) {
		return slip{}, false
	}
	usual, sd := robust(before)
	sd = math.Max(sd, leastSpread(x.Kind, usual))
	z := (x.Value - usual) / sd
	if math.Abs(z) < slipFar || usual <= 0 || x.Value <= 0 {
		return slip{}, false
	}
	s := slip{reading: x, usual: usual, p: evidence.TwoSided(z)}
	for _, way := range []struct {
		factor float64
		how    string
	}{
		{10, "with the decimal point one place further left"}, {0.1, "with the decimal point one place further right"},
		{100, "with the decimal point two places further left"}, {0.01, "with the decimal point two places further right"},
		{water.PPMPerDegree, "as ppm instead of degrees"}, {1 / water.PPMPerDegree, "as degrees instead of ppm"},
	} {
		hardness := x.Kind == journal.GH || x.Kind == journal.KH
		unit := way.factor == water.PPMPerDegree || way.factor == 1/water.PPMPerDegree
		if meant := x.Value / way.factor; math.Abs(math.Log(meant/usual)) < slipNear && (!unit || hardness) {
			s.meant, s.how = meant, way.how
			return s, true
		}
	}
	if meant, ok := swapped(x.Value); ok && math.Abs(math.Log(meant/usual)) < slipNear/2 {
		s.meant, s.possible, s.how = meant, true, "with its two digits the other way round"
		return s, true
	}
	return slip{}, false
}

// robust returns the median of values and an sd from the median distance to it.
func robust(values []float64) (median, sd float64) {
	median = evidence.Quantiles(values, nil, 0.5)[0]
	var away []float64
	for _, v := range values {
		away = append(away, math.Abs(v-median))
	}
	const normal = 1.4826 // from the median distance to the sd of a normal distribution
	return median, normal * evidence.Quantiles(away, nil, 0.5)[0]
}

// leastSpread is the sd that readings around a value have at least, in the unit of the kind: assumptions.
func leastSpread(kind journal.ReadingKind, usual float64) float64 {
	if kind == journal.Temperature {
		return 1
	}
	return math.Max(0.7, 0.1*usual)
}

// swapped returns a whole number of two digits the other way round.
func swapped(x float64) (float64, bool) {
	text := strconv.FormatFloat(x, 'f', -1, 64)
	if len(text) != 2 || text[0] == text[1] {
		return 0, false
	}
	meant, err := strconv.ParseFloat(string([]byte{text[1], text[0]}), 64)
	return meant, err == nil
}

func (h *history) slipNotices() []forecast.Notice {
	var out []forecast.Notice
	for _, s := range h.findSlips() {
		n := forecast.Notice{
			Severity: forecast.Look, Since: s.day, Until: s.day + slipKeep, Probability: s.p, Events: append([]*journal.Event{s.event}, s.private...), Reading: s.Kind,
			Headline: fmt.Sprintf("Is the %s of %s a slip?", wording.ReadingName(s.Kind), h.amount(s.Kind, s.Value)),
			Seen:     fmt.Sprintf("%s on %s (%s).", h.amount(s.Kind, s.Value), wording.Date(s.event.Day), s.Position),
			Expected: fmt.Sprintf("Near %s, as in the readings before. Read %s it would be %s.", h.amount(s.Kind, s.usual), s.how, h.amount(s.Kind, s.meant)),
			Odds:     fmt.Sprintf("A true reading so far from the others has a chance of %s.", wording.Chance(s.p)),
			Other:    []string{"The water really changed so much.", "Another test, or a test that was read in another unit."},
			Checks:   []string{"Look into the notebook or at the test again.", "If it was a slip, correct the entry: until then a reading that cannot be is left out of the other notices.", "If it was not, measure again today."},
			Ends:     fmt.Sprintf("Ends when the entry is corrected, or after %s.", days(slipKeep)),
		}
		out = append(out, n)
	}
	slices.SortStableFunc(out, func(a, b forecast.Notice) int { return int(a.Since - b.Since) })
	return out
}
