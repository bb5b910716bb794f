package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"pleopod/journal/draft"
)

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

// writeNew writes a file that must not exist yet, with the folders that it needs.
func writeNew(root *os.Root, file draft.File) error {
	if err := root.MkdirAll(filepath.ToSlash(filepath.Dir(file.Path)), 0o755); err != nil {
		return err
	}
	out, err := root.OpenFile(file.Path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	if _, err := out.WriteString(file.Text); err != nil {
		_ = out.Close()
		_ = root.Remove(file.Path)
		return err
	}
	return out.Close()
}
