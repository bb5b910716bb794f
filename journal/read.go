package journal

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"runtime"
	"slices"
	"strings"
	"sync"
)

// Read reads the journal in a folder. It never fails: what is wrong stands in Problems, in the order of the manual. Give
// it the file system of an os.Root, which does not follow links out of the folder. Settings is never nil-like to use
// when there is an error among the problems.
func Read(files fs.FS) *Journal { return new(Reader).Read(files) }

// Reader reads a journal again and again, and keeps what it made of files that did not change. The zero Reader is ready;
// it must not be used by two goroutines at once.
type Reader struct {
	settings []byte // the source that the kept entries were read with
	entries  map[string]keptEntry
	logs     map[string]keptLog
}

type keptEntry struct {
	source   string
	entry    *Entry
	problems []Problem
}

type keptLog struct {
	source   string
	days     []LoggedDay
	problems []Problem
}

// Read is like the function Read, and reuses the entries whose text is the same as last time.
func (r *Reader) Read(files fs.FS) *Journal {
	j := &Journal{}
	folder := list(files)
	j.Problems = folder.problems
	source, err := readFile(files, SettingsFile, maxSettingsBytes)
	if err != nil {
		j.Problems = append(j.Problems, Problem{Position: Position{SettingsFile, 1, 1}, Code: "no-settings", Message: "there is no journal.yaml that can be read in this folder: " + plainError(err), Hint: "a journal is a folder with a file journal.yaml"})
		return j
	}
	settings, problems := ParseSettings(source)
	j.Problems = append(j.Problems, problems...)
	if string(source) != string(r.settings) {
		r.settings, r.entries = source, nil
	}
	r.readEntries(j, files, folder.entries, settings)
	if settings != nil {
		j.Settings = *settings
		r.readLogs(j, files, folder)
	}
	j.checkFiles(files, folder)
	slices.SortStableFunc(j.Entries, func(a, b *Entry) int { return cmp.Or(cmp.Compare(a.Date, b.Date), strings.Compare(a.Path, b.Path)) })
	SortProblems(j.Problems)
	return j
}

// folderList is the files of a journal by what they are for, each list sorted.
type folderList struct {
	entries  []string        // entries/**/*.md
	pictures []string        // below photos/ and beside entries
	all      map[string]bool // every file
	problems []Problem
}

// errTooMany ends a walk that has seen enough.
var errTooMany = errors.New("too many files")

// list walks the journal's folder. It skips dot-files and the published site, and follows no folder link.
func list(files fs.FS) folderList {
	found := folderList{all: map[string]bool{}}
	err := fs.WalkDir(files, ".", func(name string, d fs.DirEntry, err error) error {
		base := path.Base(name)
		switch {
		case err != nil:
			if name != "." {
				found.problems = append(found.problems, Problem{Position: Position{name, 1, 1}, Code: "file-missing", Message: "it cannot be read: " + plainError(err)})
			}
			return nil
		case name != "." && strings.HasPrefix(base, "."):
			return skip(d)
		case name == PublishedFolder:
			return skip(d)
		case d.IsDir():
			return nil
		case d.Type()&fs.ModeSymlink != 0 && !linksToFile(files, name, &found):
			return nil
		case len(found.all) == maxFiles:
			return errTooMany
		}
		found.all[name] = true
		inEntries := strings.HasPrefix(name, "entries/")
		switch {
		case inEntries && path.Ext(name) == ".md":
			found.entries = append(found.entries, name)
		case isPicture(name) && (inEntries || strings.HasPrefix(name, "photos/")):
			found.pictures = append(found.pictures, name)
		}
		return nil
	})
	if err != nil {
		found.problems = append(found.problems, Problem{Position: Position{SettingsFile, 1, 1}, Code: "too-long", Message: fmt.Sprintf("the folder holds more than %d files", maxFiles)})
	}
	return found
}

// PublishedFolder is where publish writes by default; the reader never looks inside.
const PublishedFolder = "published"

func skip(d fs.DirEntry) error {
	if d.IsDir() {
		return fs.SkipDir
	}
	return nil
}

// linksToFile reports whether a link leads to a file inside the journal. One that leads out is a problem only where it
// would be an entry; other files are a problem when something refers to them.
func linksToFile(files fs.FS, name string, found *folderList) bool {
	info, err := fs.Stat(files, name)
	if err != nil && path.Ext(name) == ".md" && strings.HasPrefix(name, "entries/") {
		found.problems = append(found.problems, Problem{Position: Position{name, 1, 1}, Code: "path-outside", Message: "this entry is a link that leads out of the journal or to nothing"})
	}
	return err == nil && info.Mode().IsRegular()
}

// readFile reads a file of at most about most bytes; the reader of its format reports a longer one.
func readFile(files fs.FS, name string, most int) ([]byte, error) {
	info, err := fs.Stat(files, name)
	if err != nil {
		return nil, err
	}
	if info.IsDir() {
		return nil, errors.New("it is a folder")
	}
	if info.Size() > int64(most) {
		return make([]byte, most+1), nil // reported as too long by its size alone, without reading it
	}
	return fs.ReadFile(files, name)
}

// readEntries reads the entries on all cores; the result does not depend on their number.
func (r *Reader) readEntries(j *Journal, files fs.FS, names []string, settings *Settings) {
	results := make([]keptEntry, len(names))
	var workers sync.WaitGroup
	next := make(chan int)
	for range runtime.GOMAXPROCS(0) {
		workers.Go(func() {
			for i := range next {
				results[i] = r.readEntry(files, names[i], settings)
			}
		})
	}
	for i := range names {
		next <- i
	}
	close(next)
	workers.Wait()
	r.entries = make(map[string]keptEntry, len(names))
	for i, result := range results {
		r.entries[names[i]] = result
		j.Problems = append(j.Problems, result.problems...)
		if result.entry != nil {
			j.Entries = append(j.Entries, result.entry)
		}
	}
}

func (r *Reader) readEntry(files fs.FS, name string, settings *Settings) keptEntry {
	source, err := readFile(files, name, maxEntryBytes)
	if err != nil {
		return keptEntry{problems: []Problem{{Position: Position{name, 1, 1}, Code: "file-missing", Message: "the entry cannot be read: " + plainError(err)}}}
	}
	if kept, ok := r.entries[name]; ok && kept.source == string(source) && kept.entry != nil {
		return kept
	}
	entry, problems := ParseEntry(name, source, settings)
	return keptEntry{source: string(source), entry: entry, problems: problems}
}

// readLogs reads the logger file of every tank.
func (r *Reader) readLogs(j *Journal, files fs.FS, folder folderList) {
	kept := map[string]keptLog{}
	for i := range j.Settings.Tanks {
		tank := &j.Settings.Tanks[i]
		if tank.LogFile == "" || !j.checkFile(tank.Position, "the logger file", tank.LogFile, folder) {
			continue
		}
		source, err := readFile(files, tank.LogFile, maxLogBytes)
		if err != nil {
			j.Problems = append(j.Problems, Problem{Position: tank.Position, Code: "file-missing", Message: "the logger file " + quote(tank.LogFile) + " cannot be read: " + plainError(err)})
			continue
		}
		log, ok := r.logs[tank.LogFile]
		if !ok || log.source != string(source) {
			log.source = string(source)
			log.days, log.problems = ParseLog(tank.LogFile, source, j.Settings.Units)
		}
		kept[tank.LogFile] = log
		tank.Logged = log.days
		j.Problems = append(j.Problems, log.problems...)
	}
	r.logs = kept
}

// checkFile reports a file that the journal refers to and that is not there. Letter case counts, so that a journal
// works the same on every system.
func (j *Journal) checkFile(at Position, what, name string, folder folderList) bool {
	if folder.all[name] {
		return true
	}
	problem := Problem{Position: at, Code: "file-missing", Message: fmt.Sprintf("%s %s does not exist", what, quote(name))}
	var others []string
	for other := range folder.all {
		if path.Ext(other) == path.Ext(name) || strings.EqualFold(other, name) {
			others = append(others, other)
		}
	}
	slices.Sort(others)
	if near := Nearest(name, others); near != "" {
		problem.Message += "; did you mean " + quote(near) + "?"
	}
	j.Problems = append(j.Problems, problem)
	return false
}

// checkFiles reads the headers of all pictures that the journal refers to, and warns of those it does not.
func (j *Journal) checkFiles(files fs.FS, folder folderList) {
	known := map[string]issue{}
	use := func(at Position, what, name string) {
		problem, seen := known[name]
		if !seen {
			if !j.checkFile(at, what, name, folder) {
				return
			}
			var photo Photo
			if photo, problem = readPhoto(files, name); problem.code == "" {
				j.Photos = append(j.Photos, photo)
			}
			known[name] = problem
		}
		if problem.code != "" {
			j.Problems = append(j.Problems, Problem{Position: at, Code: problem.code, Message: what + " " + quote(name) + ": " + problem.message, Hint: problem.hint})
		}
	}
	for _, tank := range j.Settings.Tanks {
		if tank.Cover != "" {
			use(tank.Position, "the cover", tank.Cover)
		}
	}
	for _, entry := range j.Entries {
		for _, image := range entry.Images {
			if image.Path != "" {
				use(image.Position, "the picture", image.Path)
			}
		}
	}
	slices.SortFunc(j.Photos, func(a, b Photo) int { return strings.Compare(a.Path, b.Path) })
	j.checkSite(files, folder)
	for _, name := range folder.pictures {
		if _, used := known[name]; !used && !HasErrors(j.Problems) {
			j.Problems = append(j.Problems, Problem{Position: Position{name, 1, 1}, Severity: Warning, Code: "unused-photo", Message: "no entry and no tank shows this picture; it is not published"})
		}
	}
}

// checkSite checks what only the site needs: its address, the chart runtime and the look.
func (j *Journal) checkSite(files fs.FS, folder folderList) {
	at := Position{SettingsFile, 1, 1}
	if j.Settings.Address == "" && j.Settings.Title != "" {
		j.Problems = append(j.Problems, Problem{Position: at, Severity: Warning, Code: "no-address", Message: `there is no "address"; feed, calendar and sitemap are not written`, Hint: "add where the site will be served: address: https://example.org/shrimp/"})
	}
	if j.Settings.ChartRuntime != "" {
		j.checkFile(at, "the chart runtime", j.Settings.ChartRuntime, folder)
	}
	if look := j.Settings.Look; look != "" {
		if info, err := fs.Stat(files, look); err != nil || !info.IsDir() {
			j.Problems = append(j.Problems, Problem{Position: at, Code: "file-missing", Message: "the look " + quote(look) + " is no folder of this journal"})
		}
	}
}
