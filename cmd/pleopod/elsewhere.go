package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"pleopod/journal"
)

// read reads the journal.
func (p place) read(files fs.FS) *journal.Journal {
	read := journal.Read(files)
	read.Problems = p.named(read.Problems)
	return read
}

// named puts the folder's name into the problem that it is no journal, and the journal beside it that was probably meant.
func (p place) named(problems []journal.Problem) []journal.Problem {
	at := slices.IndexFunc(problems, func(found journal.Problem) bool { return found.Code == "no-journal" })
	if at < 0 {
		return problems
	}
	problems = slices.Clone(problems)
	problems[at].Message = "there is no " + journal.SettingsFile + " in the folder " + p.name()
	if near := p.near(); len(near) > 0 {
		problems[at].Hint = p.instead(near)
	}
	return problems
}

// name is the folder as it was typed; the current one's own name when nothing was.
func (p place) name() string {
	if p.Journal == "." {
		if here, err := filepath.Abs("."); err == nil {
			return filepath.Base(here)
		}
	}
	return p.Journal
}

// near lists the journals one level up and in the folders below.
func (p place) near() []string {
	folders := []string{filepath.Join(p.Journal, "..")}
	below, _ := os.ReadDir(p.Journal) // what cannot be read holds no journal for us
	for _, entry := range below {
		folders = append(folders, filepath.Join(p.Journal, entry.Name()))
	}
	return slices.DeleteFunc(folders, func(folder string) bool {
		info, err := os.Stat(filepath.Join(folder, journal.SettingsFile))
		return err != nil || !info.Mode().IsRegular()
	})
}

// instead says where journals are, and what to type.
func (p place) instead(near []string) string {
	const most = 3
	var words []string
	for _, folder := range near[:min(most, len(near))] {
		words = append(words, inSentence(folder))
	}
	where := "there is one in " + strings.Join(words, " and in ")
	if p.Journal == "." {
		return fmt.Sprintf("%s: name it, as in pleopod check %s", where, asTyped(near[0]))
	}
	return fmt.Sprintf("%s: type %s instead of %s", where, asTyped(near[0]), asTyped(p.Journal))
}

// inSentence is a folder as people call it.
func inSentence(folder string) string {
	switch folder {
	case ".":
		return "the current folder"
	case "..":
		return "the folder above"
	}
	return folder
}
