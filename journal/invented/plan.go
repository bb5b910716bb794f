package invented

import (
	"fmt"
	"iter"
	"math/rand/v2"
	"time"
)

// Plan says how large the journal is. Usual returns the proportions that the benchmarks use.
type Plan struct {
	Entries int    // at least 1
	Tanks   int    // 1 to 26
	Days    int    // from the first entry to the last, at least 1
	Broods  int    // spread over all days
	Tests   int    // water tests, at most one for each entry
	Bytes   int    // of one entry, about
	Seed    uint64 // another seed, another keeper
}

// Usual returns the plan of a journal with so many entries in the usual proportions: 4 tanks and, for 5,000
// entries, ten years, 120 broods and 600 water tests. Shorter journals are as dense; longer ones cover ten
// years too, and are denser.
func Usual(entries int) Plan {
	const years, full = 10, 5000
	return Plan{
		Entries: entries, Tanks: 4, Days: max(60, min(entries, full)*years*365/full),
		Broods: entries * 120 / full, Tests: entries * 600 / full, Bytes: 2200, Seed: 1,
	}
}

// last is the day of the last entry, and the journal's as-of day.
var last = time.Date(2026, time.June, 30, 0, 0, 0, 0, time.UTC)

// Files returns the files of the journal by their slash-separated paths, in the order of their days.
func (p Plan) Files() iter.Seq2[string, []byte] {
	return func(yield func(string, []byte) bool) {
		if !yield("journal.yaml", p.settings()) {
			return
		}
		diary := newDiary(p)
		for i := range p.Entries {
			if !yield(diary.path(i), diary.entry(i)) {
				return
			}
		}
	}
}

// settings writes journal.yaml.
func (p Plan) settings() []byte {
	text := "title: An invented journal\nkeeper: Nobody\naddress: https://example.org/invented/\nspecies: neocaridina-davidi\n" +
		"grades: [pale, even, deep]\nas-of: " + last.Format(time.DateOnly) + "\ntanks:\n"
	for tank := range p.Tanks {
		text += fmt.Sprintf("  %s:\n    name: Tank %c\n    volume: %d L\n    since: %s\n    heater: %d C\n",
			tankID(tank), 'A'+tank, 30+10*tank, p.date(0).Format(time.DateOnly), 22+tank%3)
	}
	return []byte(text)
}

func tankID(tank int) string { return fmt.Sprintf("tank-%c", 'a'+tank) }

// date returns the day of an entry.
func (p Plan) date(entry int) time.Time {
	return last.AddDate(0, 0, -p.ahead(entry))
}

// ahead returns how many days before the last day an entry is written.
func (p Plan) ahead(entry int) int { return p.Days - 1 - entry*p.Days/p.Entries }

// after returns the first entry about a tank that is written at least so many days after another, and false when the
// journal ends before.
func (p Plan) after(entry, days, tank int) (int, bool) {
	ahead := p.ahead(entry) - days
	next := entry + days*p.Entries/p.Days
	for ; next < p.Entries; next++ {
		if p.ahead(next) <= ahead && next%p.Tanks == tank {
			return next, true
		}
	}
	return 0, false
}

// stream returns the random numbers of one topic.
func (p Plan) stream(topic, number int) *rand.Rand {
	return rand.New(rand.NewPCG(p.Seed, uint64(topic)<<32+uint64(number)))
}
