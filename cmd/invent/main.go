// Command invent writes an invented journal of any length into a new folder, to try speed and memory by hand:
//
//	go run ./cmd/invent 5000 some-folder
//
// See package invented for what is in it. The folder must not exist yet, or be empty.
package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"

	"pleopod/journal/invented"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "invent:", err)
		os.Exit(1)
	}
}

func run(args []string) error {
	if len(args) != 2 {
		return fmt.Errorf("usage: invent ENTRIES FOLDER")
	}
	entries, err := strconv.Atoi(args[0])
	if err != nil || entries < 1 {
		return fmt.Errorf("%q is no number of entries; it takes 1 and above", args[0])
	}
	if found, err := os.ReadDir(args[1]); err == nil && len(found) > 0 {
		return fmt.Errorf("the folder %s is not empty", args[1])
	}
	for name, text := range invented.Usual(entries).Files() {
		file := filepath.Join(args[1], filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(file, text, 0o644); err != nil {
			return err
		}
	}
	return nil
}
