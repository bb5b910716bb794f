package main

import (
	"encoding/json"
	"fmt"
	"io"

	"pleopod/journal"
	"pleopod/journal/wording"
)

type checkCommand struct {
	journalFlags
	JSON    bool `name:"json" xor:"form" help:"Print the problems as one JSON document."`
	SARIF   bool `name:"sarif" xor:"form" help:"Print the problems as SARIF 2.1.0, for editors and code hosts."`
	Why     bool `help:"Explain each kind of problem that was found."`
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
	// Why explains this kind of problem, with --why.
	Why *explanationDocument `json:"why,omitempty"`
}

// explanationDocument is what the manual says about one kind of problem.
type explanationDocument struct {
	Title   string `json:"title"`
	Meaning string `json:"meaning"`
	Example string `json:"example"`
	Fix     string `json:"fix"`
}

// Run reports every problem and writes nothing to the disk.
func (c *checkCommand) Run(env *environment) error {
	root, err := c.open()
	if err != nil {
		return err
	}
	defer root.Close()
	loaded, err := c.load(root.FS(), env)
	if err != nil {
		return err
	}
	if len(loaded.journal.Settings.Tanks) > 0 {
		loaded.problems = append(loaded.problems, journal.Misplaced(root.FS())...)
		journal.SortProblems(loaded.problems)
	}
	if c.JSON {
		if err := printJSON(env.stdout, c.document(loaded)); err != nil {
			return err
		}
		return mistakesIn(loaded.problems)
	}
	if c.SARIF {
		if err := printJSON(env.stdout, newSarif(loaded.problems)); err != nil {
			return err
		}
		return mistakesIn(loaded.problems)
	}
	err = env.printProblems(loaded.problems, root.FS())
	if c.Why {
		printExplanations(env.stdout, loaded.problems)
	}
	if c.Private {
		privateParts(loaded).print(env.stdout)
	}
	fmt.Fprintf(env.stdout, "%s in %s, as of %s\n", tally(loaded.problems), whereAbouts(loaded), loaded.colony.AsOf)
	return err
}

// whereAbouts counts the files of the journal, and among them those with problems.
func whereAbouts(loaded loadedJournal) string {
	files, wrong := map[string]bool{journal.SettingsFile: true}, map[string]bool{}
	for _, e := range loaded.journal.Entries {
		files[e.Path] = true
	}
	for _, tank := range loaded.journal.Settings.Tanks {
		if len(tank.Logged) > 0 {
			files[tank.LogFile] = true
		}
	}
	for _, photo := range loaded.journal.Photos {
		files[photo.Path] = true
	}
	for _, p := range loaded.problems {
		files[p.File], wrong[p.File] = true, true
	}
	all := wording.Count(len(files), "file", "files")
	if len(wrong) == 0 {
		return all
	}
	return fmt.Sprintf("%d of %s", len(wrong), all)
}

// document puts the result of a check into its JSON form.
func (c *checkCommand) document(loaded loadedJournal) checkDocument {
	d := checkDocument{AsOf: loaded.colony.AsOf, Problems: []problemDocument{}}
	for _, p := range loaded.problems {
		if p.Severity == journal.Warning {
			d.Warnings++
		} else {
			d.Errors++
		}
		one := problemDocument{File: p.File, Line: p.Line, Column: p.Column, Severity: severityOf(p),
			Code: p.Code, Message: p.Message, Hint: p.Hint}
		if e, ok := journal.Explain(p.Code); ok && c.Why {
			one.Why = &explanationDocument{e.Title, e.Meaning, e.Example, e.Fix}
		}
		d.Problems = append(d.Problems, one)
	}
	if c.Private {
		d.Private = privateParts(loaded)
	}
	return d
}

// printExplanations explains each kind of problem once, in the order in which they were found.
func printExplanations(out io.Writer, problems []journal.Problem) {
	told := map[string]bool{}
	for _, p := range problems {
		e, ok := journal.Explain(p.Code)
		if !ok || told[p.Code] {
			continue
		}
		told[p.Code] = true
		fmt.Fprintf(out, "%s: %s\n  %s\n  found for example in: %s\n  instead: %s\n\n", e.Code, e.Title,
			e.Meaning, e.Example, e.Fix)
	}
}

// printJSON prints one JSON document.
func printJSON(out io.Writer, document any) error {
	encoder := json.NewEncoder(out)
	encoder.SetIndent("", "  ")
	encoder.SetEscapeHTML(false)
	return encoder.Encode(document)
}
