package photo

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"path"
	"strings"
)

// longEdges are the sizes of the pictures, in pixels of their long edge, from small to large: a list, the column of
// text, the whole screen.
var longEdges = [...]int{480, 736, 1600}

// quality is that of the JPEG encoder, 1 to 100.
const quality = 78

// version is part of every cache key. It rises with each change of what Make gives for the same source.
const version = "2"

// Picture is a photo made ready for a site.
type Picture struct {
	Hash  string // the first 8 hex digits of the SHA-256 of the source
	Sizes []Size // from small to large, at least one
}

// Size is one rendering of a photo.
type Size struct {
	Width, Height int    // pixels
	Format        Format // of Data
	Data          []byte // the file
}

// Format is the kind of a picture file.
type Format string

// The formats that Make writes.
const (
	JPEG Format = "jpg"
	PNG  Format = "png"
)

// Name returns the file name of the i-th size for a photo whose file is called source: its base name in lower-case
// letters, digits and hyphens, the hash, and the long edge, as in "amber-with-eggs-1f0c88aa-736.jpg". Folders of
// source are left out. The same bytes always have the same name, so the file may be kept for ever by a browser.
func (p Picture) Name(source string, i int) string {
	size := p.Sizes[i]
	return fmt.Sprintf("%s-%s-%d.%s", slug(source), p.Hash, max(size.Width, size.Height), size.Format)
}

// slug returns the base name of a file in lower-case letters, digits and single hyphens, at most 40 of them, and
// "photo" where nothing is left.
func slug(source string) string {
	base := path.Base(strings.ReplaceAll(source, `\`, "/"))
	base = strings.TrimSuffix(base, path.Ext(base))
	var kept strings.Builder
	for _, r := range strings.ToLower(base) {
		switch {
		case kept.Len() >= 40:
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			kept.WriteRune(r)
		case kept.Len() > 0 && !strings.HasSuffix(kept.String(), "-"):
			kept.WriteByte('-')
		}
	}
	if name := strings.Trim(kept.String(), "-"); name != "" {
		return name
	}
	return "photo"
}

// Make reads a photo and returns its pictures. At most two photos are in work at once, and large ones alone; further
// calls wait. The error says in plain words what is wrong with the file; it does not name the file.
func Make(source []byte) (Picture, error) {
	k, err := sniff(source)
	if err != nil {
		return Picture{}, err
	}
	memory, err := k.weigh(source)
	if err != nil {
		return Picture{}, err
	}
	defer takeTurns(memory)()

	full, err := k.safely(source)
	if err != nil {
		return Picture{}, fmt.Errorf("the %s is broken or cut off: %w", k.name, err)
	}
	sizes, err := render(full, k.notes(source))
	if err != nil {
		return Picture{}, err
	}
	sum := sha256.Sum256(source)
	return Picture{Hash: hex.EncodeToString(sum[:4]), Sizes: sizes}, nil
}
