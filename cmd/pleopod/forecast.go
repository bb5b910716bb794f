package main

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"text/tabwriter"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/water"
)

type forecastCommand struct {
	place
	Tank string `placeholder:"ID" help:"Only this tank."`
	JSON bool   `name:"json" help:"Print the whole forecast as one JSON document."`
}

// Run prints what is due and how sure it is.
func (c *forecastCommand) Run(w *world) error {
	root, err := c.open()
	if err != nil {
		return err
	}
	defer root.Close()
	told, err := c.tell(root.FS(), new(journal.Reader), w)
	if err != nil {
		return err
	}
	if err := checkTank(c.Tank, told.journal); err != nil {
		return err
	}
	if err := w.show(told.problems, root.FS()); err != nil {
		return err
	}
	if c.JSON {
		return printJSON(w.stdout, c.only(forecast.NewDocument(told.forecast, false)))
	}
	c.print(w.stdout, told.forecast)
	return nil
}

// checkTank refuses a tank of the command line that the journal does not have.
func checkTank(id string, j *journal.Journal) error {
	if id == "" || j.Settings.Tank(id) != nil {
		return nil
	}
	var ids []string
	for _, tank := range j.Settings.Tanks {
		ids = append(ids, tank.ID)
	}
	if near := journal.Nearest(id, ids); near != "" {
		return misuse{fmt.Errorf("unknown tank %q; did you mean %q?", id, near)}
	}
	return misuse{fmt.Errorf("unknown tank %q; the journal has %s", id, strings.Join(ids, ", "))}
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

// due is one line of the table of what is coming.
type due struct {
	what, name, tank string
	window           forecast.Window
}

// print writes the forecast as text.
func (c *forecastCommand) print(out io.Writer, f *forecast.Forecast) {
	asOf := f.Colony.AsOf
	fmt.Fprintf(out, "%s, as of %s\n\n", printable(f.Colony.Settings.Title), asOf)
	c.printDue(out, c.due(f), asOf)
	c.printTanks(out, f)
	if l := f.Learning.Incubation; l.Used > 0 {
		fmt.Fprintf(out, "\nLearned from %d broods: eggs here take %.2f times the default (90 %%: %.2f to %.2f).\n", l.Used, l.Mean,
			l.Mean*math.Exp(-1.645*l.SD), l.Mean*math.Exp(1.645*l.SD))
	}
	if r := f.Record; r.Broods > 0 {
		fmt.Fprintf(out, "Track record over %d broods: %.1f days off on average (the rule of 21 days: %.1f); the 80 %% window held %.0f %%.\n",
			r.Broods, r.MAEDays, r.FixedRuleMAEDays, 100*r.Coverage80)
	}
	c.printNotices(out, f)
	fmt.Fprint(out, "\nEstimates with their uncertainty, not veterinary advice.\n")
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
			fmt.Fprintf(out, "\n%s: %s (%s, since %s)\n", sentenceCase(s.words), printable(n.Headline), n.Tank, n.Since)
			fmt.Fprintf(out, "  seen: %s\n  expected: %s %s\n  what to check first:\n", printable(n.Seen), printable(n.Expected), printable(n.Odds))
			for i, check := range n.Checks {
				fmt.Fprintf(out, "  %d. %s\n", i+1, printable(check))
			}
		}
	}
}

// sentenceCase puts a capital at the front.
func sentenceCase(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

// due lists what is coming, soonest first.
func (c *forecastCommand) due(f *forecast.Forecast) []due {
	var all []due
	for _, b := range f.Broods {
		if b.State == forecast.Carried || b.State == forecast.Overdue {
			what := "hatch"
			if b.State == forecast.Overdue {
				what = "hatch, overdue"
			}
			all = append(all, due{what, b.ID, b.Tank(), b.Hatch})
		}
	}
	for _, cohort := range f.Cohorts {
		if cohort.Sexable.P95 >= f.Colony.AsOf {
			all = append(all, due{"can be sexed", cohort.ID, cohort.Tank, cohort.Sexable})
		}
		if cohort.Mature.P95 >= f.Colony.AsOf {
			all = append(all, due{"mature", cohort.ID, cohort.Tank, cohort.Mature})
		}
	}
	all = slices.DeleteFunc(all, func(d due) bool { return c.Tank != "" && d.tank != c.Tank })
	slices.SortStableFunc(all, func(a, b due) int { return cmp.Compare(a.window.P50, b.window.P50) })
	return all
}

func (c *forecastCommand) printDue(out io.Writer, all []due, asOf journal.Day) {
	if len(all) == 0 {
		fmt.Fprintln(out, "Nothing is due: no eggs are carried and no young are growing up, as far as the journal says.")
		return
	}
	table := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(table, "likeliest\t80 % window\t\twhat\tbrood\ttank")
	for _, d := range all {
		if d.window.Reason != "" {
			fmt.Fprintf(table, "no date\t%s\t\t%s\t%s\t%s\n", d.window.Reason, d.what, d.name, d.tank)
			continue
		}
		fmt.Fprintf(table, "%s\t%s to %s\t%s\t%s\t%s\t%s\n", d.window.P50, d.window.P10, d.window.P90, bar(d.window, asOf), d.what, d.name, d.tank)
	}
	table.Flush()
	fmt.Fprintf(out, "\nEach mark of a bar is %d days from the as-of day on: = inside the window, # the likeliest.\n", daysPerMark)
}

// The bar of a window shows this many marks of this many days each.
const (
	marks       = 24
	daysPerMark = 5
)

// bar draws a window on a scale of days from the as-of day on.
func bar(window forecast.Window, asOf journal.Day) string {
	var b strings.Builder
	for i := range marks {
		from := asOf + journal.Day(i*daysPerMark)
		until := from + daysPerMark - 1
		switch {
		case window.P50 >= from && window.P50 <= until || (i == 0 && window.P50 < from):
			b.WriteByte('#')
		case window.P10 <= until && window.P90 >= from:
			b.WriteByte('=')
		default:
			b.WriteByte('.')
		}
	}
	return b.String()
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
		p := &t.Population
		fmt.Fprintf(table, "%s\t%s\t%s\t%s\t%s\t%d\n", t.ID, temperature(t.Celsius, f.Colony.Settings.Units), band(p.Now), band(p.AdultFemales), band(on(p.Ahead, f.Colony.AsOf+90)), p.MayLeavePerMonth)
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

// temperature writes °C in the journal's own unit.
func temperature(celsius float64, units journal.Units) string {
	if units.Temperature == "F" {
		return fmt.Sprintf("%.1f °F", water.Fahrenheit(celsius))
	}
	return fmt.Sprintf("%.1f °C", celsius)
}
