package folder

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strings"
)

// Names that Write uses in the site's folder.
const (
	listName  = ".pleopod-site"      // which files are ours
	listDraft = ".pleopod-site.part" // the next list, before it takes its place
	stageName = ".pleopod-stage"     // folder of files on their way
)

// listTitle is the first line of the list.
const listTitle = "pleopod site 1"

// list holds, for each of our files, the checksums that it may have: one, or two while a run is under way.
type list map[string][]checksum

// checksum is the SHA-256 of a file.
type checksum [sha256.Size]byte

// add notes a checksum for a name.
func (l list) add(name string, sum checksum) {
	if !slices.Contains(l[name], sum) {
		l[name] = append(l[name], sum)
	}
}

// and returns a list with the checksums of both.
func (l list) and(other list) list {
	both := list{}
	for _, one := range []list{l, other} {
		for name, sums := range one {
			for _, sum := range sums {
				both.add(name, sum)
			}
		}
	}
	return both
}

// encode writes the list: the title, then a line for each checksum with its file, sorted.
func (l list) encode() []byte {
	var lines []string
	for name, sums := range l {
		for _, sum := range sums {
			lines = append(lines, hex.EncodeToString(sum[:])+" "+name)
		}
	}
	slices.SortFunc(lines, func(a, b string) int {
		// By name, then by checksum.
		if order := strings.Compare(a[2*sha256.Size:], b[2*sha256.Size:]); order != 0 {
			return order
		}
		return strings.Compare(a, b)
	})
	return []byte(listTitle + "\n" + strings.Join(lines, "\n") + "\n")
}

// decodeList reads what encode wrote.
func decodeList(text []byte) (list, error) {
	lines := bufio.NewScanner(bytes.NewReader(text))
	if !lines.Scan() || lines.Text() != listTitle {
		return nil, fmt.Errorf("%s is not a list that this version of pleopod wrote", listName)
	}
	l := list{}
	for lines.Scan() {
		if lines.Text() == "" {
			continue
		}
		digits, name, _ := strings.Cut(lines.Text(), " ")
		var sum checksum
		raw, err := hex.DecodeString(digits)
		if err != nil || len(raw) != len(sum) || checkName(name) != nil {
			return nil, fmt.Errorf("%s has a line that cannot be read: %q", listName, lines.Text())
		}
		copy(sum[:], raw)
		l.add(name, sum)
	}
	return l, lines.Err()
}

// readList returns the list in a folder; nil where there is none.
func readList(root *os.Root) (list, error) {
	text, err := root.ReadFile(listName)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	return decodeList(text)
}

// writeList replaces the list. It reaches the disk before anything that follows, because a folder without a list
// counts as somebody else's.
func writeList(root *os.Root, l list) error {
	file, err := root.OpenFile(listDraft, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o644)
	if err != nil {
		return err
	}
	_, err = file.Write(l.encode())
	if err == nil {
		err = file.Sync()
	}
	if closing := file.Close(); err == nil {
		err = closing
	}
	if err != nil {
		root.Remove(listDraft)
		return err
	}
	return rename(root, listDraft, listName)
}

// checkName returns why a name cannot be that of a file in a site.
func checkName(name string) error {
	switch {
	case !fs.ValidPath(name) || name == ".":
		return fmt.Errorf("%q is not a path inside a site", name)
	case strings.ContainsAny(name, "\n\r\\:"):
		return fmt.Errorf("%q holds a character that no file of a site may have", name)
	case strings.HasPrefix(name, ".pleopod-"):
		return fmt.Errorf("%q is a name that pleopod keeps for itself", name)
	}
	return nil
}
