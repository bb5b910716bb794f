package forecast

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/evidence"
	"pleopod/journal/lifecycle"
	"pleopod/journal/wording"
)

// tankSD is the sd of ln of a tank's own multiplier around the journal's: an assumption, a third of that between journals.
const tankSD = 0.05

// learner is what finished broods taught, day after day: a belief about ln of the journal's multiplier, and around it of
// each tank's own.
type learner struct {
	prior   float64 // sd of ln of the journal's multiplier
	lessons []lesson
	beliefs []belief // beliefs[i] holds after the first i lessons
}

// lesson is what one brood or cohort taught.
type lesson struct {
	id      string
	known   journal.Day // the day from which it was known; it rests on nothing later
	tank    int
	log     float64 // ln of how long it took against the default
	sd      float64 // of that, as evidence about its tank: its own spread, its dates and its water
	leftOut string  // why it teaches nothing, or ""
	problem *journal.Problem
}

// belief is what is thought of ln of the multiplier, for the journal and for each tank.
type belief struct {
	journal evidence.Normal
	tanks   []evidence.Normal
	used    int
	joint   joint
}

// joint is the normal distribution of [journal, tank 0 − journal, tank 1 − journal, …].
type joint struct {
	mean []float64
	cov  [][]float64
}

// newLearner returns a learner without a lesson.
func newLearner(prior float64, tanks int) *learner {
	j := joint{mean: make([]float64, tanks+1), cov: make([][]float64, tanks+1)}
	for i := range j.cov {
		j.cov[i] = make([]float64, tanks+1)
		j.cov[i][i] = tankSD * tankSD
	}
	j.cov[0][0] = prior * prior
	return &learner{prior: prior, beliefs: []belief{j.belief(0)}}
}

// belief reads the marginals of the joint distribution.
func (j joint) belief(used int) belief {
	b := belief{journal: evidence.Normal{Mean: j.mean[0], SD: math.Sqrt(j.cov[0][0])}, used: used, joint: j}
	for i := 1; i < len(j.mean); i++ {
		variance := j.cov[0][0] + 2*j.cov[0][i] + j.cov[i][i]
		b.tanks = append(b.tanks, evidence.Normal{Mean: j.mean[0] + j.mean[i], SD: math.Sqrt(variance)})
	}
	return b
}

// after returns the joint distribution after an observation of journal + tank, by conjugacy of the normal distribution.
func (j joint) after(tank int, observed, sd float64) joint {
	n, t := len(j.mean), tank+1
	weight := make([]float64, n)
	for i := range weight {
		weight[i] = j.cov[i][0] + j.cov[i][t]
	}
	variance := weight[0] + weight[t] + sd*sd
	innovation := observed - j.mean[0] - j.mean[t]
	next := joint{mean: slices.Clone(j.mean), cov: make([][]float64, n)}
	for i := range n {
		next.mean[i] += weight[i] / variance * innovation
		next.cov[i] = slices.Clone(j.cov[i])
		for k := range n {
			next.cov[i][k] -= weight[i] * weight[k] / variance
		}
	}
	return next
}

// learn adds a lesson, which must not be known earlier than the ones before it.
func (s *learner) learn(l lesson) {
	last := s.beliefs[len(s.beliefs)-1]
	s.lessons = append(s.lessons, l)
	if l.leftOut != "" {
		s.beliefs = append(s.beliefs, last)
		return
	}
	s.beliefs = append(s.beliefs, last.joint.after(l.tank, l.log, l.sd).belief(last.used+1))
}

// on returns the belief at the end of a day.
func (s *learner) on(day journal.Day) *belief {
	return &s.beliefs[len(s.until(day))]
}

// until returns the lessons that were known at the end of a day.
func (s *learner) until(day journal.Day) []lesson {
	n, _ := slices.BinarySearchFunc(s.lessons, day+1, func(l lesson, day journal.Day) int { return cmp.Compare(l.known, day) })
	return s.lessons[:n]
}

// today returns how many lessons that taught something became known on a day.
func (s *learner) today(day journal.Day) int { return s.on(day).used - s.on(day-1).used }

// learned returns the belief as it is shown, with the tanks in the order of their index.
func (s *learner) learned(day journal.Day, tanks []*colony.Tank) Learned {
	b := s.on(day)
	l := Learned{PriorSD: s.prior, Mean: math.Exp(b.journal.Mean), SD: b.journal.SD, Used: b.used}
	for i, tank := range tanks {
		l.Tanks = append(l.Tanks, LearnedTank{Tank: tank.ID, Mean: math.Exp(b.tanks[i].Mean), SD: b.tanks[i].SD})
	}
	for _, lesson := range s.lessons {
		switch {
		case lesson.known > day:
		case lesson.leftOut != "":
			l.LeftOut = append(l.LeftOut, lesson.id+": "+lesson.leftOut)
		default:
			l.Tanks[lesson.tank].Used++
		}
	}
	return l
}

// learnEggs goes through the hatched broods in the order in which they became known. Each teaches with what was known on
// that day and never changes afterwards, so that the belief of any day is the same whenever it is asked for.
func (r *record) learnEggs() {
	var hatched []*knownBrood
	for _, c := range r.knownBroods {
		if c.Hatched != 0 {
			hatched = append(hatched, c)
		}
	}
	slices.SortStableFunc(hatched, func(a, b *knownBrood) int { return cmp.Compare(max(a.ended, a.noted), max(b.ended, b.noted)) })
	prior := r.profiles[r.colony.Settings.Species].Incubation.PriorSD
	r.incubation = newLearner(prior, len(r.knownTanks))
	var d scratch
	for len(hatched) > 0 {
		day := max(hatched[0].ended, hatched[0].noted)
		n := 1
		for n < len(hatched) && max(hatched[n].ended, hatched[n].noted) == day {
			n++
		}
		var today []lesson
		for _, c := range hatched[:n] {
			l, known := r.before.lesson(r, c, day)
			if !known {
				l = r.view(day, &d).lesson(c)
			}
			today = append(today, l)
		}
		for _, l := range today {
			r.incubation.learn(l)
		}
		hatched = hatched[n:]
	}
}

// improbable is the probability in each tail beyond which a hatch is taken as misdated.
const improbable = 0.001

// lesson returns what a brood teaches on the day its hatch is known. Its own eyes are left aside: a hatch is only called
// impossible where the dates and the water alone say so.
func (v view) lesson(c *knownBrood) lesson {
	f := v.facts(c)
	f.eyed = 0
	knownTank := v.knownTanks[f.tank()]
	l := lesson{id: c.ID, known: v.asOf, tank: knownTank.index}
	o := v.eggs(f)
	if validity, why := knownTank.profile.Incubation.Validity(v.meanCarried(o, c.Hatched)); validity == lifecycle.NoDate {
		l.leftOut = why
		return l
	}
	day := int(c.Hatched - o.first)
	if o.dist.Later(day-1) < improbable || o.dist.Later(day) > 1-improbable {
		days := wording.Count(int(c.Hatched-c.Berried), "day", "days")
		l.leftOut = fmt.Sprintf("hatched %s after she was seen with eggs, outside the central 99.8 %% of its window", days)
		l.problem = v.unlikelyHatch(c, o)
		return l
	}
	hatched := interval(c.LastCarried, c.Hatched, 1+knownTank.profile.Incubation.NoticeDays)
	l.log, l.sd = v.taken(o.first, o.stage.Begun, hatched)
	l.sd = math.Hypot(l.sd, logSD(knownTank.profile.Incubation.BroodCV))
	return l
}

// interval returns the moments between which something happened that was noted on a day: after the last day on which it
// had not happened yet, else within the days before.
func interval(notYet, noted journal.Day, within float64) lifecycle.Interval {
	in := lifecycle.Interval{From: float64(noted) - within, To: float64(noted)}
	if notYet != 0 {
		in.From = math.Max(in.From, float64(notYet))
	}
	return in
}

// taken returns ln of the development between the beginning of a stage and its end, as a share of the default, and its sd. The development is the one last counted.
func (v view) taken(first journal.Day, begun, end lifecycle.Interval) (log, sd float64) {
	from := (begun.From + begun.To) / 2
	to := (end.From+end.To)/2 - float64(first)
	share, doubt := v.scratch.progress.Between(from, to)
	before, _ := v.scratch.progress.Between(from, from+1)
	after, _ := v.scratch.progress.Between(to-1, to)
	// the variance of an even distribution is its width squared over twelve
	started := before * (begun.To - begun.From)
	stopped := after * (end.To - end.From)
	dates := (started*started + stopped*stopped) / (12 * share * share)
	return math.Log(share) - 0.5*doubt, math.Sqrt(doubt + dates)
}

// meanCarried returns the mean temperature of the days on which a brood was carried.
func (v view) meanCarried(o outlook, hatched journal.Day) float64 {
	from, to := int(o.facts.berried-o.first), min(int(hatched-o.first), o.warmth.Days()-1)
	var sum float64
	for i := from; i <= to; i++ {
		mean, _ := o.warmth.Day(i)
		sum += mean
	}
	return sum / float64(max(1, to-from+1))
}

// unlikelyHatch returns the warning for a hatch that cannot be as it was written.
func (v view) unlikelyHatch(c *knownBrood, o outlook) *journal.Problem {
	return &journal.Problem{
		Position: c.Ended.Position, Severity: journal.Warning, Code: "unlikely-hatch",
		Message: fmt.Sprintf("brood %q hatched %s after she was seen with eggs, outside the central 99.8 %% of its window (%s to %s)",
			c.ID, wording.Count(int(c.Hatched-c.Berried), "day", "days"), o.day(o.dist, improbable), o.day(o.dist, 1-improbable)),
		Hint: "if the dates are right, nothing needs to change; the brood is left out of what the journal learns",
	}
}
