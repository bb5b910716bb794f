package colony

import (
	"fmt"
	"strings"

	"pleopod/journal"
)

// mention returns a named animal and notes that the event is about it. The first mention makes it.
func (r *replay) mention(e *journal.Event, name string, at journal.Position) *Shrimp {
	s := r.shrimp[name]
	if s == nil {
		r.checkAlike(e, name, at)
		s = &Shrimp{Name: name, Tank: e.Tank, First: e, Public: !e.Entry.Private}
		r.shrimp[name] = s
		r.colony.Shrimp = append(r.colony.Shrimp, s)
	}
	// On its last day an animal may still be measured, or its shell found.
	if s.Gone != 0 && s.Gone < e.Day {
		r.fault(at, "shrimp-gone", fmt.Sprintf("%q left on %s (%s); another animal needs another name", name, s.Gone, s.departure().Position))
		return s
	}
	if s.Tank != e.Tank && s.Gone == 0 {
		r.warn(at, "shrimp-elsewhere", fmt.Sprintf("%q was last in %s, not in %s; if the shrimp changed tank, a \"moved\" event says so", name, s.Tank, e.Tank))
		s.Tank = e.Tank
	}
	s.Events = append(s.Events, e)
	return s
}

// checkAlike warns of a new name that is hardly meant to be one: it differs from another by the case of its letters, or is
// near the name of a shrimp that lives and leaves with its first mention. Names with digits are near on purpose.
func (r *replay) checkAlike(e *journal.Event, name string, at journal.Position) {
	if len(r.colony.Shrimp) > mostNamesCompared {
		return
	}
	var living []string
	for _, other := range r.colony.Shrimp {
		if strings.EqualFold(other.Name, name) {
			r.warn(at, "names-alike", fmt.Sprintf("%q and %q count as two shrimp", name, other.Name), fmt.Sprintf("if it is the same shrimp, write %s", other.Name))
			return
		}
		if other.Gone == 0 {
			living = append(living, other.Name)
		}
	}
	switch e.What.(type) {
	case *journal.Died, *journal.Removed, *journal.Moved:
		if near := journal.Nearest(name, living); near != "" && !strings.ContainsAny(name, "0123456789") {
			r.warn(at, "names-alike", fmt.Sprintf("%q was never mentioned before; did you mean %q?", name, near))
		}
	}
}

// departure returns the event with which an animal died or left, or nil.
func (s *Shrimp) departure() *journal.Event {
	for _, e := range s.Events {
		switch e.What.(type) {
		case *journal.Died, *journal.Removed:
			return e
		}
	}
	return nil
}

// mentionAll mentions every name and returns the animals.
func (r *replay) mentionAll(e *journal.Event, who journal.Who) []*Shrimp {
	var all []*Shrimp
	for i, name := range who.Names {
		all = append(all, r.mention(e, name, e.AtItem(e.What.Kind(), i)))
	}
	return all
}

// seeEggs notes that an animal had eggs, which proves that it is a female.
func (r *replay) seeEggs(at journal.Position, s *Shrimp) {
	r.writeSex(at, s, journal.Female)
	s.Sex = journal.Female
}

// writeSex notes the sex that the keeper wrote of an animal, unless another was known before.
func (r *replay) writeSex(at journal.Position, s *Shrimp, sex journal.Sex) {
	switch {
	case s.Sex == "":
		s.Sex = sex
	case sex != "" && sex != s.Sex:
		r.warn(at, "sex-changed", fmt.Sprintf("%q was %s until now, and this says %s", s.Name, s.Sex, sex))
	}
}

// saddled notes the females with eggs in their ovaries.
func (r *replay) saddled(e *journal.Event, what *journal.Saddled) {
	r.see(e, what.Shrimp.Count.Total)
	for i, s := range r.mentionAll(e, what.Shrimp) {
		r.seeEggs(e.AtItem("saddled", i), s)
	}
}

// measured keeps body lengths with what is known of the animals' origin.
func (r *replay) measured(e *journal.Event, what *journal.Measured) {
	r.see(e, len(what.Lengths))
	var cohort *Cohort
	if what.Brood != "" {
		cohort = r.youngOf(e, what.Brood)
	}
	var hatched journal.Day
	if what.HatchedOn <= e.Day {
		hatched = what.HatchedOn
	}
	for i, mm := range what.Lengths {
		length := Length{Day: e.Day, MM: mm, Sex: what.Sex, Cohort: cohort, Hatched: hatched, Event: e}
		if cohort != nil {
			length.Hatched = cohort.Hatched
		}
		if i < len(what.Names) {
			s := r.mention(e, what.Names[i], e.AtItem("names", i))
			r.writeSex(e.At("sex"), s, what.Sex)
			length.Name = s.Name
			r.join(e.AtItem("names", i), s, length)
		}
		r.tanks[e.Tank].Lengths = append(r.tanks[e.Tank].Lengths, length)
	}
}

// join notes the origin that a measurement gives for a named animal. An animal that was seen before the hatch
// cannot come from it, which also keeps mothers from being their own descendants.
func (r *replay) join(at journal.Position, s *Shrimp, length Length) {
	switch {
	case length.Hatched == 0:
	case s.First.Day <= length.Hatched && s.First != length.Event:
		r.fault(at, "origin-impossible", fmt.Sprintf("%q was already here on %s (%s), so it did not hatch on %s",
			s.Name, s.First.Day, s.First.Position, length.Hatched))
	case s.Cohort != nil && length.Cohort != nil && s.Cohort != length.Cohort:
		r.fault(at, "origin-changed", fmt.Sprintf("%q came from the brood %q until now, and this says %q", s.Name, s.Cohort.ID, length.Cohort.ID))
	case length.Cohort != nil && length.Cohort.Hatched < length.Day && s.Cohort == nil:
		s.Cohort, s.Hatched = length.Cohort, length.Hatched
		s.Cohort.Members = append(s.Cohort.Members, s)
	case s.Hatched == 0:
		s.Hatched = length.Hatched
	}
}

// settleLengths fills in what was learned later about animals that were measured by name.
func (r *replay) settleLengths(tank *Tank) {
	for i := range tank.Lengths {
		length := &tank.Lengths[i]
		s := r.shrimp[length.Name]
		if s == nil {
			continue
		}
		if length.Sex == "" {
			length.Sex = s.Sex
		}
		if length.Cohort == nil {
			length.Cohort = s.Cohort
		}
		if length.Hatched == 0 && s.Hatched < length.Day {
			length.Hatched = s.Hatched
		}
	}
}

// settleCohorts finds the first saddle and the first eggs among the named young of each cohort.
func (r *replay) settleCohorts() {
	for _, cohort := range r.colony.Cohorts {
		for _, s := range cohort.Members {
			cohort.FirstSaddled = earlier(cohort.FirstSaddled, firstOf(s.Events, "saddled"))
			cohort.FirstBerried = earlier(cohort.FirstBerried, firstOf(s.Events, "berried"))
		}
	}
}

// firstOf returns the day of the first event of a kind, or zero.
func firstOf(events []*journal.Event, kind string) journal.Day {
	for _, e := range events {
		if e.What.Kind() == kind {
			return e.Day
		}
	}
	return 0
}

// earlier returns the earlier of two days, where zero is no day.
func earlier(a, b journal.Day) journal.Day {
	if a == 0 || b == 0 {
		return max(a, b)
	}
	return min(a, b)
}
