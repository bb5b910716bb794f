package gather

import (
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"

	"pleopod/journal"
)

// page is the entry of one day and one tank.
type page struct {
	day            journal.Day
	tank           string
	events         []string // as YAML
	tests, numbers bool
	meant          []string // lines of events that its notes seem to tell of
}

// becomeEntries turns rows into entries, one for each day and tank. What the journal knows is left out.
func (r *reader) becomeEntries(records []record) {
	known := r.knownEvents()
	pages := map[string]*page{}
	for _, found := range records {
		events, ok := r.events(found)
		if !ok {
			continue
		}
		fresh := slices.DeleteFunc(events, func(e gathered) bool { return known.has(found.day, found.tank, e.what) })
		if len(fresh) == 0 {
			r.result.Known++
			continue
		}
		key := found.day.String() + " " + found.tank
		if pages[key] == nil {
			pages[key] = &page{day: found.day, tank: found.tank}
		}
		for _, e := range fresh {
			pages[key].add(e)
			known.add(found.day, found.tank, e.what)
		}
		pages[key].meant = append(pages[key].meant, r.meant(found)...)
	}
	var all []*page
	for _, p := range pages {
		all = append(all, p)
	}
	slices.SortFunc(all, func(a, b *page) int {
		return cmp.Or(cmp.Compare(a.day, b.day),
			strings.Compare(a.tank, b.tank))
	})
	for _, p := range all {
		r.result.Files = append(r.result.Files, r.file(p))
	}
}

// gathered is one event of a row.
type gathered struct {
	yaml string
	what journal.Happening
}

func (p *page) add(e gathered) {
	p.events = append(p.events, e.yaml)
	switch e.what.(type) {
	case *journal.WaterTest:
		p.tests = true
	case *journal.Counted:
		p.numbers = true
	}
}

// events turns a row into its events, and reads them as the journal's reader does: what it refuses is left out,
// and what it finds odd is reported at the place in the table.
func (r *reader) events(found record) ([]gathered, bool) {
	var all []gathered
	for _, yaml := range []string{waterOf(found), countOf(found)} {
		if yaml == "" {
			continue
		}
		entry, problems := journal.ParseEntry(r.Name,
			[]byte(r.matter(found.day, found.tank, "", []string{yaml})), &r.journal.Settings)
		for _, p := range problems {
			if p.Severity == journal.Error {
				r.leaveOut(found.row, columnOf(found, p.Message), p.Message, p.Hint)
				return nil, false
			}
			p.Position = r.at(found.row, columnOf(found, p.Message))
			r.result.Problems = append(r.result.Problems, p)
		}
		all = append(all, gathered{yaml, entry.Events[0].What})
	}
	if column, problem := contradiction(found); problem != "" {
		r.leaveOut(found.row, column, problem, "mend the total, or delete it")
		return nil, false
	}
	return all, true
}

// columnOf returns the column of the value that a message is about.
func columnOf(found record, message string) int {
	for _, v := range found.values {
		if strings.HasPrefix(message, `"`+string(v.role)+`"`) || strings.HasPrefix(message, string(v.role)+" ") {
			return v.column
		}
	}
	return found.values[0].column
}

// contradiction says that a total is not the sum of its classes, and where the total stands.
func contradiction(found record) (column int, problem string) {
	total, sum, classes := -1, 0, 0
	for _, v := range found.values {
		n, err := strconv.Atoi(v.number.text)
		switch {
		case err != nil:
		case v.role == roleCount:
			total, column = n, v.column
		case isClass(v.role):
			sum += n
			classes++
		}
	}
	if total < 0 || classes == 0 || total == sum {
		return 0, ""
	}
	return column, fmt.Sprintf("the classes add up to %d and the total is %d", sum, total)
}

// waterOf writes the water test of a row, or "".
func waterOf(found record) string {
	var parts []string
	for _, v := range found.values {
		if word := readingWord(v.role); word != nil {
			text := v.number.text
			if v.number.below {
				text = "<" + text
			}
			parts = append(parts, word.Name+": "+strings.TrimSpace(text+" "+v.number.unit))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	yaml := "  - water: {" + strings.Join(parts, ", ") + "}\n"
	if found.note != "" && countOf(found) == "" {
		yaml += "    note: " + quoted(found.note) + "\n"
	}
	return yaml
}

// countOf writes the count of a row, or "".
func countOf(found record) string {
	var classes []string
	total := ""
	for _, v := range found.values {
		text := strings.TrimSpace(strings.TrimSuffix(v.number.text, ".0") + " " + v.number.unit)
		switch {
		case isClass(v.role):
			classes = append(classes, string(v.role)+": "+text)
		case v.role == roleCount:
			total = text
		}
	}
	if len(classes) > 0 {
		total = "{" + strings.Join(classes, ", ") + "}"
	}
	if total == "" {
		return ""
	}
	yaml := "  - counted: " + total + "\n"
	if found.method != "" {
		yaml += "    method: " + quoted(found.method) + "\n"
	}
	if found.note != "" {
		yaml += "    note: " + quoted(found.note) + "\n"
	}
	return yaml
}

// quoted writes a text as YAML in double quotes, which JSON's are as well.
func quoted(text string) string {
	var out bytes.Buffer
	encoder := json.NewEncoder(&out)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(text); err != nil {
		panic("gather: " + err.Error()) // a string always has a JSON form
	}
	return strings.TrimSpace(out.String())
}

// matter writes an entry.
func (r *reader) matter(day journal.Day, tank, title string, events []string) string {
	var out strings.Builder
	fmt.Fprintf(&out, "---\ndate: %s\n", day)
	if title != "" {
		fmt.Fprintf(&out, "title: %s\n", title)
	}
	if len(r.journal.Settings.Tanks) > 1 {
		fmt.Fprintf(&out, "tank: %s\n", tank)
	}
	out.WriteString("events:\n" + strings.Join(events, "") + "---\n")
	return out.String()
}

// file writes the entry of one day and one tank.
func (r *reader) file(p *page) File {
	title, short := "Water test", "water"
	switch {
	case p.tests && p.numbers:
		title, short = "Water test and count", "water-and-count"
	case p.numbers:
		title, short = "Count", "count"
	}
	name := p.day.String()
	if len(r.journal.Settings.Tanks) > 1 {
		name += "-" + p.tank
	}
	var about []string
	for _, event := range p.events {
		event = strings.TrimSuffix(strings.TrimPrefix(event, "  - "), "\n")
		about = append(about, strings.ReplaceAll(event, "\n    ", ", "))
	}
	text := r.matter(p.day, p.tank, title, p.events) + "From the table `" + strings.ReplaceAll(path.Base(strings.ReplaceAll(r.Name, `\`, "/")), "`", "") + "`.\n"
	return File{Path: path.Join(journal.EntryFolder(r.journal.Entries, p.day), name+"-"+short+".md"),
		Text: text, About: strings.Join(about, "; "), Meant: p.meant}
}
