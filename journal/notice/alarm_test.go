package notice

import (
	"flag"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
)

var full = flag.Bool("full", false, "judge the notices on 404 invented colonies instead of ten")

// trouble is something that goes wrong in a pond on a day, and how its first trace is told from the diary.
type trouble struct {
	name        string
	oneSex, old bool
	strike      func(k *keeper)                        // on the day it begins
	after       func(k *keeper, days float64)          // on every day from then on
	trace       func(k *keeper, e *journal.Entry) bool // whether an entry from that day on holds a trace
}

func troubles() []trouble {
	return []trouble{
		{name: "heater failure",
			strike: func(k *keeper) { k.pond.heats = false },
			// a temperature two degrees below the set-point
			trace: func(k *keeper, e *journal.Entry) bool {
				value, ok := readingIn(e, journal.Temperature)
				return ok && value <= k.pond.set-2
			}},
		{name: "copper dose",
			strike: func(k *keeper) {
				k.pond.poison = 0.12
				dose := &journal.Dosed{Amount: "5 mL", Substance: "plant fertiliser"}
				if k.r.Float64() < 0.5 {
					dose.Substance = "fish medicine with copper sulfate"
				}
				k.say(dose)
			},
			after: func(k *keeper, days float64) {
				if days > 7 {
					k.pond.poison *= 0.7
				}
			},
			// the dose, where its name tells, else the first dead
			trace: func(_ *keeper, e *journal.Entry) bool {
				return anyOf(e, func(h journal.Happening) bool {
					dose, ok := h.(*journal.Dosed)
					_, died := h.(*journal.Died)
					return died || ok && strings.Contains(dose.Substance, "copper")
				})
			}},
		{name: "one-sex founders", oneSex: true,
			// a count in which six or more of one sex were told apart and none of the other
			trace: func(_ *keeper, e *journal.Entry) bool {
				return anyOf(e, func(h journal.Happening) bool {
					c, ok := h.(*journal.Counted)
					return ok && c.Shrimp.Sorted && min(c.Shrimp.Females.Value, c.Shrimp.Males.Value) == 0 && max(c.Shrimp.Females.Value, c.Shrimp.Males.Value) >= 6
				})
			}},
		{name: "predator",
			strike: func(k *keeper) { k.pond.hunted = 0.02 },
			// a count of no more than half of the mean of the last four glances before it came
			trace: func(k *keeper, e *journal.Entry) bool {
				return anyOf(e, func(h journal.Happening) bool {
					c, ok := h.(*journal.Counted)
					return ok && c.Method == journal.Glance && float64(c.Shrimp.Total) <= 0.5*k.before
				})
			}},
		{name: "hardness crash",
			strike: func(k *keeper) {
				k.pond.gh = 1 + 1.2*k.r.Float64()
				k.say(&journal.WaterChange{Share: journal.Known(0.7)})
			},
			// a test of hardness, or a failed moult
			trace: func(_ *keeper, e *journal.Entry) bool {
				_, tested := readingIn(e, journal.GH)
				return tested || anyOf(e, func(h journal.Happening) bool { m, ok := h.(*journal.Moulted); return ok && m.Failed })
			}},
		{name: "old founders", old: true},
	}
}

// anyOf reports whether something of a kind happened in an entry.
func anyOf(e *journal.Entry, is func(journal.Happening) bool) bool {
	return slices.ContainsFunc(e.Events, func(e journal.Event) bool { return is(e.What) })
}

func readingIn(e *journal.Entry, kind journal.ReadingKind) (float64, bool) {
	for _, event := range e.Events {
		if test, ok := event.What.(*journal.WaterTest); ok {
			for _, r := range test.Readings {
				if r.Kind == kind {
					return r.Value, true
				}
			}
		}
	}
	return 0, false
}

// keep lives through a year, with a trouble where one is given, and returns the keeper with the day it began and its first
// trace in the diary, both zero without.
func keep(seed uint64, t *trouble) (k *keeper, began, trace journal.Day) {
	r := rand.New(rand.NewPCG(seed, 7))
	oneSex, old := t != nil && t.oneSex, t != nil && t.old
	p := newPond(r, oneSex, old)
	age := 0.0
	if r.Float64() < 0.5 || old && r.Float64() < 0.6 {
		for _, s := range p.animals {
			age -= s.born / float64(len(p.animals))
		}
		age = math.Round(age/30.44) * 30.44
	}
	k = newKeeper(r, p, age)
	strikes := 120 + 180*r.Float64()
	for p.day < 365 {
		p.live()
		written := len(k.journal.Entries)
		if t != nil && t.strike != nil && p.day >= strikes && began == 0 {
			began = k.start + journal.Day(p.day)
			k.before = k.usualGlance()
			t.strike(k)
		}
		if began != 0 && t.after != nil {
			t.after(k, p.day-strikes)
		}
		k.follow()
		started := t != nil && (t.strike == nil || began != 0)
		if started && t.trace != nil && trace == 0 && len(k.journal.Entries) > written && t.trace(k, k.journal.Entries[written]) {
			trace = k.start + journal.Day(p.day)
		}
	}
	if old && age > 0 {
		trace = k.start + journal.Day(max(0, 365-age))
	}
	return k, began, trace
}

// judged is what the notices made of a year.
type judged struct {
	notices   []forecast.Notice
	firstEggs float64
}

func judge(t testing.TB, k *keeper) judged {
	t.Helper()
	c := colony.Replay(k.journal, k.start+365)
	for _, p := range append(k.journal.Problems, c.Problems...) {
		if p.Severity == journal.Error {
			t.Fatal(p)
		}
	}
	standing, ended := Weigh(forecast.Past(c))
	return judged{append(ended, standing...), k.firstEggs}
}

// TestHealthyColoniesAreQuietAndTroublesAreTold holds how often notices cry wolf in healthy colonies, and how many troubles they tell of within a week of the
// first trace in the diary: on ten colonies, and with -full on 404. With -full it found on 200 healthy colonies 0.16 "soon" a
// colony-year and no "now", and of 194 troubles with a trace 85 %: heater failure 31 of 34, copper dose 34 of 34, one-sex
// founders 14 of 34, predator 28 of 34, hardness crash 34 of 34, old founders 24 of 24. What one-sex founders miss in the week
// after eggs are late comes one to three weeks later.
func TestHealthyColoniesAreQuietAndTroublesAreTold(t *testing.T) {
	healthy, each := 4, 1
	if *full {
		healthy, each = 200, 34
	}
	soon, now := map[string]int{}, 0
	looks := map[string]int{}
	var first []float64
	for seed := range healthy {
		k, _, _ := keep(uint64(seed), nil)
		j := judge(t, k)
		if j.firstEggs > 0 {
			first = append(first, j.firstEggs)
		} else {
			first = append(first, 365)
		}
		for _, n := range j.notices {
			switch n.Severity {
			case forecast.Now:
				now++
				t.Errorf("healthy colony %d: %v", seed, brief([]forecast.Notice{n}))
			case forecast.Soon:
				soon[n.Kind]++
			default:
				looks[n.Kind]++
			}
		}
	}
	rate := float64(total(soon)) / float64(healthy)
	t.Logf("%d healthy colonies: %.2f false \"soon\" a colony-year %v, %d false \"now\"; \"look\": %.2f %v", healthy, rate, soon, now, float64(total(looks))/float64(healthy), looks)
	if rate >= 2 {
		t.Errorf("%.2f false \"soon\" notices a colony-year, want fewer than 2", rate)
	}
	// Eggs are late on the day by which 19 of 20 healthy keepers had noted the first.
	slices.Sort(first)
	late := begin + journal.Day(first[min(len(first)-1, int(0.95*float64(len(first))))])
	seen, all := 0, 0
	for i, tr := range troubles() {
		found, of := 0, 0
		for n := range each {
			k, began, trace := keep(uint64(1000+100*i+n), &tr)
			if tr.oneSex || tr.old && trace == 0 {
				if k.firstEggs == 0 || begin+journal.Day(k.firstEggs) > late {
					trace = earlier(trace, late)
				}
			}
			if trace == 0 {
				t.Logf("%s %d: no trace in the diary", tr.name, n)
				continue
			}
			of++
			notices := judge(t, k).notices
			if noticed(notices, began, trace) {
				found++
				continue
			}
			t.Logf("%s %d: began %s, trace %s, not noticed: %v", tr.name, n, began, trace, brief(notices))
		}
		t.Logf("%s: %d of %d noticed within a week of the first trace", tr.name, found, of)
		seen, all = seen+found, all+of
	}
	share := float64(seen) / float64(all)
	t.Logf("%d troubles: %.0f %% noticed", all, 100*share)
	if share < 0.8 {
		t.Errorf("%.0f %% of the troubles were noticed, want 80 %%", 100*share)
	}
}

// usualGlance returns the mean of the last four glances.
func (k *keeper) usualGlance() float64 {
	sum, n := 0.0, 0
	for _, e := range slices.Backward(k.journal.Entries) {
		for _, event := range e.Events {
			if c, ok := event.What.(*journal.Counted); ok && c.Method == journal.Glance && n < 4 {
				sum, n = sum+float64(c.Shrimp.Total), n+1
			}
		}
	}
	return sum / math.Max(1, float64(n))
}

func total(counts map[string]int) (n int) {
	for _, c := range counts {
		n += c
	}
	return n
}

func earlier(a, b journal.Day) journal.Day {
	if a == 0 || b < a {
		return b
	}
	return a
}

// aside are the kinds of notice that tell of no trouble with the state of a tank.
func aside() []string {
	return []string{overdueBrood.Word, longSilence.Word, typingSlip.Word, aboveCapacity.Word, countAbove.Word}
}

// noticed reports whether a notice about the state of the tank, come up since the trouble began, stood within a week of the
// first trace.
func noticed(all []forecast.Notice, began, trace journal.Day) bool {
	return slices.ContainsFunc(all, func(n forecast.Notice) bool {
		return !slices.Contains(aside(), n.Kind) && n.Since >= began && n.Since <= trace+7 && (n.Until == 0 || n.Until > trace)
	})
}
