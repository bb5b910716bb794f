package notice

import (
	"fmt"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
)

// busy is a journal with many notices that need no numbers of shrimp.
const busy = `2026-01-01 {stocked: 12, age: 4 months} {water: {temperature: 23 C, gh: 7, ph: 7.2, ammonia: 0, nitrite: 0, tds: 200}}
2026-01-08+7x6 {water: {temperature: 23 C, gh: 7, ph: 7.2, ammonia: 0, nitrite: 0, tds: 200}}
2026-01-20 {berried: 1, brood: amber} {berried: 1, brood: flint} {berried: 1, brood: jade}
2026-01-25 {dropped: amber}
2026-01-30 {dropped: flint}
2026-02-21 {water: {temperature: 18 C}}
2026-02-23 {water: {temperature: 18.2 C}}
2026-02-24 {hatched: jade}
2026-02-26 {water: {temperature: 22.8 C, ph: 8.2, ammonia: 0.5, nitrite: 0.5}}
2026-03-01 {water: {ammonia: 0.25, nitrite: 0.25}}
2026-03-03 {water: {ammonia: 0, nitrite: 0}}
2026-03-05 {dosed: 5 mL, substance: remedy with copper}
2026-03-06 {died: 1}
2026-03-10 {water: {gh: 3, tds: 2100}}
2026-03-12 {berried: 1, brood: onyx}
2026-06-20 {water: {temperature: 24 C}}
`

// standingOn names the notices that stood on a day, by what never changes of them.
func standingOn(all []forecast.Notice, day journal.Day) []string {
	var names []string
	for _, n := range all {
		if n.Since <= day && (n.Until == 0 || n.Until > day) {
			names = append(names, fmt.Sprint(n.Kind, " ", n.Tank, " ", n.Brood, n.Reading, " since ", n.Since))
		}
	}
	slices.Sort(names)
	return names
}

// The notices of an earlier day, as the whole record has them, are those that the record had on that day: nothing peeks.
func TestEarlierDaysAreAsTheyWere(t *testing.T) {
	j := told(t, oneTank, busy)
	end := journal.NewDay(2026, 7, 1)
	standing, ended := weighed(t, j, end, forecast.Days)
	all := append(standing, ended...)
	kinds := map[string]bool{}
	for day := journal.NewDay(2026, 1, 1); day <= end; day += 3 {
		then, _ := weighed(t, j, day, forecast.Days)
		if diff := cmp.Diff(standingOn(then, day), standingOn(all, day)); diff != "" {
			t.Errorf("%v: on that day (-), looking back (+):\n%s", day, diff)
		}
		for _, n := range then {
			kinds[n.Kind] = true
		}
	}
	if len(kinds) < 8 {
		t.Errorf("only %v came up", kinds)
	}
}

// With the numbers of shrimp the same holds but for what was learned since, which may move a notice by days.
func TestEarlierEstimatesAreAsTheyWere(t *testing.T) {
	k, _, _ := keep(1403, &troubles()[4])
	end := k.start + 365
	standing, ended := weighed(t, k.journal, end, forecast.Past)
	all := append(standing, ended...)
	same, different := 0, 0
	for _, days := range []journal.Day{150, 210, 270, 330} {
		then, _ := weighed(t, k.journal, k.start+days, forecast.Past)
		before, after := standingOn(then, k.start+days), standingOn(all, k.start+days)
		for _, name := range before {
			if slices.Contains(after, name) {
				same++
				continue
			}
			different++
			t.Logf("%v: %q then, %q now", k.start+days, before, after)
		}
	}
	if same == 0 || different > same/3 {
		t.Errorf("%d notices are as they were, %d are not", same, different)
	}
}

// Weighing twice gives the same, and leaves the forecast alone.
func TestWeighingTwiceGivesTheSame(t *testing.T) {
	f := forecast.Days(colony.Replay(told(t, oneTank, busy), journal.NewDay(2026, 7, 1)))
	a, b := Weigh(f)
	c, d := Weigh(f)
	if diff := cmp.Diff(fmt.Sprint(brief(a), brief(b)), fmt.Sprint(brief(c), brief(d))); diff != "" {
		t.Error(diff)
	}
	if f.Notices != nil || f.Ended != nil {
		t.Error("Weigh changed the forecast")
	}
}

// A notice is private as soon as one of the entries it rests on, or the one that ended it, is.
func TestPrivateEntriesMakePrivateNotices(t *testing.T) {
	start := "2026-03-01 {stocked: 3} {water: {nitrite: 0}}\n"
	for _, row := range []struct {
		name, lines string
		public      bool
	}{
		{"all public", start + "2026-03-02 {water: {nitrite: 0.3}}\n2026-03-04 {water: {nitrite: 0}}", true},
		{"the test is private", start + "2026-03-02 private {water: {nitrite: 0.3}}\n2026-03-04 {water: {nitrite: 0}}", false},
		{"its second test is private", start + "2026-03-02 {water: {nitrite: 0.3}}\n2026-03-03 private {water: {nitrite: 0.2}}\n2026-03-04 {water: {nitrite: 0}}", false},
		{"its end is private", start + "2026-03-02 {water: {nitrite: 0.3}}\n2026-03-04 private {water: {nitrite: 0}}", false},
		{"the pH behind it is private", "2026-03-01 {stocked: 3} {water: {ammonia: 0}}\n2026-03-02 {water: {ammonia: 0.3}}\n2026-03-03 private {water: {ph: 7.9}}\n2026-03-04 {water: {ammonia: 0}}", false},
		{"another entry is private", start + "2026-03-02 {water: {nitrite: 0.3}}\n2026-03-03 private {fed: nettle}\n2026-03-04 {water: {nitrite: 0}}", true},
	} {
		_, ended := weighed(t, told(t, oneTank, row.lines), journal.NewDay(2026, 3, 20), forecast.Days)
		if len(ended) != 1 || ended[0].Public != row.public {
			t.Errorf("%s: %v", row.name, brief(ended))
			for _, n := range ended {
				t.Log(n.Public)
			}
		}
	}
}

// A silence after a private entry is private, even where that entry holds words alone.
func TestASilenceAfterAPrivateEntryIsPrivate(t *testing.T) {
	for _, row := range []struct {
		last   string
		public bool
	}{{"{fed: nettle}", true}, {"private {fed: nettle}", false}} {
		standing, _ := weighed(t, told(t, oneTank, "2026-03-01 {stocked: 3}\n2026-03-01+7x8 {fed: moss}\n2026-04-26 "+row.last), journal.NewDay(2026, 7, 1), forecast.Days)
		if len(standing) != 1 || standing[0].Public != row.public {
			t.Errorf("%s: %v", row.last, brief(standing))
		}
	}
	j := told(t, oneTank, "2026-03-01 {stocked: 3}\n2026-03-01+7x8 {fed: moss}")
	words := *j.Entries[len(j.Entries)-1]
	words.Path, words.Date, words.Private, words.Events = "entries/words.md", journal.NewDay(2026, 4, 26), true, nil
	j.Entries = append(j.Entries, &words)
	if standing, _ := weighed(t, j, journal.NewDay(2026, 7, 1), forecast.Days); len(standing) != 1 || standing[0].Public {
		t.Errorf("after private words: %v", brief(standing))
	}
}
