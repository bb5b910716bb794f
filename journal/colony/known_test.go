package colony_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"pleopod/journal"
	"pleopod/journal/colony"
)

func TestNothingIsKnownBeforeItWasWritten(t *testing.T) {
	tests := []struct {
		name  string
		diary *diary
		want  int // broods on 2026-03-20
	}{
		{"seen and written before", newDiary("north").on("2026-03-14", "north", berried(1)), 1},
		{"seen and written that day", newDiary("north").on("2026-03-20", "north", berried(1)), 1},
		{"seen and written after", newDiary("north").on("2026-03-21", "north", berried(1)), 0},
		{"written after, seen before", newDiary("north").on("2026-03-21", "north", berried(1)).seen("2026-03-14"), 0},
		{"written before, dated after", newDiary("north").on("2026-03-14", "north", berried(1)).seen("2026-03-21"), 0},
		{"written later, seen before, both before", newDiary("north").on("2026-03-19", "north", berried(1)).seen("2026-03-14"), 1},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			c := test.diary.replay("2026-03-20")
			if len(c.Broods) != test.want || len(c.Tanks[0].Events) != test.want {
				t.Errorf("%d broods and %d events, want %d", len(c.Broods), len(c.Tanks[0].Events), test.want)
			}
			for _, entry := range c.Entries {
				if len(entry.Events) > test.want {
					t.Errorf("the entry still holds %d events", len(entry.Events))
				}
			}
		})
	}
}

func TestWhatLiesAfterTheDayIsWarnedOf(t *testing.T) {
	d := newDiary("north").
		on("2026-03-14", "north", berried(1)).
		on("2026-03-14", "north", &journal.Courting{}).seen("2026-03-22").
		on("2026-03-21", "north", berried(1))
	var got []string
	for _, p := range colony.Later(&d.journal, day("2026-03-20")) {
		got = append(got, p.Error())
	}
	want := []string{
		`entries/2026-03-14-b.md:5:5: warning: "courting" is dated 2026-03-22, after the as-of day 2026-03-20: left out until then`,
		`entries/2026-03-21-c.md:1:1: warning: the entry is dated 2026-03-21, after the as-of day 2026-03-20: left out until then`,
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("problems (-want +got):\n%s", diff)
	}
}

// TestAReplayIsThatOfAJournalThatEndsThere holds the replay of a whole journal against that of one from which a test of its own deleted
// everything later, and against a replay that goes back from a later day.
func TestAReplayIsThatOfAJournalThatEndsThere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := randomDiary(t)
		asOf := journal.NewDay(2026, 1, 1) + journal.Day(rapid.IntRange(-1, 61).Draw(t, "as of"))
		whole := colony.Replay(&d.journal, asOf)
		if diff := cmp.Diff(colony.Replay(deleteLater(d.journal, asOf), asOf), whole, cmpopts.EquateEmpty()); diff != "" {
			t.Fatalf("without what came later (-) and with it (+):\n%s", diff)
		}
		if diff := cmp.Diff(whole, colony.Replay(&d.journal, asOf+30).Earlier(asOf), cmpopts.EquateEmpty()); diff != "" {
			t.Fatalf("replayed (-) and gone back to (+):\n%s", diff)
		}
	})
}

// TestReplayLeavesTheJournalAlone replays twice and expects the same colony and the same journal.
func TestReplayLeavesTheJournalAlone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := randomDiary(t)
		asOf := journal.NewDay(2026, 2, 1)
		before := deleteLater(d.journal, asOf+1000)
		first := colony.Replay(&d.journal, asOf)
		if diff := cmp.Diff(first, colony.Replay(&d.journal, asOf)); diff != "" {
			t.Fatalf("first replay (-) and second (+):\n%s", diff)
		}
		if diff := cmp.Diff(before, &d.journal, cmpopts.EquateEmpty()); diff != "" {
			t.Fatalf("journal before (-) and after (+):\n%s", diff)
		}
	})
}

// deleteLater copies a journal without the entries, events and logged days after a day.
func deleteLater(j journal.Journal, last journal.Day) *journal.Journal {
	j.Settings.Tanks = append([]journal.Tank(nil), j.Settings.Tanks...)
	for i, tank := range j.Settings.Tanks {
		j.Settings.Tanks[i].Logged = nil
		for _, logged := range tank.Logged {
			if logged.Day <= last {
				j.Settings.Tanks[i].Logged = append(j.Settings.Tanks[i].Logged, logged)
			}
		}
	}
	entries := j.Entries
	j.Entries = nil
	for _, entry := range entries {
		if entry.Date > last {
			continue
		}
		shorter := *entry
		shorter.Events = nil
		for _, e := range entry.Events {
			if e.Day <= last {
				e.Entry = &shorter
				shorter.Events = append(shorter.Events, e)
			}
		}
		j.Entries = append(j.Entries, &shorter)
	}
	return &j
}

// randomDiary draws a journal of two months in which anything may happen, sense or nonsense.
func randomDiary(t *rapid.T) *diary {
	d := newDiary("north", "south")
	first := journal.NewDay(2026, 1, 1)
	for i := range 2 {
		for _, day := range rapid.SliceOfN(rapid.IntRange(0, 60), 0, 5).Draw(t, "logged") {
			d.journal.Settings.Tanks[i].Logged = append(d.journal.Settings.Tanks[i].Logged, journal.LoggedDay{Day: first + journal.Day(day), Mean: 23})
		}
	}
	tank := rapid.SampledFrom([]string{"north", "south"})
	offset := rapid.IntRange(0, 60)
	for range rapid.IntRange(0, 25).Draw(t, "entries") {
		date := first + journal.Day(offset.Draw(t, "date"))
		d.on(date.String(), tank.Draw(t, "tank"), rapid.SliceOfN(happening(), 0, 3).Draw(t, "events")...)
		if rapid.IntRange(0, 4).Draw(t, "own day") == 0 && len(d.last().Events) > 0 {
			d.seen((first + journal.Day(offset.Draw(t, "seen"))).String())
		}
	}
	return d
}

// happening draws one event.
func happening() *rapid.Generator[journal.Happening] {
	who := rapid.Custom(func(t *rapid.T) journal.Who {
		if rapid.Bool().Draw(t, "named") {
			return named(rapid.SliceOfNDistinct(rapid.SampledFrom([]string{"ruby", "olive", "tom"}), 1, 2, rapid.ID).Draw(t, "names")...)
		}
		return some(rapid.IntRange(0, 4).Draw(t, "count"))
	})
	brood := rapid.SampledFrom([]string{"", "amber", "flint", "north-2026-01-10", "amber-2"})
	return rapid.Custom(func(t *rapid.T) journal.Happening {
		switch rapid.IntRange(0, 11).Draw(t, "kind") {
		case 0:
			return &journal.Stocked{Shrimp: count(rapid.IntRange(0, 10).Draw(t, "stocked"))}
		case 1:
			return &journal.Saddled{Shrimp: who.Draw(t, "saddled")}
		case 2, 3:
			b := &journal.Berried{Shrimp: who.Draw(t, "berried")}
			if name := brood.Draw(t, "brood"); name != "" {
				b.Broods = []string{name}
			}
			return b
		case 4:
			return &journal.Eyed{Brood: brood.Draw(t, "brood")}
		case 5, 6:
			return &journal.Hatched{Brood: brood.Draw(t, "brood"), Shrimplets: journal.Known(rapid.IntRange(0, 20).Draw(t, "young"))}
		case 7:
			return &journal.Dropped{Brood: brood.Draw(t, "brood")}
		case 8:
			return &journal.Moved{Shrimp: who.Draw(t, "moved"), To: rapid.SampledFrom([]string{"north", "south"}).Draw(t, "to")}
		case 9:
			return &journal.Died{Shrimp: who.Draw(t, "died")}
		case 10:
			return &journal.Counted{Shrimp: count(rapid.IntRange(0, 40).Draw(t, "counted")), Method: journal.Emptied}
		default:
			return &journal.Measured{Lengths: []float64{20}, Names: []string{"ruby"}, Brood: brood.Draw(t, "brood"), Sex: journal.Male}
		}
	})
}
