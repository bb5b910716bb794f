package journal

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/goccy/go-yaml/token"
)

// page is one file while it is read: where it is, and what is wrong with it.
type page struct {
	path     string
	before   int // lines of the file above its YAML
	units    Units
	text     []byte // the file, with LF line ends
	problems []Problem
	tried    int  // lines of the text that were tried as events
	html     bool // the text holds HTML, and that was reported
}

// issue is a problem without its place.
type issue struct {
	code    string
	message string
	hint    string
}

// at returns the place of a YAML token in the file. Some tokens of the parser stand before the first column.
func (p *page) at(tk *token.Token) Position {
	return Position{File: p.path, Line: max(tk.Position.Line, 1) + p.before, Column: max(tk.Position.Column, 1)}
}

// place returns a place of the file by line and column.
func (p *page) place(line, column int) Position {
	return Position{File: p.path, Line: line, Column: column}
}

// fail adds an error.
func (p *page) fail(at Position, found issue) { p.add(at, Error, found) }

// warn adds a warning.
func (p *page) warn(at Position, found issue) { p.add(at, Warning, found) }

// oneLine takes what was written over several lines into a hint, which is one.
var oneLine = strings.NewReplacer("\n", " ", "\r", " ", "\x00", " ")

func (p *page) add(at Position, severity Severity, found issue) {
	problem := Problem{Position: at, Severity: severity, Code: found.code, Message: found.message, Hint: oneLine.Replace(found.hint)}
	if !slices.Contains(p.problems[max(0, len(p.problems)-8):], problem) {
		p.problems = append(p.problems, problem)
	}
}

// keepInside moves places that the YAML parser puts behind the end of a line back to it.
func (p *page) keepInside() {
	if len(p.problems) == 0 || p.text == nil {
		return
	}
	lines := bytes.Split(p.text, []byte("\n"))
	for i := range p.problems {
		at := &p.problems[i].Position
		at.Line = min(at.Line, len(lines))
		at.Column = min(at.Column, 1+utf8.RuneCount(lines[at.Line-1]))
	}
}

// sorted returns the problems in order; from the limit on they are only counted.
func (p *page) sorted() []Problem {
	p.keepInside()
	SortProblems(p.problems)
	if len(p.problems) <= maxReportedInFile {
		return p.problems
	}
	rest := len(p.problems) - maxReportedInFile
	severity := Warning
	if HasErrors(p.problems[maxReportedInFile:]) {
		severity = Error
	}
	last := p.problems[maxReportedInFile]
	return append(p.problems[:maxReportedInFile:maxReportedInFile], Problem{Position: last.Position, Severity: severity,
		Code: "more-problems", Message: fmt.Sprintf("%d more problems in this file from here on", rest)})
}

// quote writes what was found, short and on one line.
func quote(text string) string {
	const most = 60
	if utf8.RuneCountInString(text) > most {
		text = string([]rune(text)[:most-1]) + "…"
	}
	plain := strings.IndexFunc(text, func(r rune) bool { return !unicode.IsPrint(r) || r == '"' || r == '\\' }) < 0
	if plain {
		return `"` + text + `"`
	}
	return strconv.Quote(text)
}

// either lists words as "a, b or c", each in quotes.
func either(words []string) string {
	const most = 25
	var quoted []string
	for i, word := range words {
		if i == most {
			quoted = append(quoted, "…")
			break
		}
		quoted = append(quoted, quote(word))
	}
	if len(quoted) < 2 {
		return strings.Join(quoted, "")
	}
	last := len(quoted) - 1
	return strings.Join(quoted[:last], ", ") + " or " + quoted[last]
}

// unknown is a word that does not exist.
type unknown struct {
	code    string
	what    string // such as "key"
	written string
	owner   string   // what the word was looked for in; may be empty
	nearest []string // the words that may be meant; may be empty
	known   []string // the words that exist
}

// issue names the nearest word, or the whole list.
func (u unknown) issue() issue {
	message := "unknown " + u.what + " " + quote(u.written)
	if u.owner != "" {
		message += " in " + u.owner
	}
	switch {
	case len(u.nearest) > 0:
		message += "; did you mean " + either(u.nearest) + "?"
	case len(u.known) > 0:
		message += "; allowed: " + either(u.known)
	}
	return issue{code: u.code, message: message, hint: trapHint(u.written)}
}

// decimal writes a number in its shortest form.
func decimal(value float64) string { return strconv.FormatFloat(value, 'f', -1, 64) }

// round cuts a number to some decimals, so that 23.400000000000002 is shown as 23.4.
func round(value float64, decimals int) float64 {
	scale := math.Pow10(decimals)
	return math.Round(value*scale) / scale
}
