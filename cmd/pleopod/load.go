package main

import (
	"context"
	"io/fs"
	"slices"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
	"pleopod/journal/notice"
)

// loadedJournal is a journal that was read, replayed and, without errors, predicted.
type loadedJournal struct {
	journal  *journal.Journal
	colony   *colony.Colony
	forecast *forecast.Forecast // nil when there are errors
	problems []journal.Problem  // of all rooms, in order
}

// load reads, replays and predicts, with what is unusual.
func (f journalFlags) load(files fs.FS, env *environment) (loadedJournal, error) {
	predict := func(c *colony.Colony) *forecast.Forecast { return env.predictor().Make(context.Background(), c) }
	return f.loadWith(predict, files, env)
}

// loadWith is load with a forecast of the caller's choice.
func (f journalFlags) loadWith(predict func(*colony.Colony) *forecast.Forecast, files fs.FS, env *environment) (loadedJournal, error) {
	read := f.read(files)
	day, err := f.day(&read.Settings, env)
	if err != nil {
		return loadedJournal{journal: read, problems: read.Problems}, err
	}
	loaded := withColony(read, colony.Replay(read, day))
	if !journal.HasErrors(loaded.problems) {
		loaded.addForecast(withNotices(predict(loaded.colony)))
	}
	return loaded, nil
}

// read reads the journal.
func (f journalFlags) read(files fs.FS) *journal.Journal {
	read := journal.Read(files)
	read.Problems = f.nameFolder(read.Problems)
	return read
}

// withColony returns a journal with its colony, and no forecast yet.
func withColony(read *journal.Journal, c *colony.Colony) loadedJournal {
	loaded := loadedJournal{journal: read, colony: c, problems: slices.Concat(read.Problems, colony.Later(read, c.AsOf), c.Problems)}
	if journal.HasErrors(loaded.problems) {
		loaded.problems = append(loaded.problems, forecast.Problems(c)...)
	}
	journal.SortProblems(loaded.problems)
	return loaded
}

// withNotices adds to a forecast what is unusual by it.
func withNotices(f *forecast.Forecast) *forecast.Forecast {
	f.Notices, f.Ended = notice.Weigh(f)
	return f
}

// addForecast adds a forecast and its problems.
func (l *loadedJournal) addForecast(f *forecast.Forecast) {
	l.forecast = f
	l.problems = append(l.problems, f.Problems...)
	journal.SortProblems(l.problems)
}

// printProblems prints the problems and returns errMistakes when one of them is an error.
func (env *environment) printProblems(problems []journal.Problem, files fs.FS) error {
	for _, problem := range problems {
		env.printProblem(files, problem)
	}
	return mistakesIn(problems)
}

// mistakesIn returns errMistakes when one of the problems is an error.
func mistakesIn(problems []journal.Problem) error {
	if journal.HasErrors(problems) {
		return errMistakes
	}
	return nil
}

// withoutNoAddress leaves out the warning that the site has no address. It is worth saying where a site is checked or written, and
// once where it is watched, not at every command of a keeper who has none.
func withoutNoAddress(problems []journal.Problem) []journal.Problem {
	return slices.DeleteFunc(slices.Clone(problems), func(p journal.Problem) bool { return p.Code == "no-address" })
}
