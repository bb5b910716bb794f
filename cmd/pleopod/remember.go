package main

import (
	"bytes"
	"encoding/gob"
	"io/fs"
	"path/filepath"

	"pleopod/journal"
	"pleopod/journal/digest"
	"pleopod/theme/folder"
)

// edition is a site that was written, with what it was made from.
type edition struct {
	Program string                // its checksum
	Day     journal.Day           // by the clock or the command
	Heard   map[string]digest.Sum // of the journal
	Site    folder.Sum

	Files    int
	Pages    int
	Title    string
	AsOf     journal.Day
	Problems []journal.Problem
}

// memory remembers in the user's cache what was published from a journal into a folder. The same journal, day
// and program give the same site: so a run that finds all three unchanged, and the site too, has nothing to do.
// The zero memory remembers nothing.
type memory struct {
	cacheFolder
	name, program string
	day           journal.Day
}

// memory returns the memory of the command's journal and the folder of its site. With a look from elsewhere
// there is none, since nobody notes what is read of that.
func (c *publishCommand) memory(w *world, out string) (memory, error) {
	day, err := c.day(&journal.Settings{}, w)
	if err != nil {
		return memory{}, err
	}
	from, err := filepath.Abs(c.Journal)
	if err != nil {
		return memory{}, err
	}
	to, err := filepath.Abs(out)
	program := programSum()
	if c.Look != "" || program == "" {
		return memory{}, err
	}
	return memory{w.cache.sub("sites"), "site-" + digest.Of(from, to).String(), program, day}, err
}

// standing returns the last site and a report that nothing was to be done, or nil where something has changed.
func (m memory) standing(files fs.FS, out string) (*edition, folder.Report) {
	var last edition
	if m.cacheFolder == "" || gob.NewDecoder(bytes.NewReader(m.Get(m.name))).Decode(&last) != nil {
		return nil, folder.Report{}
	}
	if last.Program != m.program || last.Day != m.day {
		return nil, folder.Report{}
	}
	if !folder.Intact(out, last.Site) || !newWitness(files).confirms(last.Heard) {
		return nil, folder.Report{}
	}
	return &last, folder.Report{Unchanged: last.Files}
}

// keep remembers a site that was written just now.
func (m memory) keep(site *edition, out string) {
	if m.cacheFolder == "" {
		return
	}
	site.Program, site.Day, site.Site = m.program, m.day, folder.Listed(out)
	var text bytes.Buffer
	if gob.NewEncoder(&text).Encode(site) == nil {
		m.Put(m.name, text.Bytes())
	}
}
