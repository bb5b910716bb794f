package forecast

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/lifecycle"
	model "pleopod/journal/population"
	"pleopod/journal/wording"
)

// Forgotten is how many days after the last day on which a brood should have hatched, as foreseen, it is taken as hatched
// unseen. Assumption.
const Forgotten = 21

// GivenUp reports whether a brood that nobody ended is taken as hatched unseen on a day.
func (b *Brood) GivenUp(day journal.Day) bool {
	return (b.State == Carried || b.State == Overdue) && b.Foreseen.P95 != 0 && day > b.Foreseen.P95+Forgotten
}

// conclude draws the conclusions from a tank's numbers.
func (l *chronicle) conclude(t *Tank) {
	t.Population.Gradings = l.gradings(t, t.Population.Generations)
	t.Population.Selecting = selecting(t.Population.Gradings)
	t.Founders = l.forecast.founders(t)
}

// chronicle turns the events of a colony into what the simulation knows.
type chronicle struct {
	forecast *Forecast
	order    map[*journal.Event]int // place in the replay of the whole colony, from 1
	events   []*journal.Event       // by that order
	shrimp   map[string]*colony.Shrimp
	opened   map[*journal.Event][]*Brood
	ended    map[*journal.Event][]*Brood
}

func newChronicle(f *Forecast) *chronicle {
	l := &chronicle{
		forecast: f, order: map[*journal.Event]int{}, shrimp: map[string]*colony.Shrimp{},
		opened: map[*journal.Event][]*Brood{}, ended: map[*journal.Event][]*Brood{},
	}
	for _, tank := range f.Colony.Tanks {
		for _, e := range tank.Events {
			if l.order[e] == 0 && simulated(e) {
				l.order[e] = 1
				l.events = append(l.events, e)
			}
		}
	}
	slices.SortStableFunc(l.events, inReplay)
	for i, e := range l.events {
		l.order[e] = i + 1
	}
	for _, s := range f.Colony.Shrimp {
		l.shrimp[s.Name] = s
	}
	for i := range f.Broods {
		b := &f.Broods[i]
		l.opened[b.Opened] = append(l.opened[b.Opened], b)
		if b.Ended != nil {
			l.ended[b.Ended] = append(l.ended[b.Ended], b)
		}
	}
	return l
}

// simulated reports whether the simulation learns anything from an event of a kind.
func simulated(e *journal.Event) bool {
	switch e.What.(type) {
	case *journal.WaterTest, *journal.WaterChange, *journal.Dosed, *journal.Fed, *journal.Courting, *journal.Moulted, *journal.Eyed:
		return false
	}
	return true
}

// inReplay orders events as the replay does: by day, path and place.
func inReplay(a, b *journal.Event) int {
	return cmp.Or(
		cmp.Compare(a.Day, b.Day), cmp.Compare(a.File, b.File),
		cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column),
	)
}

// record gathers what the simulation knows of a tank.
func (l *chronicle) record(t *Tank) model.Record {
	r := model.Record{
		Tank: t.ID, Profile: t.Profile, Litres: t.Volume.Or(0), Capacity: t.Capacity.Or(-1), Fish: t.Fish,
		Incubation: multiplier(l.forecast.Learning.Incubation), Maturity: multiplier(l.forecast.Learning.Maturity),
	}
	for _, day := range t.Course {
		r.Water = append(r.Water, model.Temperature{Mean: thousandth(day.Mean), SD: thousandth(day.SD)})
	}
	if len(t.Course) > 0 {
		r.From = model.Day(t.Course[0].Day)
	}
	for _, e := range t.Events {
		for _, what := range l.translate(t, e) {
			r.Facts = append(r.Facts, model.Fact{Day: model.Day(e.Day), Order: l.order[e], What: what})
		}
	}
	for _, b := range t.Broods {
		l.carried(b, t.ID, &r)
	}
	r.Facts = append(r.Facts, l.looks(t, r.Facts)...)
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

// carried adds a brood that nobody ended: as open, or as hatched unseen when it is long overdue.
func (l *chronicle) carried(b *colony.Brood, tank string, r *model.Record) {
	if b.State != colony.Carried || b.Tank() != tank {
		return
	}
	i := slices.IndexFunc(l.forecast.Broods, func(f Brood) bool { return f.Brood == b })
	if i < 0 {
		return
	}
	brood := &l.forecast.Broods[i]
	if brood.GivenUp(l.forecast.Colony.AsOf) {
		day := max(brood.Foreseen.P50, b.Stays[len(b.Stays)-1].From)
		r.Facts = append(r.Facts, model.Fact{Day: model.Day(day), Order: l.order[b.Opened], What: model.Hatched{Brood: b.ID}})
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
func (l *chronicle) translate(t *Tank, e *journal.Event) []model.What {
	switch what := e.What.(type) {
	case *journal.Stocked:
		return []model.What{stocked(what, &t.Profile)}
	case *journal.Died:
		return append(l.droppedBy(e), model.Left{Group: l.group(what.Shrimp), Found: true})
	case *journal.Removed:
		return append(l.droppedBy(e), model.Left{Group: l.group(what.Shrimp)})
	case *journal.Moved:
		return l.moved(t, e, what)
	case *journal.Berried:
		return l.berried(t, e)
	case *journal.Hatched, *journal.Dropped:
		return l.closed(e)
	case *journal.Moulted:
		if !what.Failed {
			return nil
		}
		return []model.What{model.FailedMoult{Group: l.group(what.Shrimp)}}
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

// stocked gives the shrimp the ages that the keeper wrote, or that follow from a length, or the usual ones.
func stocked(what *journal.Stocked, p *lifecycle.Profile) model.Stocked {
	s := model.Stocked{Group: classes(what.Shrimp), Youngest: p.Stocking.YoungestDays, Oldest: p.Stocking.OldestDays}
	switch {
	case what.Age.Known:
		s.Youngest, s.Oldest = 0.9*what.Age.Value, 1.1*what.Age.Value
	case what.Length.Known:
		curve := p.Growth.Female.Mean(p.Growth.Male)
		days := min(curve.Phi(what.Length.Value), 2.5) * p.Maturity.Days(p.Temperature.Fallback+1)
		s.Youngest, s.Oldest = 0.75*days, 1.25*days
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
func (l *chronicle) group(w journal.Who) model.Group {
	if len(w.Names) == 0 {
		return classes(w.Count)
	}
	var g model.Group
	for _, name := range w.Names {
		switch s := l.shrimp[name]; {
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
func (l *chronicle) moved(t *Tank, e *journal.Event, what *journal.Moved) []model.What {
	var broods []string
	for i := range l.forecast.Broods {
		b := l.forecast.Broods[i].Brood
		if b.Mother != nil && slices.Contains(what.Shrimp.Names, b.Mother.Name) && slices.Contains(b.Events, e) {
			broods = append(broods, b.ID)
		}
	}
	if e.Tank == t.ID {
		return []model.What{model.MovedOut{Group: l.group(what.Shrimp), Parcel: l.order[e], Broods: broods}}
	}
	return []model.What{model.MovedIn{Parcel: l.order[e], Broods: broods}}
}

// berried opens the broods of an event.
func (l *chronicle) berried(t *Tank, e *journal.Event) []model.What {
	var all []model.What
	for _, b := range l.opened[e] {
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

// closed ends the broods of an event by hatch or loss. A partial loss ends none.
func (l *chronicle) closed(e *journal.Event) []model.What {
	var all []model.What
	for _, b := range l.ended[e] {
		if b.Brood.State == colony.HasHatched {
			all = append(all, model.Hatched{Brood: b.ID, Seen: b.Shrimplets.Or(0)})
			continue
		}
		all = append(all, model.Dropped{Brood: b.ID})
	}
	return all
}

// droppedBy ends the broods that were lost with their mothers.
func (l *chronicle) droppedBy(e *journal.Event) []model.What {
	var all []model.What
	for _, b := range l.ended[e] {
		all = append(all, model.Dropped{Brood: b.ID})
	}
	return all
}

// problems turns the simulation's doubts into warnings at the events that raised them. Where the replay has already
// warned, its word stands.
func (l *chronicle) problems(doubts []model.Doubt) []journal.Problem {
	var found []journal.Problem
	for _, doubt := range doubts {
		if doubt.Order < 1 || doubt.Order > len(l.events) {
			continue
		}
		event := l.events[doubt.Order-1]
		at := event.At(event.What.Kind())
		warned := slices.ContainsFunc(l.forecast.Colony.Problems, func(p journal.Problem) bool { return p.Position == at })
		if warned {
			continue
		}
		problem := journal.Problem{
			Position: at, Severity: journal.Warning, Code: "more-than-alive", Message: doubt.Message, Hint: doubt.Hint,
		}
		// An event about several females raises one doubt for each; the last tells of all of them.
		if last := len(found) - 1; last >= 0 && found[last].Position == at {
			found[last] = problem
			continue
		}
		found = append(found, problem)
	}
	return found
}

// populationOf turns the simulation's outlook into the forecast's.
func populationOf(o model.Outlook) Population {
	p := Population{
		Now: Quantiles(o.Now), AdultFemales: Quantiles(o.AdultFemales), AdultMales: Quantiles(o.AdultMales),
		Juveniles: Quantiles(o.Juveniles), Past: moments(o.Past), Ahead: moments(o.Ahead),
		MayLeavePerMonth: o.MayLeave, ExtinctWithinYear: o.Extinct, EffectiveSize: o.EffectiveSize.P50,
		SelectFrom: windowOf(o.Select), SelectProbability: o.Select.Probability,
	}
	for _, w := range o.Weeks {
		p.Weeks = append(p.Weeks, Week{journal.Day(w.Day), w.Females, w.Adults, w.Dying, w.Clutches, w.EffectiveSize, w.Crowded, w.CanSelect})
	}
	for _, pass := range o.Passes {
		w := windowOf(pass.Passing)
		p.Passes = append(p.Passes, Pass{Count: pass.Count, ProbabilityWithinYear: pass.Probability, P10: w.P10, P50: w.P50, P90: w.P90})
	}
	for _, a := range o.Pyramid {
		p.Pyramid = append(p.Pyramid, AgeClass(a))
	}
	for _, g := range o.Generations {
		p.Generations = append(p.Generations, Generation{
			g.Number, journal.Day(g.From), journal.Day(g.To), g.EffectiveSize, g.Inbreeding, g.Newcomers, g.Kin,
		})
	}
	return p
}

// checks returns every count against the estimate before it.
func (l *chronicle) checks(o model.Outlook) []Checked {
	var all []Checked
	for _, f := range o.Findings {
		all = append(all, Checked{l.events[f.Order-1].Position, f.Total, Quantiles(f.Before), f.Below, f.Above})
	}
	return all
}

// latestCounts is how many counts the evidence tells of.
const latestCounts = 3

// evidence says in sentences what the estimate rests on. Counts of private entries are not told.
func (l *chronicle) evidence(o model.Outlook) []string {
	if len(o.Past) < 2 {
		return append([]string{"Nothing is known of this tank yet."}, o.Assumed...)
	}
	var sentences []string
	if len(o.Findings) == 0 {
		sentences = append(sentences, "Nobody has been counted yet: the numbers follow from what was stocked, the broods that were seen, and usual survival. A count would narrow them.")
	}
	for _, finding := range o.Findings[max(0, len(o.Findings)-latestCounts):] {
		e := l.events[finding.Order-1]
		if e.Entry.Private {
			continue
		}
		sentences = append(sentences, fmt.Sprintf("%d counted %s on %s: before it %.0f to %.0f were likely (9 in 10), after it %.0f to %.0f.",
			finding.Total, howCounted[finding.Method], wording.Date(e.Day), finding.Before.P05, finding.Before.P95, finding.After.P05, finding.After.P95))
	}
	if o.Looks > 0 {
		sentences = append(sentences, fmt.Sprintf("The diary tells of this tank on %s while few lived in it; broods that nobody noted then count as less likely.", wording.Count(o.Looks, "day", "days")))
	}
	sentences = append(sentences, taught("a glance", o.Glance)...)
	sentences = append(sentences, taught("a careful count", o.Careful)...)
	return append(sentences, o.Assumed...)
}

var howCounted = map[model.Method]string{
	model.Glance: "at a glance", model.Careful: "with care", model.Emptied: "with the tank emptied",
}

// taught says what the counts have taught about a method.
func taught(method string, d model.Detection) []string {
	if d.Counts < 2 {
		return nil
	}
	return []string{fmt.Sprintf("By %d counts of this tank, %s finds %.0f %% of the adults (9 in 10: %.0f to %.0f %%).",
		d.Counts, method, 100*d.Share.P50, 100*d.Share.P05, 100*d.Share.P95)}
}

func moments(all []model.At) []At {
	var out []At
	for _, at := range all {
		out = append(out, At{journal.Day(at.Day), Quantiles(at.Quantiles)})
	}
	return out
}

// windowOf turns the days of a passing into a window.
func windowOf(p model.Passing) Window {
	if len(p.Days) == 0 {
		return Window{Reason: "not likely within a year"}
	}
	d := func(i int) journal.Day { return journal.Day(p.Days[i]) }
	return Window{P05: d(0), P10: d(1), P25: d(2), P50: d(3), P75: d(4), P90: d(5), P95: d(6)}
}
