package main

import (
	"fmt"
	"io"
	"slices"
)

// privateDocument is what leaves no trace on the site, each list sorted.
type privateDocument struct {
	Entries []string `json:"entries"` // paths
	Photos  []string `json:"photos"`  // paths of pictures that only private entries show
	Broods  []string `json:"broods"`  // names of broods, and of the young that hatch from them
	Shrimp  []string `json:"shrimp"`  // names of animals
}

// privateParts lists what a journal keeps from the site's readers. An entry after the as-of day counts as well.
func privateParts(loaded loadedJournal) *privateDocument {
	d := &privateDocument{Entries: []string{}, Photos: []string{}, Broods: []string{}, Shrimp: []string{}}
	shown := map[string]bool{}
	for _, tank := range loaded.journal.Settings.Tanks {
		shown[tank.Cover] = true
	}
	for _, entry := range loaded.journal.Entries {
		for _, image := range entry.Images {
			shown[image.Path] = shown[image.Path] || !entry.Private
		}
		if entry.Private {
			d.Entries = append(d.Entries, entry.Path)
		}
	}
	for _, photo := range loaded.journal.Photos {
		if !shown[photo.Path] {
			d.Photos = append(d.Photos, photo.Path)
		}
	}
	for _, b := range loaded.colony.Broods {
		if !b.Public() {
			d.Broods = append(d.Broods, b.ID)
		}
	}
	for _, s := range loaded.colony.Shrimp {
		if !s.Public {
			d.Shrimp = append(d.Shrimp, s.Name)
		}
	}
	for _, names := range [][]string{d.Entries, d.Photos, d.Broods, d.Shrimp} {
		slices.Sort(names)
	}
	return d
}

// print lists what stays private, kind by kind.
func (d *privateDocument) print(out io.Writer) {
	if len(d.Entries) == 0 {
		fmt.Fprintln(out, "nothing is private")
		return
	}
	parts := []struct {
		title string
		names []string
	}{
		{"private entries", d.Entries}, {"photos that only they show", d.Photos}, {"broods opened there, with their young", d.Broods},
		{"shrimp first named there", d.Shrimp},
	}
	for _, part := range parts {
		if len(part.names) == 0 {
			continue
		}
		fmt.Fprintf(out, "%s:\n", part.title)
		for _, name := range part.names {
			fmt.Fprintf(out, "  %s\n", printable(name))
		}
	}
}
