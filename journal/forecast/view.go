package forecast

import (
	"sync"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/evidence"
	"pleopod/journal/lifecycle"
	"pleopod/journal/parallel"
	"pleopod/journal/water"
)

// view is a record as it was known at the end of a day. Every prediction is made through a view, and nothing else decides
// what is too late to be known: that is why a hindcast cannot peek.
type view struct {
	*record
	asOf    journal.Day
	scratch *scratch
	// The last days whose readings, lessons, and looks at a brood are known: asOf, unless a view asks what one of them changed.
	water, taught, told journal.Day
}

// scratch is working memory that one prediction after another uses.
type scratch struct {
	progress lifecycle.Progress
	spans    []*water.Span
}

// each calls do for 0 to n-1 on all cores, each time with a scratch that nobody else uses at the time.
func each(n int, do func(i int, d *scratch)) {
	pads := sync.Pool{New: func() any { return new(scratch) }}
	parallel.Each(n, func(i int) {
		d := pads.Get().(*scratch)
		do(i, d)
		pads.Put(d)
	})
}

func (r *record) view(asOf journal.Day, d *scratch) view {
	return view{record: r, asOf: asOf, scratch: d, water: asOf, taught: asOf, told: asOf}
}

// facts is what was known of a brood that was still carried.
type facts struct {
	berried, lastClear, eyed journal.Day
	stays                    []colony.Stay
}

// tank returns the id of the tank where the brood was last known to be.
func (f facts) tank() string { return f.stays[len(f.stays)-1].Tank }

// facts returns what the view knows of a brood, leaving aside its end.
func (v view) facts(c *knownBrood) facts {
	f := facts{berried: c.Berried, lastClear: c.LastClear}
	if c.eyed != 0 && c.eyed <= v.told {
		f.eyed = c.Eyed
	}
	for i, stay := range c.Stays {
		if i == 0 || c.moves[i] <= v.told {
			f.stays = append(f.stays, stay)
		}
	}
	return f
}

// course returns the temperature of a tank as the view knows it.
func (v view) course(tank string) *water.Course { return v.knownTanks[tank].course(v.water) }

// multiplier returns what the view knows of ln of a tank's incubation against the default.
func (v view) multiplier(tank string) evidence.Normal {
	return v.incubation.on(v.taught).tanks[v.knownTanks[tank].index]
}
