package forecast

import (
	"context"
	"sync"

	"pleopod/journal/colony"
	"pleopod/journal/digest"
	model "pleopod/journal/population"
)

// Shelf keeps bytes by name between runs of the program, such as a folder in the user's cache. It may lose or spoil what
// it was given: what comes back is checked.
type Shelf interface {
	// Get returns what was put under a name, or nil.
	Get(name string) []byte
	// Put keeps content under a name.
	Put(name string, content []byte)
}

// Predictor predicts a journal again and again. It keeps what it predicted of broods, cohorts and numbers of shrimp for as
// long as nothing that they rest on has changed, and simulates only the days from the first change on. Its forecasts are those of Make, bit for
// bit. The zero Predictor is ready. MakeAtOnce may be called while Make is under way.
type Predictor struct {
	// Shelf keeps simulated numbers between runs; nil keeps none.
	Shelf Shelf
	// Version names the program that simulates: numbers that another version put on the shelf are not used.
	Version string
	// Repeats says that Make is called again and again: then the last forecast is kept in memory, and earlier states of the
	// simulation, some ten megabytes for each tank.
	Repeats bool

	mu    sync.Mutex
	known map[digest.Sum][]model.Outlook // of the last forecast, by what they rest on
	marks map[string][]mark              // by the first tank of a part
	last  map[string]Population          // by tank
	told  *memory                        // of the last forecast
}

// Make predicts everything, as the function Make does. When ctx ends before it has done so, it returns nil.
func (p *Predictor) Make(ctx context.Context, c *colony.Colony) *Forecast {
	d := p.begin(c)
	if !p.finish(ctx, d) {
		return nil
	}
	return d.forecast
}

// atOnce is how many days of one tank's life MakeAtOnce simulates at most, the year ahead of every tank among them: about
// a tenth of a second on two cores. A change of the last year in one tank is within it, a new day in several is not.
const atOnce = 750

// MakeAtOnce predicts without simulating for long. Where the numbers of shrimp are known from earlier, or rest on earlier
// ones and a change of late, the forecast is complete; else it has those of the last forecast, which may be a little off,
// and MakeAtOnce returns false.
func (p *Predictor) MakeAtOnce(c *colony.Colony) (f *Forecast, complete bool) {
	d := p.begin(c)
	if p.work(d) <= atOnce {
		return d.forecast, p.finish(context.Background(), d)
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	for i := range d.forecast.Tanks {
		tank := &d.forecast.Tanks[i]
		tank.Population = p.last[tank.ID]
		d.translator.conclude(tank)
	}
	return d.forecast, false
}

// unfinished is a forecast that lacks numbers of shrimp.
type unfinished struct {
	forecast   *Forecast
	translator *translator
	parts      []part
	results    [][]model.Outlook // of the parts; nil where they are not known yet
}

// begin predicts what needs no simulation.
func (p *Predictor) begin(c *colony.Colony) *unfinished {
	d := &unfinished{forecast: p.predict(c)}
	d.translator, d.parts = d.forecast.parts(p.Version)
	d.results = make([][]model.Outlook, len(d.parts))
	for i := range d.parts {
		d.results[i] = p.recall(&d.parts[i])
	}
	return d
}

// finish simulates what is missing, and reports false when ctx ended before.
func (p *Predictor) finish(ctx context.Context, d *unfinished) bool {
	p.simulate(ctx, d.parts, d.results)
	if ctx.Err() != nil {
		return false
	}
	p.keep(d.parts, d.results)
	d.forecast.fill(d.translator, d.parts, d.results)
	if p.Repeats {
		p.remember(d.forecast)
	}
	return true
}

// predict predicts all but the numbers of shrimp.
func (p *Predictor) predict(c *colony.Colony) *Forecast {
	p.mu.Lock()
	before := p.told
	p.mu.Unlock()
	f, told := predict(c, before)
	if p.Repeats {
		p.mu.Lock()
		p.told = told
		p.mu.Unlock()
	}
	return f
}

// remember keeps the numbers of a forecast for the next that must do without its own.
func (p *Predictor) remember(f *Forecast) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.last = map[string]Population{}
	for i := range f.Tanks {
		p.last[f.Tanks[i].ID] = f.Tanks[i].Population
	}
}

// recall returns the numbers of a part from memory or from the shelf, or nil.
func (p *Predictor) recall(one *part) []model.Outlook {
	p.mu.Lock()
	found := p.known[one.key]
	p.mu.Unlock()
	if found != nil {
		return found
	}
	if p.Shelf == nil {
		return nil
	}
	return decodeOutlooks(p.Shelf.Get(shelfName(one.key)), len(one.records))
}

// keep remembers the numbers of the newest forecast, and of no other.
func (p *Predictor) keep(parts []part, results [][]model.Outlook) {
	known := map[digest.Sum][]model.Outlook{}
	for i := range parts {
		known[parts[i].key] = results[i]
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.known = known
}

func shelfName(key digest.Sum) string { return "numbers-" + key.String() }
