package forecast

import (
	"context"
	"fmt"
	"regexp"
	"slices"
	"testing"
	"testing/fstest"
	"time"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/invented"
)

// tenYears is the invented journal of 5,000 entries, in memory.
type tenYears struct {
	testing.TB
	files  fstest.MapFS
	reader journal.Reader
}

func newTenYears(t testing.TB) *tenYears {
	plan := invented.Usual(5000)
	plan.Bytes = 300 // of text, which is not what is looked at
	y := &tenYears{TB: t, files: fstest.MapFS{}}
	for name, text := range plan.Files() {
		y.files[name] = &fstest.MapFile{Data: text}
	}
	return y
}

func (y *tenYears) replay() *colony.Colony {
	j := y.reader.Read(y.files)
	return colony.Replay(j, j.Settings.AsOf)
}

var events = regexp.MustCompile(`events:\n(  - counted: \d+\n    method: careful\n)?`)

// edit puts a count into the last entry with events that is at least so many days old.
func (y *tenYears) edit(daysAgo journal.Day, number int) {
	j := y.reader.Read(y.files)
	for _, e := range slices.Backward(j.Entries) {
		file := y.files[e.Path]
		if e.Date <= j.Settings.AsOf-daysAgo && events.Match(file.Data) {
			changed := fmt.Appendf(nil, "events:\n  - counted: %d\n    method: careful\n", number)
			y.files[e.Path] = &fstest.MapFile{Data: events.ReplaceAll(file.Data, changed)}
			return
		}
	}
	y.Fatal("no entry that is so old")
}

// BenchmarkEdit predicts ten years again after edits of a count of two months ago, and gives the milliseconds of each
// stage.
func BenchmarkEdit(b *testing.B) {
	y := newTenYears(b)
	p := &Predictor{Repeats: true}
	p.Make(context.Background(), y.replay())
	spent := map[string]time.Duration{}
	n := 0
	for b.Loop() {
		n++
		y.edit(60, 12+n%9)
		j := y.reader.Read(y.files)
		start := time.Now()
		lap := func(stage string) {
			spent[stage] += time.Since(start)
			start = time.Now()
		}
		c := colony.Replay(j, j.Settings.AsOf)
		lap("replay-ms")
		d := p.begin(c)
		lap("predict-ms")
		if days := p.work(d); days > atOnce {
			b.Fatalf("%d days must be simulated, more than %d", days, atOnce)
		}
		p.finish(context.Background(), d)
		lap("simulate-ms")
	}
	for stage, time := range spent {
		b.ReportMetric(float64(time.Microseconds())/1000/float64(n), stage)
	}
}
