// Package saves tells when the files of a journal's folder have changed.
//
// Notifications of the operating system say where to look, not what happened: editors save in many ways. When the folder
// has been quiet for a moment, the files that were named are compared with what they were. New folders raise one event
// for everything inside them, and queues overflow: then the whole folder is walked, as it is every few seconds, which
// covers network folders, lost watches and a folder that was deleted and made again. It reads names, sizes and times,
// never contents.
package saves

import (
	"context"
	"errors"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/fsnotify/fsnotify"
)

// Options says how to watch. The zero value is the usual choice.
type Options struct {
	Poll   bool          // do without the system's notifications, for network folders
	Quiet  time.Duration // how long the folder must be quiet before a change is told; 80 ms when zero
	Most   time.Duration // how long a change may wait while the folder is busy; 1 s when zero
	Rescan time.Duration // how often to look without being woken; 2 s when zero, 0.5 s with Poll
	// Skip reports whether a slash path below the folder is none of the journal's business. Dot-files and what
	// editors leave beside a file are skipped anyway.
	Skip func(path string) bool
}

// Watch sends the sorted slash paths that appeared, changed or went, until ctx ends; then it closes the channel. What
// stood in the folder when Watch was called is not a change. Changes that happen while the receiver is busy are
// gathered into its next one.
func Watch(ctx context.Context, dir string, options Options) <-chan []string {
	w := &watcher{dir: dir, options: options.withDefaults(), changes: make(chan []string)}
	if !options.Poll {
		// Without notifications (too many watches, say) the rescan still finds every change, only later.
		w.notify, _ = fsnotify.NewWatcher()
	}
	w.known = w.walk()
	go w.run(ctx)
	return w.changes
}

func (o Options) withDefaults() Options {
	if o.Quiet == 0 {
		o.Quiet = 80 * time.Millisecond
	}
	if o.Most == 0 {
		o.Most = time.Second
	}
	if o.Rescan == 0 {
		o.Rescan = 2 * time.Second
		if o.Poll {
			o.Rescan = 500 * time.Millisecond
		}
	}
	if o.Skip == nil {
		o.Skip = func(string) bool { return false }
	}
	return o
}

// stamp is what tells one state of a file from another.
type stamp struct {
	size  int64
	mtime time.Time
	mode  fs.FileMode
	young bool // on a disk that counts whole seconds, or every other, and looked at so soon that it may change unseen
}

func stampOf(info fs.FileInfo) stamp {
	mtime := info.ModTime()
	young := mtime.Nanosecond() == 0 && time.Since(mtime).Abs() < 2*time.Second
	return stamp{info.Size(), mtime, info.Mode(), young}
}

type watcher struct {
	dir     string
	options Options
	notify  *fsnotify.Watcher // nil when polling
	folders map[string]fs.FileInfo
	known   map[string]stamp
	changes chan []string
}

func (w *watcher) run(ctx context.Context) {
	defer close(w.changes)
	if w.notify != nil {
		defer w.notify.Close()
	}
	for {
		named, more := w.wait(ctx)
		if !more {
			return
		}
		changed, now := w.difference(named)
		if len(changed) == 0 {
			w.known = now
			continue
		}
		select {
		case w.changes <- changed:
			w.known = now
		case <-ctx.Done():
			return
		}
	}
}

// wait returns when it is time to look: after notifications and a quiet moment, with the names in them, or when the
// rescan is due, with none. It returns false when ctx has ended.
func (w *watcher) wait(ctx context.Context) (named map[string]bool, more bool) {
	var events chan fsnotify.Event
	var failures chan error
	if w.notify != nil {
		events, failures = w.notify.Events, w.notify.Errors
	}
	rescan := time.NewTimer(w.options.Rescan)
	defer rescan.Stop()
	var quiet, most <-chan time.Time // nil until something was heard
	named = map[string]bool{}
	for {
		select {
		case <-ctx.Done():
			return nil, false
		case event := <-events:
			if event.Op == fsnotify.Chmod {
				continue
			}
			named[event.Name] = true
		case <-failures: // an overflow, or a lost watch: everything is to be looked at
			named[w.dir] = true
		case <-quiet:
			return named, true
		case <-most:
			return named, true
		case <-rescan.C:
			if quiet == nil {
				return nil, true
			}
			continue
		}
		quiet = time.After(w.options.Quiet)
		if most == nil {
			most = time.After(w.options.Most)
		}
	}
}

// difference looks at the files that were named, or everywhere, and returns what differs from the last look, with the new
// look. A file that has just
// become empty is given one more quiet moment: many editors truncate before they write. So is one that was written a
// moment ago, which only happens when no notification came: written again at once, it could keep its size and time.
func (w *watcher) difference(named map[string]bool) ([]string, map[string]stamp) {
	now := w.look(named)
	changed := differing(w.known, now)
	unsettled := slices.ContainsFunc(changed, func(name string) bool {
		after, stands := now[name]
		age := time.Since(after.mtime)
		return stands && (after.size == 0 || age >= 0 && age < w.options.Quiet/2)
	})
	if unsettled {
		time.Sleep(w.options.Quiet)
		now = w.look(named)
		changed = differing(w.known, now)
	}
	return changed, now
}

func differing(before, after map[string]stamp) []string {
	changed := map[string]bool{}
	for name, stamp := range after {
		if old, stood := before[name]; !stood || old != stamp {
			changed[name] = true
		}
	}
	for name := range before {
		if _, stands := after[name]; !stands {
			changed[name] = true
		}
	}
	return slices.Sorted(maps.Keys(changed))
}

// look returns the last look with what the named files are now. It walks where none are named, and where a name is that of
// a folder.
func (w *watcher) look(named map[string]bool) map[string]stamp {
	if len(named) == 0 {
		return w.walk()
	}
	now := maps.Clone(w.known)
	for name := range named {
		relative, err := w.relative(name)
		info, statErr := os.Lstat(name)
		switch {
		case err != nil || w.folders[name] != nil || statErr == nil && info.IsDir():
			return w.walk()
		case w.passedOver(relative):
		case errors.Is(statErr, fs.ErrNotExist):
			delete(now, relative)
		case statErr != nil:
			return w.walk()
		default:
			now[relative] = stampOf(info)
		}
	}
	return now
}

// relative returns the slash path of a file in the folder.
func (w *watcher) relative(name string) (string, error) {
	relative, err := filepath.Rel(w.dir, name)
	return filepath.ToSlash(relative), err
}

// passedOver reports whether a slash path is none of the journal's business.
func (w *watcher) passedOver(relative string) bool {
	return relative != "." && (passing(path.Base(relative)) || w.options.Skip(relative))
}

// walk returns every file of the folder that matters, and makes sure that every folder is watched. It walks again while
// it found folders that were not watched before, since files may have come into them unseen.
func (w *watcher) walk() map[string]stamp {
	for {
		found := map[string]stamp{}
		folders := map[string]fs.FileInfo{}
		_ = filepath.WalkDir(w.dir, func(name string, d fs.DirEntry, err error) error {
			if err != nil { // unreadable or just gone: the next look will tell
				return nil
			}
			relative, err := w.relative(name)
			if err != nil {
				return err
			}
			if w.passedOver(relative) {
				if d.IsDir() {
					return fs.SkipDir
				}
				return nil
			}
			info, err := d.Info()
			if err != nil {
				return nil
			}
			if d.IsDir() {
				folders[name] = info
				return nil
			}
			found[relative] = stampOf(info)
			return nil
		})
		if !w.watchFolders(folders) {
			return found
		}
	}
}

// watchFolders asks for notifications of every folder, and reports whether one of them was new. Watches of folders that
// went are given back first: a renamed folder keeps its watch under the old name, where it would be taken for watched.
func (w *watcher) watchFolders(folders map[string]fs.FileInfo) bool {
	if w.notify == nil {
		return false
	}
	before := w.folders
	w.folders = folders
	watched := map[string]bool{}
	for _, name := range w.notify.WatchList() {
		if same(before[name], folders[name]) {
			watched[name] = true
			continue
		}
		_ = w.notify.Remove(name)
	}
	fresh := false
	for _, name := range slices.Sorted(maps.Keys(folders)) {
		if !watched[name] {
			_ = w.notify.Add(name) // without it the rescan still finds what changes
		}
		fresh = fresh || !same(before[name], folders[name])
	}
	return fresh
}

func same(a, b fs.FileInfo) bool { return a != nil && b != nil && os.SameFile(a, b) }

// passing reports whether a name is one that editors and systems leave beside the keeper's files.
func passing(name string) bool {
	return strings.HasPrefix(name, ".") || strings.HasSuffix(name, "~") || strings.HasPrefix(name, "#") && strings.HasSuffix(name, "#") ||
		strings.HasSuffix(name, ".swp") || strings.HasSuffix(name, ".swx") || strings.HasSuffix(name, ".tmp") || name == "4913"
}
