package folder

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"slices"
	"strings"
)

// checkNames refuses files that cannot be written beside each other, and notes the folders that they lie in.
func (r *run) checkNames() error {
	folded := map[string]string{}
	for _, name := range sorted(r.files) {
		lower := strings.ToLower(name)
		if other, taken := folded[lower]; taken {
			return fmt.Errorf("%q and %q are one file on some systems", other, name)
		}
		folded[lower] = name
	}
	r.folders = folders(r.files)
	for _, dir := range sorted(r.folders) {
		if file, taken := folded[strings.ToLower(dir)]; taken {
			return fmt.Errorf("%q is a file and also a folder of the site", file)
		}
	}
	return nil
}

// folders returns all folders that the files lie in, without the site's own.
func folders[V any](files map[string]V) map[string]bool {
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

// changed returns the names of the files that the folder does not hold yet, in the order in which they are placed. It
// fails where somebody else's file or folder is in the way.
func (r *run) changed() ([]string, error) {
	var changed []string
	for _, name := range sorted(r.files) {
		if r.files[name].held {
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
	for _, name := range changed {
		if err := rename(r.root, stageName+"/"+r.files[name].staged, name); err != nil {
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
