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

// savedRun is what publish keeps of a run: what it read, and what it said and wrote.
type savedRun struct {
	Program string                // its mark
	Day     journal.Day           // by the clock or the command
	Answers map[string]digest.Sum // of the journal's folder to what it was asked
	Site    folder.Sum            // of what was written

	Files    int
	Pages    int
	Title    string
	AsOf     journal.Day
	Problems []journal.Problem
}

// runCache keeps in the user's cache the last run of publish from a journal into a folder. The same journal, day and program
// give the same site: so a run that finds all three unchanged, and the site too, has nothing to do. The zero runCache keeps
// nothing.
type runCache struct {
	cacheFolder
	name, program string
	day           journal.Day
}

// runCache returns the cache for the command's journal and the folder of its site. With a look from elsewhere it keeps
// nothing, since nobody records what is read of that.
func (c *publishCommand) runCache(env *environment, out string) (runCache, error) {
	day, err := c.day(&journal.Settings{}, env)
	if err != nil {
		return runCache{}, err
	}
	from, err := filepath.Abs(c.Journal)
	if err != nil {
		return runCache{}, err
	}
	to, err := filepath.Abs(out)
	program := programSum()
	if c.Look != "" || program == "" {
		return runCache{}, err
	}
	return runCache{env.cache.sub("sites"), "site-" + digest.Of(from, to).String(), program, day}, err
}

// unchanged returns the last run and a report that nothing was to be done, or nil where something has changed.
func (c runCache) unchanged(files fs.FS, out string) (*savedRun, folder.Report) {
	var last savedRun
	if c.cacheFolder == "" || gob.NewDecoder(bytes.NewReader(c.Get(c.name))).Decode(&last) != nil {
		return nil, folder.Report{}
	}
	if last.Program != c.program || last.Day != c.day {
		return nil, folder.Report{}
	}
	if !folder.Intact(out, last.Site) || !newRecordingFS(files).stillAnswers(last.Answers) {
		return nil, folder.Report{}
	}
	return &last, folder.Report{Unchanged: last.Files}
}

// save keeps a run that has just written its site.
func (c runCache) save(run *savedRun, out string) {
	if c.cacheFolder == "" {
		return
	}
	run.Program, run.Day, run.Site = c.program, c.day, folder.Listed(out)
	var text bytes.Buffer
	if gob.NewEncoder(&text).Encode(run) == nil {
		c.Put(c.name, text.Bytes())
	}
}
