package journal

import (
	"cmp"
	"crypto/sha256"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"

	"pleopod/journal/parallel"
)

// Read reads a keeper's folder: settings, entries, logger files and the headers of photos. Whatever is wrong
// becomes one of the Journal's Problems, in order; Read itself never fails. Entries without a date are left
// out, and all of them when journal.yaml could not be read: without tanks nothing can be told about their
// events.
//
// Pass os.OpenRoot(dir) and its FS, which cannot be led out of the folder. Read checks links by itself as well, so
// that os.DirFS gives the same result, but a folder that changes meanwhile is safe with a Root only.
func Read(fsys fs.FS) *Journal {
	var reader Reader
	return reader.Read(fsys)
}

// Reader reads the same folder again and again and keeps what did not change. The zero Reader is ready. Its results
// share entries, so a caller must not change them. One Reader serves one goroutine at a time.
type Reader struct {
	settings [sha256.Size]byte // of the journal.yaml that the entries were read with
	entries  map[string]kept[*Entry]
	logs     map[string]kept[[]LoggedDay]
	changed  map[string]bool // files to be opened again; nil for all
	listed   *folder         // the last time
}

// kept is what a file gave when it was read last.
type kept[T any] struct {
	sum      [sha256.Size]byte // of the file
	read     bool              // the file could be read
	found    T
	problems []Problem
}

// ReadChanged reads the folder as Read does, but looks only at those files that are among the changed, or could not be
// read the last time. The caller vouches that no other has changed, come or gone since then.
func (r *Reader) ReadChanged(fsys fs.FS, changed []string) *Journal {
	r.changed = map[string]bool{}
	for _, name := range changed {
		r.changed[name] = true
	}
	defer func() { r.changed = nil }()
	return r.Read(fsys)
}

// Read reads the folder as the function Read does.
func (r *Reader) Read(fsys fs.FS) *Journal {
	journal := &Journal{Settings: defaultSettings()}
	source, problem := readLimited(fsys, SettingsFile, maxSettingsBytes)
	if problem.code != "" {
		journal.Problems = []Problem{noSettings(fsys, problem)}
		return journal
	}
	settings, problems := ParseSettings(source)
	journal.Problems = append(journal.Problems, problems...)
	if settings != nil {
		journal.Settings = *settings
	}
	if sum := sha256.Sum256(source); r.settings != sum || r.entries == nil {
		r.settings, r.entries, r.logs = sum, map[string]kept[*Entry]{}, map[string]kept[[]LoggedDay]{}
	}
	files := r.list(fsys)
	journal.Problems = append(journal.Problems, files.problems...)
	r.readEntries(fsys, files, settings, journal)
	r.readLogs(fsys, files, journal)
	checkPhotos(fsys, files, journal)
	checkLinks(files, journal)
	checkCopies(journal)
	checkSite(fsys, journal)
	SortProblems(journal.Problems)
	return journal
}

func noSettings(fsys fs.FS, problem issue) Problem {
	found := Problem{Position: Position{File: SettingsFile, Line: 1, Column: 1}, Code: problem.code,
		Message: problem.message, Hint: problem.hint}
	if problem.code == "missing-file" {
		found.Code = "no-journal"
		found.Message = "there is no journal.yaml in this folder"
		found.Hint = "go to the folder of your journal, or begin one: pleopod start my-colony"
		if other := otherSettings(fsys); other != "" {
			found.Hint = "rename " + quote(other) + " to journal.yaml"
		}
	}
	return found
}

// readEntries reads all entries, on every core; the order of the result does not depend on it.
func (r *Reader) readEntries(fsys fs.FS, files *folder, settings *Settings, journal *Journal) {
	next := make(map[string]kept[*Entry], len(files.entries))
	nodes := 0
	for rest := files.entries; len(rest) > 0; {
		batch := rest[:files.batch(rest)]
		rest = rest[len(batch):]
		results := make([]kept[*Entry], len(batch))
		parallel.Each(len(batch), func(i int) {
			results[i] = r.readEntry(fsys, files, batch[i], settings)
		})
		for i, result := range results {
			next[batch[i]] = result
			nodes += journal.take(result, settings)
		}
		if nodes > maxJournalNodes {
			last := Position{File: batch[len(batch)-1], Line: 1, Column: 1}
			journal.Problems = append(journal.Problems,
				Problem{Position: last, Code: "too-long",
					Message: "the texts up to here have more words, marks and lines than are read; the rest is left out", Hint: "begin a second journal"})
			break
		}
	}
	r.entries = next
	slices.SortStableFunc(journal.Entries, func(a, b *Entry) int {
		return cmp.Or(cmp.Compare(a.Date, b.Date), strings.Compare(a.Path, b.Path))
	})
}

// take adds what an entry file gave, and returns how many nodes its text has.
func (j *Journal) take(result kept[*Entry], settings *Settings) int {
	j.Problems = append(j.Problems, result.problems...)
	if result.found == nil {
		return 0
	}
	if result.found.Date != 0 && settings != nil {
		j.Entries = append(j.Entries, result.found)
	}
	return result.found.Nodes
}

// readEntry reads one entry file, or returns what it gave last time. It only reads the Reader.
func (r *Reader) readEntry(fsys fs.FS, files *folder, name string, settings *Settings) kept[*Entry] {
	last := r.entries[name]
	if last.read && r.changed != nil && !r.changed[name] {
		return last
	}
	source, problem := files.read(fsys, name, maxEntryBytes)
	if problem.code != "" {
		return kept[*Entry]{problems: []Problem{{Position: Position{File: name, Line: 1, Column: 1},
			Code: problem.code, Message: problem.message, Hint: problem.hint}}}
	}
	sum := sha256.Sum256(source)
	if last.read && last.sum == sum {
		return last
	}
	entry, problems := ParseEntry(name, source, settings)
	return kept[*Entry]{sum: sum, read: true, found: entry, problems: problems}
}

// readLogs reads the logger files of the tanks.
func (r *Reader) readLogs(fsys fs.FS, files *folder, journal *Journal) {
	next := map[string]kept[[]LoggedDay]{}
	for i := range journal.Settings.Tanks {
		tank := &journal.Settings.Tanks[i]
		if tank.LogFile == "" {
			continue
		}
		source, problem := readLimited(fsys, tank.LogFile, maxLogBytes)
		if problem.code != "" {
			journal.Problems = append(journal.Problems,
				Problem{Position: tank.At("temperature-log"), Code: problem.code,
					Message: problem.message, Hint: files.nearestHint(tank.LogFile, ".", problem)})
			continue
		}
		last, sum := r.logs[tank.LogFile], sha256.Sum256(source)
		if !last.read || last.sum != sum {
			days, problems := ParseLog(tank.LogFile, source, journal.Settings.Units)
			last = kept[[]LoggedDay]{sum, true, days, problems}
		}
		if _, read := next[tank.LogFile]; !read {
			journal.Problems = append(journal.Problems, last.problems...)
		}
		next[tank.LogFile] = last
		tank.Logged = last.found
	}
	r.logs = next
}

// PublishedFolder is where the site is written by default; the reader never looks inside.
const PublishedFolder = "published"

// checkSite looks for what only the site needs: the chart runtime and the folder of the look.
func checkSite(fsys fs.FS, journal *Journal) {
	settings := &journal.Settings
	missingAt := func(key string, found issue) {
		journal.Problems = append(journal.Problems,
			Problem{Position: settings.At(key), Code: found.code, Message: found.message, Hint: found.hint})
	}
	if settings.ChartRuntime != "" {
		switch _, info, problem := locate(fsys, settings.ChartRuntime); {
		case problem.code != "":
			missingAt("charts", problem)
		case info.Size() > maxRuntimeBytes:
			missingAt("charts", issue{code: "too-long",
				message: fmt.Sprintf("%s is larger than %d megabytes", quote(settings.ChartRuntime),
					maxRuntimeBytes>>20)})
		}
	}
	if settings.Look == "" {
		return
	}
	switch _, info, problem := locate(fsys, settings.Look); {
	case info != nil && !info.IsDir():
		missingAt("look", issue{code: "not-a-folder",
			message: quote(settings.Look) + " is a file; the look is a folder"})
	case info == nil:
		missingAt("look", problem)
	}
}

// reference is one place where the journal names a picture.
type reference struct {
	Position
	path string
}

// checkPhotos reads the header of every picture that the journal refers to, and warns of those that it does not.
func checkPhotos(fsys fs.FS, files *folder, journal *Journal) {
	references := pictureReferences(journal)
	var paths []string
	for _, ref := range references {
		paths = append(paths, ref.path)
	}
	slices.Sort(paths)
	paths = slices.Compact(paths)
	photos, problems := make([]Photo, len(paths)), make([]issue, len(paths))
	parallel.Each(len(paths), func(i int) {
		photos[i], problems[i] = readPhoto(fsys, paths[i])
		if listed := strings.HasPrefix(paths[i], "photos/") || strings.HasPrefix(paths[i], "entries/"); listed && problems[i].code == "" && !files.has(paths[i]) {
			problems[i] = missing(paths[i], fs.ErrNotExist) // another letter case, which not every disk tells apart
		}
	})
	for i := range paths {
		if problems[i].code == "" {
			journal.Photos = append(journal.Photos, photos[i])
		}
	}
	reported := 0
	for _, ref := range references {
		i, _ := slices.BinarySearch(paths, ref.path)
		found := problems[i]
		if found.code == "" {
			continue
		}
		// Looking for the nearest of many files is slow; after so many missing ones the hint is always the same.
		if reported++; reported <= maxReportedInFile {
			found.hint = files.nearestHint(ref.path, path.Dir(ref.File), found)
		}
		journal.Problems = append(journal.Problems,
			Problem{Position: ref.Position, Code: found.code, Message: found.message, Hint: found.hint})
	}
	for _, name := range files.pictures {
		if _, used := slices.BinarySearch(paths, name); !used {
			journal.Problems = append(journal.Problems,
				Problem{Position: Position{File: name, Line: 1, Column: 1}, Severity: Warning, Code: "unused-photo",
					Message: "no entry shows this picture, so it is not published"})
		}
	}
}

// pictureReferences lists the pictures of tanks and entries.
func pictureReferences(journal *Journal) []reference {
	var all []reference
	for i := range journal.Settings.Tanks {
		if tank := &journal.Settings.Tanks[i]; tank.Cover != "" {
			all = append(all, reference{tank.At("cover"), tank.Cover})
		}
	}
	for _, entry := range journal.Entries {
		for _, image := range entry.Images {
			if image.Path != "" {
				all = append(all, reference{image.Position, image.Path})
			}
		}
	}
	return all
}
