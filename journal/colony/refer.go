package colony

import (
	"fmt"
	"slices"

	"pleopod/journal"
)

// reference is a brood name that was not known yet when an event used it.
type reference struct {
	event *journal.Event
	name  string
}

// broodAt returns where an event names its brood: as its value, or in an attribute.
func broodAt(e *journal.Event) journal.Position { return e.At(broodKey(e)) }

// broodKey is the key under which an event names its brood.
func broodKey(e *journal.Event) string {
	switch e.What.(type) {
	case *journal.Eyed, *journal.Hatched, *journal.Dropped:
		return e.What.Kind()
	}
	return "brood"
}

// carried finds the open brood that an event is about, and notes the event there. It returns nil after a complaint.
func (r *replay) carried(e *journal.Event, name string) *Brood {
	if name == "" {
		return r.onlyOpen(e)
	}
	b := r.refer(e, name)
	if b == nil {
		return nil
	}
	switch b.State {
	case HasHatched:
		r.fault(broodAt(e), "brood-hatched", fmt.Sprintf("brood %q already hatched on %s (%s)", b.ID, b.Hatched, b.Ended.Position))
		return nil
	case WasDropped:
		r.fault(broodAt(e), "brood-dropped", fmt.Sprintf("brood %q was lost on %s (%s)", b.ID, b.Dropped, b.Ended.Position))
		return nil
	}
	r.follow(e, b)
	b.Events = append(b.Events, e)
	return b
}

// refer finds a brood by its name, finished or not. A name that is unknown so far is explained at the end.
func (r *replay) refer(e *journal.Event, name string) *Brood {
	b := r.broods[name]
	if b == nil {
		r.unknown = append(r.unknown, reference{e, name})
	}
	return b
}

// youngOf finds the cohort of a brood for an event about its young, and notes the event there.
func (r *replay) youngOf(e *journal.Event, name string) *Cohort {
	b := r.refer(e, name)
	if b == nil {
		return nil
	}
	b.Events = append(b.Events, e)
	if b.Cohort == nil {
		r.warn(broodAt(e), "brood-not-hatched", fmt.Sprintf("brood %q has no young yet as far as the journal says; a \"hatched\" event opens its cohort", name))
	}
	return b.Cohort
}

// onlyOpen finds the only open brood of the event's tank.
func (r *replay) onlyOpen(e *journal.Event) *Brood {
	var here, elsewhere []*Brood
	for _, b := range r.colony.Broods {
		switch {
		case b.State != Carried:
		case b.Tank() == e.Tank:
			here = append(here, b)
		default:
			elsewhere = append(elsewhere, b)
		}
	}
	kind := e.What.Kind()
	switch {
	case len(here) == 1:
		here[0].Events = append(here[0].Events, e)
		return here[0]
	case len(here) > 1:
		r.fault(broodAt(e), "brood-unclear", fmt.Sprintf("%s has several open broods: %s; write which one, as in \"%s: %s\"", e.Tank, list(here), kind, here[0].ID))
	case len(elsewhere) > 0:
		r.fault(broodAt(e), "no-open-brood", fmt.Sprintf("%s has no open brood; open elsewhere: %s", e.Tank, list(elsewhere)))
	default:
		r.fault(broodAt(e), "no-open-brood", fmt.Sprintf("%s has no open brood; a \"berried\" event opens one", e.Tank), neverSeen(e))
	}
	return nil
}

// neverSeen says how young are written whose eggs nobody saw.
func neverSeen(e *journal.Event) string {
	what, ok := e.What.(*journal.Hatched)
	if !ok {
		return ""
	}
	return fmt.Sprintf("if you never saw the eggs, write sighted: %d", what.Shrimplets.Or(20))
}

// follow settles where a brood is when an event about it stands in another tank. A move of shrimp without names
// may well have been hers, if it was not before the brood was last seen; without any such move the brood stays where it was.
func (r *replay) follow(e *journal.Event, b *Brood) {
	from := b.Tank()
	if from == e.Tank {
		return
	}
	since := max(b.Stays[len(b.Stays)-1].From, b.Events[len(b.Events)-1].Day)
	ledger := r.tanks[from].Ledger
	for i := len(ledger) - 1; i >= 0 && ledger[i].Day >= since; i-- {
		line := ledger[i]
		if line.Why != LeftMoved || line.Other != e.Tank || len(line.Names) > 0 || !r.room(line) {
			continue
		}
		b.Events = append(b.Events, line.Event)
		r.carry(b, e.Tank, line.Day)
		if b.Mother != nil {
			b.Mother.Tank = e.Tank
		}
		return
	}
	r.warn(broodAt(e), "brood-elsewhere", fmt.Sprintf("brood %q is carried in %s, not in %s; if the female changed tank, a \"moved\" event says so", b.ID, from, e.Tank))
}

// room reports whether one more of the shrimp that moved may have carried a brood.
func (r *replay) room(move Line) bool {
	mothers := move.Count.Total
	if move.Count.Sorted {
		mothers = move.Count.Females.Or(0) + move.Count.Unsexed.Or(0)
	}
	for _, b := range r.colony.Broods {
		if slices.Contains(b.Events, move.Event) {
			mothers--
		}
	}
	return mothers > 0
}

// explainUnknownBroods complains about brood names that no earlier event had opened.
func (r *replay) explainUnknownBroods() {
	for _, ref := range r.unknown {
		kind := ref.event.What.Kind()
		if later := r.broods[ref.name]; later != nil {
			r.fault(broodAt(ref.event), "brood-before-berried", fmt.Sprintf("brood %q was berried on %s (%s), after this %q of %s",
				ref.name, later.Berried, later.Opened.Position, kind, ref.event.Day))
			continue
		}
		r.fault(broodAt(ref.event), "unknown-brood", fmt.Sprintf("unknown brood %q; %s", ref.name, r.instead(ref)))
	}
}

// instead says what an unknown brood name may have meant.
func (r *replay) instead(ref reference) string {
	name := ref.name
	if s := r.shrimp[name]; s != nil && len(s.Broods) > 0 {
		return fmt.Sprintf("the shrimp of that name carried %s; write %s: %s", list(s.Broods), broodKey(ref.event), s.Broods[len(s.Broods)-1].ID)
	}
	if len(r.broods) == 0 {
		return "no brood was opened yet; a \"berried\" event does that"
	}
	var names, mothers []string
	for _, b := range r.colony.Broods {
		names = append(names, b.ID)
		if b.Mother != nil {
			mothers = append(mothers, b.Mother.Name)
		}
	}
	if near := journal.Nearest(name, names); near != "" {
		return fmt.Sprintf("did you mean %q?", near)
	}
	if near := journal.Nearest(name, mothers); near != "" {
		broods := r.shrimp[near].Broods
		return fmt.Sprintf("%q carried %s; write %s: %s", near, list(broods), broodKey(ref.event), broods[len(broods)-1].ID)
	}
	if len(names) > 8 {
		names = names[len(names)-8:]
		return "the latest are " + quoted(names)
	}
	if len(names) == 1 {
		return "there is " + quoted(names)
	}
	return "there are " + quoted(names)
}
