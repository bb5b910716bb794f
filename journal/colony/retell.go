package colony

import (
	"reflect"
	"slices"

	"pleopod/journal"
)

// Retell takes over the texts of a journal whose record is the one that the colony was replayed from: the same settings and
// the same entries on the same days with the same events, of which at most titles, topics, texts and pictures differ.
// What was concluded from the colony then stays true. Where anything else differs Retell changes nothing and returns false.
func (c *Colony) Retell(j *journal.Journal) bool {
	var entries []*journal.Entry
	for _, entry := range j.Entries {
		if entry.Date != 0 && entry.Date <= c.AsOf {
			entries = append(entries, entry)
		}
	}
	if len(entries) != len(c.Entries) || !reflect.DeepEqual(until(&journal.Journal{Settings: j.Settings}, c.AsOf).Settings, *c.Settings) {
		return false
	}
	var changed []int
	for i, entry := range entries {
		if entry.Reading() != nil && entry.Reading() == c.Entries[i].Reading() {
			continue
		}
		if !sameRecord(entryUntil(entry, c.AsOf), c.Entries[i]) {
			return false
		}
		changed = append(changed, i)
	}
	for _, i := range changed {
		told := *entries[i]
		told.Events = c.Entries[i].Events // with all that was concluded from them
		*c.Entries[i] = told
	}
	c.Photos = photosOf(&journal.Journal{Settings: *c.Settings, Entries: c.Entries}, j.Photos)
	return true
}

// sameRecord reports whether two entries prove the same and say so at the same places.
func sameRecord(a, b *journal.Entry) bool {
	return a.Path == b.Path && a.Date == b.Date && a.Private == b.Private && slices.Equal(a.Tanks, b.Tanks) &&
		slices.EqualFunc(a.Events, b.Events, func(x, y journal.Event) bool {
			x.Entry, y.Entry = nil, nil
			return reflect.DeepEqual(x, y)
		})
}
