package forecast

import (
	"bytes"
	"context"
	"encoding/gob"
	"reflect"
	"slices"

	"pleopod/journal/digest"
	"pleopod/journal/parallel"
	model "pleopod/journal/population"
)

// part is the tanks that have exchanged shrimp, however far around: what must be simulated together. The facts of a part
// are numbered among themselves, so that an event in another part changes nothing in it.
type part struct {
	tanks   []int // places in the forecast
	records []model.Record
	orders  []int // orders[i] is the number, among the events of the colony, of the facts numbered i+1
	last    model.Day
	key     digest.Sum // of everything that the numbers rest on
}

// parts gathers what the simulation knows of every tank.
func (f *Forecast) parts(version string) (*translator, []part) {
	tr := newTranslator(f)
	records := make([]model.Record, len(f.Tanks))
	parallel.Each(len(records), func(i int) { records[i] = tr.record(&f.Tanks[i]) })
	var all []part
	for _, tanks := range together(records) {
		one := part{tanks: tanks, last: model.Day(f.Colony.AsOf)}
		for _, i := range tanks {
			one.records = append(one.records, records[i])
		}
		one.number()
		all = append(all, one)
	}
	parallel.Each(len(all), func(i int) { all[i].key = digest.Of(version, model.Particles, all[i].last, all[i].records) })
	return tr, all
}

// together returns the places of the records in groups that are tied by moves.
func together(records []model.Record) [][]int {
	group := make([]int, len(records))
	first := map[int]int{} // the record in which a parcel was seen first
	for i := range records {
		group[i] = i
		for _, fact := range records[i].Facts {
			number, moved := parcelOf(fact.What)
			if !moved {
				continue
			}
			other, seen := first[number]
			if !seen {
				first[number] = i
				continue
			}
			from, to := max(group[i], group[other]), min(group[i], group[other])
			replace(group[:i+1], from, to)
		}
	}
	var all [][]int
	for i := range records {
		var tied []int
		for k := range group {
			if group[k] == i {
				tied = append(tied, k)
			}
		}
		if len(tied) > 0 {
			all = append(all, tied)
		}
	}
	return all
}

// replace puts one number for another.
func replace(numbers []int, from, to int) {
	for i, n := range numbers {
		if n == from {
			numbers[i] = to
		}
	}
}

// parcelOf returns the number of the parcel that a fact is about.
func parcelOf(what model.What) (number int, moved bool) {
	switch what := what.(type) {
	case model.MovedOut:
		return what.Parcel, true
	case model.MovedIn:
		return what.Parcel, true
	}
	return 0, false
}

// number counts the facts of the part, and the parcels with them.
func (p *part) number() {
	for i := range p.records {
		for _, fact := range p.records[i].Facts {
			if fact.Order != afterAll {
				p.orders = append(p.orders, fact.Order)
			}
		}
	}
	slices.Sort(p.orders)
	p.orders = slices.Compact(p.orders)
	for i := range p.records {
		for k := range p.records[i].Facts {
			fact := &p.records[i].Facts[k]
			if fact.Order == afterAll {
				continue
			}
			at, _ := slices.BinarySearch(p.orders, fact.Order)
			fact.Order = at + 1
			switch what := fact.What.(type) {
			case model.MovedOut:
				what.Parcel = fact.Order
				fact.What = what
			case model.MovedIn:
				what.Parcel = fact.Order
				fact.What = what
			}
		}
	}
}

// fill puts the simulated numbers into the forecast, with the warnings found on the way.
func (f *Forecast) fill(tr *translator, parts []part, results [][]model.Outlook) {
	outlooks := make([]model.Outlook, len(f.Tanks))
	for i := range parts {
		for k, tank := range parts[i].tanks {
			outlooks[tank] = parts[i].renumbered(results[i][k])
		}
	}
	for i, outlook := range outlooks {
		tank := &f.Tanks[i]
		tank.Population = populationOf(outlook)
		tank.Population.Evidence = tr.evidence(outlook)
		tank.Population.Counts = tr.checks(outlook)
		tr.conclude(tank)
		f.Problems = append(f.Problems, tr.problems(outlook.Doubts)...)
	}
}

// renumbered returns an outlook whose findings and doubts have the numbers of the colony's events.
func (p *part) renumbered(o model.Outlook) model.Outlook {
	o.Findings, o.Doubts = slices.Clone(o.Findings), slices.Clone(o.Doubts)
	for i := range o.Findings {
		o.Findings[i].Order = p.orders[o.Findings[i].Order-1]
	}
	for i := range o.Doubts {
		o.Doubts[i].Order = p.orders[o.Doubts[i].Order-1]
	}
	return o
}

// mark is the state of a part's simulation on the evening of an earlier day.
type mark struct {
	day     model.Day
	records []model.Record // that led there
	filter  *model.Filter
}

// back is how many days before the last one marks are set, to the week: most edits are about the last days.
var back = [...]model.Day{728, 364, 182, 98, 70, 42, 28, 14, 7}

// work returns how many days of one tank's life must be simulated for the results that are missing.
func (p *Predictor) work(d *unfinished) (days int) {
	p.mu.Lock()
	defer p.mu.Unlock()
	for i := range d.parts {
		if d.results[i] != nil {
			continue
		}
		one := &d.parts[i]
		from := one.first()
		if marks := one.holding(p.marks[one.name()]); len(marks) > 0 {
			from = marks[len(marks)-1].day
		}
		days += len(one.records) * int(one.last-from+model.Horizon)
	}
	return days
}

// name is the tank under which the marks of a part are kept.
func (p *part) name() string { return p.records[0].Tank }

// first returns the day from which a part is simulated.
func (p *part) first() model.Day {
	first := p.last
	for i := range p.records {
		if facts := p.records[i].Facts; len(facts) > 0 {
			first = min(first, facts[0].Day)
		}
	}
	return first
}

// holding returns the first marks up to the last that still holds.
func (p *part) holding(marks []mark) []mark {
	for len(marks) > 0 && !p.holds(&marks[len(marks)-1]) {
		marks = marks[:len(marks)-1]
	}
	return marks
}

// simulate fills in the results that are missing, and keeps them on the shelf.
func (p *Predictor) simulate(ctx context.Context, parts []part, results [][]model.Outlook) {
	p.mu.Lock()
	if p.marks == nil {
		p.marks = map[string][]mark{}
	}
	p.mu.Unlock()
	parallel.Each(len(parts), func(i int) {
		if results[i] != nil {
			return
		}
		one, name := &parts[i], parts[i].name()
		p.mu.Lock()
		marks := p.marks[name]
		p.mu.Unlock()
		var days []model.Day
		if p.Repeats {
			days = back[:]
		}
		outlooks, set := one.run(ctx, marks, days)
		p.mu.Lock()
		defer p.mu.Unlock()
		results[i], p.marks[name] = outlooks, set
		if outlooks != nil && p.Shelf != nil {
			p.Shelf.Put(shelfName(one.key), encodeOutlooks(outlooks))
		}
	})
}

// run simulates a part from the latest mark that still holds. It sets marks so many days before the last, and returns them
// for the next time, and no outlooks when ctx ended on the way.
func (p *part) run(ctx context.Context, marks []mark, before []model.Day) ([]model.Outlook, []mark) {
	marks = slices.Clone(p.holding(marks))
	var filter *model.Filter
	reached := model.Day(0)
	if len(marks) == 0 {
		filter = model.New(p.records, model.Particles)
	} else {
		latest := marks[len(marks)-1]
		filter, reached = latest.filter.Clone(), latest.day
		filter.Follow(p.records)
	}
	for _, days := range before {
		day := (p.last - days) / 7 * 7
		if day <= reached {
			continue
		}
		filter.Advance(day)
		if ctx.Err() != nil {
			return nil, marks
		}
		marks = append(marks, mark{day, p.records, filter.Clone()})
	}
	filter.Advance(p.last)
	if ctx.Err() != nil {
		return nil, marks
	}
	return filter.Outlooks(), marks
}

// holds reports whether the records of a part say the same as those of a mark up to its day.
func (p *part) holds(m *mark) bool {
	if m.day >= p.last || len(m.records) != len(p.records) {
		return false
	}
	for i := range p.records {
		if !samePast(&p.records[i], &m.records[i], m.day) {
			return false
		}
	}
	return true
}

// samePast reports whether two records say the same up to and with a day.
func samePast(a, b *model.Record, day model.Day) bool {
	one, other := past(a, day), past(b, day)
	if !slices.Equal(one.Water, other.Water) { // which is long, and quickly compared
		return false
	}
	one.Water, other.Water = nil, nil
	return reflect.DeepEqual(one, other)
}

// past returns what a simulation has read of a record by the evening of a day: its first fact too, from which it begins.
func past(r *model.Record, day model.Day) model.Record {
	known := *r
	known.Open = nil
	known.Water = r.Water[:min(len(r.Water), max(0, int(day-r.From)+1))]
	n := 0
	for n < len(r.Facts) && (n == 0 || r.Facts[n].Day <= day) {
		n++
	}
	known.Facts = r.Facts[:n]
	return known
}

// encodeOutlooks seals numbers.
func encodeOutlooks(outlooks []model.Outlook) []byte {
	var body bytes.Buffer
	if err := gob.NewEncoder(&body).Encode(outlooks); err != nil {
		panic("forecast: " + err.Error()) // an Outlook holds only numbers and texts
	}
	return digest.Seal(body.Bytes())
}

// decodeOutlooks reads what encodeOutlooks wrote about so many tanks, and returns nil for anything else.
func decodeOutlooks(content []byte, tanks int) []model.Outlook {
	var outlooks []model.Outlook
	if gob.NewDecoder(bytes.NewReader(digest.Open(content))).Decode(&outlooks) != nil || len(outlooks) != tanks {
		return nil
	}
	return outlooks
}
