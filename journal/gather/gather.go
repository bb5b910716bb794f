package gather

import (
	"fmt"
	"io/fs"
	"strings"

	"pleopod/journal"
)

// Source is a table, and what the keeper says of it.
type Source struct {
	Name  string // of the file, for messages
	Bytes []byte
	Says  Answers
}

// Answers is what a table cannot tell by itself. The zero Answers lets the table speak.
type Answers struct {
	Tank    string   // id
	Dates   Order    // of dates such as 03/04/2026
	Decimal Mark     // of numbers such as 1,234
	Unit    string   // of temperatures: "C" or "F"
	Columns []string // what each column holds, from the left: "date", "time", "tank", a reading, a class of a count, "count", "note", or "-"
}

// Result is what a table was understood as, and what it would become.
type Result struct {
	Facts     []Fact            // how the table was read
	Questions []Question        // what must be answered first; then nothing else is filled in
	Problems  []journal.Problem // rows that are left out, and readings that are odd, at their places in the table
	Files     []File            // what is new
	Known     int               // rows that the journal has already
	Advice    []string          // what the keeper has to write herself
}

// Fact is one thing that was understood.
type Fact struct{ About, Text string }

// Question is what the table leaves open.
type Question struct {
	Text   string
	Answer string // what to add to the command or to do, for each reading
}

// File is a file of the journal that the table becomes.
type File struct {
	Path  string   // relative to the journal's folder
	Text  string   // the whole file
	About string   // what it holds, in a few words
	Meant []string // lines of events that its notes seem to tell of; they are not in the text
	Grows bool     // a logger file that exists and begins with the same bytes
}

// Read works out what a table holds. The folder is the journal's, for logger files that exist already.
func Read(source Source, j *journal.Journal, folder fs.FS) *Result {
	r := &reader{Source: source, journal: j, folder: folder, result: &Result{}}
	r.read()
	journal.SortProblems(r.result.Problems)
	return r.result
}

// reader reads one table.
type reader struct {
	Source
	journal *journal.Journal
	folder  fs.FS
	result  *Result

	separator string
	rows      []row // below the header
	columns   []heading
	order     Order
	decimal   Mark
	unit      string // of temperatures without one of their own
	filled    int    // dates and tanks that were taken from the row above
}

func (r *reader) ask(text, answer string) {
	r.result.Questions = append(r.result.Questions, Question{text, answer})
}

func (r *reader) fact(about, format string, args ...any) {
	r.result.Facts = append(r.result.Facts, Fact{about, fmt.Sprintf(format, args...)})
}

// leaveOut reports a row that does not become anything.
func (r *reader) leaveOut(at row, column int, message, hint string) {
	r.result.Problems = append(r.result.Problems, journal.Problem{Position: r.at(at, column), Code: "gather-row",
		Message: message + "; the row is left out", Hint: hint})
}

// at is the place of a field.
func (r *reader) at(of row, column int) journal.Position {
	return journal.Position{File: r.Name, Line: of.line, Column: of.place(column)}
}

func (r *reader) read() {
	text, encoding, err := decode(r.Bytes)
	if err != nil {
		r.ask(r.Name+": "+err.Error(), "")
		return
	}
	rows, separator, err := split(text)
	if err != nil {
		r.ask(r.Name+": "+err.Error(), "")
		return
	}
	r.separator = separator
	header, ok := r.findHeader(rows)
	if !ok {
		return
	}
	r.fact("text", "%s, columns separated by %s, header in line %d", encoding, separator, header)
	if r.tooWide(); len(r.result.Questions) > 0 {
		return
	}
	r.settleColumns()
	r.settleDates()
	r.settleNumbers()
	r.settleUnit()
	r.settleTank()
	if len(r.result.Questions) > 0 {
		return
	}
	r.tellColumns()
	records := r.records()
	if r.isLogger() {
		r.becomeLog(records)
		return
	}
	r.becomeEntries(records)
}

// column returns the column of a role, or -1.
func (r *reader) column(wanted role) int {
	for i, h := range r.columns {
		if h.role == wanted && h.why == "" {
			return i
		}
	}
	return -1
}

// fields returns what is written in a column, without what is absent.
func (r *reader) fields(column int) []string {
	var all []string
	for _, row := range r.rows {
		if text := row.at(column); !isAbsent(text) {
			all = append(all, text)
		}
	}
	return all
}

// isLogger reports whether the table holds nothing but temperatures.
func (r *reader) isLogger() bool {
	for _, h := range r.columns {
		if h.why == "" && isValue(h.role) && h.role != role(journal.Temperature) {
			return false
		}
	}
	return true
}

// tellColumns says what each column is taken for.
func (r *reader) tellColumns() {
	var unused []string
	for i, h := range r.columns {
		name := h.written
		if name == "" {
			name = "without a name"
		}
		switch {
		case h.role != roleNone && h.why == "":
			text := fmt.Sprintf("column %d, %s", i+1, name)
			if h.unit != "" {
				text += ", in " + h.unit
			} else if h.role == role(journal.Temperature) && r.unit != "" {
				text += ", in " + r.unit + " by its values"
			}
			r.fact(string(h.role), "%s", text)
		case h.why != "":
			unused = append(unused, name+" ("+h.why+")")
		case len(r.fields(i)) > 0:
			unused = append(unused, name)
		}
	}
	if len(unused) > 0 {
		r.fact("not used", "%s", strings.Join(unused, "; "))
	}
}
