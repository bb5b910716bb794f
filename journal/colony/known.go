package colony

import (
	"fmt"
	"slices"

	"pleopod/journal"
)

// until returns a copy of the journal as the keeper could have known it at the end of a day. It is the only place that
// decides what counts as later; the rest of the package sees nothing but its result.
//
// An entry is known from its own date on: what was written down later was not known, even when it tells of an earlier
// day. An event with a date of its own is known from the later of its date and its entry's. A logged day is known
// from that day on. journal.yaml carries no dates of writing, so all the rest of it is always known.
func until(j *journal.Journal, asOf journal.Day) *journal.Journal {
	known := &journal.Journal{Settings: j.Settings}
	known.Settings.Tanks = slices.Clone(j.Settings.Tanks)
	for i := range known.Settings.Tanks {
		tank := &known.Settings.Tanks[i]
		tank.Logged = slices.DeleteFunc(slices.Clone(tank.Logged), func(d journal.LoggedDay) bool { return d.Day > asOf })
	}
	for _, entry := range j.Entries {
		if entry.Date != 0 && entry.Date <= asOf {
			known.Entries = append(known.Entries, entryUntil(entry, asOf))
		}
	}
	known.Photos = photosOf(known, j.Photos)
	return known
}

// entryUntil returns a copy of an entry without the events that happen after the day.
func entryUntil(entry *journal.Entry, asOf journal.Day) *journal.Entry {
	known := *entry
	known.Events = nil
	for _, event := range entry.Events {
		if event.Day > asOf {
			continue
		}
		event.Entry = &known
		known.Events = append(known.Events, event)
	}
	return &known
}

// photosOf returns the photos that the known entries and the tanks refer to.
func photosOf(known *journal.Journal, photos []journal.Photo) []journal.Photo {
	used := map[string]bool{}
	for _, entry := range known.Entries {
		for _, image := range entry.Images {
			used[image.Path] = true
		}
	}
	for _, tank := range known.Settings.Tanks {
		used[tank.Cover] = true
	}
	return slices.DeleteFunc(slices.Clone(photos), func(p journal.Photo) bool { return !used[p.Path] })
}

// Later returns a warning for every entry and event that lies after the as-of day, which Replay therefore leaves out.
func Later(j *journal.Journal, asOf journal.Day) []journal.Problem {
	var problems []journal.Problem
	warn := func(at journal.Position, what string, day journal.Day) {
		problems = append(problems, journal.Problem{
			Position: at, Severity: journal.Warning, Code: "after-as-of",
			Message: fmt.Sprintf("%s is dated %s, after the as-of day %s: left out until then", what, day, asOf),
		})
	}
	for _, entry := range j.Entries {
		if entry.Date > asOf {
			warn(entry.At("date"), "the entry", entry.Date)
			continue
		}
		for _, event := range entry.Events {
			if event.Day > asOf {
				warn(event.At("date"), fmt.Sprintf("%q", event.What.Kind()), event.Day)
			}
		}
	}
	return problems
}
