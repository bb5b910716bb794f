package main

import (
	"fmt"
	"io/fs"
	"strconv"
	"strings"
	"unicode"

	"golang.org/x/text/width"

	"pleopod/journal"
	"pleopod/journal/wording"
)

// The escape sequences of a terminal (ECMA-48, select graphic rendition).
const (
	boldRed    = "\x1b[1;31m"
	boldYellow = "\x1b[1;33m"
	ordinary   = "\x1b[0m"
)

// printProblem prints one problem; on a terminal with the line itself and a caret below the place.
func (env *environment) printProblem(files fs.FS, problem journal.Problem) {
	place := strings.ReplaceAll(problem.Position.String(), "\n", `\n`) // a file's name must not look like a line of ours
	rest := strings.TrimPrefix(problem.Error(), problem.Position.String())
	if !env.terminal {
		fmt.Fprintln(env.stderr, printable(place+rest))
	} else {
		colour := boldRed
		if problem.Severity == journal.Warning {
			colour = boldYellow
		}
		fmt.Fprintf(env.stderr, "%s%s%s%s\n", colour, printable(place), ordinary, printable(rest))
		if line := sourceLine(files, problem.Position); line != "" && problem.Column <= len([]rune(line))+1 {
			fmt.Fprintf(env.stderr, "  %s\n  %s%s^%s\n", line, blank(line, problem.Column-1), colour, ordinary)
		}
	}
	if problem.Hint != "" {
		fmt.Fprintln(env.stderr, "  "+printable(problem.Hint))
	}
}

// blank returns as many spaces as the first characters of a line take on a terminal: a wide one takes two, a mark that
// stands on another none (Unicode Standard Annex 11, East Asian Width).
func blank(line string, characters int) string {
	var spaces strings.Builder
	for _, r := range line {
		if characters--; characters < 0 {
			break
		}
		switch kind := width.LookupRune(r).Kind(); {
		case unicode.Is(unicode.Mn, r):
		case kind == width.EastAsianWide || kind == width.EastAsianFullwidth:
			spaces.WriteString("  ")
		default:
			spaces.WriteByte(' ')
		}
	}
	return spaces.String()
}

// mostShown is the size of the largest file of which a line is shown, in bytes: that of a logger file.
const mostShown = 16 << 20

// sourceLine returns the line of a problem, one printable character for each of its own, or "" when it cannot be shown.
func sourceLine(files fs.FS, at journal.Position) string {
	info, err := fs.Stat(files, at.File)
	if err != nil || !info.Mode().IsRegular() || info.Size() > mostShown { // a pipe would never end
		return ""
	}
	text, err := fs.ReadFile(files, at.File)
	if err != nil {
		return ""
	}
	lines := strings.Split(strings.NewReplacer("\r\n", "\n", "\r", "\n", "\ufeff", "").Replace(string(text)), "\n")
	if at.Line < 1 || at.Line > len(lines) {
		return ""
	}
	return shorten(strings.Map(func(r rune) rune {
		if unicode.IsPrint(r) {
			return r
		}
		return ' '
	}, lines[at.Line-1]))
}

func shorten(line string) string {
	const most = 160
	if runes := []rune(line); len(runes) > most {
		return string(runes[:most-1]) + "…"
	}
	return line
}

// printable writes what a terminal would act upon as Go writes it, so that no file can take hold of the screen. Line
// ends stay.
func printable(text string) string {
	var safe strings.Builder
	for _, r := range strings.ReplaceAll(text, "\u00a0", " ") { // a space that does not break is a space here
		if r == '\n' || unicode.IsPrint(r) {
			safe.WriteRune(r)
			continue
		}
		quoted := strconv.QuoteRune(r)
		safe.WriteString(quoted[1 : len(quoted)-1])
	}
	return safe.String()
}

// tally writes the numbers of errors and warnings, such as "2 errors and 1 warning".
func tally(problems []journal.Problem) string {
	errors := 0
	for _, problem := range problems {
		if problem.Severity == journal.Error {
			errors++
		}
	}
	warnings := len(problems) - errors
	switch {
	case len(problems) == 0:
		return "no problem"
	case warnings == 0:
		return wording.Count(errors, "error", "errors")
	case errors == 0:
		return wording.Count(warnings, "warning", "warnings")
	}
	return wording.Count(errors, "error", "errors") + " and " + wording.Count(warnings, "warning", "warnings")
}
