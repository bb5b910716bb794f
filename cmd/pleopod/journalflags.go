package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"pleopod/journal"
)

// journalFlags name the journal that a command is about, and its day.
type journalFlags struct {
	Journal string  `arg:"" optional:"" default:"." help:"Folder with journal.yaml; the current one when left out."`
	AsOf    dayFlag `name:"as-of" placeholder:"DATE" help:"Calculate as if it were this day, such as 2026-03-14."`
}

// dayFlag is a day given on the command line, or none.
type dayFlag struct{ journal.Day }

// UnmarshalText reads the day; what it refuses is a misuse of the command.
func (d *dayFlag) UnmarshalText(text []byte) (err error) {
	d.Day, err = journal.ReadDay(string(text))
	return err
}

// shellQuoted is a path as it is typed in a command.
func shellQuoted(path string) string {
	if strings.ContainsAny(path, " &()';") {
		return `"` + path + `"`
	}
	return path
}

// open returns the journal's folder as a file system that cannot be left through links.
func (f journalFlags) open() (*os.Root, error) {
	if info, err := os.Stat(f.Journal); err == nil && !info.IsDir() {
		return nil, misuse{fmt.Errorf("%s is a file; name the folder of the journal, the one with %s", f.Journal, journal.SettingsFile)}
	}
	root, err := os.OpenRoot(f.Journal)
	if err != nil {
		return nil, misuse{fmt.Errorf("the folder %s cannot be opened: %w", f.Journal, unwrapPath(err))}
	}
	return root, nil
}

// unwrapPath takes the path out of an error whose message names it anyway.
func unwrapPath(err error) error {
	if path, ok := err.(*fs.PathError); ok {
		return path.Err
	}
	return err
}

// day returns the as-of day: the flag, else journal.yaml, else SOURCE_DATE_EPOCH, else today.
func (f journalFlags) day(settings *journal.Settings, env *environment) (journal.Day, error) {
	if f.AsOf.Day != 0 {
		return f.AsOf.Day, nil
	}
	if settings.AsOf != 0 {
		return settings.AsOf, nil
	}
	if epoch := env.getenv("SOURCE_DATE_EPOCH"); epoch != "" {
		seconds, err := strconv.ParseInt(epoch, 10, 64)
		day := time.Unix(seconds, 0).UTC()
		if err != nil || day.Year() < 1 || day.Year() > 9999 {
			return 0, misuse{fmt.Errorf("SOURCE_DATE_EPOCH is %q; it takes a number of seconds since 1970", epoch)}
		}
		return journal.DayAt(day), nil
	}
	return journal.DayAt(env.now()), nil
}

// published returns the folder of the site.
func (f journalFlags) published(out string) string {
	if out != "" {
		return out
	}
	return filepath.Join(f.Journal, journal.PublishedFolder)
}
