package colony

import (
	"fmt"
	"strings"

	"pleopod/journal"
)

// berried opens a brood for each female.
func (r *replay) berried(e *journal.Event, what *journal.Berried) {
	mothers := r.mentionAll(e, what.Shrimp)
	r.see(e, what.Shrimp.Count.Total)
	if n := what.Shrimp.Count.Total; n > mostBroods {
		r.fault(e.At("berried"), "too-many-broods", fmt.Sprintf("%d females with eggs in one event; it can open at most %d broods", n, mostBroods))
		return
	}
	r.checkClear(e, what.LastClear)
	for i := range what.Shrimp.Count.Total {
		var mother *Shrimp
		if i < len(mothers) {
			mother = mothers[i]
			r.seeEggs(e.AtItem("berried", i), mother)
		}
		if mother != nil && r.carries(e.AtItem("berried", i), mother) {
			continue
		}
		if len(r.colony.Broods) >= mostBroodsInAll {
			r.fault(e.At("berried"), "too-many-broods", fmt.Sprintf("the journal has more than %d broods", mostBroodsInAll))
			return
		}
		if name, ok := r.nameBrood(e, what.Broods, i); ok {
			r.open(e, what, name, mother)
		}
	}
}

// carries complains when a female who is seen with eggs still has an open brood: it must have ended before.
func (r *replay) carries(at journal.Position, mother *Shrimp) bool {
	for _, b := range mother.Broods {
		if b.State == Carried {
			r.fault(at, "already-berried", fmt.Sprintf("%q already carries the brood %q since %s (%s); end that first with \"hatched\" or \"dropped\"",
				mother.Name, b.ID, b.Berried, b.Opened.Position))
			return true
		}
	}
	return false
}

// nameBrood gives the i-th brood of an event its name. It reports false when the written name is taken.
func (r *replay) nameBrood(e *journal.Event, names []string, i int) (string, bool) {
	switch {
	case len(names) == 0:
		return r.number(e.Tank + "-" + e.Day.String()), true
	case len(names) == 1 && i > 0:
		return r.number(names[0]), true
	case i >= len(names):
		return r.number(e.Tank + "-" + e.Day.String()), true
	}
	if other := r.broods[names[i]]; other != nil {
		r.fault(e.AtItem("brood", i), "brood-name-taken", fmt.Sprintf("brood %q was already opened on %s (%s); the next free name is %q",
			names[i], other.Berried, other.Opened.Position, r.number(names[i])))
		return "", false
	}
	return names[i], true
}

// number returns the name, or the name with the first number from 2 on that is not taken.
func (r *replay) number(name string) string {
	if r.broods[name] == nil {
		return name
	}
	for n := max(r.numbers[name], 2); ; n++ {
		numbered := fmt.Sprintf("%s-%d", name, n)
		if r.broods[numbered] == nil {
			r.numbers[name] = n
			return numbered
		}
	}
}

// open starts a brood.
func (r *replay) open(e *journal.Event, what *journal.Berried, name string, mother *Shrimp) {
	b := &Brood{
		ID: name, State: Carried, Stays: []Stay{{Tank: e.Tank, From: e.Day}}, Mother: mother,
		Berried: e.Day, Eggs: what.Eggs, Opened: e, Events: []*journal.Event{e},
	}
	if what.LastClear <= e.Day {
		b.LastClear = what.LastClear
	}
	if mother != nil {
		mother.Broods = append(mother.Broods, b)
	}
	r.broods[name] = b
	r.colony.Broods = append(r.colony.Broods, b)
	r.tanks[e.Tank].Broods = append(r.tanks[e.Tank].Broods, b)
}

// checkClear warns of a female who was seen before any shrimp came, in a record that begins with their coming.
func (r *replay) checkClear(e *journal.Event, day journal.Day) {
	if _, stocked := r.first.What.(*journal.Stocked); stocked && day != 0 && day < r.first.Day {
		r.warn(e.At("last-clear"), "clear-too-early", fmt.Sprintf("\"last-clear\" is %s, before the first shrimp came on %s (%s)", day, r.first.Day, r.first.Position))
	}
}

// eyed notes the first day on which eyes were seen.
func (r *replay) eyed(e *journal.Event, what *journal.Eyed) {
	b := r.carried(e, what.Brood)
	if b != nil && b.Eyed == 0 {
		b.Eyed = e.Day
	}
}

// hatched ends a brood and opens its cohort.
func (r *replay) hatched(e *journal.Event, what *journal.Hatched) {
	b := r.carried(e, what.Brood)
	if b == nil {
		return
	}
	b.State, b.Hatched, b.Ended, b.Shrimplets = HasHatched, e.Day, e, what.Shrimplets
	if what.LastCarried <= e.Day {
		b.LastCarried = what.LastCarried
	}
	if left := b.Eggs.Value - b.EggsLost; b.Eggs.Known && b.Shrimplets.Value > left {
		r.warn(e.At("shrimplets"), "more-than-eggs", fmt.Sprintf("%d shrimplets of the brood %q, which had %d eggs left", b.Shrimplets.Value, b.ID, left))
	}
	b.Cohort = &Cohort{ID: b.ID, Tank: b.Tank(), Hatched: e.Day, Brood: b, Shrimplets: b.Shrimplets}
	tank := r.tanks[b.Tank()]
	tank.Cohorts = append(tank.Cohorts, b.Cohort)
	r.colony.Cohorts = append(r.colony.Cohorts, b.Cohort)
	r.hatch(e, b)
}

// dropped notes the loss of some eggs, or of the whole brood.
func (r *replay) dropped(e *journal.Event, what *journal.Dropped) {
	b := r.carried(e, what.Brood)
	if b == nil {
		return
	}
	b.EggsLost += what.Eggs.Or(0)
	// The loss of the last counted egg is the loss of the brood.
	if !what.Eggs.Known || b.Eggs.Known && b.EggsLost >= b.Eggs.Value {
		b.drop(e, what.Reason)
	}
}

// drop ends a brood without young.
func (b *Brood) drop(e *journal.Event, reason string) {
	b.State, b.Dropped, b.Ended, b.DropReason = WasDropped, e.Day, e, reason
}

// dropWith drops the open brood of a female who died or left.
func (r *replay) dropWith(e *journal.Event, mother *Shrimp, why Why) {
	for _, b := range mother.Broods {
		if b.State != Carried {
			continue
		}
		b.Events = append(b.Events, e)
		if why == LeftDied {
			b.drop(e, "the female died")
			continue
		}
		b.drop(e, "the female left the colony")
	}
}

// carry moves a brood to another tank, with its mother.
func (r *replay) carry(b *Brood, to string, day journal.Day) {
	b.Stays = append(b.Stays, Stay{Tank: to, From: day})
	tank := r.tanks[to]
	for _, known := range tank.Broods {
		if known == b {
			return
		}
	}
	tank.Broods = append(tank.Broods, b)
}

// settleGenerations counts each brood's generation. A mother's own brood was opened before any she carries, so one
// pass in order is enough.
func (r *replay) settleGenerations() {
	for _, b := range r.colony.Broods {
		b.Generation = 1
		if b.Mother != nil && b.Mother.Cohort != nil {
			b.Generation = b.Mother.Cohort.Brood.Generation + 1
		}
		if b.Cohort != nil {
			b.Cohort.Generation = b.Generation
		}
	}
}

// list writes brood names for a message.
func list(broods []*Brood) string {
	var names []string
	for _, b := range broods {
		names = append(names, fmt.Sprintf("%q", b.ID))
	}
	return strings.Join(names, ", ")
}
