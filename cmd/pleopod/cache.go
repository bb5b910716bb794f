package main

import (
	"cmp"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"pleopod/journal/forecast"
	"pleopod/theme"
	"pleopod/theme/photo"
)

// cacheFolder is a folder in the user's cache, or "" for none. It holds nothing that could not be made again: a folder
// that cannot be read or written costs time and nothing else, and it may be deleted at any moment.
type cacheFolder string

// userCache returns the program's folder in the user's cache, or "" where the system names none.
func userCache() cacheFolder {
	dir, err := os.UserCacheDir()
	if err != nil {
		return ""
	}
	return cacheFolder(filepath.Join(dir, "pleopod"))
}

// sub returns a folder inside, or "" for none.
func (c cacheFolder) sub(name string) cacheFolder {
	if c == "" {
		return ""
	}
	return cacheFolder(filepath.Join(string(c), name))
}

// photos returns the cache of pictures.
func (c cacheFolder) photos() photo.Cache { return photo.Cache{Dir: string(c.sub("photos"))} }

// Get returns what was put under a name, or nil.
func (c cacheFolder) Get(name string) []byte {
	content, err := os.ReadFile(filepath.Join(string(c), name))
	if err != nil {
		return nil
	}
	return content
}

// Put keeps content under a name. It is written beside its place and moved there, so that no run sees half of it.
func (c cacheFolder) Put(name string, content []byte) {
	if os.MkdirAll(string(c), 0o700) != nil {
		return
	}
	draft, err := os.CreateTemp(string(c), "new-*.part")
	if err != nil {
		return
	}
	_, err = draft.Write(content)
	if draft.Close() != nil || err != nil || os.Rename(draft.Name(), filepath.Join(string(c), name)) != nil {
		os.Remove(draft.Name())
	}
	c.trim()
}

// mostKept is how many files a folder of the cache keeps: a few days of a few journals.
const mostKept = 100

// trim removes the oldest files above mostKept.
func (c cacheFolder) trim() {
	entries, err := os.ReadDir(string(c))
	if err != nil || len(entries) <= mostKept {
		return
	}
	var files []fs.FileInfo
	for _, entry := range entries {
		if info, err := entry.Info(); err == nil && info.Mode().IsRegular() {
			files = append(files, info)
		}
	}
	slices.SortFunc(files, func(a, b fs.FileInfo) int {
		return cmp.Or(b.ModTime().Compare(a.ModTime()), cmp.Compare(a.Name(), b.Name()))
	})
	for _, old := range files[min(mostKept, len(files)):] {
		os.Remove(filepath.Join(string(c), old.Name()))
	}
}

// predictor returns a predictor that keeps simulated numbers in the user's cache.
func (env *environment) predictor() *forecast.Predictor {
	shelf, version := env.shelf("numbers")
	return &forecast.Predictor{Shelf: shelf, Version: version}
}

// shelf returns a folder of the user's cache and the mark of this program, or nil where there are none.
func (env *environment) shelf(name string) (shelf forecast.Shelf, version string) {
	version = programSum()
	if env.cache == "" || version == "" {
		return nil, ""
	}
	return env.cache.sub(name), version
}

// drawOptions says how sites are drawn here.
func (env *environment) drawOptions(look *theme.Look) theme.Options {
	shelf, version := env.shelf("previews")
	return theme.Options{Look: look, Photos: env.cache.photos(), Shelf: shelf, Version: version}
}
