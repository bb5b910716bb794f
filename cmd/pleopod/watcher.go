package main

import (
	"context"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"time"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
	"pleopod/theme"
	"pleopod/theme/folder"
	"pleopod/theme/preview"
)

// watcher makes the site of a watched journal again and again. Its parts keep what did not change since the last time.
type watcher struct {
	*watchCommand
	env       *environment
	out       string
	reader    journal.Reader
	predictor *forecast.Predictor
	look      lookCache
	press     theme.Press
	writer    folder.Writer
	server    *preview.Server

	today            journal.Day     // by the clock, when the site was made last
	loaded           loadedJournal   // the last one without a mistake
	complete         bool            // its numbers of shrimp are simulated from its own record, not from an earlier one
	simulated        <-chan struct{} // closed when the simulation under way has ended; nil when none is
	cancelSimulation context.CancelFunc
	site             map[string][]byte // drawn last
	pageCount        int               // of the site
	printed          []journal.Problem // the last ones
	lastError        string            // the last error that was printed, until all went well
	unread           []string          // files that changed and have not been read since
	unsaved          bool              // the site that is shown could not be written
	retry            <-chan time.Time  // when to try again what nobody's save may mend; nil where nothing is to be tried
}

func newWatcher(c *watchCommand, env *environment, out string, server *preview.Server) *watcher {
	predictor := env.predictor()
	predictor.Repeats = true
	return &watcher{watchCommand: c, env: env, out: out, server: server, predictor: predictor, cancelSimulation: func() {}}
}

// retryAfter is how long after a failure for which no save is to be expected, such as a folder that is away or a full disk, it
// is tried again.
const retryAfter = 5 * time.Second

// publish makes the site again and shows it, or shows what is wrong and keeps the last good one. Only the files named
// are taken as changed; the first time all are.
func (w *watcher) publish(ctx context.Context, changed []string) {
	clock := newStopwatch(w.env)
	w.today = journal.DayAt(w.env.now())
	w.unread = append(w.unread, changed...)
	found, err := w.tryPublish(ctx, clock)
	if err != nil {
		if ctx.Err() != nil {
			return
		}
		w.printError(err)
		found = append(found, preview.Mistake{Where: "the site", Message: err.Error()})
	}
	if len(found) > 0 {
		w.server.Fault(found)
	}
	if err == nil && len(changed) > 0 {
		w.printSummary(found)
	}
	if err == nil && !w.unsaved {
		w.lastError = ""
	}
	if w.Timings {
		clock.print()
	}
}

// printSummary prints what came of a save.
func (w *watcher) printSummary(mistakes []preview.Mistake) {
	tally := tally(withoutNoAddress(w.printed))
	switch {
	case len(mistakes) == 0:
		fmt.Fprintf(w.env.stderr, "  %s, %s\n", tally, wording.Count(w.pageCount, "page", "pages"))
	case w.site == nil:
		fmt.Fprintf(w.env.stderr, "  %s; there is no page yet\n", tally)
	default:
		fmt.Fprintf(w.env.stderr, "  %s; the pages are those of before\n", tally)
	}
}

// tryAgain does what failed.
func (w *watcher) tryAgain(ctx context.Context) {
	if !w.unsaved {
		w.publish(ctx, nil)
		return
	}
	if w.write(); !w.unsaved {
		w.lastError = ""
		w.server.Note("")
	}
}

// printError prints an error, unless it was the last one too.
func (w *watcher) printError(err error) {
	if text := err.Error(); text != w.lastError {
		w.lastError = text
		fmt.Fprintf(w.env.stderr, "pleopod: %s\n", printable(text))
	}
}

// tryPublish reads, predicts and draws what has changed, and writes the site once its numbers are complete. It returns the
// mistakes of the journal, which leave the last site as it is.
func (w *watcher) tryPublish(ctx context.Context, clock *stopwatch) ([]preview.Mistake, error) {
	root, err := w.open()
	if err != nil {
		w.retry = time.After(retryAfter)
		return nil, err
	}
	defer root.Close()
	if !w.unsaved {
		w.retry = nil
	}
	files := root.FS()
	read := w.reader.ReadChanged(files, w.unread)
	read.Problems = w.nameFolder(read.Problems)
	w.unread = nil
	clock.lap("read")
	loaded, complete, err := w.load(ctx, read)
	if err != nil {
		return nil, err
	}
	clock.lap("predict")
	if !slices.Equal(loaded.problems, w.printed) {
		news := loaded.problems
		if w.printed != nil {
			news = withoutNoAddress(news)
		}
		w.printed = loaded.problems
		_ = w.env.printProblems(news, files) // that there are errors is looked at next
	}
	if journal.HasErrors(loaded.problems) {
		w.cancelSimulation()
		return mistakes(loaded.problems, func(at journal.Position) string { return sourceLine(files, at) }), nil
	}
	underWay := w.simulated != nil && loaded.forecast == w.loaded.forecast // about this very record
	w.loaded, w.complete = loaded, complete
	startSimulation := sync.OnceFunc(func() {
		if !complete && !underWay {
			w.simulate(ctx)
		}
	})
	if err := w.draw(files, clock, startSimulation); err != nil {
		return nil, err
	}
	startSimulation()
	if complete && ctx.Err() == nil {
		w.write()
		clock.lap("write")
	}
	return nil, nil
}

// draw shows the site, the pages of changed entries first, after which then is called.
func (w *watcher) draw(files fs.FS, clock *stopwatch, then func()) error {
	look, err := w.look.get(w.Look, w.loaded, files)
	if err != nil {
		return err
	}
	options := w.env.drawOptions(look)
	options.Early = func(pages map[string][]byte) {
		w.server.Patch(pages)
		w.noteOldNumbers()
		clock.lap("draw the first pages")
		then()
	}
	site, err := w.press.Draw(w.loaded.forecast, files, options)
	if err != nil {
		return err
	}
	w.site, w.pageCount = site.Files, len(site.Pages)
	w.server.Show(site.Files)
	w.noteOldNumbers()
	clock.lap("draw the others")
	return nil
}

// noteOldNumbers says so on open pages while the numbers of shrimp are not those of the record.
func (w *watcher) noteOldNumbers() {
	if !w.complete {
		w.server.Note("The numbers of shrimp are being worked out anew. Those on the pages are from before.")
	}
}

// simulate works out the numbers of shrimp in the background, in place of an earlier simulation.
func (w *watcher) simulate(ctx context.Context) {
	w.cancelSimulation()
	ctx, w.cancelSimulation = context.WithCancel(ctx)
	c := colony.Replay(w.loaded.journal, w.loaded.colony.AsOf) // one of its own: the other's texts may change meanwhile
	done := make(chan struct{})
	go func() {
		defer close(done)
		w.predictor.Make(ctx, c)
	}()
	w.simulated = done
}

// write puts the site into its folder. A folder that cannot be written, such as one on a read-only disk, does not keep
// anybody from looking at the site. A journal that is away is not made again.
func (w *watcher) write() {
	_, err := os.Stat(w.Journal)
	if err == nil {
		_, err = w.writer.Write(w.out, folder.Files(w.site))
	}
	w.unsaved, w.retry = err != nil, nil
	if w.unsaved {
		w.printError(err)
		w.server.Note("This page is up to date, but was not saved: " + err.Error())
		w.retry = time.After(retryAfter)
	}
}

// load replays and predicts as far as that needs no simulation, and reports whether the forecast is complete. When nothing
// but texts has changed, the last forecast still holds.
func (w *watcher) load(ctx context.Context, read *journal.Journal) (loaded loadedJournal, complete bool, err error) {
	day, err := w.day(&read.Settings, w.env)
	if err != nil {
		return loaded, false, err
	}
	last := w.loaded
	onlyTexts := (w.complete || w.simulated != nil) && !journal.HasErrors(read.Problems) && last.colony.AsOf == day && last.colony.Retell(read)
	if onlyTexts {
		loaded = withColony(read, last.colony)
	} else {
		loaded = withColony(read, colony.Replay(read, day))
	}
	if journal.HasErrors(loaded.problems) {
		return loaded, false, nil
	}
	f, complete := last.forecast, w.complete
	if !onlyTexts {
		f, complete = w.predict(ctx, loaded.colony)
	}
	if f == nil {
		return loaded, false, ctx.Err()
	}
	loaded.addForecast(f)
	return loaded, complete, nil
}

// predict makes a new forecast, with the last numbers of shrimp where a simulation would have to be waited for. It returns
// nil when it was interrupted.
func (w *watcher) predict(ctx context.Context, c *colony.Colony) (f *forecast.Forecast, complete bool) {
	if w.loaded.forecast != nil {
		f, complete = w.predictor.MakeAtOnce(c)
		return withNotices(f), complete
	}
	// there are no numbers yet that could stand in
	progress := w.env.showProgress("Working out the numbers of shrimp")
	f = w.predictor.Make(ctx, c)
	progress.end()
	if f == nil {
		return nil, false
	}
	return withNotices(f), true
}

// mistakes turns errors into what an open page shows.
func mistakes(problems []journal.Problem, line func(journal.Position) string) []preview.Mistake {
	var all []preview.Mistake
	for _, problem := range problems {
		if problem.Severity == journal.Error {
			all = append(all, preview.Mistake{Where: filepath.ToSlash(problem.Position.String()), Message: problem.Message, Line: line(problem.Position), Hint: problem.Hint})
		}
	}
	return all
}
