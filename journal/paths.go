package journal

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
	"unicode"
)

// deviceNames are names that Windows takes for devices in every folder, with any ending.
var deviceNames = []string{"con", "prn", "aux", "nul", "com1", "com2", "com3", "com4", "com5", "com6", "com7",
	"com8", "com9",
	"lpt1", "lpt2", "lpt3", "lpt4", "lpt5", "lpt6", "lpt7", "lpt8", "lpt9"}

const copyFirst = "copy the file into the journal, and write its path from the file that it stands in, such as ../photos/ruby.jpg"

// insidePath joins a folder of the journal and a path that the keeper wrote, and refuses what leaves the journal or
// means another file on another system.
func insidePath(folder, written string) (string, issue) {
	bad := func(why, hint string) (string, issue) {
		return "", issue{code: "bad-path", message: quote(written) + " " + why, hint: hint}
	}
	switch {
	case strings.TrimSpace(written) == "":
		return bad("is no path", "")
	case len(written) > maxPathBytes:
		return bad(fmt.Sprintf("is too long; a path has at most %d bytes", maxPathBytes), "")
	case strings.ContainsAny(written, typographic):
		return bad("has typographic quotes", "write it without them: "+straight(written))
	case strings.Contains(written, ":"):
		return bad("is not a path inside the journal", copyFirst)
	case strings.Contains(written, `\`):
		return bad("has backslashes", "write it with slashes: "+strings.ReplaceAll(written, `\`, "/"))
	case strings.HasPrefix(written, "/"), strings.HasPrefix(written, "~"):
		return bad("is not inside the journal", "write it from the file that it stands in, such as ../photos/ruby.jpg")
	case strings.IndexFunc(written, func(r rune) bool { return unicode.IsControl(r) || unicode.Is(unicode.Cf, r) }) >= 0:
		return bad("has an invisible character", "")
	}
	target := path.Join(folder, written)
	if !fs.ValidPath(target) || target == "." {
		return bad("is not inside the journal", copyFirst)
	}
	for part := range strings.SplitSeq(target, "/") {
		stem, _, _ := strings.Cut(strings.ToLower(part), ".")
		switch {
		case slices.Contains(deviceNames, strings.TrimSpace(stem)):
			return bad("has "+quote(part)+", which is a device on some systems", "give the file another name")
		case strings.HasPrefix(part, "."):
			return bad("has a hidden part, "+quote(part), "")
		case strings.HasSuffix(part, "."), strings.HasSuffix(part, " "):
			return bad("has "+quote(part)+", which some systems cannot store", "give the file another name")
		}
	}
	return target, issue{}
}

// maxLinks is how many symbolic links one path may go through.
const maxLinks = 16

// locate finds the real path of a file through symbolic links and reports one that leaves the journal, is missing, or
// is no ordinary file. It works the same on a file system that would follow such links by itself.
func locate(fsys fs.FS, name string) (string, fs.FileInfo, issue) {
	real := ""
	pending := strings.Split(name, "/")
	for links := 0; len(pending) > 0; {
		next := path.Join(real, pending[0])
		pending = pending[1:]
		info, err := fs.Lstat(fsys, next)
		if err != nil {
			return "", nil, missing(name, err)
		}
		if info.Mode()&fs.ModeSymlink == 0 {
			real = next
			if len(pending) == 0 {
				return real, info, ordinary(name, info)
			}
			continue
		}
		target, err := fs.ReadLink(fsys, next)
		links++
		to := path.Join(path.Dir(next), target)
		if err != nil || links > maxLinks || path.IsAbs(target) || strings.Contains(target, `\`) || !fs.ValidPath(to) || to == "." {
			return "", nil, issue{code: "outside-journal",
				message: quote(name) + " is a link that leads out of the journal",
				hint:    "copy the file itself into the journal"}
		}
		real, pending = "", append(strings.Split(to, "/"), pending...)
	}
	return "", nil, missing(name, fs.ErrNotExist)
}

func missing(name string, err error) issue {
	if errors.Is(err, fs.ErrNotExist) {
		return issue{code: "missing-file", message: "there is no file " + quote(name)}
	}
	return issue{code: "unreadable-file", message: quote(name) + " cannot be read: " + reason(err)}
}

// reason returns what went wrong without the path, which the message names already.
func reason(err error) string {
	var in *fs.PathError
	if errors.As(err, &in) {
		return in.Err.Error()
	}
	return err.Error()
}

func ordinary(name string, info fs.FileInfo) issue {
	switch {
	case info.IsDir():
		return issue{code: "not-a-file", message: quote(name) + " is a folder; a file is needed"}
	case !info.Mode().IsRegular():
		return issue{code: "not-a-file", message: quote(name) + " is no ordinary file"}
	}
	return issue{}
}

// readLimited reads a whole file of at most limit bytes.
func readLimited(fsys fs.FS, name string, limit int) ([]byte, issue) {
	real, info, problem := locate(fsys, name)
	if problem.code != "" {
		return nil, problem
	}
	if info.Size() > int64(limit) {
		return nil, tooLarge(name, limit)
	}
	return readFile(fsys, name, real, limit)
}

func tooLarge(name string, limit int) issue {
	return issue{code: "too-long", message: fmt.Sprintf("%s is larger than %d bytes", quote(name), limit)}
}

// readFile reads the file that a name leads to.
func readFile(fsys fs.FS, name, real string, limit int) ([]byte, issue) {
	file, err := fsys.Open(real)
	if err != nil {
		return nil, missing(name, err)
	}
	defer file.Close()
	info, err := file.Stat()
	if err != nil {
		return nil, missing(name, err)
	}
	if problem := ordinary(name, info); problem.code != "" {
		return nil, problem
	}
	if info.Size() > int64(limit) {
		return nil, tooLarge(name, limit)
	}
	data := bytes.NewBuffer(make([]byte, 0, info.Size()+bytes.MinRead))
	if _, err := data.ReadFrom(io.LimitReader(file, int64(limit)+1)); err != nil {
		return nil, missing(name, err)
	}
	if data.Len() > limit {
		return nil, tooLarge(name, limit)
	}
	return data.Bytes(), issue{}
}

// EntryFolder returns the folder in which a new entry of a day belongs: a folder of the year where most entries lie in
// such ones, else the folder of all entries.
func EntryFolder(entries []*Entry, day Day) string {
	byYear := 0
	for _, entry := range entries {
		if path.Dir(entry.Path) == "entries/"+entry.Date.String()[:4] {
			byYear++
		}
	}
	if 2*byYear > len(entries) {
		return "entries/" + day.String()[:4]
	}
	return "entries"
}
