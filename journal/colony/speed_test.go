package colony_test

import (
	"testing"

	"pleopod/journal"
	"pleopod/journal/colony"
)

// BenchmarkReplay replays ten years of a diary with an entry every day.
func BenchmarkReplay(b *testing.B) {
	d := newDiary("north", "south")
	first := journal.NewDay(2016, 1, 1)
	for i := range 3650 {
		date := (first + journal.Day(i)).String()
		switch i % 10 {
		case 0:
			d.on(date, "north", berried(1))
		case 5:
			d.on(date, "north", &journal.Died{Shrimp: some(1)}, &journal.Counted{Shrimp: count(40), Method: journal.Glance})
		default:
			d.on(date, "south", &journal.WaterTest{Readings: []journal.Reading{{Kind: journal.Temperature, Value: 23}}}, &journal.Sighted{Shrimplets: 3})
		}
	}
	for b.Loop() {
		colony.Replay(&d.journal, first+3650)
	}
}
