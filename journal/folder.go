package journal

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"
)

// folder is the files of a journal.
type folder struct {
	entries  []string         // entry files, by path
	pictures []string         // files that may be pictures, by path
	files    map[string]bool  // every file that was seen; true where it is an ordinary one and no link
	sizes    map[string]int64 // bytes of the entries
	problems []Problem
}

// tops are the folders of a journal whose files are listed.
var tops = []string{"entries", "photos", "readings"}

// listFolder lists the files of a journal. Hidden files and links to folders are passed over.
func listFolder(fsys fs.FS) *folder {
	found := &folder{files: map[string]bool{}, sizes: map[string]int64{}}
	for _, top := range tops {
		info, err := fs.Lstat(fsys, top)
		if err != nil {
			continue
		}
		if info.Mode()&fs.ModeSymlink != 0 {
			found.problem(top, Error, issue{code: "folder-link",
				message: quote(top) + " is a link to a folder; links to folders are not followed",
				hint:    "put the folder itself into the journal"})
			continue
		}
		_ = fs.WalkDir(fsys, top, found.visit)
	}
	found.finish(fsys)
	return found
}

// list lists the files of the journal, those that have not changed as they were.
func (r *Reader) list(fsys fs.FS) *folder {
	var files *folder
	if r.changed != nil && r.listed != nil {
		files = r.listed.after(fsys, r.changed)
	}
	if files == nil {
		files = listFolder(fsys)
	}
	r.listed = files
	return files
}

// after returns the list with the changed files as they are now, or nil where it must be made anew: there was a problem
// with it, or a folder is among the changed.
func (f *folder) after(fsys fs.FS, changed map[string]bool) *folder {
	if len(f.problems) > 0 {
		return nil
	}
	gone := func(name string) bool { return changed[name] }
	next := &folder{files: maps.Clone(f.files), sizes: maps.Clone(f.sizes),
		entries:  slices.DeleteFunc(slices.Clone(f.entries), gone),
		pictures: slices.DeleteFunc(slices.Clone(f.pictures), gone)}
	for name := range changed {
		delete(next.files, name)
		delete(next.sizes, name)
		top, _, inside := strings.Cut(name, "/")
		if !inside || !slices.Contains(tops, top) || strings.Contains(name, "/.") {
			continue
		}
		info, err := fs.Lstat(fsys, name)
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case err != nil || info.IsDir():
			return nil
		default:
			_ = next.visit(name, fs.FileInfoToDirEntry(info), nil)
		}
	}
	next.finish(fsys)
	if len(next.problems) > 0 {
		return nil
	}
	return next
}

// finish sorts the lists and cuts them to what is read of one journal.
func (f *folder) finish(fsys fs.FS) {
	slices.Sort(f.entries)
	slices.Sort(f.pictures)
	f.limitEntries(fsys)
	for name := range f.files {
		if strings.HasPrefix(name, "entries/") {
			f.misnamed(fsys, name)
		}
	}
}

// limitEntries leaves out the entries where they are more than is read of one journal.
func (f *folder) limitEntries(fsys fs.FS) {
	var sum int64
	for _, name := range f.entries {
		if !f.files[name] { // a link: what it leads to counts
			if info, err := fs.Stat(fsys, name); err == nil {
				f.sizes[name] = info.Size()
			}
		}
		if sum += f.sizes[name]; sum > maxJournalBytes {
			f.problem(name, Error, issue{code: "too-long",
				message: fmt.Sprintf("the entries up to here have more than %d megabytes together; none is read", maxJournalBytes>>20), hint: "begin a second journal"})
			f.entries = nil
			return
		}
	}
}

func (f *folder) problem(name string, severity Severity, found issue) {
	f.problems = append(f.problems, Problem{Position: Position{File: name, Line: 1, Column: 1},
		Severity: severity, Code: found.code, Message: found.message, Hint: found.hint})
}

func (f *folder) visit(name string, entry fs.DirEntry, err error) error {
	hidden := strings.HasPrefix(path.Base(name), ".")
	switch {
	case err != nil:
		f.problem(name, Error, issue{code: "unreadable-file", message: quote(name) + " cannot be read: " + reason(err)})
		return nil
	case entry.IsDir() && hidden:
		return fs.SkipDir
	case entry.IsDir() || hidden:
		return nil
	case len(f.files) >= maxFiles:
		f.problem(name, Error, issue{code: "too-long", message: "the journal has more files than are read"})
		return fs.SkipAll
	}
	f.files[name] = entry.Type().IsRegular()
	switch {
	case strings.HasPrefix(name, "entries/") && strings.EqualFold(path.Ext(name), ".md"):
		f.entries = append(f.entries, name)
		if info, err := entry.Info(); err == nil {
			f.sizes[name] = info.Size()
		}
	case isPictureName(name):
		f.pictures = append(f.pictures, name)
	}
	return nil
}

// batch returns how many of the entries are read before what they cost is looked at.
func (f *folder) batch(entries []string) int {
	sum := int64(0)
	for i, name := range entries {
		if sum += f.sizes[name]; sum > maxBatchBytes {
			return max(i, 1)
		}
	}
	return len(entries)
}

// has reports whether a file was seen.
func (f *folder) has(name string) bool {
	_, seen := f.files[name]
	return seen
}

// read reads a whole file of at most limit bytes. An ordinary file is opened as it is: the walk that found it went
// through no link.
func (f *folder) read(fsys fs.FS, name string, limit int) ([]byte, issue) {
	if !f.files[name] {
		return readLimited(fsys, name, limit)
	}
	return readFile(fsys, name, name, limit)
}

// nearestHint proposes the file that was meant by a missing one, as it is written in a file of the folder from.
func (f *folder) nearestHint(name, from string, problem issue) string {
	if problem.code != "missing-file" {
		return problem.hint
	}
	var same, near []string
	for file := range f.files {
		switch {
		case strings.EqualFold(path.Base(file), path.Base(name)):
			same = append(same, file)
		case path.Dir(file) == path.Dir(name):
			near = append(near, path.Base(file))
		}
	}
	slices.Sort(same)
	slices.Sort(near)
	if len(same) > 0 {
		return meant(from, same[0])
	}
	if nearest := Nearest(path.Base(name), near); nearest != "" {
		return meant(from, path.Join(path.Dir(name), nearest))
	}
	return problem.hint
}

// meant proposes a file of the journal, as it is written in a file of the folder from.
func meant(from, name string) string {
	if name == "" {
		return ""
	}
	return "did you mean " + quote(writtenFrom(from, name)) + "?"
}

// writtenFrom returns how a file of the journal is written in a file of the folder from.
func writtenFrom(from, name string) string {
	up := ""
	for from != "." && !strings.HasPrefix(name, from+"/") {
		from, up = path.Dir(from), up+"../"
	}
	return up + strings.TrimPrefix(name, from+"/")
}
