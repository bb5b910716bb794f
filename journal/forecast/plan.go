package forecast

import (
	"math"

	"pleopod/journal/lifecycle"
	model "pleopod/journal/population"
)

// PlanDocument is what "plan --json" prints: colonies that do not exist yet, and what would become of each. Keys never
// change their meaning. Days count from the founding, which is day 0; lists are never null.
//
// Rounding: numbers of shrimp, days and days of age to whole numbers, effective size to 0.1, temperatures to 0.1 °C, volumes to 0.1 L,
// probabilities to 0.001.
type PlanDocument struct {
	Months      int                 `json:"months"`      // looked ahead, of 30 days each
	FoundersFor FoundersForDocument `json:"foundersFor"` // smallest numbers of unsexed founders that hold both sexes
	Plans       []PlannedDocument   `json:"plans"`       // by founders, then temperature, as they were asked for
}

// FoundersForDocument is the smallest number of founders for three probabilities that both sexes are among them.
type FoundersForDocument struct {
	P90 int `json:"p90"`
	P95 int `json:"p95"`
	P99 int `json:"p99"`
}

// PlannedDocument is one plan.
type PlannedDocument struct {
	Founders         int               `json:"founders"`
	FoundersAge      AgeDocument       `json:"foundersAge"`      // what they are taken to be
	Temperature      *float64          `json:"temperature"`      // °C
	Volume           *float64          `json:"volume"`           // L, or null when not given
	BothSexes        *float64          `json:"bothSexes"`        // probability
	Ahead            []AheadOfDocument `json:"ahead"`            // every 30 days, with nobody added or taken out
	Goal             *PassingDocument  `json:"goal"`             // or null when none was given
	Passes           []PassingDocument `json:"passes"`           // by count
	Extinct          *float64          `json:"extinct"`          // probability that nobody lives at the end
	MayLeavePerMonth int               `json:"mayLeavePerMonth"` // from the end on, with at most 5 % chance that the colony shrinks for it within a year
	EffectiveSize    *float64          `json:"effectiveSize"`    // at the end
	Selecting        SelectingDocument `json:"selecting"`        // when there are enough adults to begin selecting
	Notes            []string          `json:"notes"`            // assumptions, and what makes the plan less sure, as sentences
}

// AgeDocument is the range in which an age lies, each day as likely.
type AgeDocument struct {
	YoungestDays int `json:"youngestDays"`
	OldestDays   int `json:"oldestDays"`
}

// AheadOfDocument is a number of shrimp so many days after the founding.
type AheadOfDocument struct {
	Day int `json:"day"`
	NumbersDocument
}

// PassingDocument is the day on which a colony passes a number. The days are those of the paths that pass it, and null
// when too few do.
type PassingDocument struct {
	Count int `json:"count"`
	SelectingDocument
}

// SelectingDocument is the probability that something comes true before the end, and the days on which it does.
type SelectingDocument struct {
	Probability *float64 `json:"probability"`
	P10         *int     `json:"p10"`
	P50         *int     `json:"p50"`
	P90         *int     `json:"p90"`
}

// Planned is a plan with what would become of it.
type Planned struct {
	model.Plan
	model.Prospect
	Notes []string // assumptions, and what makes the plan less sure, as sentences
}

// Plans runs plans for the same number of months.
func Plans(plans []model.Plan) []Planned {
	var all []Planned
	for i, prospect := range model.Prospects(plans, model.Particles) {
		all = append(all, Planned{plans[i], prospect, append(prospect.Assumed, coldOrHot(plans[i])...)})
	}
	return all
}

// coldOrHot says in a sentence when the water of a plan is beyond what the model was made for.
func coldOrHot(p model.Plan) []string {
	i, b := p.Profile.Incubation, p.Profile.Breeding
	switch {
	case p.Celsius < i.LimitLow || p.Celsius > i.LimitHigh:
		return []string{"No data stand behind eggs in water this cold or warm, and shrimp may not live in it: take the numbers as a guess."}
	case p.Celsius < b.StopBelow:
		return []string{"Hardly any clutch is begun in water this cold."}
	case p.Celsius > p.Profile.Fecundity.HeatFrom:
		return []string{"Many eggs are lost in water this warm."}
	case p.Celsius < i.ValidLow:
		return []string{"Few data stand behind eggs in water this cold: take the numbers as a guess."}
	}
	return nil
}

// SmallestFoundings returns the smallest numbers of unsexed founders that hold both sexes with 90, 95 and 99 %.
func SmallestFoundings(p lifecycle.Profile) (for90, for95, for99 int) {
	share := p.Breeding.FemaleShare
	return lifecycle.SmallestFounding(share, 0.90), lifecycle.SmallestFounding(share, 0.95), lifecycle.SmallestFounding(share, 0.99)
}

// NewPlanDocument writes plans of one profile as open data. There must be at least one.
func NewPlanDocument(plans []Planned) PlanDocument {
	d := PlanDocument{Months: plans[0].Months, Plans: []PlannedDocument{}}
	d.FoundersFor.P90, d.FoundersFor.P95, d.FoundersFor.P99 = SmallestFoundings(plans[0].Profile)
	for i := range plans {
		d.Plans = append(d.Plans, planned(&plans[i]))
	}
	return d
}

func planned(p *Planned) PlannedDocument {
	youngest, oldest := p.FoundersAge()
	d := PlannedDocument{
		Founders: p.Founders.Total(), FoundersAge: AgeDocument{int(math.Round(youngest)), int(math.Round(oldest))}, Temperature: rounded(p.Celsius, 1), BothSexes: rounded(p.BothSexes, 3),
		Ahead: []AheadOfDocument{}, Passes: []PassingDocument{}, Extinct: rounded(p.Extinct, 3),
		MayLeavePerMonth: p.MayLeave, EffectiveSize: rounded(p.EffectiveSize.P50, 1),
		Selecting: passing(p.Select), Notes: append([]string{}, p.Notes...),
	}
	if p.Litres > 0 {
		d.Volume = rounded(p.Litres, 1)
	}
	if p.Plan.Goal > 0 {
		d.Goal = &PassingDocument{p.Prospect.Goal.Count, passing(p.Prospect.Goal.Passing)}
	}
	for _, at := range p.Ahead {
		d.Ahead = append(d.Ahead, AheadOfDocument{int(at.Day), numbers(Quantiles(at.Quantiles))})
	}
	for _, pass := range p.Passes {
		d.Passes = append(d.Passes, PassingDocument{pass.Count, passing(pass.Passing)})
	}
	return d
}

func passing(p model.Passing) SelectingDocument {
	d := SelectingDocument{Probability: rounded(p.Probability, 3)}
	if len(p.Days) == 0 {
		return d
	}
	day := func(i int) *int {
		n := int(math.Round(float64(p.Days[i])))
		return &n
	}
	d.P10, d.P50, d.P90 = day(1), day(3), day(5)
	return d
}
