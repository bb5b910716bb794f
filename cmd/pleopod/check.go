package main

import (
	"encoding/json"
	"fmt"

	"pleopod/journal"
)

type checkCommand struct {
	place
	JSON    bool `name:"json" help:"Print the problems as one JSON document."`
	Private bool `help:"List what will stay private."`
}

// problemDocument is one problem as check --json prints it.
type problemDocument struct {
	File     string `json:"file"`
	Line     int    `json:"line"`
	Column   int    `json:"column"`
	Severity string `json:"severity"` // "error" or "warning"
	Code     string `json:"code"`
	Message  string `json:"message"`
	Hint     string `json:"hint"`
}

// Run reports every problem and writes nothing to the disk.
func (c *checkCommand) Run(w *world) error {
	root, err := c.open()
	if err != nil {
		return err
	}
	defer root.Close()
	told, err := c.tell(root.FS(), new(journal.Reader), w)
	if err != nil {
		return err
	}
	if c.JSON {
		return c.printJSON(told.problems, w)
	}
	err = c.show(told.problems, w)
	if c.Private {
		printPrivate(told.journal, w)
	}
	errors, warnings := countProblems(told.problems)
	if errors+warnings == 0 {
		fmt.Fprintf(w.stdout, "No problem in %d entries.\n", len(told.journal.Entries))
	} else {
		fmt.Fprintf(w.stdout, "%d errors, %d warnings in %d entries.\n", errors, warnings, len(told.journal.Entries))
	}
	return err
}

func countProblems(problems []journal.Problem) (errors, warnings int) {
	for _, problem := range problems {
		if problem.Severity == journal.Error {
			errors++
		}
	}
	return errors, len(problems) - errors
}

func (c *checkCommand) printJSON(problems []journal.Problem, w *world) error {
	document := struct {
		Problems []problemDocument `json:"problems"`
	}{Problems: []problemDocument{}}
	for _, p := range problems {
		severity := "error"
		if p.Severity == journal.Warning {
			severity = "warning"
		}
		document.Problems = append(document.Problems, problemDocument{p.File, p.Line, p.Column, severity, p.Code, p.Message, p.Hint})
	}
	encoder := json.NewEncoder(w.stdout)
	encoder.SetIndent("", "  ")
	if err := encoder.Encode(document); err != nil {
		return err
	}
	if journal.HasErrors(problems) {
		return errMistakes
	}
	return nil
}

// printPrivate lists the entries that leave no trace on the site.
func printPrivate(j *journal.Journal, w *world) {
	n := 0
	for _, entry := range j.Entries {
		if entry.Private {
			n++
			fmt.Fprintf(w.stdout, "private: %s (%s, %d events)\n", entry.Path, entry.Title, len(entry.Events))
		}
	}
	fmt.Fprintf(w.stdout, "%d of %d entries stay private; pictures that only they show stay private too.\n", n, len(j.Entries))
}
