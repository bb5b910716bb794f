package folder

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"runtime"
	"slices"
	"strconv"
	"strings"
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

// Write makes dir hold the files, by their paths with slashes, and removes what an earlier Write put there and is not
// among them. dir is made when it is missing. A folder with things of others and no list of ours is refused, and so is a
// path at which somebody else's file lies; then nothing has changed. After any other error, such as a full disk or a
// folder that may not be written, each file is whole, and mostly all are the old ones.
func Write(dir string, files map[string][]byte) (Report, error) {
	return new(Writer).Write(dir, files)
}

// Writer writes the sites of one journal into one folder again and again. What it has written itself and nobody has
// listed otherwise since, it does not read again. The zero Writer is ready. One Writer serves one goroutine at a time.
type Writer struct {
	files map[string][]byte // of the last Write
	sums  map[string]checksum
	list  []byte // as it was left behind
}

// Write does what the function Write does.
func (w *Writer) Write(dir string, files map[string][]byte) (Report, error) {
	if err := checkNames(files); err != nil {
		return Report{}, err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return Report{}, fmt.Errorf("the folder for the site cannot be made: %w", err)
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return Report{}, fmt.Errorf("the folder for the site cannot be opened: %w", err)
	}
	defer root.Close()

	run := run{root: root, files: files, folders: folders(files)}
	if run.old, err = ours(root); err == nil {
		run.before = w.standing(run.old)
		err = run.write()
	}
	*w = Writer{}
	if err != nil {
		return Report{}, fmt.Errorf("the site in %s%s: %w", dir, plight(err), err)
	}
	*w = Writer{files: files, sums: run.sums, list: run.final.encode()}
	return run.report, nil
}

// standing returns the Writer where the folder still has the list that it left behind, else one that knows nothing.
func (w *Writer) standing(found list) *Writer {
	if w.list == nil || !bytes.Equal(w.list, found.encode()) {
		return &Writer{}
	}
	return w
}

// wrote reports whether a file with this content was written last time.
func (w *Writer) wrote(name string, content []byte) bool {
	if w == nil {
		return false
	}
	last, known := w.files[name]
	return known && bytes.Equal(last, content)
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

// checkNames refuses names that cannot be written, or not beside each other.
func checkNames(files map[string][]byte) error {
	folded := map[string]string{}
	for _, name := range sorted(files) {
		if err := checkName(name); err != nil {
			return err
		}
		lower := strings.ToLower(name)
		if other, taken := folded[lower]; taken {
			return fmt.Errorf("%q and %q are one file on some systems", other, name)
		}
		folded[lower] = name
	}
	for _, dir := range sorted(folders(files)) {
		if file, taken := folded[strings.ToLower(dir)]; taken {
			return fmt.Errorf("%q is a file and also a folder of the site", file)
		}
	}
	return nil
}

// folders returns all folders that the files lie in, without the site's own.
func folders(files map[string][]byte) map[string]bool {
	found := map[string]bool{}
	for name := range files {
		for up := path.Dir(name); up != "." && !found[up]; up = path.Dir(up) {
			found[up] = true
		}
	}
	return found
}

func sorted[V any](files map[string]V) []string {
	names := make([]string, 0, len(files))
	for name := range files {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// run is one Write.
type run struct {
	root    *os.Root
	files   map[string][]byte
	folders map[string]bool // that the files lie in
	old     list            // what the folder may hold of ours
	before  *Writer         // what is known from the last time
	sums    map[string]checksum
	final   list
	report  Report
}

func (r *run) write() error {
	changed, err := r.changed()
	if err != nil {
		return err
	}
	r.sum()
	final := r.final
	if len(changed) == 0 && bytes.Equal(final.encode(), r.old.encode()) && len(r.old) > 0 {
		// A run that was cut off may have left these.
		return errors.Join(r.root.RemoveAll(stageName), r.root.RemoveAll(listDraft))
	}

	both := list{}
	for _, l := range []list{r.old, final} {
		for name, sums := range l {
			for _, sum := range sums {
				both.add(name, sum)
			}
		}
	}
	if err := writeList(r.root, both); err != nil {
		return err
	}
	if err := r.stage(changed); err != nil {
		// Should the disk be too full even for this, the longer list does no harm.
		r.root.RemoveAll(stageName)
		writeList(r.root, r.old)
		return err
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

// changed returns the names of the files that the folder does not hold yet, in the order in which they are placed. It
// fails where somebody else's file or folder is in the way.
func (r *run) changed() ([]string, error) {
	var changed []string
	names := sorted(r.files)
	held := make([]bool, len(names))
	_ = each(len(names), func(i int) error {
		content := r.files[names[i]]
		held[i] = r.before.wrote(names[i], content) || r.holds(names[i], content)
		return nil
	})
	for i, name := range names {
		if held[i] {
			r.report.Unchanged++
			continue
		}
		if obstacle := r.obstacle(name); obstacle != "" {
			return nil, fmt.Errorf("%q is in the way and was not made by pleopod; move it elsewhere", obstacle)
		}
		changed = append(changed, name)
	}
	slices.SortStableFunc(changed, func(a, b string) int { return turn(a) - turn(b) })
	return changed, nil
}

// sum works out the checksum of every file of the site.
func (r *run) sum() {
	names := sorted(r.files)
	sums := make([]checksum, len(names))
	_ = each(len(names), func(i int) error {
		content := r.files[names[i]]
		if r.before.wrote(names[i], content) {
			sums[i] = r.before.sums[names[i]]
			return nil
		}
		sums[i] = sha256.Sum256(content)
		return nil
	})
	r.sums, r.final = map[string]checksum{}, list{}
	for i, name := range names {
		r.sums[name] = sums[i]
		r.final.add(name, sums[i])
	}
}

// each calls work for 0 to n-1 on all cores and returns the error of the lowest number that failed.
func each(n int, work func(i int) error) error {
	workers := min(n, runtime.GOMAXPROCS(0))
	errs := make([]error, n)
	var crew sync.WaitGroup
	for worker := range workers {
		crew.Go(func() {
			for i := worker; i < n; i += workers {
				if errs[i] = work(i); errs[i] != nil {
					return
				}
			}
		})
	}
	crew.Wait()
	return cmp.Or(errs...)
}

// holds reports whether a regular file has the content.
func (r *run) holds(name string, content []byte) bool {
	info, err := r.root.Lstat(name)
	if err != nil || !info.Mode().IsRegular() || info.Size() != int64(len(content)) {
		return false
	}
	found, err := r.root.ReadFile(name)
	return err == nil && bytes.Equal(found, content)
}

// obstacle returns what stands where a file or one of its folders shall be and is not ours, or "".
func (r *run) obstacle(name string) string {
	for up := path.Dir(name); up != "."; up = path.Dir(up) {
		if info, err := r.root.Lstat(up); err == nil && !info.IsDir() && r.old[up] == nil {
			return up
		}
	}
	info, err := r.root.Lstat(name)
	if err != nil || r.old[name] != nil || r.oursInOtherCase(name) {
		return ""
	}
	if !info.IsDir() {
		return name
	}
	obstacle := ""
	fs.WalkDir(r.root.FS(), name, func(inner string, entry fs.DirEntry, err error) error {
		if err != nil || !entry.IsDir() && r.old[inner] == nil {
			obstacle = inner
			return fs.SkipAll
		}
		return nil
	})
	return obstacle
}

// oursInOtherCase reports whether a name leads to one of our files that was written with other capitals, on a disk
// that does not tell them apart.
func (r *run) oursInOtherCase(name string) bool {
	for old := range r.old {
		if strings.EqualFold(old, name) && r.twin(old, name) {
			return true
		}
	}
	return false
}

// turn says when a file is placed: what pages need, pages, and last what leads to pages.
func turn(name string) int {
	switch base := path.Base(name); {
	case base == "index.html" || base == "sitemap.xml" || base == "feed.xml" || strings.HasSuffix(base, ".ics"):
		return 2
	case strings.HasSuffix(base, ".html"):
		return 1
	}
	return 0
}

// stage writes the changed files into a folder beside the site, so that a full disk is noticed before anything has changed.
func (r *run) stage(changed []string) error {
	if err := r.root.RemoveAll(stageName); err != nil {
		return err
	}
	if err := r.root.Mkdir(stageName, 0o755); err != nil {
		return err
	}
	stage, err := r.root.OpenRoot(stageName)
	if err != nil {
		return err
	}
	defer stage.Close()
	return each(len(changed), func(i int) error {
		return stage.WriteFile(strconv.Itoa(i), r.files[changed[i]], 0o644)
	})
}

func staged(i int) string { return stageName + "/" + strconv.Itoa(i) }

// place moves the staged files to where they belong.
func (r *run) place(changed []string) error {
	if err := r.prune(r.obstructs); err != nil {
		return err
	}
	for _, dir := range sorted(r.folders) {
		if err := r.root.MkdirAll(dir, 0o755); err != nil {
			return err
		}
	}
	for i, name := range changed {
		if err := rename(r.root, staged(i), name); err != nil {
			return err
		}
		r.report.Written++
	}
	return nil
}

// obstructs reports whether an old file lies where a new one needs a folder, or in a folder where a new file shall lie.
func (r *run) obstructs(old string) bool {
	if r.folders[old] {
		return true
	}
	for up := path.Dir(old); up != "."; up = path.Dir(up) {
		if _, taken := r.files[up]; taken {
			return true
		}
	}
	return false
}

// prune removes those of our old files that are not part of the site and for which want holds. A file that somebody
// has changed since stays.
func (r *run) prune(want func(name string) bool) error {
	folded := map[string]string{}
	for name := range r.files {
		folded[strings.ToLower(name)] = name
	}
	for _, name := range sorted(r.old) {
		if _, stays := r.files[name]; stays || !want(name) || r.twin(name, folded[strings.ToLower(name)]) {
			continue
		}
		content, err := r.root.ReadFile(name)
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil || !slices.Contains(r.old[name], sha256.Sum256(content)) {
			r.report.Kept = append(r.report.Kept, name)
			continue
		}
		if err := r.root.Remove(name); err != nil {
			return err
		}
		r.report.Removed++
		r.removeEmpty(path.Dir(name))
	}
	return nil
}

// twin reports whether an old name and a new one that differ in case only are one file on this disk.
func (r *run) twin(old, name string) bool {
	if name == "" {
		return false
	}
	a, err := r.root.Lstat(old)
	if err != nil {
		return false
	}
	b, err := r.root.Lstat(name)
	return err == nil && os.SameFile(a, b)
}

// removeEmpty removes a folder that has become empty, and those above it. That a folder is not empty shows when it
// cannot be removed.
func (r *run) removeEmpty(dir string) {
	for ; dir != "."; dir = path.Dir(dir) {
		if r.root.Remove(dir) != nil {
			return
		}
	}
}
