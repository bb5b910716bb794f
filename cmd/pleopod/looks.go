package main

import (
	"fmt"
	"io/fs"
	"os"

	"pleopod/journal/digest"
	"pleopod/theme"
)

// looks parses the look of a site, and keeps it for as long as its files stay the same.
type looks struct {
	sum  digest.Sum
	look *theme.Look
}

// of returns the look of the flag, else that of the journal, else the built-in one.
func (l *looks) of(flag string, told story, files fs.FS) (*theme.Look, error) {
	var own fs.FS
	switch {
	case flag != "":
		root, err := os.OpenRoot(flag)
		if err != nil {
			return nil, misuse{fmt.Errorf("the folder %s of --look cannot be opened: %w", flag, unwrapPath(err))}
		}
		defer root.Close()
		own = root.FS()
	case told.journal.Settings.Look != "":
		sub, err := fs.Sub(files, told.journal.Settings.Look)
		if err != nil {
			return nil, err
		}
		own = sub
	}
	sum, err := contents(own)
	if err != nil {
		return nil, err
	}
	if l.look != nil && l.sum == sum {
		return l.look, nil
	}
	look, err := theme.ParseLook(own)
	if err != nil {
		return nil, err
	}
	l.sum, l.look = sum, look
	return look, nil
}

// contents sums up the files of a folder, which may be nil.
func contents(own fs.FS) (digest.Sum, error) {
	if own == nil {
		return digest.Sum{}, nil
	}
	found := map[string][]byte{}
	err := fs.WalkDir(own, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		found[name], _ = fs.ReadFile(own, name) // a link to nowhere is told of by the parser, where it matters
		return nil
	})
	return digest.Of(found), err
}
