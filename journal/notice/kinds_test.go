package notice

import (
	"slices"
	"strings"
	"testing"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
)

// example is a journal in which a kind of notice stands on a day.
type example struct {
	kind    string
	lines   string
	asOf    journal.Day
	predict func(*colony.Colony) *forecast.Forecast
}

// examples returns a journal for each kind of notice; the settings are those of exampleTank.
func examples() []example {
	day := journal.NewDay
	const tests = "2026-03-01 {stocked: 10} {water: {temperature: 23 C, gh: 7, ph: 7.2}}\n2026-03-08+7x3 {water: {temperature: 23 C, gh: 7, ph: 7.2}}\n"
	const brood = "2026-03-01 {stocked: 10, age: 4 months}\n2026-03-10 {berried: 1, brood: amber} {water: {temperature: 23 C}}\n"
	const counts = "2026-03-01 {stocked: 60, age: 4 months}\n2026-03-02 {counted: 24}\n2026-03-05 {counted: 26}\n"
	return []example{
		{"deaths-above-expected", "2026-03-01 {stocked: 20, age: 4 months}\n2026-05-10 {died: 12}", day(2026, 5, 12), forecast.Past},
		{"failed-moults", "2026-03-01 {stocked: 10, age: 4 months}\n2026-03-28 {moulted: 2, failed: true}", day(2026, 3, 30), forecast.Past},
		{"count-below-estimate", counts + "2026-03-09 {counted: 3}", day(2026, 3, 10), forecast.Past},
		{"count-above-estimate", counts + "2026-03-09 {counted: 90}", day(2026, 3, 10), forecast.Past},
		{"overdue-brood", brood, day(2026, 4, 15), forecast.Days},
		{"eggs-dropped-again", brood + "2026-03-11 {berried: 1, brood: flint}\n2026-03-14 {dropped: amber}\n2026-03-20 {dropped: flint}", day(2026, 4, 1), forecast.Days},
		{"no-berried-female", "2026-03-01 {stocked: {females: 8, males: 4}, age: 5 months}\n2026-03-08+7x8 {fed: nettle} {water: {temperature: 24 C}}", day(2026, 4, 27), forecast.Past},
		{"one-sex", "2026-03-01 {stocked: 8, age: 4 months}\n2026-03-10 {counted: {females: 6, males: 0}, method: careful}", day(2026, 3, 11), forecast.Past},
		{"founders-old", "2026-03-01 {stocked: 10, age: 8 months}", day(2026, 7, 5), forecast.Past},
		{"ammonia", "2026-03-29 {stocked: 3} {water: {ammonia: 0.5}}", day(2026, 4, 1), forecast.Days},
		{"nitrite", "2026-03-29 {stocked: 3} {water: {nitrite: 0.5}}", day(2026, 4, 1), forecast.Days},
		{"copper", "2026-03-29 {stocked: 3} {water: {copper: 0.02}}", day(2026, 4, 1), forecast.Days},
		{"temperature-change", tests + "2026-03-29 {water: {temperature: 18 C}}", day(2026, 4, 1), forecast.Days},
		{"hardness-change", tests + "2026-03-29 {water: {gh: 3}}", day(2026, 4, 1), forecast.Days},
		{"ph-change", tests + "2026-03-29 {water: {ph: 6.3}}", day(2026, 4, 1), forecast.Days},
		{"out-of-range", tests + "2026-03-29 {water: {gh: 1}}\n2026-04-02 {water: {gh: 1}}", day(2026, 4, 3), forecast.Days},
		{"typing-slip", tests + "2026-03-29 {water: {temperature: 2.34 C}}", day(2026, 4, 1), forecast.Days},
		{"too-few-to-select", "2026-03-01 {stocked: 12, age: 5 months}\n2026-03-10 {graded: {pale: 3, deep: 9}}", day(2026, 4, 1), forecast.Past},
		{"above-capacity", "2026-03-01 {stocked: 100, age: 5 months}", day(2026, 4, 1), forecast.Past},
		{"no-record", "2026-03-01 {stocked: 10}\n2026-03-01+7x8 {fed: nettle}", day(2026, 6, 1), forecast.Days},
	}
}

const exampleTank = "title: A\ngrades: [pale, deep]\ntanks:\n  shelf: {volume: 40 L, heater: 23 C, capacity: 80}\n"

// standing returns the notices of the kind that stand in a journal.
func (s example) standing(t *testing.T, j *journal.Journal) []forecast.Notice {
	t.Helper()
	all, _ := weighed(t, j, s.asOf, s.predict)
	found := slices.DeleteFunc(slices.Clone(all), func(n forecast.Notice) bool { return n.Kind != s.kind })
	if len(found) == 0 {
		t.Errorf("none stands; there are %v", brief(all))
	}
	return found
}

// A notice of any kind says all that a keeper needs, rests on entries that can be named, is public where these are, and
// private where they are private.
func TestEveryKindIsAsPublicAsItsEntries(t *testing.T) {
	if testing.Short() {
		t.Skip("simulates colonies")
	}
	var kinds []string
	for _, s := range examples() {
		kinds = append(kinds, s.kind)
		t.Run(s.kind, func(t *testing.T) {
			j := told(t, exampleTank, s.lines)
			for _, n := range s.standing(t, j) {
				complete(t, n)
				if len(n.Events) == 0 || !n.Public {
					t.Errorf("public entries: rests on %d of them, public is %v", len(n.Events), n.Public)
				}
			}
			for _, entry := range j.Entries {
				entry.Private = true
			}
			for _, n := range s.standing(t, j) {
				if n.Public {
					t.Error("private entries, and the notice is public")
				}
			}
		})
	}
	for _, kind := range Kinds() {
		if !slices.Contains(kinds, kind.Word) {
			t.Errorf("no example of %s", kind.Word)
		}
	}
}

// What is found in a logger file alone is public, because the file is; with a reading of a private entry it is private.
func TestALoggerFileIsPublic(t *testing.T) {
	for _, row := range []struct {
		name, lines string
		public      bool
	}{
		{"logged alone", "2026-03-01 {stocked: 3}", true},
		{"a private reading", "2026-03-01 {stocked: 3}\n2026-03-09 private {water: {temperature: 14 C}}", false},
	} {
		j := told(t, oneTank, row.lines)
		for i := range journal.Day(12) {
			j.Settings.Tanks[0].Logged = append(j.Settings.Tanks[0].Logged, journal.LoggedDay{Day: journal.NewDay(2026, 3, 1) + i, Mean: 23 - 9*float64(i/8)})
		}
		for _, kind := range []string{"temperature-change", "out-of-range"} {
			s := example{kind, "", journal.NewDay(2026, 3, 12), forecast.Days}
			for _, n := range s.standing(t, j) {
				if n.Public != row.public {
					t.Errorf("%s: %s is public: %v", row.name, kind, n.Public)
				}
			}
		}
	}
}

// What rests on nothing that can be named is private: a kind that forgets to say what it rests on shows nothing.
func TestANoticeOfNoEntryIsPrivate(t *testing.T) {
	h := &history{}
	for _, row := range []struct {
		notice forecast.Notice
		public bool
	}{
		{forecast.Notice{}, false},
		{forecast.Notice{Events: []*journal.Event{nil}}, false},
		{forecast.Notice{Events: []*journal.Event{{Entry: &journal.Entry{}}}}, true},
		{forecast.Notice{Logged: true}, true},
		{forecast.Notice{Logged: true, Events: []*journal.Event{{Entry: &journal.Entry{Private: true}}}}, false},
	} {
		if h.close(&row.notice); row.notice.Public != row.public {
			t.Errorf("%+v: want public %v", row.notice, row.public)
		}
	}
}

// Every kind has what pages and data need, and no two share a word or a name.
func TestEveryKindHasAWordANameAndSentences(t *testing.T) {
	seen := map[string]bool{}
	for _, kind := range Kinds() {
		if kind.Word == "" || seen[kind.Word] || kind.Word != strings.ToLower(kind.Word) || strings.ContainsAny(kind.Word, " _") {
			t.Errorf("word %q", kind.Word)
		}
		if kind.Name == "" || seen[kind.Name] {
			t.Errorf("%s: name %q", kind.Word, kind.Name)
		}
		seen[kind.Word], seen[kind.Name] = true, true
		for _, text := range []string{kind.Watches, kind.Probability} {
			if !strings.HasSuffix(text, ".") {
				t.Errorf("%s: %q is no sentence", kind.Word, text)
			}
		}
	}
}
