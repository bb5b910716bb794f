package journal

import (
	"net/url"
	"path"
	"regexp"
	"slices"
	"strings"
	"unicode"
)

// deviceName is a name that some systems take for a device whatever its ending.
var deviceName = regexp.MustCompile(`(?i)^(con|prn|aux|nul|com[0-9]|lpt[0-9])(\..*)?$`)

// insideJournal returns the path, relative to the journal folder, that written means in a file of folder, or says why
// it leaves the journal.
func insideJournal(folder, written string) (string, issue) {
	outside := issue{code: "path-outside", message: "it leads out of the journal; only files inside can be used"}
	written = strings.TrimSpace(written)
	switch {
	case written == "":
		return "", issue{code: "no-value", message: "it names no file"}
	case len(written) > maxPathBytes:
		return "", issue{code: "too-long", message: "the path is too long"}
	case strings.ContainsRune(written, '\\'):
		return "", issue{code: "path-outside", message: "paths are written with forward slashes", hint: "write " + strings.ReplaceAll(written, `\`, "/")}
	case strings.HasPrefix(written, "/"), strings.HasPrefix(written, "~"), strings.ContainsRune(written, ':'):
		return "", outside
	case strings.IndexFunc(written, unicode.IsControl) >= 0:
		return "", issue{code: "path-outside", message: "the path holds a control character"}
	}
	clean := path.Join(folder, written)
	if clean == "." || clean == ".." || strings.HasPrefix(clean, "../") {
		return "", outside
	}
	if slices.ContainsFunc(strings.Split(clean, "/"), deviceName.MatchString) {
		return "", issue{code: "path-outside", message: "the path holds a name that some systems keep for devices"}
	}
	return clean, issue{}
}

// scheme is the beginning of an absolute address, such as https:.
var scheme = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9+.-]*:`)

// imagePath returns the path inside the journal that a Markdown picture names, or the address of a remote one.
func imagePath(entry, destination string) (inside, remote string, problem issue) {
	if scheme.MatchString(destination) || strings.HasPrefix(destination, "//") {
		return "", destination, issue{}
	}
	if plain, err := url.PathUnescape(destination); err == nil {
		destination = plain
	}
	inside, problem = insideJournal(path.Dir(entry), destination)
	return inside, "", problem
}
