package population

import (
	"pleopod/journal/lifecycle"
	"pleopod/journal/parallel"
)

// Plan is a colony that does not exist yet.
type Plan struct {
	Profile  lifecycle.Profile
	Founders Group
	Youngest float64 // days of age between which the founders' lies; both 0 for the profile's usual ages
	Oldest   float64
	Celsius  float64 // constant water temperature
	Litres   float64 // 0 when not known
	Capacity float64 // adults that the tank can carry; below 0 when not known
	Fish     bool
	Months   int // how far to look ahead, in months of 30 days, at least 1
	Goal     int // number to pass, or 0 for none
}

// Prospect is what would become of a plan. Days count from the founding, which is day 0.
type Prospect struct {
	BothSexes     float64 // probability that the founders hold both
	Ahead         []At    // after every month
	Goal          Pass    // only with a goal
	Passes        []Pass  // the usual numbers
	Extinct       float64 // probability that nobody lives at the end
	MayLeave      int     // from the last month on, as in Outlook
	Select        Passing // as in Outlook
	EffectiveSize Quantiles
	Assumed       []string // what was assumed because the plan does not say it, as sentences
}

// founding is the day on which plans begin; any day large enough that ages before it stay above 0.
const founding Day = 700000

// Prospects runs plans side by side, each with so many particles, at least 2, and returns their prospects in order.
func Prospects(plans []Plan, particles int) []Prospect {
	all := make([]Prospect, len(plans))
	parallel.Each(len(plans), func(i int) { all[i] = plans[i].Prospect(particles) })
	return all
}

// Prospect runs the plan with so many particles, at least 2.
func (p Plan) Prospect(particles int) Prospect {
	youngest, oldest := p.FoundersAge()
	founders := Stocked{Group: p.Founders, Youngest: youngest, Oldest: oldest}
	r := Record{
		Tank: "plan", Profile: p.Profile, Litres: p.Litres, Capacity: p.Capacity, Fish: p.Fish, From: founding,
		Water: []Temperature{{Mean: p.Celsius}}, Facts: []Fact{{Day: founding, Order: 1, What: founders}},
	}
	f := New([]Record{r}, particles)
	f.Advance(founding)
	t := f.tanks[0]
	result := Prospect{BothSexes: p.bothSexes(), Assumed: t.assumed()}

	goals := milestones[:]
	if p.Goal > 0 {
		goals = append([]int{p.Goal}, goals...)
	}
	w := newWatch(t, goals)
	legs := t.almanac(founding+Day(p.Months*month)+Horizon, month)
	last := 0
	for legs[last].end() < founding+Day(p.Months*month) {
		last++
	}
	w.follow(t, legs[:last+1], func(day Day) bool { return (day-founding)%month == 0 })
	for _, at := range w.ahead {
		result.Ahead = append(result.Ahead, At{at.Day - founding, at.Quantiles})
	}
	result.Passes, result.Select = w.since(founding)
	if p.Goal > 0 {
		result.Goal, result.Passes = result.Passes[0], result.Passes[1:]
	}
	result.Extinct = t.extinct()
	result.EffectiveSize = t.quantiles((*particle).effectiveSize)
	h := newHarvest(t, legs[last+1:])
	result.MayLeave = h.most(h.undisturbed())
	return result
}

// FoundersAge returns the days of age between which the founders' lies: those of the plan, else the profile's usual ones.
func (p Plan) FoundersAge() (youngest, oldest float64) {
	if p.Youngest == 0 && p.Oldest == 0 {
		return p.Profile.Stocking.YoungestDays, p.Profile.Stocking.OldestDays
	}
	return p.Youngest, p.Oldest
}

// shareKnown is the concentration of the Beta distribution of the share of females: see sdShare.
const shareKnown = 200

// bothSexes returns the probability that the founders hold both sexes.
func (p Plan) bothSexes() float64 {
	share, g := p.Profile.Breeding.FemaleShare, p.Founders
	return lifecycle.BothSexesCounted(g.Females, g.Males, g.Unsexed+g.Juveniles, share*shareKnown, (1-share)*shareKnown)
}
