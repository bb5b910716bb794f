package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"pleopod/journal"
)

// nameFolder puts the folder's name into the problem that it is no journal, and the journal beside it that was probably meant.
func (f journalFlags) nameFolder(problems []journal.Problem) []journal.Problem {
	at := slices.IndexFunc(problems, func(found journal.Problem) bool { return found.Code == "no-journal" })
	if at < 0 {
		return problems
	}
	problems = slices.Clone(problems)
	problems[at].Message = "there is no " + journal.SettingsFile + " in the folder " + f.folderName()
	if near := f.journalsNearby(); len(near) > 0 {
		problems[at].Hint = f.otherJournal(near)
	}
	return problems
}

// folderName is the folder as it was typed; the current one's own name when nothing was.
func (f journalFlags) folderName() string {
	if f.Journal == "." {
		if here, err := filepath.Abs("."); err == nil {
			return filepath.Base(here)
		}
	}
	return f.Journal
}

// journalsNearby lists the journals one level up and in the folders below.
func (f journalFlags) journalsNearby() []string {
	folders := []string{filepath.Join(f.Journal, "..")}
	below, _ := os.ReadDir(f.Journal) // what cannot be read holds no journal for us
	for _, entry := range below {
		folders = append(folders, filepath.Join(f.Journal, entry.Name()))
	}
	return slices.DeleteFunc(folders, func(folder string) bool {
		info, err := os.Stat(filepath.Join(folder, journal.SettingsFile))
		return err != nil || !info.Mode().IsRegular()
	})
}

// otherJournal says where journals are, and what to type.
func (f journalFlags) otherJournal(near []string) string {
	const most = 3
	var words []string
	for _, folder := range near[:min(most, len(near))] {
		words = append(words, folderInWords(folder))
	}
	where := "there is one in " + strings.Join(words, " and in ")
	if f.Journal == "." {
		return fmt.Sprintf("%s: name it, as in pleopod check %s", where, shellQuoted(near[0]))
	}
	return fmt.Sprintf("%s: type %s instead of %s", where, shellQuoted(near[0]), shellQuoted(f.Journal))
}

// folderInWords is a folder as people call it.
func folderInWords(folder string) string {
	switch folder {
	case ".":
		return "the current folder"
	case "..":
		return "the folder above"
	}
	return folder
}
