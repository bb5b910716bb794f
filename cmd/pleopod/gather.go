package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"pleopod/journal"
	"pleopod/journal/draft"
	"pleopod/journal/gather"
	"pleopod/journal/wording"
)

type gatherCommand struct {
	File    string   `arg:"" help:"The table, saved as CSV: a logger file, water tests or counts."`
	Journal string   `arg:"" optional:"" default:"." help:"Folder with journal.yaml; the current one when left out."`
	Tank    string   `placeholder:"ID" help:"The tank it is about, by its id or its name; not needed where there is one, or a column of tanks."`
	Dates   string   `enum:",day-first,month-first,year-first" default:"" placeholder:"ORDER" help:"Order of dates such as 03/04/2026: day-first, month-first or year-first."`
	Decimal string   `enum:",comma,point" default:"" placeholder:"MARK" help:"Decimal mark of numbers such as 1.234: comma or point."`
	Unit    string   `enum:",C,F" default:"" placeholder:"C|F" help:"Unit of temperatures that have none."`
	Columns []string `placeholder:"NAME,…" help:"What the columns hold, from the left, with - for one to pass over."`
	Write   bool     `help:"Write the entries and the logger file; without it they are only shown."`
}

// mostTable is the size of the largest table that is read, in bytes.
const mostTable = 16 << 20

// Run shows what a table would become, and writes it when asked to.
func (c *gatherCommand) Run(env *environment) error {
	table, err := readTable(c.File)
	if err != nil {
		return misuse{err}
	}
	flags := journalFlags{Journal: c.Journal}
	root, err := flags.open()
	if err != nil {
		return err
	}
	defer root.Close()
	j := flags.read(root.FS())
	if len(j.Settings.Tanks) == 0 {
		return env.printProblems(withoutNoAddress(j.Problems), root.FS())
	}
	if c.Tank, err = tankID(c.Tank, j.Settings.Tanks); err != nil {
		return err
	}
	if c.Write && journal.HasErrors(j.Problems) {
		return fmt.Errorf("the journal has mistakes, so what it knows already cannot be told; mend them first: pleopod check %s", shellQuoted(c.Journal))
	}
	result := gather.Read(gather.Source{Name: c.File, Bytes: table,
		Says: gather.Answers{Tank: c.Tank, Dates: gather.Order(c.Dates),
			Decimal: gather.Mark(c.Decimal), Unit: c.Unit, Columns: c.Columns}}, j, root.FS())
	env.printGathered(result)
	if len(result.Questions) > 0 {
		return errMistakes
	}
	if err := c.writeOrShow(env, root, result); err != nil {
		return err
	}
	return mistakesIn(result.Problems)
}

// readTable reads the file of a table.
func readTable(name string) ([]byte, error) {
	file, err := os.Open(name)
	if err != nil {
		return nil, fmt.Errorf("the file %s cannot be opened: %w", name, unwrapPath(err))
	}
	defer file.Close()
	table, err := io.ReadAll(io.LimitReader(file, mostTable+1))
	if err != nil {
		return nil, fmt.Errorf("the file %s cannot be read: %w", name, unwrapPath(err))
	}
	if len(table) > mostTable {
		return nil, fmt.Errorf("the file %s is larger than %d bytes; split it", name, mostTable)
	}
	return table, nil
}

// printGathered prints what a table was understood as, what it leaves open, and what is wrong with it.
func (env *environment) printGathered(result *gather.Result) {
	for _, fact := range result.Facts {
		fmt.Fprintf(env.stdout, "  %-13s %s\n", fact.About, printable(fact.Text))
	}
	for _, question := range result.Questions {
		fmt.Fprintln(env.stderr, printable(question.Text))
		if question.Answer != "" {
			fmt.Fprintln(env.stderr, "  "+printable(question.Answer))
		}
	}
	for _, problem := range result.Problems {
		fmt.Fprintln(env.stderr, printable(problem.Error()))
		if problem.Hint != "" {
			fmt.Fprintln(env.stderr, "  "+printable(problem.Hint))
		}
	}
}

// writeOrShow writes the files, or says what would be written.
func (c *gatherCommand) writeOrShow(env *environment, root *os.Root, result *gather.Result) error {
	if result.Known > 0 {
		fmt.Fprintf(env.stdout, "In the journal already: %s.\n", wording.Count(result.Known, "row", "rows"))
	}
	if len(result.Files) == 0 {
		fmt.Fprintln(env.stdout, "Nothing is new.")
		return nil
	}
	verb := "would become"
	if c.Write {
		verb = "became"
	}
	fmt.Fprintf(env.stdout, "It %s:\n", verb)
	for _, file := range result.Files {
		path := file.Path
		if c.Write {
			written, err := writeGathered(root, file)
			if err != nil {
				return fmt.Errorf("%s cannot be written: %w", file.Path, unwrapPath(err))
			}
			path = written
		}
		fmt.Fprintf(env.stdout, "  %s   %s\n", filepath.Join(c.Journal, filepath.FromSlash(path)), printable(file.About))
		for _, line := range file.Meant {
			fmt.Fprintf(env.stdout, "      A note stays a note. To count it as an event, add below events:   %s\n", line)
		}
	}
	for _, advice := range result.Advice {
		fmt.Fprintf(env.stdout, "Then %s\n", advice)
	}
	if !c.Write {
		fmt.Fprintln(env.stdout, "Nothing is written yet. To write it, add --write.")
	}
	return nil
}

// writeGathered writes a file that is new, or a logger file that grows. A crash leaves the old file or the new one.
func writeGathered(root *os.Root, file gather.File) (string, error) {
	if !file.Grows {
		return writeFree(root, draft.File{Path: file.Path, Text: file.Text})
	}
	temporary := strings.TrimSuffix(file.Path, filepath.Ext(file.Path)) + ".part"
	if err := root.Remove(temporary); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return "", err
	}
	if err := writeNew(root, draft.File{Path: temporary, Text: file.Text}); err != nil {
		return "", err
	}
	return file.Path, root.Rename(temporary, file.Path)
}
