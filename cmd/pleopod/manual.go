package main

import (
	"fmt"

	"pleopod/journal/manual"
)

type manualCommand struct {
	Word string `arg:"" optional:"" help:"A key, an event, a reading, a section, or the kind of a problem; everything when left out."`
}

// Run prints the manual of the format, or what it says about one word.
func (c *manualCommand) Run(w *world) error {
	if c.Word == "" {
		_, err := fmt.Fprint(w.stdout, manual.Text())
		return err
	}
	text, near := manual.On(c.Word)
	if text != "" {
		_, err := fmt.Fprint(w.stdout, text)
		return err
	}
	if near != "" {
		return misuse{fmt.Errorf("the manual says nothing about %q; did you mean %q?", c.Word, near)}
	}
	return misuse{fmt.Errorf("the manual says nothing about %q; pleopod manual prints all of it", c.Word)}
}
