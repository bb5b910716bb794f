package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"pleopod/journal"
	"pleopod/journal/draft"
	"pleopod/theme/folder"
)

type startCommand struct {
	Dir string `arg:"" help:"Folder of the new journal; it is made when it does not exist."`
}

// Run makes a journal. What lies in the folder already is never touched.
func (c *startCommand) Run(env *environment) error {
	flags := journalFlags{Journal: c.Dir}
	day, err := flags.day(&journal.Settings{}, env)
	if err != nil {
		return err
	}
	absolute, err := filepath.Abs(c.Dir)
	if err != nil {
		return misuse{err}
	}
	files := draft.Journal(draft.Title(filepath.Base(absolute)), day)
	if err := c.checkFree(files); err != nil {
		return err
	}
	if err := c.write(files); err != nil {
		return err
	}
	fmt.Fprintf(env.stdout, "A new journal is in %s:\n", c.Dir)
	for _, file := range files {
		fmt.Fprintf(env.stdout, "  %s\n", filepath.Join(c.Dir, filepath.FromSlash(file.Path)))
	}
	fmt.Fprintf(env.stdout, "Open journal.yaml and write what you know of your tank. Then:\n  pleopod entry %[1]s --edit\n  pleopod watch %[1]s\n", shellQuoted(c.Dir))
	return nil
}

// checkFree refuses a folder in which the new files could not stand beside what lies there.
func (c *startCommand) checkFree(files []draft.File) error {
	info, err := os.Stat(c.Dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return misuse{fmt.Errorf("the folder %s cannot be looked at: %w", c.Dir, unwrapPath(err))}
	case !info.IsDir():
		return misuse{fmt.Errorf("%s is a file; choose a new name for the folder of the journal", c.Dir)}
	}
	for _, file := range files {
		if _, err := os.Lstat(filepath.Join(c.Dir, filepath.FromSlash(file.Path))); err == nil {
			if file.Path == journal.SettingsFile {
				return misuse{fmt.Errorf("%s holds a journal already; write in it with: pleopod entry %s",
					c.Dir, shellQuoted(c.Dir))}
			}
			return misuse{fmt.Errorf("%s holds a file %s already, and nothing of yours is overwritten; choose another folder, or rename the file", c.Dir, file.Path)}
		}
	}
	if err := c.checkEntries(); err != nil {
		return err
	}
	if err := folder.Check(filepath.Join(c.Dir, journal.PublishedFolder), c.Dir); err != nil {
		return misuse{fmt.Errorf("the site of the journal would go into its folder published, and that cannot be: %w", err)}
	}
	return nil
}

// checkEntries refuses a folder whose own texts would become pages of the diary.
func (c *startCommand) checkEntries() error {
	top := filepath.Join(c.Dir, "entries")
	info, err := os.Lstat(top)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil || !info.IsDir() {
		return misuse{fmt.Errorf("%s is no folder, and the entries of a journal go there; choose another folder for the journal, or rename it", top)}
	}
	return filepath.WalkDir(top, func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() && strings.EqualFold(filepath.Ext(name), ".md") {
			return misuse{fmt.Errorf("%s is there already and would become a page of the diary; choose another folder, or move it", name)}
		}
		return nil
	})
}

// write makes the files, all or none.
func (c *startCommand) write(files []draft.File) error {
	if err := os.MkdirAll(c.Dir, 0o755); err != nil {
		return misuse{fmt.Errorf("the folder %s cannot be made: %w", c.Dir, unwrapPath(err))}
	}
	root, err := os.OpenRoot(c.Dir)
	if err != nil {
		return misuse{fmt.Errorf("the folder %s cannot be opened: %w", c.Dir, unwrapPath(err))}
	}
	defer root.Close()
	var made []string
	for _, file := range files {
		err := writeNew(root, file)
		if err != nil {
			for _, path := range slices.Backward(made) {
				_ = root.Remove(path)
			}
			return fmt.Errorf("%s cannot be written: %w", file.Path, unwrapPath(err))
		}
		made = append(made, file.Path)
	}
	return nil
}
