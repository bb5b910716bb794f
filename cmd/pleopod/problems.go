package main

import (
	"bufio"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"pleopod/journal"
)

// printProblem prints one problem; on a terminal with the line itself and a caret below the place.
func (w *world) printProblem(folder string, problem journal.Problem) {
	if !w.terminal {
		fmt.Fprintln(w.stderr, problem.Error())
		if problem.Hint != "" {
			fmt.Fprintln(w.stderr, "  "+problem.Hint)
		}
		return
	}
	colour := "\x1b[1;31m"
	if problem.Severity == journal.Warning {
		colour = "\x1b[1;33m"
	}
	fmt.Fprintf(w.stderr, "%s%s\x1b[0m: %s\n", colour, problem.Position, strings.TrimPrefix(problem.Error(), problem.Position.String()+": "))
	if line := sourceLine(folder, problem.Position); line != "" {
		fmt.Fprintf(w.stderr, "  %s\n  %s%s^\x1b[0m\n", line, strings.Repeat(" ", max(0, problem.Column-1)), colour)
	}
	if problem.Hint != "" {
		fmt.Fprintln(w.stderr, "  "+problem.Hint)
	}
}

// sourceLine returns the line of a problem with tabs as spaces, or "" when it cannot be shown.
func sourceLine(folder string, at journal.Position) string {
	file, err := os.Open(filepath.Join(folder, filepath.FromSlash(at.File)))
	if err != nil {
		return ""
	}
	defer file.Close()
	scanner := bufio.NewScanner(file)
	for line := 1; scanner.Scan(); line++ {
		if line == at.Line {
			return shorten(strings.ReplaceAll(scanner.Text(), "\t", " "))
		}
	}
	return ""
}

func shorten(line string) string {
	const most = 160
	if runes := []rune(line); len(runes) > most {
		return string(runes[:most-1]) + "…"
	}
	return line
}
