package main

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"text/tabwriter"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/lifecycle"
	"pleopod/journal/population"
	"pleopod/journal/wording"
)

type planCommand struct {
	Founders    string `required:"" placeholder:"N[,N...]" help:"How many shrimp the colony begins with."`
	Temperature string `required:"" placeholder:"T[,T...]" help:"Of the water, such as 22C or 72F; 32C at most."`
	Volume      string `placeholder:"V" help:"Of the tank, such as 40L or 10gal."`
	Months      int    `default:"12" placeholder:"M" help:"How far to look ahead, in months of 30 days; 12 when left out."`
	Goal        int    `placeholder:"N" help:"A number of shrimp to reach."`
	JSON        bool   `name:"json" help:"Print the plans as one JSON document."`
}

// What a plan may ask for at most.
const (
	mostFounders = 1000
	mostMonths   = 60
	mostGoal     = 10000
	mostPlans    = 24
	plannedFor   = "neocaridina-davidi"
)

// Run prints what would become of colonies that do not exist yet.
func (c *planCommand) Run(env *environment) error {
	plans, err := c.plans()
	if err != nil {
		return misuse{err}
	}
	planned := forecast.Plans(plans)
	if c.JSON {
		return printJSON(env.stdout, forecast.NewPlanDocument(planned))
	}
	if len(planned) == 1 {
		printPlan(env.stdout, &planned[0])
	} else {
		printPlans(env.stdout, planned)
	}
	fmt.Fprint(env.stdout, "\nEstimates with their uncertainty, not veterinary advice.\n")
	return nil
}

// plans turns the flags into a plan for each number of founders at each temperature.
func (c *planCommand) plans() ([]population.Plan, error) {
	profile, ok := lifecycle.Default(plannedFor)
	if !ok {
		panic("pleopod: no profile of " + plannedFor)
	}
	founders, err := wholeNumbers("--founders", c.Founders, mostFounders)
	if err != nil {
		return nil, err
	}
	temperatures, err := temperatures(c.Temperature)
	if err != nil {
		return nil, err
	}
	if most := profile.Incubation.LimitHigh; slices.Max(temperatures) > most {
		return nil, fmt.Errorf("--temperature: %s is above %s: females that grew up in water so warm lost all their eggs, and the model knows no death by heat, so its numbers would be far too high", celsius(slices.Max(temperatures)), celsius(most))
	}
	one := population.Plan{Profile: profile, Capacity: -1, Months: c.Months, Goal: c.Goal}
	if one.Litres, err = c.litres(); err != nil {
		return nil, err
	}
	switch {
	case c.Months < 1 || c.Months > mostMonths:
		return nil, fmt.Errorf("--months is %d; it takes 1 to %d", c.Months, mostMonths)
	case c.Goal < 0 || c.Goal > mostGoal:
		return nil, fmt.Errorf("--goal is %d; it takes 1 to %d", c.Goal, mostGoal)
	case len(founders)*len(temperatures) > mostPlans:
		return nil, fmt.Errorf("these are %d plans; at most %d are compared at once",
			len(founders)*len(temperatures), mostPlans)
	}
	var all []population.Plan
	for _, n := range founders {
		for _, celsius := range temperatures {
			one.Founders, one.Celsius = population.Group{Unsexed: n}, celsius
			all = append(all, one)
		}
	}
	return all, nil
}

// litres returns the volume, 0 when none is given.
func (c *planCommand) litres() (float64, error) {
	if c.Volume == "" {
		return 0, nil
	}
	litres, err := journal.ParseQuantity(c.Volume, journal.QuantityVolume, journal.MetricUnits())
	if err == nil && litres < 1 {
		err = fmt.Errorf("%q: a tank holds at least 1 L", c.Volume)
	}
	if err != nil {
		return 0, fmt.Errorf("--volume: %w", err)
	}
	return litres, nil
}

// wholeNumbers reads a list of whole numbers from 1 to most.
func wholeNumbers(flag, list string, most int) ([]int, error) {
	var all []int
	for _, text := range strings.Split(list, ",") {
		n, err := strconv.Atoi(strings.TrimSpace(text))
		if err != nil || n < 1 || n > most {
			return nil, fmt.Errorf("%s: %q is no whole number from 1 to %d; for several put commas between them, such as 6,10,20", flag, text, most)
		}
		all = append(all, n)
	}
	return all, nil
}

// temperatures reads a list of temperatures, in °C. A comma separates, so a decimal comma is found out by what
// follows it: 22,5C would be water of 22 and of 5 degrees.
func temperatures(list string) ([]float64, error) {
	parts := strings.Split(list, ",")
	var all []float64
	for i, text := range parts {
		celsius, err := journal.ParseQuantity(text, journal.QuantityTemperature, journal.MetricUnits())
		if err != nil {
			return nil, fmt.Errorf("--temperature: %w", err)
		}
		if i > 0 && celsius < 10 {
			return nil, fmt.Errorf("--temperature: %q holds water of %.0f °C; if it is one temperature, write %s.%s", list, celsius, parts[i-1], text)
		}
		all = append(all, math.Round(1000*celsius)/1000) // the same water in another unit is the same plan
	}
	return all, nil
}

// printPlan writes one plan in words, with its numbers and its line.
func printPlan(out io.Writer, p *forecast.Planned) {
	fmt.Fprintf(out, "%s at %s in %s, %s ahead\n\n", wording.Count(p.Founders.Total(), "founder", "founders"),
		celsius(p.Celsius), tankOf(p), wording.Count(p.Months, "month", "months"))
	fmt.Fprintf(out, "Both sexes among them: %s. %s\n\n", bothSexes(p), foundersNeeded(p))
	printChart(out, []*forecast.Planned{p})
	table := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(table, "month\tshrimp\t9 in 10 times\thalf of the times")
	for _, at := range p.Ahead {
		fmt.Fprintf(table, "%d\t%.0f\t%.0f to %.0f\t%.0f to %.0f\n", at.Day/daysPerMonth, at.P50, at.P05,
			at.P95, at.P25, at.P75)
	}
	table.Flush()
	fmt.Fprintf(out, "\n%s\n\n", whoCounts(p))
	if p.Plan.Goal > 0 {
		fmt.Fprintf(out, "Passes %d: %s\n", p.Prospect.Goal.Count, passes(p.Prospect.Goal.Passing, p.Months))
	}
	for _, pass := range p.Passes {
		if pass.Count != p.Plan.Goal && pass.Count > p.Founders.Total() {
			fmt.Fprintf(out, "Passes %d: %s\n", pass.Count, passes(pass.Passing, p.Months))
		}
	}
	fmt.Fprintf(out, "Dies out: %s.\n", wording.Odds(p.Extinct))
	fmt.Fprintf(out, "Enough adults to begin selecting: %s\n", passes(p.Select, p.Months))
	fmt.Fprintln(out, leaving(p))
	for _, note := range p.Notes {
		fmt.Fprintln(out, note)
	}
}

// printChart draws plans, unless no young can be born in any of them.
func printChart(out io.Writer, plans []*forecast.Planned) {
	if slices.ContainsFunc(plans, func(p *forecast.Planned) bool { return p.BothSexes > 0 }) {
		fmt.Fprintln(out, chartOf(plans))
		return
	}
	fmt.Fprint(out, "There is no chart: it takes both sexes for young, so the number can only fall.\n\n")
}

// printPlans writes several plans as one table, with their lines.
func printPlans(out io.Writer, plans []forecast.Planned) {
	first := &plans[0]
	fmt.Fprintf(out, "%d colonies in %s, %s ahead\n\n%s\n\n", len(plans), tankOf(first),
		wording.Count(first.Months, "month", "months"), foundersNeeded(first))
	lines := make([]*forecast.Planned, len(plans))
	for i := range plans {
		lines[i] = &plans[i]
	}
	printChart(out, lines)
	table := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprint(table, "line\tfounders\twater\tboth sexes")
	months := tableMonths(first.Months)
	for _, m := range months {
		fmt.Fprintf(table, "\tmonth %d", m)
	}
	goal := first.Plan.Goal > 0
	if goal {
		fmt.Fprintf(table, "\tpasses %d", first.Plan.Goal)
	}
	fmt.Fprintln(table, "\tdies out\tmay leave a month")
	for i := range plans {
		p := &plans[i]
		fmt.Fprintf(table, "%c\t%d\t%s\t%s", lineName(i), p.Founders.Total(), celsius(p.Celsius), bothSexes(p))
		for _, m := range months {
			at := p.Ahead[m-1]
			fmt.Fprintf(table, "\t%.0f (%.0f to %.0f)", at.P50, at.P05, at.P95)
		}
		if goal {
			fmt.Fprintf(table, "\t%s", passesShort(p.Prospect.Goal.Passing))
		}
		fmt.Fprintf(table, "\t%s\t%d\n", wording.Odds(p.Extinct), p.MayLeave)
	}
	table.Flush()
	fmt.Fprintf(out, "\n%s\nIn brackets what holds 9 in 10 times. May leave: from month %d on, with at most 5 %% chance that the colony shrinks for it within a year.\n", whoCounts(first), first.Months)
	printNotes(out, plans)
}

// printNotes writes each note once, with the water that it is about when it is not about all.
func printNotes(out io.Writer, plans []forecast.Planned) {
	printed := map[string]bool{}
	for i := range plans {
		for _, note := range plans[i].Notes {
			line := note
			if !shared(plans, note) {
				line = celsius(plans[i].Celsius) + ": " + note
			}
			if !printed[line] {
				printed[line] = true
				fmt.Fprintln(out, line)
			}
		}
	}
}

// shared reports whether every plan has a note.
func shared(plans []forecast.Planned, note string) bool {
	n := 0
	for i := range plans {
		for _, other := range plans[i].Notes {
			if other == note {
				n++
			}
		}
	}
	return n == len(plans)
}
