package draft

import (
	"cmp"
	"fmt"
	"path"
	"slices"
	"strings"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
)

// Options is what the keeper asks of a new entry.
type Options struct {
	Day   journal.Day
	Tank  string // id, or "" for the only tank there is
	Title string // or ""
}

// mostProposals is how many likely events an entry lists; a long list is not read.
const mostProposals = 10

// Entry returns a new entry. Its path is free in the journal. The colony is replayed, and the forecast made,
// for the day of the options; the forecast is nil when the journal has errors, and then only the record is
// asked.
func Entry(c *colony.Colony, f *forecast.Forecast, taken []*journal.Entry, wanted Options) File {
	var out strings.Builder
	fmt.Fprintf(&out, "---\ndate: %s\n", wanted.Day)
	if wanted.Title != "" {
		fmt.Fprintf(&out, "title: %s\n", yamlText(wanted.Title))
	}
	writeTank(&out, c, wanted.Tank)
	out.WriteString("# Take away the # and the space behind it where you saw it, and write the number or the name behind the colon.\n")
	writeWater(&out, c, wanted)
	out.WriteString("events:\n")
	for _, p := range proposalsFor(c, f, wanted) {
		out.WriteString(indent(commented(append([]string{p.why}, p.lines...)...), "  ") + "\n")
	}
	out.WriteString(indent(commented("Other events, each on a line such as   - died: 1", strings.Join(others(), ", "), "What they mean: pleopod manual berried"), "  "))
	out.WriteString("---\n\n")
	return File{Path: freePath(taken, wanted), Text: out.String()}
}

// Blank returns the path of an entry that holds no more than a new one does, nothing but comments and the same day, tank and
// title, or "".
func Blank(entries []*journal.Entry, file File) string {
	made := bare(file.Text)
	for _, entry := range entries {
		if bare(string(entry.Source)) == made {
			return entry.Path
		}
	}
	return ""
}

// bare is an entry without its comments and its empty lines.
func bare(text string) string {
	var out strings.Builder
	matter, body, _ := strings.Cut(strings.TrimPrefix(text, "---\n"), "\n---\n")
	for line := range strings.Lines(matter) {
		if line = strings.TrimSpace(line); line != "" && !strings.HasPrefix(line, "#") {
			out.WriteString(line + "\n")
		}
	}
	return out.String() + strings.TrimSpace(body)
}

// others lists every kind of event.
func others() []string {
	var names []string
	for _, word := range kindWords() {
		names = append(names, word.Name)
	}
	return names
}

// writeTank writes the tank where the journal has several, as a comment when nobody said which.
func writeTank(out *strings.Builder, c *colony.Colony, tank string) {
	tanks := c.Settings.Tanks
	switch {
	case tank != "":
		fmt.Fprintf(out, "tank: %s\n", tank)
	case len(tanks) > 1:
		var ids []string
		for _, t := range tanks {
			ids = append(ids, t.ID)
		}
		fmt.Fprintf(out, "# tank: %s   # one of: %s\n", ids[0], strings.Join(ids, ", "))
	}
}

// writeWater proposes a water test of what was measured last, with open values.
func writeWater(out *strings.Builder, c *colony.Colony, wanted Options) {
	var last *colony.Test
	for _, tank := range c.Tanks {
		if wanted.Tank != "" && tank.ID != wanted.Tank {
			continue
		}
		for i := range tank.Tests {
			if last == nil || tank.Tests[i].Day > last.Day {
				last = &tank.Tests[i]
			}
		}
	}
	keys := []string{"temperature: ", "ph: ", "gh: ", "kh: "}
	why := "no water test yet"
	if last != nil {
		keys = nil
		for _, reading := range last.Readings {
			keys = append(keys, string(reading.Kind)+": ")
		}
		why = "last tested " + ago(wanted.Day-last.Day)
	}
	fmt.Fprintf(out, "# water: {%s}   # %s; take out what you did not measure\n", strings.Join(keys, ", "), why)
}

// ago writes a number of days in the past.
func ago(days journal.Day) string {
	switch {
	case days <= 0:
		return "today"
	case days == 1:
		return "yesterday"
	case days < 60:
		return fmt.Sprintf("%d days ago", days)
	}
	return fmt.Sprintf("%d months ago", (days+15)/30)
}

// proposalsFor returns what is likely, the most pressing first.
func proposalsFor(c *colony.Colony, f *forecast.Forecast, wanted Options) []proposal {
	l := &likely{day: wanted.Day, tank: wanted.Tank, several: len(c.Settings.Tanks) > 1 && wanted.Tank == ""}
	if f != nil {
		l.broods(f)
		l.young(f)
		l.notices(f)
	} else {
		l.carried(c)
	}
	for _, tank := range c.Tanks {
		l.count(tank)
		l.change(tank)
		l.saddles(tank)
	}
	slices.SortStableFunc(l.found, func(a, b proposal) int { return cmp.Compare(a.rank, b.rank) })
	if rest := len(l.found) - mostProposals; rest > 0 {
		l.found = append(l.found[:mostProposals], proposal{why: fmt.Sprintf("and %d more: pleopod forecast", rest)})
	}
	return l.found
}

// freePath returns a path that no entry has, in the folders that the keeper uses.
func freePath(taken []*journal.Entry, wanted Options) string {
	used := map[string]bool{}
	for _, entry := range taken {
		used[strings.ToLower(entry.Path)] = true
	}
	name := wanted.Day.String()
	if s := slug(wanted.Title); s != "" {
		name += "-" + s
	}
	return Free(journal.EntryFolder(taken, wanted.Day)+"/"+name+".md",
		func(p string) bool { return used[strings.ToLower(p)] })
}

// Free returns the path, with -2, -3 and so on before its ending when it is taken.
func Free(wanted string, taken func(path string) bool) string {
	stem := strings.TrimSuffix(wanted, path.Ext(wanted))
	free := wanted
	for n := 2; taken(free); n++ {
		free = fmt.Sprintf("%s-%d%s", stem, n, path.Ext(wanted))
	}
	return free
}
