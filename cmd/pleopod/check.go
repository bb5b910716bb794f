package main

import (
	"encoding/json"
	"fmt"
	"io"

	"pleopod/journal"
)

type checkCommand struct {
	place
	JSON    bool `name:"json" help:"Print the problems as one JSON document."`
	Private bool `help:"List what will stay private."`
}

// checkDocument is what check --json prints.
type checkDocument struct {
	AsOf     journal.Day       `json:"asOf"`
	Errors   int               `json:"errors"`
	Warnings int               `json:"warnings"`
	Problems []problemDocument `json:"problems"`          // in the order of the manual
	Private  *privateDocument  `json:"private,omitempty"` // with --private
}

// problemDocument is one problem. Line and column count from 1, columns in code points.
type problemDocument struct {
	File     string `json:"file"`
	Line     int    `json:"line"`
	Column   int    `json:"column"`
	Severity string `json:"severity"` // "error" or "warning"
	Code     string `json:"code"`
	Message  string `json:"message"`
	Hint     string `json:"hint"` // may be empty
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
		if err := printJSON(w.stdout, c.document(told)); err != nil {
			return err
		}
		return mistakesIn(told.problems)
	}
	err = w.show(told.problems, root.FS())
	if c.Private {
		privateParts(told).print(w.stdout)
	}
	fmt.Fprintf(w.stdout, "%s in %s, as of %s\n", tally(told.problems), number(len(told.journal.Entries), "entry", "entries"), told.colony.AsOf)
	return err
}

// document puts the result of a check into its JSON form.
func (c *checkCommand) document(told story) checkDocument {
	d := checkDocument{AsOf: told.colony.AsOf, Problems: []problemDocument{}}
	for _, p := range told.problems {
		severity := "error"
		if p.Severity == journal.Warning {
			severity = "warning"
			d.Warnings++
		} else {
			d.Errors++
		}
		d.Problems = append(d.Problems, problemDocument{p.File, p.Line, p.Column, severity, p.Code, p.Message, p.Hint})
	}
	if c.Private {
		d.Private = privateParts(told)
	}
	return d
}

// printJSON prints one JSON document.
func printJSON(out io.Writer, document any) error {
	encoder := json.NewEncoder(out)
	encoder.SetIndent("", "  ")
	encoder.SetEscapeHTML(false)
	return encoder.Encode(document)
}
