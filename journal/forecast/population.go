package forecast

import (
	"fmt"
	"slices"

	"pleopod/journal"
	model "pleopod/journal/population"
	"pleopod/journal/wording"
)

// conclude draws the conclusions from a tank's numbers.
func (tr *translator) conclude(t *Tank) {
	t.Population.Gradings = tr.gradings(t, t.Population.Generations)
	t.Population.Selecting = selecting(t.Population.Gradings)
	t.FoundersBefore, t.Founders = founders(t)
}

// problems turns the simulation's doubts into warnings at the events that raised them. Where the replay has already
// warned, its word stands.
func (tr *translator) problems(doubts []model.Doubt) []journal.Problem {
	var found []journal.Problem
	for _, doubt := range doubts {
		if doubt.Order < 1 || doubt.Order > len(tr.events) {
			continue
		}
		event := tr.events[doubt.Order-1]
		at := event.At(event.What.Kind())
		warned := slices.ContainsFunc(tr.forecast.Colony.Problems, func(p journal.Problem) bool { return p.Position == at })
		if warned {
			continue
		}
		found = append(found, journal.Problem{
			Position: at, Severity: journal.Warning, Code: "more-than-alive", Message: doubt.Message(), Hint: doubt.Hint,
		})
	}
	return found
}

// longSilence is after how many days without a word of a tank its numbers are a guess. Assumption.
const longSilence = 90

// SilentSince returns the last day of which the diary tells something of the tank, where that is more than 90 days before
// the as-of day, else zero. The numbers of such a tank are a guess, and nobody should leave on it before the next count.
func (t *Tank) SilentSince(asOf journal.Day) journal.Day {
	last := journal.Day(0)
	for _, e := range t.Events {
		last = max(last, e.Day)
	}
	if last == 0 || asOf-last <= longSilence {
		return 0
	}
	return last
}

// populationOf turns the simulation's outlook into the forecast's.
func populationOf(o model.Outlook) Population {
	p := Population{
		Now: Quantiles(o.Now), AdultFemales: Quantiles(o.AdultFemales), AdultMales: Quantiles(o.AdultMales),
		Juveniles: Quantiles(o.Juveniles), Past: moments(o.Past), Ahead: moments(o.Ahead),
		MayLeavePerMonth: o.MayLeave, ExtinctWithinYear: o.Extinct, EffectiveSize: o.EffectiveSize.P50,
		SelectFrom: windowOf(o.Select), SelectProbability: o.Select.Probability,
	}
	for _, e := range o.Evenings {
		p.Evenings = append(p.Evenings, Evening{journal.Day(e.Day), e.Females, e.Adults, e.Dying, e.Clutches, e.EffectiveSize, e.Crowded, e.CanSelect})
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
func (tr *translator) checks(o model.Outlook) []Checked {
	var all []Checked
	for _, f := range o.Findings {
		all = append(all, Checked{tr.events[f.Order-1].Position, f.Total, Quantiles(f.Before), f.Below, f.Above})
	}
	return all
}

// latestCounts is how many counts the evidence tells of.
const latestCounts = 3

// evidence says in sentences what the estimate rests on. Counts of private entries are not told.
func (tr *translator) evidence(o model.Outlook) []string {
	if len(o.Past) < 2 {
		return append([]string{"Nothing is known of this tank yet."}, o.Assumed...)
	}
	var sentences []string
	if len(o.Findings) == 0 {
		sentences = append(sentences, "Nobody has been counted yet: the numbers follow from what was stocked, the broods that were seen, and usual survival. A count would narrow them.")
	}
	for _, finding := range o.Findings[max(0, len(o.Findings)-latestCounts):] {
		e := tr.events[finding.Order-1]
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
