package forecast

import (
	"cmp"
	"math"
	"slices"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/lifecycle"
	model "pleopod/journal/population"
)

// translator turns the events of a colony into what the simulation knows.
type translator struct {
	forecast *Forecast
	order    map[*journal.Event]int // place in the replay of the whole colony, from 1
	events   []*journal.Event       // by that order
	shrimp   map[string]*colony.Shrimp
	broods   map[*colony.Brood]*Brood
	opened   map[*journal.Event][]*Brood
}

func newTranslator(f *Forecast) *translator {
	tr := &translator{
		forecast: f, order: map[*journal.Event]int{}, shrimp: map[string]*colony.Shrimp{},
		broods: map[*colony.Brood]*Brood{}, opened: map[*journal.Event][]*Brood{},
	}
	for _, tank := range f.Colony.Tanks {
		for _, e := range tank.Events {
			if tr.order[e] == 0 {
				tr.order[e] = 1
				tr.events = append(tr.events, e)
			}
		}
	}
	slices.SortStableFunc(tr.events, (*journal.Event).Compare)
	for i, e := range tr.events {
		tr.order[e] = i + 1
	}
	for _, s := range f.Colony.Shrimp {
		tr.shrimp[s.Name] = s
	}
	for i := range f.Broods {
		b := &f.Broods[i]
		tr.broods[b.Brood] = b
		tr.opened[b.Opened] = append(tr.opened[b.Opened], b)
	}
	return tr
}

// record gathers what the simulation knows of a tank.
func (tr *translator) record(t *Tank) model.Record {
	r := model.Record{
		Tank: t.ID, Profile: t.Profile, Litres: t.Volume.Or(0), Capacity: t.Capacity.Or(-1), Fish: t.Fish,
		Incubation: multiplier(tr.forecast.Learning.Incubation), Maturity: multiplier(tr.forecast.Learning.Maturity),
	}
	for _, day := range t.Course {
		r.Water = append(r.Water, model.Temperature{Mean: thousandth(day.Mean), SD: thousandth(day.SD)})
	}
	if len(t.Course) > 0 {
		r.From = model.Day(t.Course[0].Day)
	}
	for _, b := range t.Broods { // before the events: a brood is lost before its mother leaves
		tr.followed(b, t.ID, &r)
	}
	for _, e := range t.Events {
		for _, what := range tr.translate(t, e) {
			r.Facts = append(r.Facts, model.Fact{Day: model.Day(e.Day), Order: tr.order[e], What: what})
		}
	}
	r.Facts = append(r.Facts, tr.looks(t, r.Facts)...)
	slices.SortStableFunc(r.Facts, func(a, b model.Fact) int {
		return cmp.Or(cmp.Compare(a.Day, b.Day), cmp.Compare(a.Order, b.Order))
	})
	return r
}

// thousandth returns a temperature to a thousandth of a degree, far finer than anything measured. The trace that a new reading
// leaves in the estimates of months before it is smaller, so the simulation of those months need not be run again.
func thousandth(celsius float64) float64 { return math.Round(celsius*1000) / 1000 }

func multiplier(l Learned) model.Multiplier {
	return model.Multiplier{Median: l.Mean, SD: l.SD}
}

// followed adds the end of a brood in the tank where it was, whatever tank the keeper wrote of it in; when it is long overdue, as
// hatched unseen where its mother was then. A brood that is carried is added as open.
func (tr *translator) followed(b *colony.Brood, tank string, r *model.Record) {
	brood := tr.broods[b]
	if brood == nil {
		return
	}
	ends := func(day journal.Day, e *journal.Event, what model.What) {
		r.Facts = append(r.Facts, model.Fact{Day: model.Day(day), Order: tr.order[e], What: what})
	}
	switch day := brood.Foreseen.P50; {
	case brood.State == Unseen && b.TankOn(day-1) == tank:
		ends(day, b.Opened, model.Hatched{Brood: b.ID})
	case brood.State == Hatched && b.Tank() == tank:
		ends(b.Ended.Day, b.Ended, model.Hatched{Brood: b.ID, Seen: b.Shrimplets.Or(0)})
	case brood.State == Dropped && b.Tank() == tank:
		ends(b.Ended.Day, b.Ended, model.Dropped{Brood: b.ID})
	}
	if !brood.Open() || b.Tank() != tank {
		return
	}
	open := model.OpenBrood{Brood: b.ID}
	if w := brood.Hatch; w.P05 != 0 && w.P95 != 0 {
		for _, day := range []journal.Day{w.P05, w.P10, w.P25, w.P50, w.P75, w.P90, w.P95} {
			open.Hatch = append(open.Hatch, model.Day(day))
		}
	}
	r.Open = append(r.Open, open)
}

// translate turns an event of a tank into facts, in order.
func (tr *translator) translate(t *Tank, e *journal.Event) []model.What {
	switch what := e.What.(type) {
	case *journal.Stocked:
		return []model.What{stocked(what, &t.Profile)}
	case *journal.Died:
		return []model.What{model.Left{Group: tr.group(what.Shrimp), Found: true}}
	case *journal.Removed:
		return []model.What{model.Left{Group: tr.group(what.Shrimp)}}
	case *journal.Moved:
		return tr.moved(t, e, what)
	case *journal.Berried:
		return tr.berried(t, e)
	case *journal.Moulted:
		if !what.Failed {
			return nil
		}
		return []model.What{model.FailedMoult{Group: tr.group(what.Shrimp)}}
	case *journal.Saddled:
		return []model.What{model.Alive{Group: model.Group{Females: what.Shrimp.Count.Total}}}
	case *journal.Sighted:
		return []model.What{model.Sighted{Young: what.Shrimplets}}
	case *journal.Counted:
		return []model.What{counted(what)}
	case *journal.Measured:
		return alive(len(what.Lengths), what.Sex)
	case *journal.Graded:
		total := 0
		for _, n := range what.Counts {
			total += n
		}
		return alive(total, what.Sex)
	}
	return nil
}

// alive is shrimp seen for certain, sexed or not.
func alive(n int, sex journal.Sex) []model.What {
	g := model.Group{Unsexed: n}
	switch sex {
	case journal.Female:
		g = model.Group{Females: n}
	case journal.Male:
		g = model.Group{Males: n}
	}
	return []model.What{model.Alive{Group: g}}
}

// How far the age of stocked shrimp may be from what the keeper wrote, and from what a length says, as shares; and the age
// beyond which a length says nothing, in times of the age of maturity. Assumptions.
const (
	agedWithin  = 0.1
	sizedWithin = 0.25
	sizedAtMost = 2.5
)

// grownAbove is how much warmer than a room the water is taken to be in which stocked shrimp grew up, °C. Assumption.
const grownAbove = 1

// stocked gives the shrimp the ages that the keeper wrote, or that follow from a length, or the usual ones.
func stocked(what *journal.Stocked, p *lifecycle.Profile) model.Stocked {
	s := model.Stocked{Group: classes(what.Shrimp), Youngest: p.Stocking.YoungestDays, Oldest: p.Stocking.OldestDays}
	switch {
	case what.Age.Known:
		s.Youngest, s.Oldest = (1-agedWithin)*what.Age.Value, (1+agedWithin)*what.Age.Value
	case what.Length.Known:
		curve := p.Growth.Female.Mean(p.Growth.Male)
		days := min(curve.Phi(what.Length.Value), sizedAtMost) * p.Maturity.Days(p.Temperature.Fallback+grownAbove)
		s.Youngest, s.Oldest = (1-sizedWithin)*days, (1+sizedWithin)*days
	}
	return s
}

// classes turns a count into classes; what is not told apart is unsexed.
func classes(c journal.Count) model.Group {
	if !c.Sorted {
		return model.Group{Unsexed: c.Total}
	}
	return model.Group{
		Females: c.Females.Or(0), Males: c.Males.Or(0), Juveniles: c.Juveniles.Or(0), Unsexed: c.Unsexed.Or(0),
	}
}

// group turns the shrimp of an event into classes: those with names are of the sex that the journal knows them by.
func (tr *translator) group(w journal.Who) model.Group {
	if len(w.Names) == 0 {
		return classes(w.Count)
	}
	var g model.Group
	for _, name := range w.Names {
		switch s := tr.shrimp[name]; {
		case s != nil && s.Sex == journal.Female:
			g.Females++
		case s != nil && s.Sex == journal.Male:
			g.Males++
		default:
			g.Unsexed++
		}
	}
	return g
}

// counted turns a census into what is known of each class.
func counted(what *journal.Counted) model.Counted {
	c := model.Counted{Group: classes(what.Shrimp), Method: model.Glance}
	switch what.Method {
	case journal.Careful:
		c.Method = model.Careful
	case journal.Emptied:
		c.Method = model.Emptied
	}
	if !what.Shrimp.Sorted {
		c.Known = model.Unsexed
		return c
	}
	for class, known := range map[model.Classes]bool{
		model.Females: what.Shrimp.Females.Known, model.Males: what.Shrimp.Males.Known,
		model.Juveniles: what.Shrimp.Juveniles.Known, model.Unsexed: what.Shrimp.Unsexed.Known,
	} {
		if known {
			c.Known |= class
		}
	}
	return c
}

// moved is the shrimp leaving one tank, or joining the other.
func (tr *translator) moved(t *Tank, e *journal.Event, what *journal.Moved) []model.What {
	var broods []string
	for i := range tr.forecast.Broods {
		b := &tr.forecast.Broods[i]
		hatched := b.State == Unseen && b.Foreseen.P50 <= e.Day
		if !hatched && slices.Contains(b.Brood.Events, e) {
			broods = append(broods, b.ID)
		}
	}
	if e.Tank == t.ID {
		return []model.What{model.MovedOut{Group: tr.group(what.Shrimp), Parcel: tr.order[e], Broods: broods}}
	}
	return []model.What{model.MovedIn{Parcel: tr.order[e]}}
}

// berried opens the broods of an event.
func (tr *translator) berried(t *Tank, e *journal.Event) []model.What {
	var all []model.What
	for _, b := range tr.opened[e] {
		earliest := b.Berried - journal.Day(t.Profile.Incubation.DatingDays)
		if b.LastClear != 0 {
			earliest = b.LastClear + 1
		}
		fact := model.Berried{Brood: b.ID, Earliest: model.Day(earliest)}
		if b.Eggs.Known {
			celsius := b.Celsius
			fact.Young = t.Profile.Fecundity.EggsToHatchlings(float64(b.Eggs.Value-b.EggsLost), celsius)
		}
		all = append(all, fact)
	}
	return all
}
