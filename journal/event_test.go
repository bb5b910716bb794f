package journal

import (
	"slices"
	"testing"
)

func TestWhatIsWrittenLaterIsKnownLater(t *testing.T) {
	march := func(day int) Day { return NewDay(2026, 3, day) }
	for _, row := range []struct {
		name  string
		event Event
		want  Day
	}{
		{"on the day", Event{Day: march(4), Entry: &Entry{Date: march(4)}}, march(4)},
		{"told later", Event{Day: march(4), Entry: &Entry{Date: march(9)}}, march(9)},
		{"dated after its entry", Event{Day: march(12), Entry: &Entry{Date: march(9)}}, march(12)},
		{"without an entry", Event{Day: march(4)}, march(4)},
	} {
		if got := row.event.KnownFrom(); got != row.want {
			t.Errorf("%s: known from %v, want %v", row.name, got, row.want)
		}
	}
}

func TestEventsAreInOrderOfDayFileAndPlace(t *testing.T) {
	at := func(day Day, file string, line, column int) *Event {
		return &Event{Day: day, Position: Position{File: file, Line: line, Column: column}}
	}
	want := []*Event{at(1, "b", 9, 9), at(2, "a", 2, 7), at(2, "a", 10, 3), at(2, "a", 10, 5), at(2, "b", 1, 1)}
	got := slices.Clone(want)
	slices.Reverse(got)
	slices.SortStableFunc(got, (*Event).Compare)
	if !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	if same := at(2, "a", 10, 3); same.Compare(want[2]) != 0 {
		t.Error("events of one place are not equal")
	}
}
