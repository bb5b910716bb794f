package main

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"text/tabwriter"

	"pleopod/journal"
	"pleopod/journal/care"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
)

type forecastCommand struct {
	journalFlags
	Tank string `placeholder:"ID" help:"Only this tank, by its id or its name."`
	JSON bool   `name:"json" help:"Print the whole forecast as one JSON document."`
}

// Run prints what is due and how sure it is.
func (c *forecastCommand) Run(env *environment) error {
	root, err := c.open()
	if err != nil {
		return err
	}
	defer root.Close()
	loaded, err := c.load(root.FS(), env)
	if err != nil {
		return err
	}
	if c.Tank, err = tankID(c.Tank, loaded.journal.Settings.Tanks); err != nil {
		return err
	}
	if err := env.printProblems(withoutNoAddress(loaded.problems), root.FS()); err != nil {
		return err
	}
	if c.JSON {
		return printJSON(env.stdout, c.only(forecast.NewDocument(loaded.forecast, false)))
	}
	c.print(env.stdout, loaded.forecast)
	return nil
}

// only leaves out of a document what is about other tanks than the one asked for.
func (c *forecastCommand) only(d forecast.Document) forecast.Document {
	if c.Tank == "" {
		return d
	}
	d.Broods = slices.DeleteFunc(d.Broods, func(b forecast.BroodDocument) bool { return b.Tank != c.Tank })
	d.Cohorts = slices.DeleteFunc(d.Cohorts, func(b forecast.CohortDocument) bool { return b.Tank != c.Tank })
	d.Tanks = slices.DeleteFunc(d.Tanks, func(b forecast.TankDocument) bool { return b.ID != c.Tank })
	elsewhere := func(n forecast.NoticeDocument) bool { return n.Tank != c.Tank }
	d.Notices, d.Ended = slices.DeleteFunc(d.Notices, elsewhere), slices.DeleteFunc(d.Ended, elsewhere)
	return d
}

// print writes the forecast as text.
func (c *forecastCommand) print(out io.Writer, f *forecast.Forecast) {
	asOf := f.Colony.AsOf
	fmt.Fprintf(out, "%s, as of %s\n\n", printable(f.Colony.Settings.Title), asOf)
	printDue(out, c.due(f), asOf)
	c.printTanks(out, f)
	if l := f.Learning.Incubation; l.Used > 0 {
		fmt.Fprintf(out, "\nLearned from %s: eggs here take %.2f times the default (90 %%: %.2f to %.2f).\n",
			wording.Count(l.Used, "brood", "broods"), l.Mean,
			l.Mean*math.Exp(-1.645*l.SD), l.Mean*math.Exp(1.645*l.SD))
	}
	if r := f.Record; r.Broods > 0 {
		fmt.Fprintf(out, "Track record over %s: %.1f days off on average (the rule of 21 days: %.1f); the 80 %% window held %.0f %%.\n",
			wording.Count(r.Broods, "brood", "broods"), r.MAEDays, r.FixedRuleMAEDays, 100*r.Coverage80)
	}
	if m := f.Record.Maturity; m.Count > 0 {
		fmt.Fprintf(out, "First grown daughters over %s: %.0f days off on average%s.\n",
			wording.Count(m.Count, "cohort", "cohorts"), m.MAEDays, held(m))
	}
	c.printWeek(out, f)
	c.printNotices(out, f)
	fmt.Fprint(out, "\nEstimates with their uncertainty, not veterinary advice.\n")
}

// printWeek writes what to look for in the coming seven days.
func (c *forecastCommand) printWeek(out io.Writer, f *forecast.Forecast) {
	asOf := f.Colony.AsOf
	week := slices.DeleteFunc(care.Week(care.Calendar(f), asOf),
		func(i care.Item) bool { return c.Tank != "" && i.Tank != c.Tank })
	if len(week) == 0 {
		return
	}
	fmt.Fprintf(out, "\nTo look for until %s:\n", asOf+care.Days-1)
	for _, i := range week {
		fmt.Fprintf(out, "  - %s: %s %s\n", i.Tank, printable(i.Words), printable(i.Why))
	}
}

// held says how much the 80 % window held, where there are enough to say so.
func held(s forecast.Score) string {
	if s.Count < 10 {
		return "; too few to judge the windows"
	}
	return fmt.Sprintf("; the 80 %% window held %.0f %%", 100*s.Coverage80)
}

// severityWords are what each severity is called, the most pressing first.
var severityWords = []struct {
	severity forecast.Severity
	words    string
}{{forecast.Now, "now"}, {forecast.Soon, "soon"}, {forecast.Look, "have a look"}}

// printNotices writes what is unusual in the record, the most pressing first.
func (c *forecastCommand) printNotices(out io.Writer, f *forecast.Forecast) {
	for _, s := range severityWords {
		for _, n := range f.Notices {
			if n.Severity != s.severity || c.Tank != "" && n.Tank != c.Tank {
				continue
			}
			fmt.Fprintf(out, "\n%s: %s (%s, since %s)\n", capitalised(s.words), printable(n.Headline), n.Tank, n.Since)
			fmt.Fprintf(out, "  seen: %s\n  expected: %s %s\n  what to check first:\n", printable(n.Seen),
				printable(n.Expected), printable(n.Odds))
			for i, check := range n.Checks {
				fmt.Fprintf(out, "  %d. %s\n", i+1, printable(check))
			}
		}
	}
}

func (c *forecastCommand) printTanks(out io.Writer, f *forecast.Forecast) {
	fmt.Fprintln(out)
	table := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(table, "tank\twater, 30 days\tshrimp now (90 %)\tgrown females\tin 90 days\tmay leave a month")
	for i := range f.Tanks {
		t := &f.Tanks[i]
		if c.Tank != "" && t.ID != c.Tank {
			continue
		}
		p, water := &t.Population, wording.Units{Units: f.Colony.Settings.Units}.Amount(journal.Temperature, t.Celsius)
		if len(t.Temperatures) == 0 {
			water += ", not measured"
		}
		leave := strconv.Itoa(p.MayLeavePerMonth)
		if t.SilentSince(f.Colony.AsOf) != 0 {
			leave = "count first"
		}
		fmt.Fprintf(table, "%s\t%s\t%s\t%s\t%s\t%s\n", t.ID, water, band(p.Now),
			band(p.AdultFemales), band(on(p.Ahead, f.Colony.AsOf+90)), leave)
	}
	table.Flush()
}

// band writes the middle and the 90 % band of a number.
func band(q forecast.Quantiles) string {
	return fmt.Sprintf("%.0f (%.0f to %.0f)", q.P50, q.P05, q.P95)
}

// on returns the numbers on the last listed day that is not after day.
func on(ahead []forecast.At, day journal.Day) forecast.Quantiles {
	var found forecast.Quantiles
	for _, at := range ahead {
		if at.Day <= day {
			found = at.Quantiles
		}
	}
	return found
}
