package photo

import (
	"bytes"
	"crypto/sha256"
	"encoding/gob"
	"encoding/hex"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"time"
)

// Cache keeps pictures between runs. The zero Cache keeps nothing. A folder that cannot be read or written costs
// time and nothing else: Cache has no errors of its own.
type Cache struct {
	Dir string // a folder of its own, made when it is missing; "" for none
}

// Make returns what the function Make gives for the source, from the cache where it can.
func (c Cache) Make(source []byte) (Picture, error) {
	if c.Dir == "" {
		return Make(source)
	}
	place := filepath.Join(c.Dir, key(source))
	if picture, ok := load(place); ok {
		return picture, nil
	}
	picture, err := Make(source)
	if err == nil {
		c.store(place, picture)
	}
	return picture, err
}

// key names the cache entry of a source. All that changes the pictures is part of it.
func key(source []byte) string {
	sum := sha256.New()
	fmt.Fprintf(sum, "%s %v %d %s %s %d\n", version, longEdges, quality, runtime.Version(), scaler(), len(source))
	sum.Write(source)
	return hex.EncodeToString(sum.Sum(nil)) + ".picture"
}

// scaler returns the version of the module that resizes.
func scaler() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return ""
	}
	for _, module := range info.Deps {
		if module.Path == "golang.org/x/image" {
			return module.Version
		}
	}
	return ""
}

// load reads an entry: a checksum and the picture behind it. A broken entry counts as missing. A used entry
// gets the time of its use, so that trim knows the old ones.
func load(place string) (Picture, bool) {
	file, err := os.ReadFile(place)
	if err != nil || len(file) < sha256.Size {
		return Picture{}, false
	}
	if sum := sha256.Sum256(file[sha256.Size:]); !bytes.Equal(sum[:], file[:sha256.Size]) {
		return Picture{}, false
	}
	var picture Picture
	if err := gob.NewDecoder(bytes.NewReader(file[sha256.Size:])).Decode(&picture); err != nil || len(picture.Sizes) == 0 {
		return Picture{}, false
	}
	now := time.Now()
	os.Chtimes(place, now, now)
	return picture, true
}

// store writes an entry beside its place and moves it there, so that no run sees half of it.
func (c Cache) store(place string, picture Picture) {
	var body bytes.Buffer
	if gob.NewEncoder(&body).Encode(picture) != nil || os.MkdirAll(c.Dir, 0o700) != nil {
		return
	}
	temporary, err := os.CreateTemp(c.Dir, "new-*.part")
	if err != nil {
		return
	}
	sum := sha256.Sum256(body.Bytes())
	_, err = temporary.Write(append(sum[:], body.Bytes()...))
	if temporary.Close() != nil || err != nil || os.Rename(temporary.Name(), place) != nil {
		os.Remove(temporary.Name())
	}
	c.trim(mostKept)
}

// mostKept is the bytes that the cache may take: the pictures of about 6,000 photos.
const mostKept = 2 << 30

// trim removes the entries that were not used for longest until the others take at most the given bytes, and what
// runs that were cut off a day or more ago have left.
func (c Cache) trim(most int64) {
	files, _ := os.ReadDir(c.Dir)
	var entries []fs.FileInfo
	for _, file := range files {
		info, err := file.Info()
		if err != nil || !info.Mode().IsRegular() {
			continue
		}
		switch {
		case strings.HasSuffix(info.Name(), ".picture"):
			entries = append(entries, info)
		case strings.HasSuffix(info.Name(), ".part") && time.Since(info.ModTime()) > 24*time.Hour:
			os.Remove(filepath.Join(c.Dir, info.Name()))
		}
	}
	slices.SortFunc(entries, func(a, b fs.FileInfo) int { return b.ModTime().Compare(a.ModTime()) })
	for _, info := range entries {
		most -= info.Size()
		if most < 0 {
			os.Remove(filepath.Join(c.Dir, info.Name()))
		}
	}
}
