package main

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"

	"pleopod/journal"
	"pleopod/journal/forecast"
)

// due is one line of the table of what is coming.
type due struct {
	what, name, tank string
	window           forecast.Window
	late             journal.Day // since when the eggs are overdue, or zero
}

// due lists what is coming, the overdue first, then soonest first, then what has no date. What has happened, has been
// seen, or is over by nine chances in ten is left out.
func (c *forecastCommand) due(f *forecast.Forecast) []due {
	asOf := f.Colony.AsOf
	var all []due
	for i := range f.Broods {
		all = append(all, broodDue(&f.Broods[i], asOf)...)
	}
	for _, cohort := range f.Cohorts {
		if cohort.FirstSaddled == 0 && cohort.FirstBerried == 0 {
			all = append(all, due{what: "can be sexed", name: cohort.ID, tank: cohort.Tank, window: cohort.Sexable},
				due{what: "mature", name: cohort.ID, tank: cohort.Tank, window: cohort.Mature})
		}
	}
	all = slices.DeleteFunc(all, func(d due) bool {
		return c.Tank != "" && d.tank != c.Tank || d.window.Reason == "" && d.window.P90 < asOf
	})
	for i, d := range all {
		if d.window.Reason == "" && d.window.P50 < asOf {
			all[i].what += fmt.Sprintf(", %.0f %% by now", 100*d.window.By(asOf))
		}
	}
	rank := func(d due) (group int, day journal.Day) {
		switch {
		case d.late != 0:
			return 0, d.late
		case d.window.Reason != "":
			return 2, 0
		}
		return 1, max(d.window.P50, asOf)
	}
	slices.SortStableFunc(all, func(a, b due) int {
		x, from := rank(a)
		y, to := rank(b)
		return cmp.Or(cmp.Compare(x, y), cmp.Compare(from, to))
	})
	return all
}

// broodDue lists the eyes and the hatch of a brood that is carried.
func broodDue(b *forecast.Brood, asOf journal.Day) []due {
	hatch := due{what: "hatch", name: b.ID, tank: b.Tank(), window: b.Expected()}
	switch b.State {
	case forecast.Overdue:
		hatch.late = b.LateFrom
		return []due{hatch}
	case forecast.Carried:
		if b.Eyed == 0 && b.Eyes.P90 != 0 {
			return []due{{what: "eyes show", name: b.ID, tank: b.Tank(), window: b.Eyes}, hatch}
		}
		return []due{hatch}
	}
	return nil
}

// printDue writes the table of what is coming, what the marks of its bars mean, and what makes the dates less sure.
func printDue(out io.Writer, all []due, asOf journal.Day) {
	if len(all) == 0 {
		fmt.Fprintln(out, "Nothing is due: no eggs are carried and no young are growing up, as far as the journal says.")
		return
	}
	table := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(table, "likeliest\t80 % window\t\twhat\tbrood\ttank")
	var notes footnotes
	for _, d := range all {
		if d.window.Reason != "" {
			likeliest, days := "no date", ""
			if d.late != 0 {
				likeliest, days = "overdue", "before "+d.late.String()
			}
			fmt.Fprintf(table, "%s\t%s\t\t%s\t%s\t%s\n", likeliest, days, d.what, d.name, d.tank)
			notes.add(d.window.Reason, d.name)
			continue
		}
		for _, doubt := range d.window.Doubts {
			notes.add(doubt, d.name)
		}
		fmt.Fprintf(table, "%s\t%s to %s\t%s\t%s\t%s\t%s\n", d.window.P50, d.window.P10, d.window.P90,
			bar(d.window, asOf), d.what, d.name, d.tank)
	}
	table.Flush()
	fmt.Fprintf(out, "\nEach mark of a bar is %d days from the as-of day on: = inside the window, # the likeliest day, < it began earlier.\n", daysPerMark)
	for _, n := range notes {
		fmt.Fprintln(out, printable(strings.Join(n.names, ", ")+": "+n.text))
	}
}

// footnotes are sentences below a table, each once, with the lines that it is about.
type footnotes []footnote

type footnote struct {
	text  string
	names []string
}

// add puts a line to its sentence.
func (f *footnotes) add(text, name string) {
	i := slices.IndexFunc(*f, func(n footnote) bool { return n.text == text })
	if i < 0 {
		*f = append(*f, footnote{text: text})
		i = len(*f) - 1
	}
	if n := &(*f)[i]; !slices.Contains(n.names, name) {
		n.names = append(n.names, name)
	}
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
		case window.P50 >= from && window.P50 <= until:
			b.WriteByte('#')
		case i == 0 && window.P10 < from && window.P90 >= from:
			b.WriteByte('<')
		case window.P10 <= until && window.P90 >= from:
			b.WriteByte('=')
		default:
			b.WriteByte('.')
		}
	}
	return b.String()
}
