package main

import (
	"fmt"
	"strings"

	"pleopod/journal/manual"
)

type manualCommand struct {
	Word []string `arg:"" optional:"" help:"What you look for: a key, an event, a reading, a section, the kind of a problem, or any word; everything when left out."`
}

// Run prints the manual of the format, or what it says about one word.
func (c *manualCommand) Run(env *environment) error {
	word := strings.Join(c.Word, " ")
	if word == "" {
		_, err := fmt.Fprint(env.stdout, manual.Text())
		return err
	}
	text, near := manual.On(word)
	if text != "" {
		_, err := fmt.Fprint(env.stdout, text)
		return err
	}
	if near != "" {
		return misuse{fmt.Errorf("the manual says nothing about %q; did you mean %q?", word, near)}
	}
	return misuse{fmt.Errorf("%q is no word of the format; what you saw or did of it is written in the text of the entry, or in the note of an event (pleopod manual note)", word)}
}
