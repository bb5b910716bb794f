package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
	"pleopod/journal/notice"
)

// place is the journal that a command is about, and its day.
type place struct {
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

// asTyped is a path as it is typed in a command.
func asTyped(path string) string {
	if strings.ContainsAny(path, " &()';") {
		return `"` + path + `"`
	}
	return path
}

// open returns the journal's folder as a file system that cannot be left through links.
func (p place) open() (*os.Root, error) {
	if info, err := os.Stat(p.Journal); err == nil && !info.IsDir() {
		return nil, misuse{fmt.Errorf("%s is a file; name the folder of the journal, the one with %s", p.Journal, journal.SettingsFile)}
	}
	root, err := os.OpenRoot(p.Journal)
	if err != nil {
		return nil, misuse{fmt.Errorf("the folder %s cannot be opened: %w", p.Journal, unwrapPath(err))}
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
func (p place) day(settings *journal.Settings, w *world) (journal.Day, error) {
	if p.AsOf.Day != 0 {
		return p.AsOf.Day, nil
	}
	if settings.AsOf != 0 {
		return settings.AsOf, nil
	}
	if epoch := w.getenv("SOURCE_DATE_EPOCH"); epoch != "" {
		seconds, err := strconv.ParseInt(epoch, 10, 64)
		day := time.Unix(seconds, 0).UTC()
		if err != nil || day.Year() < 1 || day.Year() > 9999 {
			return 0, misuse{fmt.Errorf("SOURCE_DATE_EPOCH is %q; it takes a number of seconds since 1970", epoch)}
		}
		return journal.DayAt(day), nil
	}
	return journal.DayAt(w.now()), nil
}

// story is a journal that was read, replayed and, without errors, predicted.
type story struct {
	journal  *journal.Journal
	colony   *colony.Colony
	forecast *forecast.Forecast // nil when there are errors
	problems []journal.Problem  // of all rooms, in order
}

// tell reads, replays, predicts and weighs.
func (p place) tell(files fs.FS, w *world) (story, error) {
	return p.tellWith(w.predict, files, w)
}

// tellWith is tell with a forecast of the caller's choice.
func (p place) tellWith(predict func(*colony.Colony) *forecast.Forecast, files fs.FS, w *world) (story, error) {
	read := p.read(files)
	day, err := p.day(&read.Settings, w)
	if err != nil {
		return story{journal: read, problems: read.Problems}, err
	}
	s := replayed(read, colony.Replay(read, day))
	if !journal.HasErrors(s.problems) {
		s.foretold(weighed(predict(s.colony)))
	}
	return s, nil
}

// replayed begins the story of a journal.
func replayed(read *journal.Journal, c *colony.Colony) story {
	s := story{journal: read, colony: c, problems: slices.Concat(read.Problems, colony.Later(read, c.AsOf), c.Problems)}
	if journal.HasErrors(s.problems) {
		s.problems = append(s.problems, forecast.Problems(c)...)
	}
	journal.SortProblems(s.problems)
	return s
}

// weighed adds to a forecast what it makes unusual.
func weighed(f *forecast.Forecast) *forecast.Forecast {
	f.Notices, f.Ended = notice.Weigh(f)
	return f
}

// foretold goes on with a forecast.
func (s *story) foretold(f *forecast.Forecast) {
	s.forecast = f
	s.problems = append(s.problems, f.Problems...)
	journal.SortProblems(s.problems)
}

// show prints the problems and returns errMistakes when one of them is an error.
func (w *world) show(problems []journal.Problem, files fs.FS) error {
	for _, problem := range problems {
		w.printProblem(files, problem)
	}
	return mistakesIn(problems)
}

// settled leaves out the warning that the site has no address. It is worth saying where a site is checked or written, and
// once where it is watched, not at every command of a keeper who has none.
func settled(problems []journal.Problem) []journal.Problem {
	return slices.DeleteFunc(slices.Clone(problems), func(p journal.Problem) bool { return p.Code == "no-address" })
}

// mistakesIn returns errMistakes when one of the problems is an error.
func mistakesIn(problems []journal.Problem) error {
	if journal.HasErrors(problems) {
		return errMistakes
	}
	return nil
}

// published returns the folder of the site.
func (p place) published(out string) string {
	if out != "" {
		return out
	}
	return filepath.Join(p.Journal, journal.PublishedFolder)
}
