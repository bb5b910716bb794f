package colony

import (
	"cmp"
	"fmt"
	"strings"

	"pleopod/journal"
)

// largestBrood is the most young that one brood of uncounted eggs is taken to give: the upper end of the 21-51 seen by
// Nur & Christianus 2013 (Asian J. Anim. Vet. Adv. 8:108-115), rounded up for larger females (assumption).
const largestBrood = 60

// bound is the most shrimp that can be alive in a tank, as far as the keeper wrote down where they came from. A complete
// count of the emptied tank starts a new one.
type bound struct {
	counted int         // by the last count of an emptied tank, or 0
	on      journal.Day // of that count, or zero
	in, out Totals      // since then; Hatched holds the most that can have hatched
	open    bool        // shrimp came that nobody wrote down: there is no upper limit
}

// add notes shrimp that came.
func (b *bound) add(why Why, n int) { *b.in.of(why) += n }

// most returns the largest number that can be alive.
func (b *bound) most() int {
	return b.counted + b.in.Balance() - b.out.Died - b.out.Removed - b.out.MovedAway
}

// complete reports whether no class of a count was left out.
func complete(c journal.Count) bool {
	return !c.Sorted || c.Females.Known && c.Males.Known && c.Juveniles.Known && c.Unsexed.Known
}

// takeOut notes shrimp that left, and warns when more left than can have been there. After that the bound is known to
// be wrong and nothing is said until the tank is emptied and counted.
func (r *replay) takeOut(tank string, line Line) {
	b := r.bounds[tank]
	if n := -line.Change; !b.open && n > b.most() {
		r.warn(line.Event.At(line.Event.What.Kind()), "more-than-alive", fmt.Sprintf("%d %s, but at most %d can be alive in %s: %s",
			n, line.Why, b.most(), tank, cmp.Or(b.sum(), r.nobodyYet(line.Event))))
		b.open = true
	}
	*b.out.of(line.Why) -= line.Change
}

// checkOrder warns of a count of shrimp that, in the order of the files and lines of a day, come to the tank after it.
func (r *replay) checkOrder(e *journal.Event, counted int) {
	b := r.bounds[e.Tank]
	if b.open || counted <= b.most() {
		return
	}
	for _, later := range r.events {
		if later.Day != e.Day || later.Compare(e) <= 0 {
			continue
		}
		if n := arriving(later, e.Tank); n > 0 {
			r.warn(e.At("counted"), "more-than-alive", fmt.Sprintf("%d counted in %s, but at most %d can be alive there before \"%s: %d\" of that day (%s)",
				counted, e.Tank, b.most(), later.What.Kind(), n, later.Position), "if they came first, write the count below: a day is read by the names of its files, then line by line")
			return
		}
	}
}

// arriving returns how many shrimp an event brings to a tank.
func arriving(e *journal.Event, tank string) int {
	switch what := e.What.(type) {
	case *journal.Stocked:
		if e.Tank == tank {
			return what.Shrimp.Total
		}
	case *journal.Moved:
		if what.To == tank {
			return what.Shrimp.Count.Total
		}
	}
	return 0
}

// nobodyYet says that no shrimp came to a tank before an event, and when the first did.
func (r *replay) nobodyYet(e *journal.Event) string {
	for _, later := range r.events {
		if arriving(later, e.Tank) > 0 {
			return fmt.Sprintf("the first came on %s (%s); is one of the two dates wrong?", later.Day, later.Position)
		}
	}
	return "no shrimp ever came there; \"stocked\" or \"counted\" says how many there were"
}

// sum writes the bound as arithmetic, such as "10 stocked + 60 hatched at most - 4 died", with what may be missing in it;
// "" when nobody came.
func (b *bound) sum() string {
	var text strings.Builder
	term := func(sign string, n int, what string) {
		if n == 0 {
			return
		}
		if text.Len() > 0 {
			fmt.Fprintf(&text, " %s ", sign)
		}
		fmt.Fprintf(&text, "%d %s", n, what)
	}
	if b.on != 0 {
		fmt.Fprintf(&text, "%d counted on %s", b.counted, b.on)
	}
	term("+", b.in.Stocked, "stocked")
	term("+", b.in.MovedIn, "moved in")
	term("+", b.in.Hatched, "hatched at most")
	term("-", b.out.Died, "died")
	term("-", b.out.Removed, "removed")
	term("-", b.out.MovedAway, "moved out")
	if text.Len() == 0 {
		return ""
	}
	text.WriteString("; if young hatched unseen, \"sighted\" or \"counted\" says so")
	return text.String()
}

// mostYoung returns the most young that a brood can have given.
func (b *Brood) mostYoung() int {
	eggs := largestBrood
	if b.Eggs.Known {
		eggs = b.Eggs.Value
	}
	return max(eggs-b.EggsLost, b.Shrimplets.Or(0))
}
