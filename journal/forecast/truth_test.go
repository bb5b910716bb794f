package forecast

import (
	"flag"
	"fmt"
	"math"
	"testing"

	"pleopod/journal"
)

var full = flag.Bool("full", false, "judge the predictions on many invented keepers instead of a few")

// verdict sums up predictions against what came.
type verdict struct {
	n                  int
	in50, in80, in90   float64
	miss, rule, crps   float64
	taught, oracleMiss float64 // sums over broods with five or more behind them
	taughtN            int
}

func (v *verdict) add(h Hindcast) {
	v.count(h.Window, h.Observed, h.CRPS)
	v.rule += math.Abs(float64(h.Observed - h.Brood.Berried - 21))
}

// count holds one window against what came.
func (v *verdict) count(w Window, observed journal.Day, crps float64) {
	v.n++
	v.in50 += held(w.P25, w.P75, observed)
	v.in80 += held(w.P10, w.P90, observed)
	v.in90 += held(w.P05, w.P95, observed)
	v.miss += math.Abs(float64(observed - w.P50))
	v.crps += crps
}

func miss(h Hindcast) float64 { return math.Abs(float64(h.Observed - h.Window.P50)) }

// judge predicts every brood of a keeper blind, and again by an oracle that knows her room.
func judge(v, half *verdict, k *keeper) {
	d := k.write()
	c := k.seen(d)
	f := Days(c)
	oracle := k.oracle(d)
	for _, h := range f.Record.Hindcasts {
		if h.Halfway {
			half.add(h)
			continue
		}
		v.add(h)
		finished := 0
		for _, b := range c.Broods {
			if b.Hatched != 0 && b.Hatched <= h.Made {
				finished++
			}
		}
		if finished >= 5 {
			v.taughtN++
			v.taught += miss(h)
			v.oracleMiss += miss(oracle[h.Brood.ID])
		}
	}
}

// TestAgainstHiddenTruth holds predictions against rooms whose truth they are not told: of the form that the model has,
// and of other forms.
func TestAgainstHiddenTruth(t *testing.T) {
	for _, c := range []struct {
		name string
		room func(seed uint64, years float64) *keeper
	}{{"its own form", newKeeper}, {"other forms", newStranger}} {
		t.Run(c.name, func(t *testing.T) {
			keepers := 6
			if *full {
				keepers = 60
			}
			var v, half verdict
			for seed := range keepers {
				judge(&v, &half, c.room(uint64(seed)+1, 3))
			}
			t.Logf("on the berried day: %v", v)
			t.Logf("half-way: %v", half)
			v.hold(t)
			half.inside(t)
		})
	}
}

func (v verdict) String() string {
	n := float64(v.n)
	text := fmt.Sprintf("%d: 50 %% %.3f, 80 %% %.3f, 90 %% %.3f; error %.2f d, CRPS %.2f d", v.n, v.in50/n, v.in80/n, v.in90/n, v.miss/n, v.crps/n)
	if v.rule > 0 {
		text += fmt.Sprintf("; the rule of 21 days %.2f d", v.rule/n)
	}
	if v.taughtN > 0 {
		taught := float64(v.taughtN)
		text += fmt.Sprintf("; after five broods %.2f d, an oracle %.2f d (%d)", v.taught/taught, v.oracleMiss/taught, v.taughtN)
	}
	return text
}

// hold fails where the predictions are not as good as promised.
func (v verdict) hold(t *testing.T) {
	t.Helper()
	v.inside(t)
	within(t, "error against the fixed rule", v.miss/v.rule, 0, 0.7)
	within(t, "error after five broods against the oracle", v.taught/v.oracleMiss, 0, 1.15)
}

// inside fails where the windows hold more or less than their name says.
func (v verdict) inside(t *testing.T) {
	t.Helper()
	slack := 0.0
	if *full && v.n < 500 {
		t.Fatalf("%d broods, want 500 or more", v.n)
	}
	if !*full {
		slack = 0.04 // few keepers, each with one multiplier: their broods are not independent
	}
	n := float64(v.n)
	within(t, "share inside the 80 % window", v.in80/n, 0.75-slack, 0.87+slack)
	within(t, "share inside the 90 % window", v.in90/n, 0.86-slack, 0.95+slack)
}

func within(t *testing.T, what string, got, low, high float64) {
	t.Helper()
	if math.IsNaN(got) || got < low || got > high {
		t.Errorf("%s is %.3f, want %.3f to %.3f", what, got, low, high)
	}
}
