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
	Tank    string  `placeholder:"ID" help:"The tank it is about; not needed where there is one."`
	Title   string  `placeholder:"TEXT" help:"Its heading."`
	Date    dayFlag `placeholder:"DATE" help:"The day you saw it, such as 2026-03-14; today when left out."`
	Edit    bool    `help:"Open it in the editor that VISUAL or EDITOR names, or in the usual one of the system."`
}

// Run writes a new entry with what is likely as comments, and prints its path.
func (c *entryCommand) Run(ctx context.Context, w *world) error {
	editor, err := c.editor(w)
	if err != nil {
		return err
	}
	place := place{Journal: c.Journal, AsOf: c.Date}
	root, err := place.open()
	if err != nil {
		return err
	}
	defer root.Close()
	told, err := place.tellWith(forecast.Days, root.FS(), w)
	if err != nil {
		return err
	}
	if len(told.journal.Settings.Tanks) == 0 {
		return w.show(told.problems, root.FS())
	}
	if err := checkTank(c.Tank, told.journal); err != nil {
		return err
	}
	if told.forecast == nil {
		fmt.Fprintf(w.stderr, "The journal has %s, so what is due could not be calculated; see: pleopod check %s\n", tally(told.problems), asTyped(c.Journal))
	}
	file := draft.Entry(told.colony, told.forecast, told.journal.Entries,
		draft.Options{Day: told.colony.AsOf, Tank: c.Tank, Title: c.Title})
	written, err := writeFree(root, file)
	if err != nil {
		return fmt.Errorf("%s cannot be written: %w", file.Path, unwrapPath(err))
	}
	full := filepath.Join(c.Journal, filepath.FromSlash(written))
	fmt.Fprintln(w.stdout, full)
	if editor == nil {
		return nil
	}
	return edit(ctx, append(editor, full))
}

// writeFree writes a new file beside whatever lies there, and returns the path that it got.
func writeFree(root *os.Root, file draft.File) (string, error) {
	file.Path = draft.Free(file.Path, func(path string) bool {
		_, err := root.Lstat(path)
		return err == nil
	})
	err := writeNew(root, file)
	if errors.Is(err, fs.ErrExist) { // made by somebody else meanwhile
		return writeFree(root, file)
	}
	return file.Path, err
}

// editor returns the command of the keeper's editor, or nil when none was asked for.
func (c *entryCommand) editor(w *world) ([]string, error) {
	if !c.Edit {
		return nil, nil
	}
	for _, name := range []string{"VISUAL", "EDITOR"} {
		if words := strings.Fields(w.getenv(name)); len(words) > 0 {
			return words, nil
		}
	}
	for _, words := range usualEditors(runtime.GOOS) {
		if _, err := exec.LookPath(words[0]); err == nil {
			return words, nil
		}
	}
	return nil, misuse{errors.New("no editor is known: VISUAL or EDITOR would name it; leave --edit out, and open the new file in any editor")}
}

// usualEditors is what opens a text for people who have named no editor, the best first.
func usualEditors(system string) [][]string {
	switch system {
	case "windows":
		return [][]string{{"notepad"}}
	case "darwin":
		return [][]string{{"open", "-t"}}
	}
	return [][]string{{"nano"}, {"xdg-open"}}
}

// edit runs the editor until it is closed.
func edit(ctx context.Context, command []string) error {
	run := exec.CommandContext(ctx, command[0], command[1:]...)
	run.Stdin, run.Stdout, run.Stderr = os.Stdin, os.Stdout, os.Stderr
	err := run.Run()
	if errors.Is(err, exec.ErrNotFound) || errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("the entry is written; there is no editor %s", command[0])
	}
	if err != nil {
		return fmt.Errorf("the entry is written; the editor %s: %w", command[0], err)
	}
	return nil
}
