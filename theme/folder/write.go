package folder

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strconv"
	"sync"
	"syscall"
)

// Report counts what Write did.
type Report struct {
	Written   int      // files that are new or have changed
	Unchanged int      // files that were right already
	Removed   int      // files of an earlier site that are no longer part of it
	Kept      []string // such files that somebody else has changed since; they stay, and are no longer ours
}

// Pour hands over the files of a site one after the other, by their paths with slashes, or several at once from
// goroutines that have ended when it returns. An error of put ends it; it may have others of its own.
type Pour func(put func(name string, content []byte) error) error

// Files pours a site that is in memory.
func Files(files map[string][]byte) Pour {
	return func(put func(name string, content []byte) error) error {
		for name, content := range files {
			if err := put(name, content); err != nil {
				return err
			}
		}
		return nil
	}
}

// Write makes dir hold the files, and removes what an earlier Write put there and is not among them. dir is made when it
// is missing. A folder with things of others and no list of ours is refused, and so is a path at which somebody else's
// file lies; then nothing has changed. After an error of pour, which is returned as it is, nothing has changed either.
// After any other error, such as a full disk or a folder that may not be written, each file is whole, and mostly all are
// the old ones.
func Write(dir string, pour Pour) (Report, error) {
	return new(Writer).Write(dir, pour)
}

// Writer writes the sites of one journal into one folder again and again. What it has written itself and nobody has
// listed otherwise since, it does not read again. The zero Writer is ready. One Writer serves one goroutine at a time.
type Writer struct {
	sums map[string]checksum // of the files of the last Write
	list []byte              // as it was left behind
}

// Write does what the function Write does.
func (w *Writer) Write(dir string, pour Pour) (Report, error) {
	_, err := os.Lstat(dir)
	isNew := errors.Is(err, fs.ErrNotExist)
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return Report{}, fmt.Errorf("the folder for the site cannot be made: %w", err)
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return Report{}, fmt.Errorf("the folder for the site cannot be opened: %w", err)
	}
	defer root.Close()

	run := run{root: root, files: map[string]*file{}}
	if run.old, err = ours(root); err == nil {
		run.known = w.standing(run.old)
		err = run.write(pour)
	}
	*w = Writer{}
	if err == nil {
		*w = Writer{sums: run.sums(), list: run.final().encode()}
		return run.report, nil
	}
	if isNew {
		os.Remove(dir) // unless something lies in it
	}
	var theirs poured
	if errors.As(err, &theirs) {
		return Report{}, theirs.error
	}
	return Report{}, fmt.Errorf("the site in %s%s: %w", dir, plight(err), err)
}

// standing returns the checksums of what the folder holds for certain: what the Writer has written, where the folder
// still has the list that it left behind.
func (w *Writer) standing(found list) map[string]checksum {
	if w.list == nil || !bytes.Equal(w.list, found.encode()) {
		return nil
	}
	return w.sums
}

// plight says in plain words what an error of the system means, or nothing.
func plight(err error) string {
	switch {
	case errors.Is(err, syscall.ENOSPC):
		return " cannot be written, because the disk is full; the old site stays as it was"
	case errors.Is(err, fs.ErrPermission) || errors.Is(err, syscall.EROFS):
		return " cannot be written, because the folder does not allow it"
	}
	return ""
}

// run is one Write.
type run struct {
	root  *os.Root
	old   list                // what the folder may hold of ours
	known map[string]checksum // what it holds for certain

	mu     sync.Mutex
	files  map[string]*file // of the new site
	stage  *os.Root         // made when the first file needs it
	failed error            // of put

	folders map[string]bool // that the files lie in
	report  Report
}

// file is one file of the new site.
type file struct {
	sum    checksum
	held   bool // the folder has it already
	staged string
}

// poured is an error of the one who pours, not of the folder.
type poured struct{ error }

func (r *run) write(pour Pour) error {
	err := pour(r.put)
	if r.stage != nil {
		defer r.stage.Close()
	}
	switch {
	case r.failed != nil:
		err = r.failed
	case err != nil:
		err = poured{err}
	default:
		err = r.checkNames()
	}
	var changed []string
	if err == nil {
		changed, err = r.changed()
	}
	if err != nil {
		return errors.Join(err, r.root.RemoveAll(stageName))
	}

	final := r.final()
	if len(changed) == 0 && bytes.Equal(final.encode(), r.old.encode()) && len(r.old) > 0 {
		// A run that was cut off may have left these.
		return errors.Join(r.root.RemoveAll(stageName), r.root.RemoveAll(listDraft))
	}
	if err := writeList(r.root, r.old.and(final)); err != nil {
		return errors.Join(err, r.root.RemoveAll(stageName))
	}
	if err := r.place(changed); err != nil {
		return err
	}
	if err := r.prune(func(old string) bool { return !r.obstructs(old) }); err != nil {
		return err
	}
	if err := r.root.RemoveAll(stageName); err != nil {
		return err
	}
	return writeList(r.root, final)
}

// put takes a file of the new site. What the folder does not hold yet is written into a stage in it, so that a full disk
// is noticed before anything has changed.
func (r *run) put(name string, content []byte) error {
	one, err := r.list(name, sha256.Sum256(content))
	if one != nil && err == nil {
		if one.held = r.holds(name, one.sum, content); !one.held {
			err = r.stageFile(one.staged, content)
		}
	}
	if err != nil {
		r.mu.Lock()
		defer r.mu.Unlock()
		if r.failed == nil {
			r.failed = err
		}
	}
	return err
}

// list notes a file, and returns nil for one that was handed over before.
func (r *run) list(name string, sum checksum) (*file, error) {
	if err := checkName(name); err != nil {
		return nil, err
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	if twin := r.files[name]; twin != nil {
		if twin.sum != sum {
			return nil, fmt.Errorf("two files of the site are called %q", name)
		}
		return nil, nil
	}
	one := &file{sum: sum, staged: strconv.Itoa(len(r.files))}
	r.files[name] = one
	return one, nil
}

// stageFile writes a file into the stage.
func (r *run) stageFile(name string, content []byte) error {
	stage, err := r.openStage()
	if err != nil {
		return err
	}
	return stage.WriteFile(name, content, 0o644)
}

// openStage returns the stage, and makes it anew the first time.
func (r *run) openStage() (*os.Root, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.stage != nil {
		return r.stage, nil
	}
	if err := r.root.RemoveAll(stageName); err != nil {
		return nil, err
	}
	if err := r.root.Mkdir(stageName, 0o755); err != nil {
		return nil, err
	}
	stage, err := r.root.OpenRoot(stageName)
	r.stage = stage
	return stage, err
}

// holds reports whether the folder has a file of ours with the content.
func (r *run) holds(name string, sum checksum, content []byte) bool {
	if known, ok := r.known[name]; ok && known == sum {
		return true
	}
	if !slices.Contains(r.old[name], sum) {
		return false
	}
	info, err := r.root.Lstat(name)
	if err != nil || !info.Mode().IsRegular() || info.Size() != int64(len(content)) {
		return false
	}
	found, err := r.root.ReadFile(name)
	return err == nil && bytes.Equal(found, content)
}

// sums returns the checksum of every file of the site.
func (r *run) sums() map[string]checksum {
	sums := map[string]checksum{}
	for name, one := range r.files {
		sums[name] = one.sum
	}
	return sums
}

// final is the list that the folder shall have.
func (r *run) final() list {
	l := list{}
	for name, one := range r.files {
		l.add(name, one.sum)
	}
	return l
}
