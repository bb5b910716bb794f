package journal

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// SettingsFile is the name of the file that makes a folder a journal.
const SettingsFile = "journal.yaml"

// Position is a place in one of the keeper's files. Line and Column count from 1; Column counts code points.
type Position struct {
	File   string // slash-separated, relative to the journal folder
	Line   int
	Column int
}

// String returns file:line:column.
func (p Position) String() string { return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Column) }

// compare orders places by file, line and column.
func (p Position) compare(q Position) int {
	return cmp.Or(strings.Compare(p.File, q.File), cmp.Compare(p.Line, q.Line), cmp.Compare(p.Column, q.Column))
}

// Severity says what a Problem does: an Error stops publishing, a Warning does not.
type Severity int

// The two severities.
const (
	Error Severity = iota
	Warning
)

// Problem is a mistake or an oddity in the journal, at the place where the keeper can mend it.
type Problem struct {
	Position
	Severity Severity
	// Code names the kind of problem in lower-case words with hyphens, such as "unknown-event"; the manual
	// explains each.
	Code string
	// Message says what was found and what is allowed, with the nearest right word; lower case, no full stop.
	Message string
	// Hint is an optional second line: what to type.
	Hint string
}

// Error returns "file:line:column: message", with "warning: " before the message of a warning.
func (p Problem) Error() string {
	if p.Severity == Warning {
		return p.Position.String() + ": warning: " + p.Message
	}
	return p.Position.String() + ": " + p.Message
}

// SortProblems puts problems in the order of the manual: journal.yaml first, then by path, line and column.
func SortProblems(problems []Problem) {
	slices.SortStableFunc(problems, func(a, b Problem) int {
		return cmp.Or(
			-cmp.Compare(rank(a.File), rank(b.File)),
			a.Position.compare(b.Position),
		)
	})
}

// rank is 1 for the settings file and 0 for every other.
func rank(file string) int {
	if file == SettingsFile {
		return 1
	}
	return 0
}

// HasErrors reports whether any of the problems stops publishing.
func HasErrors(problems []Problem) bool {
	return slices.ContainsFunc(problems, func(p Problem) bool { return p.Severity == Error })
}
