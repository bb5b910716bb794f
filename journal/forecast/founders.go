package forecast

import (
	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/lifecycle"
)

// shareKnown is the concentration of the Beta distribution of the share of females, around the profile's: 45-59 % published
// (Schoolmann & Arndt 2018, doi 10.1016/j.limno.2018.05.001) as about plus and minus two sd.
const shareKnown = 200

// founders says how likely the first shrimp of a tank hold both sexes, and when they grow old: of each colony that ended when the
// tank was emptied, and of the one that is there.
func founders(t *Tank) (ended []Founders, now Founders) {
	var begun *journal.Event
	for _, closing := range t.Closings() {
		if one := foundersOf(t, begun, closing); one.Stocked > 0 {
			ended = append(ended, one)
		}
		begun = closing
	}
	return ended, foundersOf(t, begun, nil)
}

// foundersOf is about the colony between two events, of which either may be nil.
func foundersOf(t *Tank, after, before *journal.Event) Founders {
	p := &t.Profile
	share := p.Breeding.FemaleShare
	result := Founders{
		For90: lifecycle.SmallestFounding(share, 0.90),
		For95: lifecycle.SmallestFounding(share, 0.95),
		For99: lifecycle.SmallestFounding(share, 0.99),
		Ended: before,
	}
	first, arrivals := firstArrivals(t.Tank, after, before)
	result.First = first
	var females, males, unsexed int
	for _, line := range arrivals {
		g := classes(line.Count)
		result.Stocked += g.Total()
		females, males = females+g.Females, males+g.Males
		unsexed += g.Unsexed + g.Juveniles
		what, ok := line.Event.What.(*journal.Stocked)
		if !ok {
			continue
		}
		if age := stocked(what, p); age.Oldest > result.Oldest {
			result.Youngest, result.Oldest = age.Youngest, age.Oldest
			result.Guessed = !what.Age.Known && !what.Length.Known
			result.OldFrom = first + journal.Day(p.Breeding.DeclineFrom-age.Oldest)
		}
	}
	if result.Stocked == 0 {
		return result
	}
	result.BothSexes = lifecycle.BothSexesCounted(females, males, unsexed, share*shareKnown, (1-share)*shareKnown)
	if bredAfter(t.Tank, first, before) {
		result.BothSexes = 1
	}
	return result
}

// firstArrivals returns the day on which the first shrimp came to a tank between two events, and everybody who came on it.
func firstArrivals(t *colony.Tank, after, before *journal.Event) (first journal.Day, arrivals []colony.Line) {
	for _, line := range t.Ledger {
		came := line.Why == colony.CameStocked || line.Why == colony.CameMoved
		came = came && (after == nil || line.Event.Compare(after) > 0) && (before == nil || line.Event.Compare(before) < 0)
		if came && (first == 0 || line.Day == first) {
			first = line.Day
			arrivals = append(arrivals, line)
		}
	}
	return first, arrivals
}

// AlreadyMated is how many days after shrimp were stocked a female may still lay eggs of a mating before. Assumption: she
// lays within hours of mating, so a few days are generous.
const AlreadyMated = 5

// bredAfter reports whether a female of the tank was seen berried so long after the first shrimp came, and before an event that
// may be nil, that a male must have been there too.
func bredAfter(t *colony.Tank, first journal.Day, before *journal.Event) bool {
	for _, b := range t.Broods {
		if before != nil && b.Opened.Compare(before) > 0 {
			continue
		}
		if b.Stays[0].Tank == t.ID && b.State == colony.HasHatched && b.Berried > first+AlreadyMated {
			return true
		}
	}
	return false
}
