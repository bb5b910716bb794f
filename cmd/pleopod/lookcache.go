package main

import (
	"fmt"
	"io/fs"
	"os"

	"pleopod/journal/digest"
	"pleopod/theme"
)

// lookCache parses the look of a site, and keeps it for as long as its files stay the same.
type lookCache struct {
	sum  digest.Sum
	look *theme.Look
}

// get returns the look of the flag, else that of the journal, else the built-in one.
func (c *lookCache) get(flag string, loaded loadedJournal, files fs.FS) (*theme.Look, error) {
	var own fs.FS
	switch {
	case flag != "":
		root, err := os.OpenRoot(flag)
		if err != nil {
			return nil, misuse{fmt.Errorf("the folder %s of --look cannot be opened: %w", flag, unwrapPath(err))}
		}
		defer root.Close()
		own = root.FS()
	case loaded.journal.Settings.Look != "":
		sub, err := fs.Sub(files, loaded.journal.Settings.Look)
		if err != nil {
			return nil, err
		}
		own = sub
	}
	sum, err := contentsSum(own)
	if err != nil {
		return nil, err
	}
	if c.look != nil && c.sum == sum {
		return c.look, nil
	}
	look, err := theme.ParseLook(own)
	if err != nil {
		return nil, err
	}
	c.sum, c.look = sum, look
	return look, nil
}

// contentsSum sums up the files of a folder, which may be nil.
func contentsSum(own fs.FS) (digest.Sum, error) {
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
