package journal

import (
	"io"
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"
)

// unreadEndings are the endings that editors give to a text, besides .md.
var unreadEndings = []string{"", ".txt", ".text", ".markdown"}

// entryTop is how an entry begins: hyphens, and a date among the keys.
var entryTop = regexp.MustCompile(`^(\x{FEFF})?\s*---\s*\n(?:[^\n]*\n)*?\s*date:`)

// beginsAsEntry reports whether the top of a file is that of an entry.
func beginsAsEntry(fsys fs.FS, name string) bool {
	file, err := fsys.Open(name)
	if err != nil {
		return false
	}
	defer file.Close()
	top, err := io.ReadAll(io.LimitReader(file, 2048))
	return err == nil && entryTop.Match(top)
}

// misnamed warns of a file among the entries that is one, under a name that is not read.
func (f *folder) misnamed(fsys fs.FS, name string) {
	ending := path.Ext(name)
	if f.files[name] && slices.Contains(unreadEndings, strings.ToLower(ending)) && beginsAsEntry(fsys, name) {
		f.problem(name, Warning, issue{code: "not-read", message: "this entry is not read, because the name of its file does not end in .md",
			hint: "rename it to " + quote(strings.TrimSuffix(strings.TrimSuffix(name, ending), ".md")+".md")})
	}
}

// Misplaced warns of entries that lie beside the folder of entries, or in another folder that the journal does not
// read, where nothing else would tell of them. It looks no deeper than one folder.
func Misplaced(fsys fs.FS) []Problem {
	var found folder
	for _, pattern := range []string{"*.md", "*/*.md"} {
		names, _ := fs.Glob(fsys, pattern) // the pattern is right
		for _, name := range names {
			top, _, _ := strings.Cut(name, "/")
			if top == "entries" || top == PublishedFolder || strings.HasPrefix(top, ".") || !beginsAsEntry(fsys, name) {
				continue
			}
			found.problem(name, Warning, issue{code: "not-read", message: "this entry is not read, because it lies outside the folder entries",
				hint: "move it to " + quote("entries/"+path.Base(name))})
		}
	}
	return found.problems
}

// otherSettings returns the name under which journal.yaml may lie in the folder, or "".
func otherSettings(fsys fs.FS) string {
	for _, name := range []string{"journal.yml", "journal.yaml.txt", "Journal.yaml", "journal.txt", "journal"} {
		if info, err := fs.Stat(fsys, name); err == nil && info.Mode().IsRegular() {
			return name
		}
	}
	return ""
}
