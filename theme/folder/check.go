package folder

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// published is the folder in a journal that may hold the site.
const published = "published"

// Check returns why a site must not be written to dir, in plain words, or nil. A folder may be used that does not
// exist, is empty, or was made by Write. Refused are files and symbolic links, the root of a disk, the home folder and
// what holds it, folders with other things in them, and the journal: its folder, whatever holds it, and whatever lies in
// it, except the folder "published". An empty journal leaves out what concerns it.
func Check(dir, journal string) error {
	if dir == "" {
		return errors.New("no folder for the site is given")
	}
	place, err := filepath.Abs(dir)
	if err != nil {
		return fmt.Errorf("the folder %s: %w", dir, err)
	}
	if err := checkKind(place); err != nil {
		return err
	}
	if err := checkPlace(place); err != nil {
		return err
	}
	if journal != "" {
		if err := checkJournal(place, journal); err != nil {
			return err
		}
	}
	return checkContent(place)
}

// Sum is a checksum of a site: of the names and contents of all its files.
type Sum [sha256.Size]byte

// Listed returns the checksum of the site that the last Write left in dir, as its list has it.
func Listed(dir string) Sum {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return Sum{}
	}
	defer root.Close()
	l, err := readList(root)
	if err != nil {
		return Sum{}
	}
	return sha256.Sum256(l.encode())
}

// Intact reports whether dir holds a site, every file as it was written.
func Intact(dir string, site Sum) bool {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return false
	}
	defer root.Close()
	for _, left := range []string{stageName, listDraft} {
		if _, err := root.Lstat(left); !errors.Is(err, fs.ErrNotExist) {
			return false // a Write was cut off
		}
	}
	l, err := readList(root)
	if err != nil || sha256.Sum256(l.encode()) != site {
		return false
	}
	for name, sums := range l {
		info, err := root.Lstat(name)
		if err != nil || !info.Mode().IsRegular() {
			return false
		}
		content, err := root.ReadFile(name)
		if err != nil || sha256.Sum256(content) != sums[0] {
			return false
		}
	}
	return true
}

// checkKind refuses what is no folder.
func checkKind(place string) error {
	info, err := os.Lstat(place)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return fmt.Errorf("the folder %s cannot be looked at: %w", place, err)
	case info.Mode()&fs.ModeSymlink != 0:
		return fmt.Errorf("%s is a symbolic link; name the folder itself that the site shall go to", place)
	case !info.IsDir():
		return fmt.Errorf("%s is a file, not a folder; choose a new name or remove it", place)
	}
	return nil
}

// checkPlace refuses the root of a disk and the home folder.
func checkPlace(place string) error {
	if filepath.Dir(place) == place {
		return fmt.Errorf("%s is the root of a disk; choose a folder of its own for the site", place)
	}
	home, err := os.UserHomeDir()
	if err != nil || home == "" {
		return nil
	}
	switch {
	case same(place, home):
		return fmt.Errorf("%s is your home folder; choose a folder of its own for the site", place)
	case inside(home, place):
		return fmt.Errorf("%s holds your home folder; choose a folder of its own for the site", place)
	}
	return nil
}

// checkJournal refuses the journal and what would mix with it.
func checkJournal(place, journal string) error {
	journal, err := filepath.Abs(journal)
	if err != nil {
		return fmt.Errorf("the journal %s: %w", journal, err)
	}
	allowed := filepath.Join(journal, published)
	switch {
	case same(place, journal):
		return fmt.Errorf("%s is the journal itself; the site would mix with your notes. Choose %s or a folder elsewhere", place, allowed)
	case inside(journal, place):
		return fmt.Errorf("%s holds the journal; choose %s or a folder elsewhere", place, allowed)
	case inside(place, journal) && (isLink(allowed) || !same(place, allowed) && !inside(place, allowed)):
		return fmt.Errorf("%s lies in the journal, where only %q may hold the site; choose %s or a folder elsewhere", place, published, allowed)
	}
	return nil
}

// checkContent refuses a folder that holds things of others.
func checkContent(place string) error {
	root, err := os.OpenRoot(place)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return fmt.Errorf("the folder %s cannot be opened: %w", place, err)
	}
	defer root.Close()
	if _, err := ours(root); err != nil {
		return fmt.Errorf("the folder %s: %w", place, err)
	}
	return nil
}

// ours returns the list of a folder that Write made, an empty one for an empty folder, and otherwise an error.
func ours(root *os.Root) (list, error) {
	l, err := readList(root)
	if l != nil || err != nil {
		return l, err
	}
	entries, err := fs.ReadDir(root.FS(), ".")
	if err != nil {
		return nil, err
	}
	for _, entry := range entries {
		// A first run that was cut off leaves only such names.
		if entry.Name() != listDraft && entry.Name() != stageName {
			return nil, fmt.Errorf("it is not empty and was not made by pleopod (it holds %q); choose a new or an empty folder", entry.Name())
		}
	}
	return list{}, nil
}

func isLink(path string) bool {
	info, err := os.Lstat(path)
	return err == nil && info.Mode()&fs.ModeSymlink != 0
}

// same reports whether two paths lead to the same folder. Paths to nothing are the same where they are written alike
// below the same existing folder.
func same(a, b string) bool {
	aBase, aRest := existing(a)
	bBase, bRest := existing(b)
	return aRest == bRest && os.SameFile(aBase, bBase)
}

// inside reports whether path lies below parent, which exists or not.
func inside(path, parent string) bool {
	for up := filepath.Dir(resolve(path)); ; up = filepath.Dir(up) {
		if same(up, parent) {
			return true
		}
		if up == filepath.Dir(up) {
			return false
		}
	}
}

// resolve follows the symbolic links in the part of a path that exists.
func resolve(path string) string {
	rest := ""
	for up := path; ; up = filepath.Dir(up) {
		if real, err := filepath.EvalSymlinks(up); err == nil {
			return filepath.Join(real, rest)
		}
		if up == filepath.Dir(up) {
			return path
		}
		rest = filepath.Join(filepath.Base(up), rest)
	}
}

// existing returns the lowest folder of a path that exists, and the rest of the path.
func existing(path string) (base fs.FileInfo, rest string) {
	for up := path; ; up = filepath.Dir(up) {
		if info, err := os.Stat(up); err == nil {
			return info, strings.TrimPrefix(path[len(up):], string(filepath.Separator))
		}
		if up == filepath.Dir(up) {
			return nil, path
		}
	}
}
