package main

import "pleopod/journal/schema"

type schemaCommand struct {
	Of string `arg:"" optional:"" enum:"journal,entry" default:"journal" name:"journal-or-entry" help:"Of journal.yaml (journal), or of the lines between the hyphens of an entry (entry)."`
}

// Run prints a JSON Schema, with which an editor completes and checks keys.
func (c *schemaCommand) Run(env *environment) error {
	source := schema.Journal()
	if c.Of == "entry" {
		source = schema.Entry()
	}
	_, err := env.stdout.Write(source)
	return err
}
