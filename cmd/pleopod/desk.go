package main

import (
	"context"
	"fmt"
	"io/fs"
	"os"
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

// desk is where watch makes one site again and again: everything on it keeps what did not change since the last time.
type desk struct {
	*watchCommand
	w         *world
	out       string
	reader    journal.Reader
	predictor *forecast.Predictor
	looks     looks
	press     theme.Press
	writer    folder.Writer
	server    *preview.Server

	today    journal.Day     // by the clock, when the site was made last
	told     story           // the last one without a mistake
	complete bool            // its numbers of shrimp are its own
	numbers  <-chan struct{} // closed when the simulation under way has ended; nil when none is
	cancel   context.CancelFunc
	site     map[string][]byte // drawn last
	pages    int               // of the site
	shown    []journal.Problem // printed last
	said     string            // the last error that was printed, until all went well
	unread   []string          // files that changed and have not been read since
	unsaved  bool              // the site that is shown could not be written
	again    <-chan time.Time  // when to try again what nobody's save may mend; nil where nothing is to be tried
}

func newDesk(c *watchCommand, w *world, out string, server *preview.Server) *desk {
	predictor := w.predictor()
	predictor.Repeats = true
	return &desk{watchCommand: c, w: w, out: out, server: server, predictor: predictor, cancel: func() {}}
}

// retry is how long after a failure for which no save is to be expected, such as a folder that is away or a full disk, it
// is tried again.
const retry = 5 * time.Second

// publish makes the site again and shows it, or shows what is wrong and keeps the last good one. Only the files named
// are taken as changed; the first time all are.
func (d *desk) publish(ctx context.Context, changed []string) {
	clock := newStopwatch(d.w)
	d.today = journal.DayAt(d.w.now())
	d.unread = append(d.unread, changed...)
	found, err := d.tryPublish(ctx, clock)
	if err != nil {
		if ctx.Err() != nil {
			return
		}
		d.complain(err)
		found = append(found, preview.Mistake{Where: "the site", Message: err.Error()})
	}
	if len(found) > 0 {
		d.server.Fault(found)
	}
	if err == nil && len(changed) > 0 {
		d.sum(len(found) > 0)
	}
	if err == nil && !d.unsaved {
		d.said = ""
	}
	if d.Timings {
		clock.print()
	}
}

// sum prints what came of a save.
func (d *desk) sum(mistaken bool) {
	tally := tally(settled(d.shown))
	switch {
	case !mistaken:
		fmt.Fprintf(d.w.stderr, "  %s, %s\n", tally, wording.Count(d.pages, "page", "pages"))
	case d.site == nil:
		fmt.Fprintf(d.w.stderr, "  %s; there is no page yet\n", tally)
	default:
		fmt.Fprintf(d.w.stderr, "  %s; the pages are those of before\n", tally)
	}
}

// tryAgain does what failed.
func (d *desk) tryAgain(ctx context.Context) {
	if !d.unsaved {
		d.publish(ctx, nil)
		return
	}
	if d.write(); !d.unsaved {
		d.said = ""
		d.server.Note("")
	}
}

// complain prints an error, once.
func (d *desk) complain(err error) {
	if text := err.Error(); text != d.said {
		d.said = text
		fmt.Fprintf(d.w.stderr, "pleopod: %s\n", printable(text))
	}
}

func (d *desk) tryPublish(ctx context.Context, clock *stopwatch) ([]preview.Mistake, error) {
	root, err := d.open()
	if err != nil {
		d.again = time.After(retry)
		return nil, err
	}
	defer root.Close()
	if !d.unsaved {
		d.again = nil
	}
	files := root.FS()
	read := d.reader.ReadChanged(files, d.unread)
	read.Problems = d.named(read.Problems)
	d.unread = nil
	clock.lap("read")
	told, complete, err := d.tell(ctx, read)
	if err != nil {
		return nil, err
	}
	clock.lap("predict")
	if !slices.Equal(told.problems, d.shown) {
		news := told.problems
		if d.shown != nil {
			news = settled(news)
		}
		d.shown = told.problems
		_ = d.w.show(news, files) // that there are errors is looked at next
	}
	if journal.HasErrors(told.problems) {
		d.cancel()
		return mistakes(told.problems, func(at journal.Position) string { return sourceLine(files, at) }), nil
	}
	same := told.forecast == d.told.forecast
	d.told, d.complete = told, complete
	simulate := sync.OnceFunc(func() {
		if !complete {
			d.await(ctx, same)
		}
	})
	if err := d.draw(files, clock, simulate); err != nil {
		return nil, err
	}
	simulate()
	if complete && ctx.Err() == nil {
		d.write()
		clock.lap("write")
	}
	return nil, nil
}

// draw shows the site, the pages of changed entries first, after which then is called.
func (d *desk) draw(files fs.FS, clock *stopwatch, then func()) error {
	look, err := d.looks.of(d.Look, d.told, files)
	if err != nil {
		return err
	}
	options := d.w.drawing(look)
	options.Early = func(pages map[string][]byte) {
		d.server.Patch(pages)
		d.noteNumbers()
		clock.lap("draw the first pages")
		then()
	}
	site, err := d.press.Draw(d.told.forecast, files, options)
	if err != nil {
		return err
	}
	d.site, d.pages = site.Files, len(site.Pages)
	d.server.Show(site.Files)
	d.noteNumbers()
	clock.lap("draw the others")
	return nil
}

// noteNumbers says so on open pages while the numbers of shrimp are not those of the record.
func (d *desk) noteNumbers() {
	if !d.complete {
		d.server.Note("The numbers of shrimp are being worked out anew. Those on the pages are from before.")
	}
}

// await simulates in the background, unless the simulation under way is about the same record already.
func (d *desk) await(ctx context.Context, same bool) {
	if same && d.numbers != nil {
		return
	}
	d.cancel()
	ctx, d.cancel = context.WithCancel(ctx)
	c := colony.Replay(d.told.journal, d.told.colony.AsOf) // one of its own: the other's texts may change meanwhile
	done := make(chan struct{})
	go func() {
		defer close(done)
		d.predictor.Make(ctx, c)
	}()
	d.numbers = done
}

// write puts the site into its folder. A folder that cannot be written, such as one on a read-only disk, does not keep
// anybody from looking at the site. A journal that is away is not made again.
func (d *desk) write() {
	_, err := os.Stat(d.Journal)
	if err == nil {
		_, err = d.writer.Write(d.out, folder.Files(d.site))
	}
	d.unsaved, d.again = err != nil, nil
	if d.unsaved {
		d.complain(err)
		d.server.Note("This page is up to date, but was not saved: " + err.Error())
		d.again = time.After(retry)
	}
}

// tell replays and predicts as far as that needs no simulation, and reports whether the forecast is complete. When nothing
// but texts has changed, the last forecast still holds.
func (d *desk) tell(ctx context.Context, read *journal.Journal) (told story, complete bool, err error) {
	day, err := d.day(&read.Settings, d.w)
	if err != nil {
		return told, false, err
	}
	last := d.told
	holds := (d.complete || d.numbers != nil) && !journal.HasErrors(read.Problems) && last.colony.AsOf == day && last.colony.Retell(read)
	if holds {
		told = replayed(read, last.colony)
	} else {
		told = replayed(read, colony.Replay(read, day))
	}
	if journal.HasErrors(told.problems) {
		return told, false, nil
	}
	f, complete := d.predict(ctx, told.colony, holds)
	if f == nil {
		return told, false, ctx.Err()
	}
	told.foretold(f)
	return told, complete, nil
}

// predict returns the last forecast where it still holds, else a new one, with the last numbers of shrimp where a simulation
// would have to be waited for.
func (d *desk) predict(ctx context.Context, c *colony.Colony, holds bool) (f *forecast.Forecast, complete bool) {
	switch {
	case holds:
		return d.told.forecast, d.complete
	case d.told.forecast == nil: // there are no numbers yet that could stand in
		under := d.w.during("Working out the numbers of shrimp")
		f = d.predictor.Make(ctx, c)
		under.end()
		if f == nil {
			return nil, false
		}
		return weighed(f), true
	}
	f, complete = d.predictor.MakeAtOnce(c)
	return weighed(f), complete
}
