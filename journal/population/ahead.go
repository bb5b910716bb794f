package population

import (
	"math"
	"slices"

	"pleopod/journal/evidence"
	"pleopod/journal/parallel"
)

// Outlook is how many shrimp live in a tank on the filter's last day, and how many will.
type Outlook struct {
	Day           Day
	Now           Quantiles // all that live, out of the egg
	AdultFemales  Quantiles // mature
	AdultMales    Quantiles // mature
	Juveniles     Quantiles // not mature
	Past          []At      // one for each age period (a week), each with what was known on that day
	Evenings      []Evening // of the days of Past, from the first with anybody in the tank
	Ahead         []At      // every seventh day and after 30, 90, 180 and 365 days, with nobody added or taken out
	Passes        []Pass
	Extinct       float64   // probability that nobody lives at the end
	MayLeave      int       // how many may leave every 30 days with at most 5 % chance that the colony shrinks for it within a year; none of a small one that grows
	EffectiveSize Quantiles // of the mature animals
	Select        Passing   // when there are enough adults to begin selecting: see SelectionSize
	Pyramid       []AgeClass
	Generations   []Generation
	Findings      []Finding // one for each count, in order
	Looks         int       // days on which the keeper wrote about the tank while few lived in it
	Glance        Detection
	Careful       Detection
	Assumed       []string // what was assumed because nobody said it, as sentences
	Doubts        []Doubt
	LogLikelihood float64 // of all counts and facts
	Effective     float64 // sample size
}

// Passing is the day on which something comes true for the first time.
type Passing struct {
	Probability float64 // that it does before the end
	Days        []Day   // at levels 5, 10, 25, 50, 75, 90 and 95 % of the paths on which it does; empty when too few do
}

// Pass is the day on which the colony reaches a number.
type Pass struct {
	Count int
	Passing
}

// SelectionSize is the effective size of all adults from which selecting may begin: breeding from the better half of
// both sexes then leaves half of it, 25, and so adds at most 2 % inbreeding a generation, 1/(2·25). Below it a keeper
// who selects trades the colony's future for its looks. FAO advice is 0.5-1 % a generation, so 50 is the least, not a goal.
const SelectionSize = 50

// milestones are the numbers whose passing is reported.
var milestones = [...]int{50, 100, 200, 500}

// fewPaths is the share of the paths below which a passing gets no days.
const fewPaths = 0.1

// Horizon is how many days an Outlook runs ahead.
const Horizon Day = 365

// hindsight looks back from the tank's last day, leaves what lies ahead empty, and the tank as it is.
func (t *tank) hindsight() Outlook {
	return Outlook{
		Day: t.day, Now: t.spread(), Past: append(slices.Clip(t.history), t.at()), Evenings: append(slices.Clip(t.evenings), t.evening()),
		AdultFemales:  t.quantiles(func(p *particle) float64 { return float64(p.grown) }),
		AdultMales:    t.quantiles(func(p *particle) float64 { return math.Round(p.sires) }),
		Juveniles:     t.quantiles((*particle).immature),
		EffectiveSize: t.quantiles((*particle).effectiveSize),
		Pyramid:       t.pyramid(),
		Generations:   t.generations(),
		Findings:      t.findings,
		Looks:         t.looks,
		Glance:        t.detection(Glance),
		Careful:       t.detection(Careful),
		Assumed:       t.assumed(),
		Doubts:        t.doubts,
		LogLikelihood: t.cloud.logLikelihood,
		Effective:     t.cloud.effective(),
	}
}

// outlook looks back and ahead from the tank's last day, and leaves the tank as it is.
func (t *tank) outlook() Outlook {
	var o, ahead Outlook
	both := []func(){func() { o = t.hindsight() }, func() { ahead = t.clone().foresight() }}
	parallel.Each(len(both), func(i int) { both[i]() })
	o.Ahead, o.Passes, o.Select, o.Extinct, o.MayLeave = ahead.Ahead, ahead.Passes, ahead.Select, ahead.Extinct, ahead.MayLeave
	return o
}

// foresight runs the tank ahead, and leaves what lies behind empty.
func (t *tank) foresight() (o Outlook) {
	t.freeze()
	legs := t.almanac(t.day+Horizon, month)
	h := newHarvest(t, legs)
	late := o.look(t, legs)
	var without []float64
	for _, i := range sampled(len(late)) {
		without = append(without, late[i])
	}
	o.MayLeave = h.most(without)
	return o
}

// immature returns the number of animals that are not mature.
func (p *particle) immature() float64 {
	return math.Max(0, float64(p.living-p.grown)-math.Round(p.sires))
}

// freeze prepares a clone for running ahead: particles of equal weight, no facts to come, and mothers of followed broods
// back in the brood clock with eggs that hatch in their windows.
func (t *tank) freeze() {
	if t.cloud.effective() < 0.999*float64(len(t.particles)) {
		t.resample()
	}
	t.history, t.next = nil, len(t.record.Facts)
	for _, open := range t.record.Open {
		if _, ok := t.broods[open.Brood]; ok {
			delete(t.broods, open.Brood)
			t.letGo(open)
		}
	}
	t.each(func(p *particle, s *stream) {
		for p.held > 0 {
			p.held--
			p.clutch[(t.table.bin+1+s.below(perIncubation))%bins]++
			p.carrying++
		}
	})
}

// letGo puts the mother of an open brood back into the brood clock of every particle, in a bin drawn from the window.
func (t *tank) letGo(open OpenBrood) {
	bin := t.binsAhead(open.Hatch)
	for i := range t.particles {
		p, s := &t.particles[i], &t.streams[i]
		if p.held == 0 {
			continue
		}
		p.held--
		p.carrying++
		p.clutch[bin(s.uniform())%bins]++
	}
}

// binsAhead returns a function from a probability to the bin of the brood clock in which the window's day lies. Without
// a window any bin of an incubation is as likely.
func (t *tank) binsAhead(window []Day) func(u float64) int {
	next := t.table.bin
	if len(window) != len(levels) {
		return func(u float64) int { return next + 1 + int(u*perIncubation) }
	}
	clock := []float64{t.clock}
	for day := t.day + 1; day <= window[len(window)-1]; day++ {
		water := t.record.water(day)
		step := t.law.profile.Incubation.MeanRate(water.Mean, water.SD) / t.law.slow * perIncubation
		clock = append(clock, clock[len(clock)-1]+step)
	}
	return func(u float64) int {
		day := dayAt(window, u) - t.day
		at := clock[min(max(0, int(day)), len(clock)-1)]
		return min(max(next, int(at)), next+bins-1)
	}
}

// dayAt returns the day of a window at a probability, on straight lines between its quantiles.
func dayAt(window []Day, u float64) Day {
	if u <= levels[0] {
		return window[0]
	}
	for i := 1; i < len(levels); i++ {
		if u <= levels[i] {
			share := (u - levels[i-1]) / (levels[i] - levels[i-1])
			return window[i-1] + Day(math.Round(share*float64(window[i]-window[i-1])))
		}
	}
	return window[len(window)-1]
}

// look runs the particles ahead and fills in what lies there. It returns the adults of each particle late in the year.
func (o *Outlook) look(t *tank, legs []leg) (late []float64) {
	start := t.day
	w := newWatch(t, milestones[:])
	w.follow(t, legs, func(day Day) bool { return (day-start)%7 == 0 || slices.Contains(moments, day-start) })
	o.Ahead = w.ahead
	o.Passes, o.Select = w.since(0)
	o.Extinct = t.extinct()
	return w.late
}

// moments are the days ahead that are reported besides the weeks.
var moments = []Day{30, 90, 180, Horizon}

// extinct returns the share of particles in which nobody lives.
func (t *tank) extinct() float64 {
	empty := 0
	for i := range t.particles {
		if t.particles[i].living == 0 {
			empty++
		}
	}
	return float64(empty) / float64(len(t.particles))
}

// watch runs particles of equal weight ahead, and notes the days on which they first reach certain numbers, and the
// size for selecting.
type watch struct {
	counts   []int
	passed   [][]Day // by count and particle
	next     []int   // by particle: the least count that was not reached
	selected []Day
	late     []float64 // by particle: mean number of adults in the last days
	ahead    []At
}

// newWatch begins to watch on the current day.
func newWatch(t *tank, counts []int) *watch {
	n := len(t.particles)
	w := &watch{counts: counts, passed: make([][]Day, len(counts)), next: make([]int, n), selected: make([]Day, n)}
	for i := range w.passed {
		w.passed[i] = make([]Day, n)
	}
	for i := range t.particles {
		w.look(i, &t.particles[i], t.day)
	}
	return w
}

// look notes what a particle has reached on a day.
func (w *watch) look(i int, p *particle, day Day) {
	if int(p.living) >= w.next[i] {
		w.pass(i, int(p.living), day)
	}
	// An effective size is below four times the number of females: most particles need no division.
	if 4*p.grown >= SelectionSize && w.selected[i] == 0 && p.effectiveSize() >= SelectionSize {
		w.selected[i] = day
	}
}

// pass notes the numbers that a particle has reached on a day.
func (w *watch) pass(i, living int, day Day) {
	w.next[i] = math.MaxInt
	for j, count := range w.counts {
		switch {
		case w.passed[j][i] != 0:
		case living >= count:
			w.passed[j][i] = day
		default:
			w.next[i] = min(w.next[i], count)
		}
	}
}

// follow runs the particles of a frozen tank through legs, and keeps how many lived on the days that are asked for. The tank's own day and clocks stay where they are.
func (w *watch) follow(t *tank, legs []leg, asked func(day Day) bool) {
	var days []Day
	for day := t.day + 1; day <= legs[len(legs)-1].end(); day++ {
		if asked(day) {
			days = append(days, day)
		}
	}
	n := len(t.particles)
	w.late = make([]float64, n)
	living := make([][]int32, len(days))
	for i := range living {
		living[i] = make([]int32, n)
	}
	// The particles of a block walk leg after leg together: then the table of a leg stays in the nearest memory.
	blocks(n, func(from, to int) {
		late := make([]lateAdults, to-from)
		kept := 0
		for j := range legs {
			reached := kept
			for i := from; i < to; i++ {
				reached = kept + w.walk(t, i, &legs[j], days[kept:], living[kept:])
				late[i-from].add(&t.particles[i], legs, j)
			}
			kept = reached
		}
		for i := from; i < to; i++ {
			w.late[i] = late[i-from].mean()
		}
	})
	for i, day := range days {
		w.ahead = append(w.ahead, At{day, spreadOf(living[i], t.cloud.weights)})
	}
}

// walk lets one particle live through a leg, notes how many live in it on those of the days that the leg reaches, and
// returns how many of them these are.
func (w *watch) walk(t *tank, i int, l *leg, days []Day, living [][]int32) (reached int) {
	p, s := &t.particles[i], &t.streams[i]
	if l.turns {
		p.turn(l.table, s)
	}
	for d := range l.days {
		p.run(l.table, s, l.days[d:d+1])
		day := l.from + Day(d)
		w.look(i, p, day)
		if reached < len(days) && days[reached] == day {
			living[reached][i] = p.living
			reached++
		}
	}
	return reached
}

// since sums up, with days counted from a day.
func (w *watch) since(from Day) (passes []Pass, selecting Passing) {
	for i, count := range w.counts {
		passes = append(passes, Pass{count, passing(w.passed[i], from)})
	}
	return passes, passing(w.selected, from)
}

// passing returns the window of the days that are not zero, counted from a day.
func passing(days []Day, from Day) Passing {
	var reached []float64
	for _, day := range days {
		if day != 0 {
			reached = append(reached, float64(day))
		}
	}
	result := Passing{Probability: float64(len(reached)) / float64(len(days))}
	if result.Probability < fewPaths {
		return result
	}
	for _, day := range evidence.Quantiles(reached, nil, levels[:]...) {
		result.Days = append(result.Days, Day(day)-from)
	}
	return result
}
