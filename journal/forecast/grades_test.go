package forecast

import (
	"math"
	"strings"
	"testing"

	"pleopod/journal"
)

// selected is a journal in which the best grade rises from a fifth to the half.
func selected(t *testing.T) *diary {
	t.Helper()
	start := day(t, "2024-01-01")
	d := newDiary(heated("shelf", 24))
	d.journal.Settings.Grades = []string{"pale", "even", "deep"}
	d.on(start, "shelf", stock(20))
	d.on(start+10, "shelf", &journal.Graded{Counts: []int{8, 8, 4}})
	d.on(start+600, "shelf", &journal.Graded{Counts: []int{4, 6, 10}})
	return d
}

func TestGradesOverGenerations(t *testing.T) {
	if testing.Short() {
		t.Skip("takes too long where the program is watched for races")
	}
	d := selected(t)
	p := Make(d.replay(day(t, "2025-11-01"))).Tanks[0].Population
	if len(p.Gradings) != 2 || p.Gradings[0].Generation != 0 || p.Gradings[1].Generation < 1 {
		t.Fatalf("gradings %+v", p.Gradings)
	}
	deep := p.Gradings[1].Shares[2]
	if deep.Grade != "deep" || deep.Count != 10 || deep.Share != 0.5 {
		t.Errorf("best grade %+v", deep)
	}
	// Beta(10.5, 10.5): 90 % central interval 0.3262 to 0.6738 (by symmetry they add up to 1).
	if math.Abs(deep.Low+deep.High-1) > 1e-9 || deep.Low < 0.30 || deep.Low > 0.35 {
		t.Errorf("interval %v to %v", deep.Low, deep.High)
	}
	s := p.Selecting
	if math.Abs(s.Rise-0.3) > 1e-9 || s.Low >= s.Rise || s.High <= s.Rise || s.Probability < 0.95 || s.Probability > 0.999 {
		t.Errorf("selecting %+v", s)
	}
}

func TestPrivateGradesAndCountsStayOut(t *testing.T) {
	if testing.Short() {
		t.Skip("takes too long where the program is watched for races")
	}
	counted := day(t, "2024-03-01")
	look := func(private bool) Population {
		d := selected(t)
		d.on(counted, "shelf", census(613, journal.Careful), &journal.Graded{Counts: []int{0, 0, 613}})
		d.journal.Entries[len(d.journal.Entries)-1].Private = private
		return Make(d.replay(counted)).Tanks[0].Population
	}
	public, private := look(false), look(true)
	if private.Gradings[0].Graded != 20 || public.Gradings[0].Graded != 633 {
		t.Errorf("gradings %+v, public %+v", private.Gradings, public.Gradings)
	}
	told := func(p Population) bool { return strings.Contains(strings.Join(p.Evidence, " "), "613") }
	if told(private) || !told(public) {
		t.Errorf("evidence %q, public %q", private.Evidence, public.Evidence)
	}
	if private.Now != public.Now {
		t.Errorf("a private count counts otherwise: %+v, public %+v", private.Now, public.Now)
	}
}
