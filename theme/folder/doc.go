// Package folder puts a finished site into a folder, so that a reader never sees half a page and a run that is cut
// off loses nothing.
//
// Check says whether a folder may be used at all. Write then changes only the files whose bytes differ: it notes in a
// list which files are its own, stages all changed files beside the others, moves each into its place (assets first,
// then pages, then what leads to pages), and removes its own files that are no longer part of the site. Wherever it is
// cut off, every page is whole, old or new, and the next Write gives what an undisturbed one would have given.
// A full disk is noticed while staging, before any page has changed.
//
// Files of others in the folder are never changed or removed. The list has no times and no names of machines, and is
// called .pleopod-site.
//
// What it does not do: it does not keep two runs apart that write to one folder at the same time, and after a power
// failure (not a mere crash) a page may be empty until the next Write.
package folder
