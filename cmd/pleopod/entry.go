package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"

	"pleopod/journal/draft"
	"pleopod/journal/forecast"
)

type entryCommand struct {
	Journal string  `arg:"" optional:"" default:"." help:"Folder with journal.yaml; the current one when left out."`
	Tank    string  `placeholder:"ID" help:"The tank it is about, by its id or its name; not needed where there is one."`
	Title   string  `placeholder:"TEXT" help:"Its heading."`
	Date    dayFlag `placeholder:"DATE" help:"The day you saw it, such as 2026-03-14; today when left out."`
	Edit    bool    `help:"Open it in the editor that VISUAL or EDITOR names, or in the usual one of the system."`
}

// Run writes a new entry with what is likely as comments, and prints its path.
func (c *entryCommand) Run(ctx context.Context, env *environment) error {
	flags := journalFlags{Journal: c.Journal, AsOf: c.Date}
	root, err := flags.open()
	if err != nil {
		return err
	}
	defer root.Close()
	loaded, err := flags.loadWith(forecast.Days, root.FS(), env)
	if err != nil {
		return err
	}
	if len(loaded.journal.Settings.Tanks) == 0 {
		return env.printProblems(withoutNoAddress(loaded.problems), root.FS())
	}
	if c.Tank, err = tankID(c.Tank, loaded.journal.Settings.Tanks); err != nil {
		return err
	}
	if loaded.forecast == nil {
		fmt.Fprintf(env.stderr, "The journal has %s, so what is due could not be calculated; see: pleopod check %s\n", tally(loaded.problems), shellQuoted(c.Journal))
	}
	file := draft.Entry(loaded.colony, loaded.forecast, loaded.journal.Entries,
		draft.Options{Day: loaded.colony.AsOf, Tank: c.Tank, Title: c.Title})
	written := draft.Blank(loaded.journal.Entries, file)
	if written != "" {
		fmt.Fprintln(env.stderr, "An entry of that day with nothing in it is there already; no other is made.")
	} else if written, err = writeFree(root, file); err != nil {
		return fmt.Errorf("%s cannot be written: %w", file.Path, unwrapPath(err))
	}
	full := filepath.Join(c.Journal, filepath.FromSlash(written))
	fmt.Fprintln(env.stdout, full)
	if !c.Edit {
		return nil
	}
	return c.edit(ctx, editor(env.getenv), full)
}

// editor returns the command of the keeper's editor, else of the usual one of the system; nil when there is none.
func editor(getenv func(string) string) []string {
	for _, name := range []string{"VISUAL", "EDITOR"} {
		if words := strings.Fields(getenv(name)); len(words) > 0 {
			return words
		}
	}
	for _, words := range usualEditors(runtime.GOOS) {
		if _, err := exec.LookPath(words[0]); err == nil {
			return words
		}
	}
	return nil
}

// anyEditor opens a file with whatever the desktop has for it, and fails where there is no desktop.
const anyEditor = "xdg-open"

// usualEditors is what opens a text for people who have named no editor, the best first.
func usualEditors(system string) [][]string {
	switch system {
	case "windows":
		return [][]string{{"notepad"}}
	case "darwin":
		return [][]string{{"open", "-t"}}
	}
	return [][]string{{"nano"}, {anyEditor}}
}

// edit runs an editor, if there is one, until it is closed.
func (c *entryCommand) edit(ctx context.Context, editor []string, file string) error {
	if editor == nil {
		return c.noEditor(file)
	}
	run := exec.CommandContext(ctx, editor[0], append(editor[1:], file)...)
	run.Stdin, run.Stdout, run.Stderr = os.Stdin, os.Stdout, os.Stderr
	err := run.Run()
	switch {
	case err == nil:
		return nil
	case editor[0] == anyEditor:
		return c.noEditor(file)
	case errors.Is(err, exec.ErrNotFound) || errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("the entry is written; there is no editor %s", editor[0])
	}
	return fmt.Errorf("the entry is written; the editor %s: %w", editor[0], err)
}

// noEditor says what to do with an entry that no editor opened.
func (c *entryCommand) noEditor(file string) error {
	command := "pleopod entry"
	if c.Journal != "." {
		command += " " + shellQuoted(c.Journal)
	}
	return fmt.Errorf("no editor was found; open %s yourself, or name one: EDITOR=nano %s --edit", file, command)
}
